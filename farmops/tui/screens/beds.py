"""Beds: a plan to scale, and the plantings that stand in them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field
from datetime import date
from functools import partial
from typing import Any, ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType

from farmops.model.frozen import dataclass
from farmops.model.plantings import Planting
from farmops.model.treatments import Hold
from farmops.quantities import AREA, Measures
from farmops.reports import lists
from farmops.reports.holds import held_on
from farmops.reports.lists import BedLine
from farmops.reports.store import Store
from farmops.tui.actions import bindings
from farmops.tui.screens.listed import ListedPlace
from farmops.tui.screens.place import NO_UNIT
from farmops.tui.widgets.listing import Listing
from farmops.tui.widgets.listing_lines import Column, Heading, Line
from farmops.tui.widgets.plan import Plan, PlannedBed

COLUMNS = (
    Column("bed", "bed"),
    Column("crop", "crop", grow=True),
    Column("since", "since"),
    Column("weeks", "weeks", align="right"),
    Column("plants", "plants", align="right", priority=1),
    Column("variety", "variety", priority=2),
)


@dataclass(frozen=True, slots=True)
class Standing:
    """The beds, and what grows in them on a day."""

    on: date
    beds: tuple[BedLine, ...]
    plantings: tuple[Planting, ...]
    held: Mapping[int, Hold] = field(default_factory=dict)


class BedsPlace(ListedPlace):
    """The plan above, the plantings below; beds that are free are listed too, so that n can plant them."""

    BINDINGS: ClassVar[list[BindingType]] = [*bindings("beds")]
    name_of_place = "beds"
    title = "Beds"
    new_kind = "plantings"

    def __init__(self, **arguments: Any) -> None:
        super().__init__(**arguments)
        self.newest = ""

    def compose(self) -> ComposeResult:
        """Plan and list."""
        yield Plan()
        yield Listing()

    def reload(self) -> None:
        """Read the beds of where the person stands."""
        if self.today is not None:
            self.work(partial(read, on=self.today, unit=self.unit), self._show)

    def _show(self, found: Standing) -> None:
        if self.farm is None:
            return
        measures = self.farm.measures
        self.query_one(Plan).beds = tuple(planned(one, found, measures) for one in found.beds)
        empty = "No bed here yet. n adds one." if not found.beds else "Nothing grows here. n plants."
        self.show(COLUMNS, items_of(found, measures), empty if self.has_units else NO_UNIT)
        self._to_the_newest(newest_of(found.plantings))

    def _to_the_newest(self, newest: Planting | None) -> None:
        """The cursor goes to what was planted last, the first line, so that l plants like it."""
        key = key_of(newest) if newest else ""
        if key not in ("", self.newest):
            self.call_after_refresh(self.listing.go_to, key)
        self.newest = key

    def kind_of(self, line: Line) -> str:
        """Plantings, or beds for the free ones."""
        return "plantings" if isinstance(line.data, Planting) else "beds"

    def action_new(self) -> None:
        """Plant; on a farm without beds, add the first bed."""
        known = self.query_one(Plan).beds
        self.open_form("new", "plantings" if known else "beds")

    def action_new_bed(self) -> None:
        """A bed beside those that are there."""
        self.open_form("new", "beds")

    def action_bed_size(self) -> None:
        """The bed under the cursor has another size from a day on."""
        if self.listing.current is None:
            self.refuse("Stand on the line of a bed to give it another size.")
        else:
            self.open_form("edit", "sizes", self.listing.current.data)

    def action_clear_bed(self) -> None:
        """The planting under the cursor is cleared out of its bed."""
        line = self.listing.current
        if line is None or not isinstance(line.data, Planting):
            self.refuse("There is no planting under the cursor to clear.")
        else:
            self.open_form("edit", "clear", line.data)

    def action_treat(self) -> None:
        """A treatment of the bed under the cursor."""
        if self.listing.current is None:
            self.refuse("Stand on the line of a bed to book its treatment.")
        else:
            self.open_form("edit", "treat", self.listing.current.data)

    def action_state(self) -> None:
        """The unit one stands at enters a state."""
        self.open_form("new", "states")


def read(store: Store, *, on: date, unit: str | None) -> Standing:
    """Beds and plantings of one unit or of the whole row."""
    beds = [one for one in lists.beds(store) if unit in (None, one.bed.unit)]
    plantings = [one for one in lists.plantings(store, on) if unit in (None, one.unit)]
    return Standing(on, tuple(beds), tuple(plantings), held_on(store, on).beds)


def area_on(one: BedLine, on: date) -> int | None:
    """The size a bed has on a day."""
    held = [size for size in one.sizes if size.from_day <= on]
    return held[-1].area_mm2 if held else None


def planned(one: BedLine, found: Standing, measures: Measures) -> PlannedBed:
    """A bed as the plan draws it."""
    area = area_on(one, found.on)
    here = [planting for planting in found.plantings if planting.bed_id == one.bed.id]
    equal = 1 / len(here) if here else 0.0
    crops = tuple(
        (planting.crop, planting.area_mm2 / area if planting.area_mm2 and area else equal) for planting in here
    )
    return PlannedBed(one.bed.code, AREA.show(area, measures) if area else "size?", area, crops)


def items_of(found: Standing, measures: Measures) -> list[Line | Heading]:
    """What was planted last, the other plantings bed by bed, then the beds that are free."""
    newest = newest_of(found.plantings)
    items: list[Line | Heading] = [
        planting_line(one, found.on, found.held.get(one.bed_id), newest=one is newest and len(found.plantings) > 1)
        for one in sorted(found.plantings, key=lambda one: one is not newest)
    ]
    free = free_beds(found)
    if free:
        items.append(Heading("Free"))
        items += [
            Line(f"beds {one.bed.id}", free_cells(one, found.on, measures), look="quiet", data=one.bed) for one in free
        ]
    return items


def newest_of(plantings: Sequence[Planting]) -> Planting | None:
    """What was planted last."""
    return max(plantings, key=lambda one: (one.started_day, one.id), default=None)


def free_beds(found: Standing) -> Sequence[BedLine]:
    """The beds in which nothing grows."""
    taken = {one.bed_id for one in found.plantings}
    return [one for one in found.beds if one.bed.id not in taken]


def free_cells(one: BedLine, on: date, measures: Measures) -> tuple[str, ...]:
    """A free bed as cells."""
    area = area_on(one, on)
    return (one.bed.code, AREA.show(area, measures) if area else "no size booked", "", "", "", "")


def planting_line(one: Planting, on: date, hold: Hold | None = None, *, newest: bool = False) -> Line:
    """A planting as a line, with the hold it is under; the newest says why it stands first."""
    weeks = (on - one.started_day).days // 7
    held = f"held {hold.words}" if hold else ""
    crop = " · ".join(part for part in (one.crop, held, "planted last" if newest else "") if part)
    cells = (one.bed, crop, str(one.started_day), str(weeks), str(one.plants or ""), one.variety or "")
    return Line(key_of(one), cells, data=one)


def key_of(one: Planting) -> str:
    """What tells the line of a planting from all others."""
    return f"plantings {one.id}"
