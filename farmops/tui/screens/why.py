"""Why: a number opened into what it came from, down to the records."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.figures import Figure, Made, RecordLine
from farmops.model.text import plain
from farmops.quantities import Measures
from farmops.reports.shown import shown, shown_value
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.work import WorkMixin

COLUMNS = (Column("what", "", grow=True), Column("value", "", align="right"))


class Why(ModalScreen[None], WorkMixin):
    """One level of a figure at a time; Enter goes into a part, Esc comes back. Several begin with a list of them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,backspace,left", "back", "Back", show=False),
        Binding("q", "dismiss", "Close", show=False),
    ]
    DEFAULT_CSS = """
    Why {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #figure { height: auto; text-style: bold; }
        & #formula { height: auto; color: $text-muted; }
        & #keys { height: 1; color: $text-muted; }
    }
    """

    def __init__(self, figure: Figure | Sequence[Figure], measures: Measures, title: str = "") -> None:
        super().__init__()
        self.several = () if isinstance(figure, Figure) else tuple(figure)
        self.path = [figure] if isinstance(figure, Figure) else []
        self.measures = measures
        self.title_of_several = title

    def compose(self) -> ComposeResult:
        """The figure, how it was made, its parts, the keys."""
        with Vertical():
            yield Static(id="figure", markup=False)
            yield Static(id="formula", markup=False)
            yield Listing()
            yield Static("Enter opens a part   Esc back   q close", id="keys", markup=False)

    def on_mount(self) -> None:
        """Show the number that was asked for."""
        self._show()
        self.query_one(Listing).focus()

    @property
    def figure(self) -> Figure | None:
        """The figure that is open; None on the list of several."""
        return self.path[-1] if self.path else None

    def _show(self) -> None:
        found = self.figure
        head = f"{found.name}: {shown(found, self.measures)}" if found else self.title_of_several
        self.query_one("#figure", Static).update(Content(plain(head)))
        words = formula_words(found) if found else ()
        self.query_one("#formula", Static).update(Content("\n".join(plain(one) for one in words)))
        self._show_lines(())
        records = found.records if found else None
        if records is not None and records.count:
            self.work(lambda _store: tuple(records.lines()), self._show_lines)

    def _show_lines(self, records: tuple[RecordLine, ...]) -> None:
        found = self.figure
        items: list[Line | Heading] = [
            Line(f"part {at}", (part_words(part), shown(part, self.measures)), data=part)
            for at, part in enumerate(found.parts if found else self.several)
        ]
        unit = found.unit if found else ""
        items += [
            Line(f"record {at}", (one.words, shown_value(one.amount, unit, self.measures)), data=one)
            for at, one in enumerate(records)
        ]
        self.query_one(Listing).show(COLUMNS, items, empty=nothing_words(found))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Go into the part under the cursor."""
        part: Any = message.line.data
        if isinstance(part, Figure) and (part.parts or part.records or part.formula):
            self.path.append(part)
            self._show()

    def action_back(self) -> None:
        """Up one level, or close."""
        if len(self.path) > (0 if self.several else 1):
            self.path.pop()
            self._show()
        else:
            self.dismiss()


def formula_words(figure: Figure) -> Iterator[str]:
    """How the figure was made, what to know beside it, and its source."""
    if figure.value is not None:
        yield f"= {figure.formula}" if figure.made is not Made.GIVEN else figure.formula
    if figure.note:
        yield figure.note
    if figure.source:
        yield f"Source: {figure.source}"


def nothing_words(figure: Figure | None) -> str:
    """Why there is nothing below a figure."""
    if figure is not None and figure.made is Made.RECORDS:
        return "No records yet."
    return "This number stands for itself."


def part_words(part: Figure) -> str:
    """A part with a sign that it can be opened."""
    deeper = part.parts or (part.records and part.records.count)
    return f"{part.name} ›" if deeper else part.name
