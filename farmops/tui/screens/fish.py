"""Fish & water: the lots that live in the row, and the latest readings of the water they live in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual.binding import BindingType

from farmops.model.fish import FishLot
from farmops.model.readings import Reading
from farmops.model.treatments import Hold
from farmops.quantities import MASS, Measures
from farmops.quantities.readings import show_value
from farmops.reports import lists
from farmops.reports.holds import held_on
from farmops.reports.store import Store
from farmops.reports.water import WaterLine, Waters, waters_of
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line

EMPTY = "No fish and no readings here. n stocks a lot, check local fish law first; r books readings of the water."

WORDS = {
    "deaths": "its deaths",
    "fed": "what it was fed",
    "weigh fish": "a sample of it",
    "move": "where it goes",
    "split": "what is split off",
}
COLUMNS = (
    Column("unit", "unit"),
    Column("lot", "lot or reading"),
    Column("species", "species or verdict", grow=True),
    Column("number", "stocked or read", align="right"),
    Column("mean", "mean weight", align="right", priority=1),
    Column("since", "since", priority=2),
    Column("note", "note", priority=3),
)


class FishPlace(ListedPlace):
    """Lots in walking order, the water they live in, the closed ones below."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("fish")]
    name_of_place = "fish"
    title = "Fish & water"
    new_kind = "fish"

    def reload(self) -> None:
        """Read the lots and the water."""
        self.work(_lots_and_water, self._show)

    def _show(self, found: tuple[Sequence[FishLot], Waters, Mapping[int, Hold]]) -> None:
        lots, waters, held = found
        here = [one for one in lots if self.unit in (None, one.unit)]
        measures = waters.farm.measures
        living = [lot_line(one, measures, held.get(one.id)) for one in here if one.closed_day is None]
        water = [reading_line(one, measures) for one in waters.lines(self.unit)]
        closed = [lot_line(one, measures) for one in here if one.closed_day is not None]
        items: list[Line | Heading] = []
        for head, lines in (("Living here", living), ("Water, latest readings", water), ("Closed", closed)):
            items += [Heading(head), *lines] if lines else []
        self.show(COLUMNS, items, EMPTY)

    def kind_of(self, line: Line) -> str:
        """A reading or a lot."""
        return "readings" if isinstance(line.data, Reading) else "fish"

    def on_listing_opened(self, message: Listing.Opened) -> None:
        """Enter on a reading shows all that were read before it, on a lot its life."""
        message.stop()
        message.prevent_default()
        read = message.line.data
        if isinstance(read, Reading):
            from farmops.tui.screens.series import Series

            self.app.push_screen(Series(read), self._booked)
        elif isinstance(read, FishLot):
            from farmops.tui.screens.lot_life import LotLife

            self.app.push_screen(LotLife(read), self._booked)
        else:
            self.action_edit()

    def action_readings(self) -> None:
        """A row of readings of the unit where the person stands, or of the line under the cursor."""
        line = self.listing.current
        if self.unit is None and line is not None:
            self.open_form("like", "readings", line.data)
        else:
            self.open_form("new", "readings")

    def action_close_lot(self) -> None:
        """No fish are left of the lot under the cursor."""
        line = self.listing.current
        if line is not None and isinstance(line.data, Reading):
            self.refuse("This is a reading. To close a lot, stand on its line.")
        else:
            self._form_on_line("close")

    def action_deaths(self) -> None:
        """Fish of the lot under the cursor died or went."""
        self.action_of_lot("deaths")

    def action_of_lot(self, kind: str) -> None:
        """What happens to the lot under the cursor: deaths, fed, weighed, moved, split."""
        line = self.listing.current
        if line is None or not isinstance(line.data, FishLot):
            self.refuse(f"Stand on the line of a fish lot to book {WORDS[kind]}.")
        else:
            self.open_form("edit", kind, line.data)

    def open_form(self, how: str, kind: str, record: object = None) -> None:
        """Closing is an edit of its own."""
        if how == "close":
            super().open_form("edit", "close", record)
        else:
            super().open_form(how, kind, record)


def _lots_and_water(store: Store) -> tuple[Sequence[FishLot], Waters, Mapping[int, Hold]]:
    return lists.fish_lots(store), waters_of(store), held_on(store).lots


def reading_line(one: WaterLine, measures: Measures) -> Line:
    """The latest reading of a measure as a line, with what it means."""
    read = one.reading
    value = f"{read.bound}{show_value(read.value, read.measure, measures)}"
    cells = (read.unit, read.measure.value, one.judged.brief, value, "", str(read.day), read.note or "")
    return Line(f"reading {read.id}", cells, look="late" if one.judged.bad else "normal", data=read)


def lot_line(one: FishLot, measures: Measures, hold: Hold | None = None) -> Line:
    """A lot as a line, with the hold it is under."""
    cells = (
        one.unit,
        one.code,
        f"{one.species} · held {hold.words}" if hold else one.species,
        str(one.number),
        MASS.show(one.mean_mg, measures),
        str(one.stocked_day),
        one.note or "",
    )
    return Line(f"fish {one.id}", cells, look="quiet" if one.closed_day else "normal", data=one)
