"""The row of units along the top: each a card with its state, what is due and what the last weeks brought."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from farmops.model.text import plain
from farmops.tui.widgets.cells import cut, fill, sparkline

if TYPE_CHECKING:
    from farmops.reports.row import Card, Row

CARD = 11
INSIDE = 8
"""Signs inside a card; where all cards have room for more, as many as the longest name asks for."""
TALL = 5
LEGEND = "Bars: weighed in each of six weeks"
"""What the bars on the cards are, beside them where there is room."""


class UnitRow(Widget):
    """Draws the row as cards, or on one line where the terminal is small; `standing` is where the person is."""

    COMPONENT_CLASSES = {"row--card", "row--here", "row--late", "row--quiet"}  # noqa: RUF012 - Textual's own form
    DEFAULT_CSS = """
    UnitRow {
        height: 5;
        background: $surface;
        &.small { height: 1; }
        & > .row--card { color: $foreground; }
        & > .row--here { color: $accent; text-style: bold; }
        & > .row--late { color: $warning; text-style: bold; }
        & > .row--quiet { color: $text-muted; }
    }
    """
    row: reactive[Row | None] = reactive(None)
    standing: reactive[int] = reactive(0)

    class Picked(Message):
        """A card was clicked."""

        def __init__(self, index: int) -> None:
            super().__init__()
            self.index = index

    @property
    def cards(self) -> tuple[Card, ...]:
        """The cards, the whole farm first; none before the farm is read."""
        return self.row.cards if self.row else ()

    @property
    def small(self) -> bool:
        """Whether the row takes one line only."""
        return self.has_class("small")

    def first_shown(self) -> int:
        """The first card that fits when the one stood on must be seen."""
        room = max(1, self.size.width // self._card_width())
        return max(0, min(self.standing - room // 2, len(self.cards) - room))

    def _card_width(self) -> int:
        return CARD + 3 if self.small else CARD - INSIDE + self._inner_width()

    def _inner_width(self) -> int:
        room = self.size.width // max(1, len(self.cards)) - (CARD - INSIDE)
        if room <= INSIDE:
            return INSIDE
        longest = max((cell_len(plain(card.code)) for card in self.cards), default=INSIDE)
        return max(INSIDE, min(room, longest))

    def render_line(self, y: int) -> Strip:
        """One line of all cards that fit."""
        first = self.first_shown()
        room = max(1, self.size.width // self._card_width())
        segments: list[Segment] = []
        for index in range(first, min(first + room, len(self.cards))):
            segments += self._small(index) if self.small else self._tall(index, y)
        base = self.rich_style
        if first + room < len(self.cards) and y == 0:
            segments.append(Segment(">", base))
        if y == TALL - 2 and any(any(card.weeks) for card in self.cards):
            segments += self._legend(self.size.width - sum(segment.cell_length for segment in segments))
        return Strip(segments).adjust_cell_length(self.size.width, base).apply_style(base)

    def _legend(self, room: int) -> list[Segment]:
        words = f" {LEGEND} "
        return [Segment(words, self._style("row--quiet"))] if len(words) <= room else []

    def _tall(self, index: int, y: int) -> list[Segment]:
        card, here = self.cards[index], index == self.standing
        edge = self._style("row--here" if here else "row--quiet")
        number = str(index) if index < 10 else "·"
        if y == 0:
            rest = self._inner_width() - 3
            return [Segment(f"┏ {number} {'━' * rest}┓ " if here else f"┌ {number} {'─' * rest}┐ ", edge)]
        if y == TALL - 1:
            return self._foot(card, here)
        side = "┃" if here else "│"
        words, name = self._inside(card, y, here)
        inside = Segment(fill(words, self._inner_width()), self._style(name))
        return [Segment(side, edge), inside, Segment(f"{side} ", edge)]

    def _foot(self, card: Card, here: bool) -> list[Segment]:
        """The lower edge of a card; the warmth of the water stands in it."""
        left, line, right = ("┗", "━", "┛") if here else ("└", "─", "┘")
        edge = self._style("row--here" if here else "row--quiet")
        words = self._warmth(card)
        if not words:
            return [Segment(f"{left}{line * self._inner_width()}{right} ", edge)]
        room = self._inner_width() - len(words)
        before, after = line * (room // 2), line * (room - room // 2)
        warm = Segment(words, self._style("row--here" if here else "row--card"))
        return [Segment(left + before, edge), warm, Segment(f"{after}{right} ", edge)]

    def _warmth(self, card: Card) -> str:
        """`15.2 C` with a blank around it where there is room, nothing where it was not read lately."""
        if card.water_c is None or self.row is None:
            return ""
        from farmops.quantities import TEMPERATURE

        shown = TEMPERATURE.show(card.water_c, self.row.farm.measures).replace("°", "")
        return f" {shown} " if len(shown) < INSIDE - 1 else shown[:INSIDE]

    def _inside(self, card: Card, y: int, here: bool) -> tuple[str, str]:
        if y == 1:
            return plain(card.code), "row--here" if here else "row--card"
        if y == 2:
            return status(card), "row--late" if card.late else "row--card"
        return sparkline(card.weeks) or state_word(card), "row--quiet"

    def _small(self, index: int) -> list[Segment]:
        card, here = self.cards[index], index == self.standing
        number = str(index) if index < 10 else "·"
        mark = ">" if here else " "
        told = f" {brief(card)}"
        words = cut(f"{mark}{number} {plain(card.code)}", CARD + 2 - len(told)) + told
        name = "row--here" if here else "row--late" if card.late else "row--card"
        return [Segment(fill(words, CARD + 3), self._style(name))]

    def _style(self, name: str) -> Style:
        return self.get_component_rich_style(name)

    def on_click(self, event: events.Click) -> None:
        """Walk to the card under the mouse."""
        index = self.first_shown() + event.x // self._card_width()
        if index < len(self.cards):
            self.post_message(self.Picked(index))


def status(card: Card) -> str:
    """What is due, in a word or two of at most eight signs."""
    if card.due:
        return f"{card.due}, late" if card.late else f"{card.due} due"
    if card.unit is not None and card.state is None:
        return "to come"
    return "none due"


def brief(card: Card) -> str:
    """What is due, for the row on one line."""
    if not card.due:
        return "-"
    return f"{card.due}!" if card.late else str(card.due)


def state_word(card: Card) -> str:
    """The state of a unit where there is no harvest to draw."""
    return card.state.state.value if card.state else ""
