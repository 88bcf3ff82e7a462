"""The life of a fish lot: its numbers on the day, growth with what is ahead drawn as bars, and all that was booked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from farmops.figures import Figure
from farmops.model.fish import FishLot
from farmops.model.text import plain
from farmops.quantities import MASS, Measures
from farmops.reports.fish import LotOnDay, lot_on_day
from farmops.reports.fish_book import KIND_OF, Booked, book, words_of
from farmops.reports.growth import Ahead, Weighed
from farmops.reports.shown import shown
from farmops.reports.store import Store
from farmops.tui.screens.goes_out import WRITE_OUT, GoesOutAsFile
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Cell, Column, Heading, Line
from farmops.tui.widgets.listing_tables import GoesOut
from farmops.tui.widgets.sparks import Bar
from farmops.tui.work import Failed, WorkMixin

COLUMNS = (
    Column("what", "", grow=True),
    Column("value", "", align="right"),
    Column("drawn", "", width=22, priority=1),
)
KEYS = "Enter opens a number or corrects an entry   x removes   Y file   Esc back"
TWO_SD = 2
MG_PER_KG = 1_000_000
EVERY = 2
"""Of the weeks ahead, every second is drawn."""


class LotLife(GoesOutAsFile, ModalScreen[str | None], WorkMixin):
    """One lot; its result is what was changed last, in words."""

    BINDINGS: ClassVar[list[BindingType]] = [
        WRITE_OUT,
        Binding("escape,backspace,q", "back", "Back", show=False),
        Binding("w", "open", "Open the number", show=False),
        Binding("e", "open", "Correct the entry", show=False),
        Binding("x,delete", "remove", "Remove the entry", show=False),
    ]
    DEFAULT_CSS = """
    LotLife {
        align: center middle;
        & > Vertical { width: 100%; height: 92%; background: $surface; border: solid $primary; padding: 0 1; }
        & #title { height: auto; text-style: bold; }
        & #keys { height: auto; color: $text-muted; }
    }
    """

    def __init__(self, lot: FishLot) -> None:
        super().__init__()
        self.lot = lot
        self.measures: Measures | None = None
        self.found: LotOnDay | None = None
        self.said: str | None = None

    def compose(self) -> ComposeResult:
        """The lot, its numbers and entries, the keys."""
        with Vertical():
            yield Static(Content(plain(f"{self.lot.code}, {self.lot.species}")), id="title")
            yield Listing()
            yield Static(KEYS, id="keys", markup=False)

    def on_mount(self) -> None:
        """Read it."""
        self.query_one(Listing).focus()
        self._read()

    def _read(self) -> None:
        self.work(partial(_life, lot=self.lot), self._show)

    def _show(self, found: tuple[LotOnDay, Sequence[Booked]]) -> None:
        on_day, entries = found
        self.found, self.measures = on_day, on_day.farm.measures
        where = f", in {on_day.unit}" if on_day.unit else ""
        title = f"{self.lot.code}, {self.lot.species}{where}, on {on_day.on}"
        self.query_one("#title", Static).update(Content(plain(title)))
        self.query_one(Listing).show(COLUMNS, list(items_of(on_day, entries)), empty="")

    def what_goes_out(self) -> GoesOut | None:
        """Its numbers, growth and book, and the curve of growth."""
        if self.found is None:
            return None
        from farmops.exchange.chart_of import growth_chart

        found, listing = self.found, self.query_one(Listing)
        draw = partial(growth_chart, found.lot, found.weighed, found.ahead, found.on, found.farm.measures)
        return GoesOut(f"Lot {self.lot.code}", lambda: [listing.table()], draw)

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter opens what stands there."""
        message.stop()
        self.action_open()

    def action_open(self) -> None:
        """A number into what it came from, an entry into its form."""
        line = self.query_one(Listing).current
        data = line.data if line is not None else None
        if isinstance(data, Figure) and self.measures is not None:
            from farmops.tui.screens.why import Why

            self.app.push_screen(Why(data, self.measures))
        elif type(data) in KIND_OF:
            from farmops.tui.forms import load_context

            self.work(partial(load_context, unit_code=self.lot.unit), partial(self._form, data), group="form")

    def _form(self, one: Any, context: Any) -> None:
        from farmops.tui import forms
        from farmops.tui.widgets.forms import FormScreen

        kind = KIND_OF[type(one)].removed_as
        self.app.push_screen(FormScreen(forms.edit_form(kind, one, context)), self._changed)

    def action_remove(self) -> None:
        """Remove the entry under the cursor; undo brings it back."""
        line, by = self.query_one(Listing).current, self.app.by  # type: ignore[attr-defined]
        one: Any = line.data if line is not None else None
        if type(one) not in KIND_OF:
            self._tell("! Stand on an entry of the book to remove it.")
            return
        kind, id = KIND_OF[type(one)], one.id

        def change(store: Store) -> str:
            from farmops.farm.removal import remove_record
            from farmops.model.journal import Removal, Through

            remove_record(store, Removal(kind.removed_as, id), by=by, through=Through.SCREEN)
            return f"{kind.capitalize()} removed. u brings it back."

        self.work(change, self._changed, group="write")

    def _changed(self, words: str | None) -> None:
        if words is not None:
            self.said = words
            self._tell(words)
            self._read()

    def on_failed(self, message: Failed) -> None:
        """Why something was not done."""
        message.stop()
        self._tell(f"! {message.error}")

    def _tell(self, words: str) -> None:
        self.query_one("#keys", Static).update(Content(plain(words)))

    def action_back(self) -> None:
        """Close."""
        self.dismiss(self.said)


def _life(store: Store, *, lot: FishLot) -> tuple[LotOnDay, Sequence[Booked]]:
    from farmops.reports import lists

    today = lists.farm(store).today()
    day = max(lot.stocked_day, min(today, lot.closed_day or today))
    return lot_on_day(store, lot.id, day), book(store, lot.id)


def items_of(found: LotOnDay, entries: Sequence[Booked]) -> Iterator[Line | Heading]:
    """Numbers, growth, and the book, the newest entry first."""
    measures = found.farm.measures
    yield Heading("In numbers")
    for name, figure in found.figures.items():
        yield Line(f"figure {name}", (*_figure(figure, measures), ""), data=figure)
    yield from _growth(found, measures)
    if entries:
        yield Heading("What was booked")
    for one in reversed(entries):
        words = f"{one.day}  {words_of(one, measures, found.lot.id)}"
        noted = f"{words} · {one.note}" if one.note else words
        yield Line(f"{KIND_OF[type(one)]} {one.id}", (noted, "", ""), data=one)


def _figure(figure: Figure, measures: Measures) -> tuple[str, str]:
    """Its name and its value, or beside the name why there is none."""
    if figure.value is None:
        return f"{figure.name}: {figure.reason}", "-"
    return figure.name, shown(figure, measures)


def _growth(found: LotOnDay, measures: Measures) -> Iterator[Line | Heading]:
    coming = [one for one in found.ahead if one.day > found.on][::EVERY]
    drawn: list[Weighed | Ahead] = [*found.weighed, *coming]
    largest = max((one.mean_mg for one in drawn), default=0) * 1.25 or 1.0
    yield Heading("Weight of one" + (", and if they grow on like this" if coming else ""))
    for one in drawn:
        ahead = isinstance(one, Ahead)
        words = f"{one.day}  {'expected' if ahead else 'known'}"
        cells: tuple[Cell, ...] = (words, MASS.show(one.mean_mg, measures), _bar(one, largest, measures))
        yield Line(f"weight {one.day} {ahead}", cells, look="quiet" if ahead else "normal")


def _bar(one: Weighed | Ahead, largest: float, measures: Measures) -> Bar:
    """The weight and where it may lie, in the unit that a farm weighs in."""
    size = float(MASS.show(MG_PER_KG, measures).number) / MG_PER_KG
    low, high = (None if edge is None else edge * size for edge in _ends(one))
    return Bar(one.mean_mg * size, low, high, largest * size)


def _ends(one: Weighed | Ahead) -> tuple[float | None, float | None]:
    if isinstance(one, Ahead):
        return one.low_mg, one.high_mg
    if one.se_mg is None:
        return None, None
    return max(0.0, one.mean_mg - TWO_SD * one.se_mg), one.mean_mg + TWO_SD * one.se_mg
