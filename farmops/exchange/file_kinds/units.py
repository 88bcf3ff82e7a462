"""Files about the row: units with the states they pass through, beds with their sizes."""

from __future__ import annotations

from farmops.exchange.cells import Cells, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import BED, FROM, NOTE, UNIT, Kind, Take, each
from farmops.farm.file_rows.units import BedSaid, UnitSaid
from farmops.model.beds import BedKind
from farmops.model.units import UnitKind, UnitState
from farmops.quantities import AREA, LENGTH, VOLUME
from farmops.quantities.hours import parse_hours


def _unit(cells: Cells, take: Take) -> UnitSaid:
    return UnitSaid(
        take.names.unit_code(cells),
        cells.day_or_none("from"),
        cells.chosen("state", UnitState),
        cells.chosen("kind", UnitKind),
        cells.number("position"),
        cells.measured("tank", VOLUME),
        cells.note("breaker"),
        cells.note("valve"),
        _hours(cells, "cure"),
        cells.note(),
        chores=cells.yes("chores") is not False,
        sure=take.sure,
    )


def _hours(cells: Cells, column: str) -> int | None:
    if cells.empty(column):
        return None
    with in_column(column):
        return parse_hours(cells.with_unit(column))


def _bed(cells: Cells, take: Take) -> BedSaid:
    unit_id, name = take.names.bed_in_unit(cells)
    return BedSaid(
        unit_id,
        name,
        cells.day_or_none("from"),
        cells.measured("area", AREA),
        cells.chosen("kind", BedKind),
        cells.measured("depth", LENGTH),
        cells.note(),
        take.sure,
    )


def _hour_unit(text: str) -> str:
    return "d" if text.startswith("d") else "h"


UNITS = (
    Column("unit", needed=True, also=("code", "system"), numbered=("unit id",)),
    FROM,
    Column("state"),
    Column("kind"),
    Column("position", also=("place",)),
    Column("tank", also=("volume", "water"), unit_of=lambda text: VOLUME.unit(text).name),
    Column("breaker"),
    Column("valve"),
    Column("cure", unit_of=_hour_unit),
    Column("chores"),
    NOTE,
)
BEDS = (
    UNIT,
    BED,
    FROM,
    Column("area", also=("size",), unit_of=lambda text: AREA.unit(text).name),
    Column("kind"),
    Column("depth", unit_of=lambda text: LENGTH.unit(text).name),
    NOTE,
)
KINDS = (Kind("units", UNITS, each(_unit)), Kind("beds", BEDS, each(_bed)))
