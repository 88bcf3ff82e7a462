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
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.work import WorkMixin

LISTED = {
    "harvests": ("records", "harvests"),
    "weighing": ("records", "harvests"),
    "bought supplies": ("records", "bought supplies"),
    "used supplies": ("records", "used supplies"),
    "costs": ("money", "costs"),
    "sales": ("money", "sales"),
    "fish lot": ("fish", "fish"),
}
"""Where a record is listed: the place, and the kind as its lines call it."""
KEYS = "Enter opens a part or a record   Esc back   q close"
COLUMNS = (Column("what", "", grow=True), Column("value", "", align="right"))


class Why(GoesOutAsFile, ModalScreen[None], WorkMixin):
    """One level of a figure at a time; Enter goes into a part, Esc comes back. Several begin with a list of them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WRITE_OUT,
        Binding("escape,backspace,left", "back", "Back", show=False),
        Binding("q", "dismiss", "Close", show=False),
    ]
    DEFAULT_CSS = """
    Why {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #figure { height: auto; text-style: bold; }
        & #formula { height: auto; color: $text-muted; }
        & #keys { height: auto; color: $text-muted; }
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
            yield Static(KEYS, id="keys", markup=False)

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

    def what_goes_out(self) -> GoesOut | None:
        """The parts and records of the number that is open."""
        listing, figure = self.query_one(Listing), self.figure
        return GoesOut(figure.name if figure else self.title_of_several or "Numbers", lambda: [listing.table()])

    def _show_lines(self, records: tuple[RecordLine, ...]) -> None:
        found = self.figure
        items: list[Line | Heading] = [
            Line(f"part {at}", part_cells(part, self.measures), data=part)
            for at, part in enumerate(found.parts if found else self.several)
        ]
        unit = found.unit if found else ""
        items += [
            Line(f"record {at}", (one.words, shown_value(one.amount, unit, self.measures)), data=one)
            for at, one in enumerate(records)
        ]
        self.query_one(Listing).show(COLUMNS, items, empty=nothing_words(found))

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Go into the part under the cursor, or to the record in its list."""
        message.stop()
        part: Any = message.line.data
        if isinstance(part, Figure):
            self.path.append(part)
            self._show()
        elif part.kind in LISTED:
            self._go_to(*LISTED[part.kind], part.id)
        else:
            words = f"{part.kind} {part.id} has no list of its own: it is put right where it was booked."
            self.query_one("#keys", Static).update(Content(plain(words)))

    def _go_to(self, place: str, kind: str, id: int) -> None:
        from farmops.tui.screens.frame import Frame

        frame = next(one for one in self.app.screen_stack if isinstance(one, Frame))
        frame.call_later(frame.show_record, place, kind, id)

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


def part_cells(part: Figure, measures: Measures) -> tuple[str, str]:
    """A part with a sign that it can be opened, and its value; where there is none, why."""
    deeper = part.parts or (part.records and part.records.count)
    name = part.name if part.value is not None else f"{part.name}: {part.reason}"
    return f"{name} ›" if deeper else name, shown(part, measures) if part.value is not None else "-"
