"""Forms: fields one below the other, booked in a worker; what was typed is never lost."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from functools import partial
from typing import Any, ClassVar

from textual import events
from textual.actions import SkipAction
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Button, Static

from farmops.model.errors import FarmopsError, Refused, StoreUnavailable, Unlikely
from farmops.model.ids import checked_id, new_id
from farmops.model.text import plain
from farmops.model.values import KEEP
from farmops.reports.store import Store
from farmops.tui.widgets.field_box import LABEL, NARROW, FieldBox, room_for_labels
from farmops.tui.widgets.fields import Field, Kind, Setting, hint_of, same_text
from farmops.tui.widgets.form_spec import FormSpec, Hand
from farmops.tui.work import Broken, WorkMixin

__all__ = ["Field", "FieldBox", "FormScreen", "FormSpec", "Hand", "Kind", "Setting"]

OPERATION = ""
"""Where a draft keeps the id of a booking that may have come through although the store did not answer."""
LEAST_FIELDS = 3
LONG_VERB = 8
"""Signs of a verb from which the keys beside the buttons do without some of their words."""
SAVING = "Saving …"
STILL_SAVING = "Still saving …"
WAITS = f"{SAVING} Another program is writing; this waits for its turn."
PATIENCE_SECONDS = 2
ASKED = "Not booked yet: look at what is marked. F2 books it all the same."
NOTHING_CHANGED = "Nothing changed."
HOW_TO_LEAVE = "Esc leaves, and what you typed is kept. q in a place ends."
KEYS_OF_FORMS = (
    "Enter      the next field; from the last one, book",
    "F2         book at once",
    "Up, Down   another field, or a name of the list",
    "Esc        leave; what you typed is kept",
    "Ctrl+C     copy what is marked",
)
LONG, BAR_WIDTH = 1000, 20
"""From how many rows on a form tells how far it has come, and how wide that is drawn."""


class FormScreen(ModalScreen[str | None], WorkMixin):
    """Shows a form. Its result is what to say when something was booked, or None."""

    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Leave; what was typed is kept", show=False),
        Binding("f2", "book", "Book at once", show=False),
        Binding("f1", "help", "Help with the field", show=False),
        Binding("ctrl+c", "stay", "Copy what is marked, and say how to leave", show=False),
        Binding("enter", "enter", "The next field; from the last one, book", show=False, priority=True),
    ]
    DEFAULT_CSS = """
    FormScreen {
        align: center bottom;
        background: $background 0%;
        & > #sheet { height: auto; max-height: 100%; padding: 0 1; background: $panel; border-top: solid $accent; }
        & #title { height: auto; text-style: bold; }
        & #about { height: auto; color: $text-muted; }
        & #top { height: auto; color: $success; }
        & #top.refused { color: $error; text-style: bold; }
        & .empty { display: none; }
        & #fields { height: auto; max-height: 12; scrollbar-size-vertical: 1; }
        & #buttons { height: 1; margin-top: 1; }
        & #buttons Button { min-width: 9; padding: 0 1; margin-right: 2; }
        & #keys {
            width: 1fr; height: 1; color: $text-muted; text-align: right; text-wrap: nowrap; text-overflow: ellipsis;
        }
        &.narrow #keys { display: none; }
        &.wide .label { width: 38%; }
        &.wide Input { width: 3fr; max-width: 100%; }
        &.wide .beside { width: 2fr; }
        &.wide .under { margin-left: 4; }
    }
    """

    class Came(Message):
        """Long work has gone through so many of so many."""

        def __init__(self, done: int, total: int) -> None:
            super().__init__()
            self.done = done
            self.total = total

    def __init__(self, spec: FormSpec) -> None:
        super().__init__(classes="wide" if spec.wide else None)
        self.spec = spec
        self.setting = Setting(spec.setting.measures, spec.setting.today)
        self.operation = new_id()
        self.saving = False
        self.said: str | None = None
        self.stoppable = False
        self.stopping = False
        self.foreseen = 0
        self.booked: dict[str, str] = {}
        self.asked: dict[str, str] | None = None
        self.begun_with = {field.name: field.value for field in spec.fields}

    def compose(self) -> ComposeResult:
        """Title, fields, buttons; a draft of this form fills the fields in."""
        draft = self.drafts.get(self.spec.title, {})
        labels = LABEL if self.spec.wide else room_for_labels(self.spec.fields)
        with Vertical(id="sheet"):
            yield Static(Content(plain(self.spec.title)), id="title")
            yield Static(Content(plain(self.spec.about)), id="about", classes="" if self.spec.about else "empty")
            yield Static("", id="top", classes="empty")
            with VerticalScroll(id="fields", can_focus=False):
                for field in self.spec.fields:
                    yield FieldBox(field, self.setting, text=draft.get(field.name), labels=labels)
            with Horizontal(id="buttons"):
                yield Button(Content(self.spec.verb), id="book", variant="primary", compact=True)
                yield Button("Leave", id="leave", compact=True)
                yield Button("Start over", id="over", compact=True, classes="" if draft else "empty")
                yield Static(Content(self._keys()), id="keys")

    def on_mount(self) -> None:
        """The cursor goes to the first field that wants something; a draft is told of."""
        draft = self.drafts.get(self.spec.title)
        if draft:
            self.operation = checked_id(draft.get(OPERATION) or self.operation)
            self._say("Filled in with what you typed before you left.")
        self._first().focus_input()
        self._look_ahead()

    def on_resize(self, event: events.Resize) -> None:
        """The fields scroll where the terminal is too low for all."""
        self.set_class(event.size.width < NARROW, "narrow")
        self.call_after_refresh(self._fit)

    def _fit(self) -> None:
        """Leave to the fields what the rest of the sheet does not need, so that the buttons always show."""
        fields = self.query_one("#fields")
        rest = [widget for widget in self.query("#sheet > *") if widget is not fields and widget.display]
        taken = sum(widget.outer_size.height + widget.styles.margin.height for widget in rest)
        fields.styles.max_height = max(LEAST_FIELDS, self.size.height - taken - 1)

    def _keys(self) -> str:
        verb = self.spec.verb.lower()
        if len(self.spec.fields) == 1:
            return f"Enter {verb} · Esc leave"
        crowded = len(verb) > LONG_VERB or self.spec.title in self.drafts
        at_once = "" if crowded else " at once"
        return f"Enter next field · F2 {verb}{at_once} · Esc leave"

    @property
    def drafts(self) -> dict[str, dict[str, str]]:
        """What was typed in forms and not booked, by their titles."""
        drafts: dict[str, dict[str, str]] = self.app.drafts  # type: ignore[attr-defined]
        return drafts

    @property
    def boxes(self) -> list[FieldBox]:
        """The fields on the screen, first to last."""
        return list(self.query(FieldBox))

    def box(self, name: str) -> FieldBox:
        """The field of that name."""
        return next(box for box in self.boxes if box.field.name == name)

    def _first(self) -> FieldBox:
        wanting = (box for box in self.boxes if box.field.required and not box.text.strip())
        named = (box for box in self.boxes if box.field.name == self.spec.start)
        return next(wanting, None) or next(named, None) or self.boxes[0]

    def _first_of_the_next(self) -> FieldBox:
        """Where the next record begins: the first field that wants another text."""
        return next((box for box in self.boxes if box.field.required and not box.field.keep), self.boxes[0])

    def on_field_box_edited(self, message: FieldBox.Edited) -> None:
        """Keep the draft, and let the fields that follow this one answer again."""
        message.stop()
        self._keep_draft()
        if self.asked is not None:
            self.asked = None
            self._say("")
        for box in self.boxes:
            if message.box.field.name in box.field.follows:
                box.follow()
        self._look_ahead()

    def _look_ahead(self) -> None:
        """Say what would come of booking what stands in the fields, as soon as all of it is understood."""
        preview = self.spec.preview
        if preview is None:
            return
        self.foreseen += 1
        hand = Hand(self.app.by, watch=partial(self._watch_ahead, self.foreseen))  # type: ignore[attr-defined]
        try:
            values = self._values()
        except FarmopsError:
            values = {}
        if all(value is KEEP for value in values.values()):
            self._tell(self.spec.about)
        else:
            self.work(
                lambda store: preview(store, values, hand),
                self._tell,
                otherwise=lambda error: self._tell(str(error)),
            )

    def _tell(self, words: str) -> None:
        about = self.query_one("#about", Static)
        about.update(Content("\n".join(plain(line) for line in words.splitlines())))
        about.set_class(not words, "empty")
        self.call_after_refresh(self._fit)

    def _keep_draft(self, operation: str = "") -> None:
        typed = {name: text for name, text in self._texts().items() if not same_text(text, self.begun_with[name])}
        kept = operation or self.drafts.get(self.spec.title, {}).get(OPERATION, "")
        if typed:
            self.drafts[self.spec.title] = {**typed, **({OPERATION: kept} if kept else {})}
        else:
            self.drafts.pop(self.spec.title, None)

    def action_enter(self) -> None:
        """Go on at once, so that what is typed ahead goes where it is meant; the field left answers in its turn."""
        box = next((box for box in self.boxes if box.has_focus_within), None)
        if box is None:
            raise SkipAction
        if box.error and self.asked is not None:
            box.input.call_later(self._answer, box)
        else:
            self._go_on(box)

    def _answer(self, box: FieldBox) -> None:
        """Enter where a question stands books all the same, unless something else was typed there."""
        if box.error and self.asked == self._texts():
            self.action_book()
        else:
            self._go_on(box)

    def _go_on(self, box: FieldBox) -> None:
        box.enter(lambda box: self.on_field_box_entered(FieldBox.Entered(box)))
        following = self.following(box)
        if following is not None:
            following.focus_input()

    def following(self, box: FieldBox) -> FieldBox | None:
        """The field that Enter leads to; None where Enter books."""
        return None if box is self.boxes[-1] else self._after(box)

    def on_field_box_entered(self, message: FieldBox.Entered) -> None:
        """Enter in a field that is understood."""
        message.stop()
        if self.following(message.box) is None:
            self.action_book()

    def _after(self, box: FieldBox, step: int = 1) -> FieldBox:
        boxes = self.boxes
        return boxes[(boxes.index(box) + step) % len(boxes)]

    def on_field_box_walked(self, message: FieldBox.Walked) -> None:
        """Up and down between the fields."""
        message.stop()
        self._after(message.box, message.step).focus_input()

    def on_button_pressed(self, message: Button.Pressed) -> None:
        """The buttons."""
        message.stop()
        {"book": self.action_book, "leave": self.action_leave, "over": self.start_over}[str(message.button.id)]()

    def action_book(self) -> None:
        """Book what the fields hold, unless one of them is not understood."""
        if self.saving:
            return
        wrong = [box for box in self.boxes if not box.check()]
        if wrong:
            self._say("Not booked yet: the marked fields want another look.", refused=True)
            wrong[0].focus_input()
            return
        values = self._values()
        if self.spec.edits and all(value is KEEP for value in values.values()):
            self.dismiss(NOTHING_CHANGED)
            return
        self.saving = True
        self.query_one("#book", Button).disabled = True
        self._say(SAVING)
        self.set_timer(PATIENCE_SECONDS, self._still_saving)
        self.booked = self._texts()
        hand = Hand(self.app.by, sure=self.asked == self.booked, watch=self._watch)  # type: ignore[attr-defined]
        work = partial(self._save, values=values, hand=hand, operation=self.operation)
        self.work(work, self._saved, group="write", otherwise=self._refused)
        if self.spec.again:
            self._first_of_the_next().select()

    def _watch(self, done: int, total: int) -> None:
        """How far the booking has come; called from its thread. Raises Refused where it was stopped."""
        if self.stopping:
            raise Refused("Stopped. Nothing of it was booked; what you typed is kept.")
        self.post_message(self.Came(done, total))

    def _watch_ahead(self, foreseen: int, done: int, total: int) -> None:
        """The same of what is only foreseen: it stops once the form is left, books, or holds something else."""
        if foreseen != self.foreseen or self.saving or not self.is_attached:
            raise Refused("Nothing was looked at to its end.")
        self.post_message(self.Came(done, total))

    def on_form_screen_came(self, message: FormScreen.Came) -> None:
        """Show how far it has come, where that takes a while."""
        message.stop()
        if message.total < LONG:
            return
        words = f"{progress_words(message.done, message.total)} gone through."
        if not self.saving:
            self._tell(words)
        elif not self.stopping:
            self.stoppable = True
            self._say(f"{words} Esc stops it.")

    def _still_saving(self) -> None:
        if self.saving and not self.stoppable:
            store: Store = self.app.store  # type: ignore[attr-defined]
            self._say(WAITS if store.waits else STILL_SAVING)

    def _save(self, store: Store, *, values: dict[str, Any], hand: Hand, operation: str) -> str:
        return self.spec.save(store, values, hand, operation)

    def _texts(self) -> dict[str, str]:
        return {box.field.name: box.text for box in self.boxes}

    def _values(self) -> dict[str, Any]:
        return {
            box.field.name: KEEP if self.spec.edits and same_text(box.text, box.field.value) else box.value
            for box in self.boxes
        }

    def _saved(self, words: str) -> None:
        self._rest()
        self.said = words
        self.operation = new_id()
        self.drafts.pop(self.spec.title, None)
        if not self.spec.again:
            self.dismiss(words)
            return
        self._empty(lambda field: not field.keep and self.box(field.name).text == self.booked[field.name])
        self._say(f"{words} The next one, or Esc.")

    def _empty(self, which: Callable[[Field], bool]) -> None:
        """Those fields as the form opened with them; what was kept is no draft."""
        for box in self.boxes:
            if which(box.field):
                box.begin()
        self.begun_with = {box.field.name: box.text if box.field.keep else box.field.value for box in self.boxes}
        self._keep_draft()

    def _rest(self) -> None:
        self.saving = self.stoppable = self.stopping = False
        self.query_one("#book", Button).disabled = False

    def _refused(self, error: FarmopsError) -> None:
        self._rest()
        box = self._blamed(str(error))
        if isinstance(error, Unlikely):
            self._ask(box or self._first_typed_in(), str(error))
        elif isinstance(error, StoreUnavailable):
            self._keep_draft(self.operation)
            self._say(f"{error} What you typed is kept: Enter tries again.", refused=True)
            self.query_one("#book", Button).focus()
        elif box is not None:
            self._say("Not booked.", refused=True)
            box.refuse(str(error))
            box.focus_input()
        else:
            self._say(str(error), refused=True)

    def _ask(self, box: FieldBox, question: str) -> None:
        """Ask at the field, its text marked: the next key begins another, Enter books it as it is."""
        self.asked = self.booked
        self.setting.sure[box.field.name] = box.text
        self._say(ASKED, refused=True)
        box.refuse(f"{question} Enter books it all the same.")
        box.select()

    def _first_typed_in(self) -> FieldBox:
        return next((box for box in self.boxes if not box.field.kind.picked), self.boxes[0])

    def _blamed(self, words: str) -> FieldBox | None:
        """The field that the words of a refusal point at."""
        return next((box for box in self.boxes if any(part in words for part in box.field.blamed)), None)

    def on_broken(self, message: Broken) -> None:
        """A fault of the program: said and reported in a file; what was typed stays."""
        from farmops.reports.faults import report_of

        message.stop()
        self._rest()
        self._say(report_of(message.error), refused=True)

    def start_over(self) -> None:
        """Drop the draft: the form as it opens afresh."""
        self.operation = new_id()
        self._empty(lambda field: True)
        self._first().focus_input()
        self.query_one("#over").add_class("empty")
        self._say("")

    def action_help(self) -> None:
        """What the field takes, and the keys of a form."""
        from farmops.tui.widgets.explained import Explained

        box = next((box for box in self.boxes if box.has_focus_within), self.boxes[0])
        self.app.push_screen(Explained(self.spec.title, [*about_field(box.field, self.setting), "", *KEYS_OF_FORMS]))

    def action_stay(self) -> None:
        """Copy what is marked on the sheet; a form is not left by this, and nothing typed is lost."""
        with suppress(SkipAction):
            self.action_copy_text()
        self._say(HOW_TO_LEAVE)

    def action_leave(self) -> None:
        """Close; the draft stays. What is being booked comes first: where it tells how far it has come, it stops."""
        if not self.saving:
            self.foreseen += 1
            self.dismiss(self.said)
        elif self.stoppable:
            self.stopping = True
            self._say("Stopping …")

    def _say(self, words: str, *, refused: bool = False) -> None:
        top = self.query_one("#top", Static)
        top.update(Content(f"! {plain(words)}" if refused else plain(words)))
        top.set_class(refused, "refused")
        top.set_class(not words, "empty")
        self.call_after_refresh(self._fit)


def about_field(field: Field, setting: Setting) -> Iterator[str]:
    """What a field takes: its hint, and all that it understands where that is a list."""
    hint = hint_of(field, setting)
    yield f"{field.label}: {hint}" if hint else field.label
    if field.lists is not None:
        yield from (f"  {one}" for one in field.lists())
    elif field.strict or field.kind.picked:
        yield f"  {', '.join(field.options)}"


def progress_words(done: int, total: int) -> str:
    """`[#####...............] 2,500 of 10,000`."""
    full = BAR_WIDTH * done // total
    return f"[{'#' * full}{'.' * (BAR_WIDTH - full)}] {done:,} of {total:,}"
