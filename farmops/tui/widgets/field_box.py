"""One field on the screen: its label, where it is typed, what was understood, and what is wrong, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, ClassVar

from rich.cells import cell_len
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from farmops.model.errors import FarmopsError, Unlikely
from farmops.model.text import LONGEST_NAME, plain
from farmops.tui.widgets.completing import NAMED_AT_MOST, folded, matches, resolved, told_at_once
from farmops.tui.widgets.fields import Field, Kind, Setting, echo_of, heed_of, hint_of, understood
from farmops.tui.widgets.text_line import input_of
from farmops.tui.widgets.words_line import Choice, WordsLine

NARROW = 72
LONG_NAME = 20
EDGES = 5
"""Columns that stay free beside a text and its echo."""
LABEL, WIDEST_LABEL = 15, 25
"""Columns for the label of a field, and how many they may become where a label is longer."""


class FieldBox(Vertical):
    """A field that answers while it is typed in.

    Enter posts `Entered` once the text is understood; until then the cursor stays, and the field says why.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "down(1)", "The field below, or the next name", show=False),
        Binding("up", "down(-1)", "The field above, or the name before", show=False),
    ]
    DEFAULT_CSS = """
    FieldBox {
        height: auto;
        & .label { width: 15; height: 1; color: $text-muted; text-overflow: ellipsis; text-wrap: nowrap; }
        &.here .label { color: $accent; text-style: bold; }
        & > Horizontal { height: auto; }
        & Input {
            width: 2fr; max-width: 46; height: 1; border: none; padding: 0 1; background: $surface;
            &:focus { border: none; }
        }
        & .beside {
            width: 3fr; height: 1; padding: 0 0 0 2; color: $text-muted; text-wrap: nowrap; text-overflow: ellipsis;
            &.understood { color: $success; }
        }
        & .under {
            height: auto; margin-left: 15; padding: 0 1; color: $text-muted; display: none;
            &.shown { display: block; }
            &.understood { color: $success; }
            &.heeded { color: $warning; text-style: bold; }
            &.refused { color: $error; text-style: bold; }
        }
        & > .found { margin-left: 15; display: none; }
        & > .found.shown { display: block; }
        &.narrow .beside, &.roomy .beside { display: none; }
        &.roomy Input, &.broad Input { width: 1fr; max-width: 100%; }
        &.broad .beside { width: auto; }
    }
    """

    class Entered(Message):
        """Enter was pressed in a field that is understood."""

        def __init__(self, box: FieldBox) -> None:
            super().__init__()
            self.box = box

    class Edited(Message):
        """The text of a field was changed."""

        def __init__(self, box: FieldBox) -> None:
            super().__init__()
            self.box = box

    class Walked(Message):
        """Up or down from a field to its neighbour."""

        def __init__(self, box: FieldBox, step: int) -> None:
            super().__init__()
            self.box = box
            self.step = step

    def __init__(self, field: Field, setting: Setting, *, text: str | None = None, labels: int = LABEL) -> None:
        super().__init__(id=f"field-{field.name.replace('_', '-')}", classes=_room_of(field))
        self.field = field
        self.setting = setting
        self.labels = labels
        self.error = ""
        self.found: tuple[str, ...] = ()
        self.given = field.value
        first = field.value if text is None else text
        self.input: Input | Choice = Choice(field.words, first) if field.kind.picked else input_of(field, first)
        setting.typed[field.name] = self.text

    def compose(self) -> ComposeResult:
        """Label, input, what stands beside and below it."""
        with Horizontal():
            yield Static(Content(plain(self.field.label)), classes="label")
            yield self.input
            if not self.field.kind.picked:
                yield Static("", classes="beside", markup=False)
        yield WordsLine(classes="found")
        yield Static("", classes="under", markup=False)

    def on_mount(self) -> None:
        """Make room for a long label, and say what the first text means."""
        if self.labels > LABEL:
            self.query_one(".label").styles.width = self.labels
            for below in (self.query_one(".found"), self.query_one(".under")):
                below.styles.margin = (0, 0, 0, self.labels)
        self.show()

    def on_resize(self, event: events.Resize) -> None:
        """Where it is narrow, what stands beside the input stands below it; a field that grew stays in sight."""
        self.set_class(event.size.width < NARROW, "narrow")
        self.call_after_refresh(self.show)
        if self.has_focus_within:
            self.call_after_refresh(self.scroll_visible, animate=False)

    @property
    def text(self) -> str:
        """The text as it was typed, or the word that is picked."""
        return self.input.value

    @text.setter
    def text(self, text: str) -> None:
        self.input.value = text

    @property
    def value(self) -> Any:
        """What the text means; None for nothing. Raises a FarmopsError in words."""
        return understood(self.field, self.text, self.setting)

    def begin(self) -> None:
        """The field as a form opens with it."""
        self.text = self.given = self.field.value
        self.refuse("")

    def follow(self) -> None:
        """A field that this one follows was changed: guess again, unless a person typed here, and answer again."""
        if self.field.guess is not None and self.text == self.given:
            self.text = self.given = self.field.guess(self.setting.typed)
        self.show()

    def focus_input(self) -> None:
        """Put the cursor into the field, at once: the next key is meant for it."""
        self.screen.set_focus(self.input)

    def select(self) -> None:
        """Put the cursor into the field; the next key begins another text."""
        self.focus_input()
        if isinstance(self.input, Input):
            self.input.select_all()

    def check(self, *, leaving: bool = False) -> bool:
        """Whether the text is understood; if not, the field says why. Who only leaves it is asked again by Enter."""
        self._edited()
        try:
            self._complete()
            _ = self.value
        except Unlikely as error:
            if not leaving:
                self.setting.sure[self.field.name] = self.text
            self.refuse(f"{error} Enter again keeps it.")
            return False
        except FarmopsError as error:
            self.refuse(str(error))
            return False
        self.refuse("")
        return True

    def refuse(self, words: str) -> None:
        """Show in words what is wrong with the field; no words, nothing wrong."""
        self.error = words
        if isinstance(self.input, Input):
            self.input.select_on_focus = not words
        self.show()
        if words and self.is_attached:
            self.call_after_refresh(self.scroll_visible, animate=False)

    def show(self) -> None:
        """Bring what stands beside and below the input up to date."""
        if not self.is_mounted:
            return
        echo = echo_of(self.field, self.text, self.setting)
        words = echo or plain(hint_of(self.field, self.setting))
        fits = self._show_beside(words, understood=bool(echo))
        self._show_found(self._to_choose_from())
        below = words if not fits and (echo or self.has_focus_within) else ""
        heed = heed_of(self.field, self.text, self.setting)
        lines = [below or self._cut_off(), f"! {plain(heed)}" if heed else ""]
        told = f"! {plain(self.error)}" if self.error else "\n".join(line for line in lines if line)
        self._show_below(told, understood=bool(echo), heeded=bool(heed))

    def _cut_off(self) -> str:
        """The whole text, such as a path, where the line it is typed in cannot show all of it."""
        width = self.input.content_size.width
        return plain(self.text) if isinstance(self.input, Input) and 0 < width <= cell_len(self.text) else ""

    def _show_beside(self, words: str, *, understood: bool) -> bool:
        """Whether there is room for the words beside the input."""
        if self.field.kind.picked:
            return not words
        beside = self.query_one(".beside", Static)
        left = self.size.width - self.labels - cell_len(self.text) - EDGES
        room = left if self.has_class("broad") else beside.content_size.width
        fits = not self.has_class("narrow") and not self.has_class("roomy") and cell_len(words) <= room
        beside.update(Content(words if fits else ""))
        beside.set_class(understood, "understood")
        return fits or not words

    def _show_below(self, words: str, *, understood: bool, heeded: bool) -> None:
        under = self.query_one(".under", Static)
        under.update(Content(words))
        under.set_class(bool(words), "shown")
        under.set_class(bool(self.error), "refused")
        under.set_class(understood and not self.error, "understood")
        under.set_class(heeded and not self.error, "heeded")

    def _to_choose_from(self) -> tuple[str, ...]:
        """The names to choose from, while the field is typed in and not plain already."""
        if self.field.kind is not Kind.NAME or not self.has_focus_within:
            return ()
        if not self.text.strip():
            return told_at_once(self.field.options)
        found = matches(self.field.options, self.text)
        plain_already = len(found) == 1 or any(folded(one) == folded(self.text) for one in self.field.options)
        return () if plain_already else found[:NAMED_AT_MOST]

    def _show_found(self, found: tuple[str, ...]) -> None:
        line = self.query_one(".found", WordsLine)
        self.found = found
        numbered = self.field.numbered
        words = tuple(f"{n} {one}" if numbered else one for n, one in enumerate(found, start=1))
        if words != line.words:
            line.words, line.chosen = words, 0 if words and self.field.nearest and self.text.strip() else None
        line.set_class(bool(words), "shown")

    def _complete(self) -> None:
        """A name that was begun is written out."""
        if self.field.kind is Kind.NAME:
            whole = self._marked() or (resolved(self.field, self.text) if self.text.strip() else "")
            if whole != self.text:
                self.text = whole

    def _marked(self) -> str | None:
        """The name marked in the list below the field."""
        chosen = self.query_one(".found", WordsLine).chosen
        return self.found[chosen] if chosen is not None and chosen < len(self.found) else None

    def action_down(self, step: int) -> None:
        """The next name of the list, or the next field."""
        line = self.query_one(".found", WordsLine)
        wanted = bool(self.text.strip()) or self.field.required
        if self.found and wanted and (step > 0 or line.chosen is not None):
            line.chosen = _stepped(line.chosen, step, len(self.found))
        else:
            self.post_message(self.Walked(self, step))

    def on_input_changed(self, message: Input.Changed) -> None:
        """Answer to what is typed; what was wrong is not held against it any longer."""
        message.stop()
        self._edited()

    def on_choice_changed(self, message: Choice.Changed) -> None:
        """Another word was picked."""
        message.stop()
        self._edited()

    def _edited(self) -> None:
        if self.setting.typed.get(self.field.name) == self.text:
            return
        self.setting.typed[self.field.name] = self.text
        self.error = ""
        self.show()
        self.post_message(self.Edited(self))

    def on_input_submitted(self, message: Input.Submitted) -> None:
        """Enter: on to the next field, unless this one is not understood."""
        message.stop()
        self._enter(self._tell_entered)

    def on_choice_submitted(self, message: Choice.Submitted) -> None:
        """Enter on words side by side."""
        message.stop()
        self._enter(self._tell_entered)

    def enter(self, then: Callable[[FieldBox], None]) -> None:
        """Enter, once the keys that are on their way here have come: go on with `then` if the text is understood."""
        self.input.call_later(self._enter, then)

    def _enter(self, then: Callable[[FieldBox], None]) -> None:
        if self.check():
            then(self)
        else:
            self.focus_input()

    def _tell_entered(self, box: FieldBox) -> None:
        self.post_message(self.Entered(box))

    def on_descendant_focus(self) -> None:
        """The label stands out; the list of names, or the hint, appears."""
        self.add_class("here")
        self.call_after_refresh(self._show_whole)

    def _show_whole(self) -> None:
        self.show()
        self.call_after_refresh(self.scroll_visible, animate=False)

    def on_descendant_blur(self) -> None:
        """Leaving the field: say what is wrong with it. A field left empty is told when it is booked."""
        self.remove_class("here")
        being_asked = self.error and self.setting.is_sure(self.field.name, self.text)
        if self.text.strip() and not being_asked:
            self.check(leaving=True)
        else:
            self.show()

    def on_words_line_picked(self, message: WordsLine.Picked) -> None:
        """A name of the list was clicked."""
        message.stop()
        if message.index < len(self.found):
            self.text = self.found[message.index]
            self.focus_input()

    def on_click(self) -> None:
        """A click anywhere in the field puts the cursor there."""
        if not self.has_focus_within:
            self.focus_input()


def room_for_labels(fields: Iterable[Field]) -> int:
    """Columns that hold the longest label of fields that stand below each other, and a blank."""
    return min(WIDEST_LABEL, max([LABEL, *(cell_len(plain(field.label)) + 1 for field in fields)]))


def _room_of(field: Field) -> str:
    """All of the line for notes and long names; what the echo leaves of it for words that may be many."""
    if field.kind is Kind.NAME:
        return "roomy" if any(cell_len(one) > LONG_NAME for one in field.options) else ""
    if field.kind is not Kind.TEXT or field.hint:
        return ""
    if field.told is None:
        return "roomy"
    return "broad" if field.longest > LONGEST_NAME else ""


def _stepped(chosen: int | None, step: int, many: int) -> int | None:
    """The place after or before one in a list; before the first is none."""
    place = (-1 if chosen is None else chosen) + step
    return None if place < 0 else min(place, many - 1)
