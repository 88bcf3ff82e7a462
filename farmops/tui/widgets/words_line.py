"""Words side by side, one of them chosen, on as many lines as they need; each can be clicked."""

from __future__ import annotations

from typing import ClassVar

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.tui.widgets.cells import cut


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a word is drawn."""

    index: int
    row: int
    left: int
    text: str


def laid_out(texts: tuple[str, ...], width: int) -> tuple[Spot, ...]:
    """The words in rows no wider than `width`."""
    spots, row, left = [], 0, 0
    for index, full in enumerate(texts):
        text = cut(full, max(1, width))
        if left and left + cell_len(text) > width:
            row, left = row + 1, 0
        spots.append(Spot(index, row, left, text))
        left += cell_len(text)
    return tuple(spots)


class WordsLine(Widget):
    """The words; the chosen one stands in brackets, so that its colour is not alone."""

    COMPONENT_CLASSES = {"words--chosen", "words--other"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    WordsLine {
        height: auto;
        width: 1fr;
        & > .words--chosen { color: $accent; text-style: bold; }
        & > .words--other { color: $text-muted; }
    }
    """
    words: reactive[tuple[str, ...]] = reactive(tuple, layout=True)
    chosen: reactive[int | None] = reactive(None)

    class Picked(Message):
        """A word was clicked."""

        def __init__(self, line: WordsLine, index: int) -> None:
            super().__init__()
            self.line = line
            self.index = index

        @property
        def control(self) -> WordsLine:
            """The line of words."""
            return self.line

    def _texts(self) -> tuple[str, ...]:
        return tuple(
            f"[{plain(word)}]" if i == self.chosen else f" {plain(word)} " for i, word in enumerate(self.words)
        )

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many rows as the words need in that width."""
        return max((spot.row for spot in laid_out(self._texts(), width)), default=-1) + 1

    def render_line(self, y: int) -> Strip:
        """One row of words."""
        spots = [spot for spot in laid_out(self._texts(), self.size.width) if spot.row == y]
        segments = [Segment(spot.text, self._style(spot.index == self.chosen)) for spot in spots]
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style).apply_style(self.rich_style)

    def _style(self, chosen: bool) -> Style:
        return self.get_component_rich_style("words--chosen" if chosen else "words--other")

    def on_click(self, event: events.Click) -> None:
        """Pick the word under the mouse."""
        for spot in laid_out(self._texts(), self.size.width):
            if spot.row == event.y and spot.left <= event.x < spot.left + cell_len(spot.text):
                event.stop()
                self.post_message(self.Picked(self, spot.index))


class Choice(WordsLine, can_focus=True):
    """A few words of which one is picked with Left and Right or by its first letter."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "move(-1)", "The word before", show=False),
        Binding("right,space", "move(1)", "The next word", show=False),
        Binding("enter", "submit", "Next field", show=False),
    ]
    DEFAULT_CSS = """
    Choice {
        &:focus > .words--chosen { background: $accent; color: $background; }
        &:focus > .words--other { color: $foreground; }
    }
    """

    class Changed(Message):
        """Another word was picked."""

    class Submitted(Message):
        """Enter was pressed."""

    def __init__(self, words: tuple[str, ...], value: str) -> None:
        super().__init__()
        self.set_reactive(Choice.words, words)
        self.set_reactive(Choice.chosen, words.index(value) if value in words else 0)

    @property
    def value(self) -> str:
        """The word that is picked."""
        return self.words[self.chosen or 0] if self.words else ""

    @value.setter
    def value(self, word: str) -> None:
        if word in self.words:
            self._pick(self.words.index(word))

    def _pick(self, index: int) -> None:
        if index != self.chosen:
            self.chosen = index
            self.post_message(self.Changed())

    def action_move(self, step: int) -> None:
        """The word beside it, round and round."""
        self._pick(((self.chosen or 0) + step) % len(self.words))

    def action_submit(self) -> None:
        """Go on."""
        self.post_message(self.Submitted())

    def on_key(self, event: events.Key) -> None:
        """A letter picks the next word that begins with it."""
        if not event.character or not event.character.isalnum():
            return
        event.stop()
        here = self.chosen or 0
        order = [(here + step) % len(self.words) for step in range(1, len(self.words) + 1)]
        wanted = event.character.casefold()
        found = next((i for i in order if self.words[i].casefold().startswith(wanted)), None)
        if found is not None:
            self._pick(found)

    def on_words_line_picked(self, message: WordsLine.Picked) -> None:
        """A word was clicked."""
        message.stop()
        self.focus()
        self._pick(message.index)
