"""Fish & water: the lots that live in the row, and the latest readings of the water they live in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import ClassVar

from textual.binding import BindingType

from farmops.model.fish import FishLot
from farmops.model.frozen import dataclass
from farmops.model.instruments import Instrument
from farmops.model.readings import Reading
from farmops.model.treatments import Hold
from farmops.quantities import MASS, US, Measures
from farmops.quantities.readings import show_value
from farmops.reports import lists
from farmops.reports.cycling import Cycling, cycling_of
from farmops.reports.drift import DriftLine, drift_of
from farmops.reports.fish_book import Alive, alive
from farmops.reports.holds import held_on
from farmops.reports.store import Store
from farmops.reports.water import WaterLine, Waters, waters_of
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.screens.place import NO_UNIT
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.widgets.water_lines import Held, cycling_lines, cycling_words, instruments, wrapped

EMPTY = "No fish and no readings here. n stocks a lot, check local fish law first; r books readings of the water."

WORDS = {
    "deaths": "its deaths",
    "fed": "what it was fed",
    "weigh fish": "a sample of it",
    "move": "where it goes",
    "split": "what is split off",
    "close": "that none are left",
}
CURVES = "As read since the cycling began; r books a reading, Enter on one in the list shows its row."
COLUMNS = (
    Column("unit", "unit"),
    Column("lot", "lot or reading"),
    Column("species", "species or verdict", grow=True),
    Column("number", "fish or read", align="right"),
    Column("mean", "mean weight", align="right", priority=1),
    Column("since", "since", priority=2),
    Column("note", "note", priority=3),
)


@dataclass(frozen=True, slots=True)
class Standing:
    """The lots with what holds them, the water, and what moves in it."""

    lots: Sequence[FishLot]
    waters: Waters
    held: Mapping[int, Hold]
    drift: Sequence[DriftLine]
    cycling: Sequence[Cycling]
    instruments: Sequence[Held]
    alive: Mapping[int, Alive]


class FishPlace(ListedPlace):
    """Lots in walking order, the water they live in, the closed ones below."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("fish")]
    name_of_place = "fish"
    title = "Fish & water"
    new_kind = "fish"

    def reload(self) -> None:
        """Read the lots and the water."""
        self.work(_lots_and_water, self._show)

    def _show(self, found: Standing) -> None:
        here = [one for one in found.lots if self.unit in (None, one.unit)]
        measures = found.waters.farm.measures
        living = [
            lot_line(one, measures, found.held.get(one.id), found.alive.get(one.id))
            for one in here
            if one.closed_day is None
        ]
        read = found.waters.lines(self.unit)
        water = [reading_line(one, measures) for one in read]
        moving = moving_lines(found.drift, [one.reading for one in read], measures)
        closed = [lot_line(one, measures) for one in here if one.closed_day is not None]
        items: list[Line | Heading] = []
        cycling = [cycling_line(one) for one in found.cycling if self.unit in (None, one.unit)]
        read_with = [held_line(one) for one in found.instruments if one.instrument.serves(one.on)]
        parts = (
            *(("Living here", living), ("Cycling", cycling)),
            *(("What changes in the water", moving), ("Water, latest readings", water)),
            *(("Read with", read_with), ("Closed", closed)),
        )
        for head, lines in parts:
            items += [Heading(head), *lines] if lines else []
        self.show(COLUMNS, items, EMPTY if self.has_units else NO_UNIT)

    def kind_of(self, line: Line) -> str:
        """A reading, an instrument or a lot."""
        kinds = {Reading: "readings", Instrument: "instruments"}
        return kinds.get(type(line.data), "fish")

    def _form_on_line(self, how: str) -> None:
        """How cycling stands follows from readings alone."""
        line = self.listing.current
        if line is not None and isinstance(line.data, Cycling):
            self.refuse("This follows from the readings: r books some, Enter shows the curves.")
        else:
            super()._form_on_line(how)

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
        elif isinstance(read, Cycling):
            self._show_cycling(read)
        else:
            self.action_edit()

    def _show_cycling(self, one: Cycling) -> None:
        """The curves, what is missing and what stands still."""
        from farmops.tui.screens.told import Told
        from farmops.tui.screens.told_out import cycling_out

        measures = self.farm.measures if self.farm else US

        def lines(found: Cycling, width: int) -> list[str]:
            return wrapped(list(cycling_lines(found, measures, width)), width)

        self.app.push_screen(Told(lambda _: one, lines, CURVES, out=partial(cycling_out, measures=measures)))

    def action_of_water(self, kind: str) -> None:
        """What goes into the water of the unit where the person stands."""
        self.open_form("new", kind)

    def action_instrument(self) -> None:
        """A new instrument."""
        self.open_form("new", "instruments")

    def action_check(self) -> None:
        """The instrument under the cursor is held against something known."""
        line = self.listing.current
        if line is None or not isinstance(line.data, Instrument):
            self.refuse("Stand on the line of an instrument to book a check of it; i takes one into service.")
        else:
            self.open_form("edit", "check", line.data)

    def action_readings(self) -> None:
        """A row of readings of the unit where the person stands, or of the line under the cursor."""
        line = self.listing.current
        if self.unit is None and line is not None and not isinstance(line.data, Instrument):
            self.open_form("like", "readings", line.data)
        else:
            self.open_form("new", "readings")

    def action_balance(self) -> None:
        """Weigh up the unit where the person stands, or that of the line under the cursor."""
        line = self.listing.current
        unit = self.unit or getattr(line.data if line else None, "unit", None)
        if unit is None:
            self.refuse("Stand at a unit, or on a line of one, to weigh it up.")
        else:
            from farmops.tui.screens.balance import BalanceScreen

            self.app.push_screen(BalanceScreen(unit))

    def action_close_lot(self) -> None:
        """No fish are left of the lot under the cursor."""
        self.action_of_lot("close")

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


def _lots_and_water(store: Store) -> Standing:
    drift = [one for one in drift_of(store) if one.moves]
    waters = waters_of(store)
    found = (cycling_of(store, one.unit.id, waters.on) for one in waters.units)
    cycling, held = [one for one in found if one is not None], instruments(store, waters.on, None)
    return Standing(lists.fish_lots(store), waters, held_on(store).lots, drift, cycling, held, alive(store, waters.on))


def cycling_line(one: Cycling) -> Line:
    """A unit that cycles, and what is missing until it is ready for fish."""
    cells = (one.unit, f"day {one.day}", cycling_words(one), "", "", str(one.since), "")
    return Line(f"cycling {one.unit}", cells, look="late" if one.stalls else "normal", data=one)


def held_line(one: Held) -> Line:
    """An instrument, how it stands and what it reads."""
    held = one.instrument
    words = "; ".join(one.stands) or "in service"
    cells = ("", held.name, f"{words}: {', '.join(held.reads)}", "", "", str(held.from_day), held.note or "")
    return Line(f"instrument {held.id}", cells, look="late" if one.bad else "normal", data=held)


def moving_lines(drift: Sequence[DriftLine], latest: Sequence[Reading], measures: Measures) -> list[Line]:
    """What moves, each with its latest reading, so that Enter shows those before it."""
    read = {(one.unit_id, one.measure): one for one in latest}
    lines = []
    for one in drift:
        last = read.get((one.unit_id, one.measure))
        if last is not None:
            cells = (one.unit, one.measure.value, one.brief, show_value(one.value, one.measure, measures), "", "", "")
            away = one.side or one.dribbling
            lines.append(Line(f"moving {last.id}", cells, look="late" if away else "normal", data=last))
    return lines


def reading_line(one: WaterLine, measures: Measures) -> Line:
    """The latest reading of a measure as a line, with what it means."""
    read = one.reading
    value = show_value(read.value, read.measure, measures)
    value = f"{read.bound}{value}" if read.bound else value
    verdict = ", ".join(part for part in (one.judged.brief, read.doubtful) if part)
    cells = (read.unit, read.measure.value, verdict, value, "", str(read.day), read.note or "")
    return Line(f"reading {read.id}", cells, look="late" if one.judged.bad else "normal", data=read)


def lot_line(one: FishLot, measures: Measures, hold: Hold | None = None, left: Alive | None = None) -> Line:
    """A lot as a line, with what is left of it and the hold it is under."""
    cells = (
        one.unit,
        one.code,
        f"{one.species} · held {hold.words}" if hold else one.species,
        _number(one, left),
        MASS.show(left.mean_mg if left else one.mean_mg, measures),
        str(one.stocked_day),
        one.note or "",
    )
    return Line(f"fish {one.id}", cells, look="quiet" if one.closed_day else "normal", data=one)


def _number(one: FishLot, left: Alive | None) -> str:
    """How many are left, of how many where some are gone."""
    if left is None:
        return str(one.number)
    return f"{left.number} left of {one.number}" if left.number < one.number else str(left.number)
