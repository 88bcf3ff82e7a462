"""Files about fish lots: stocked, closed, and fish on the move between lots and units."""

from __future__ import annotations

from farmops.exchange.cells import Cells
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import NOTE, UNIT, Kind, Take, each
from farmops.exchange.harvest_tables import mass_unit
from farmops.farm.file_rows.lots import LotSaid, MoveSaid
from farmops.quantities import MASS


def _lot(cells: Cells, take: Take) -> LotSaid:
    return LotSaid(
        take.names.lot_code(cells, "lot"),
        None if cells.empty("species") else cells.name("species"),
        None if cells.empty("unit") else take.names.unit(cells),
        cells.day_or_none("stocked"),
        cells.whole("number"),
        cells.measured("mean", MASS),
        cells.day_or_none("closed"),
        cells.note("source"),
        cells.number("paper"),
        cells.note(),
        take.sure,
    )


def _move(cells: Cells, take: Take) -> MoveSaid:
    unit = None if cells.empty("unit") else take.names.unit(cells)
    return MoveSaid(
        cells.day(),
        take.names.lot_code(cells, "from"),
        take.names.unit_code(cells) if cells.empty("to") and unit else take.names.lot_code(cells, "to"),
        cells.number("number"),
        cells.measured("mean", MASS),
        unit,
        cells.note(),
    )


MEAN = Column("mean", also=("mean weight", "weight", "each"), unit_of=mass_unit)
LOTS = (
    Column("lot", needed=True, also=("code", "fish lot"), numbered=("fish lot id", "lot id")),
    Column("species", also=("fish",)),
    UNIT,
    Column("stocked", also=("stocked day", "date", "day")),
    Column("number", also=("count",)),
    MEAN,
    Column("closed", also=("closed day", "last day")),
    Column("source", also=("origin",)),
    Column("paper", also=("paper id",)),
    NOTE,
)
MOVES = (
    Column("date", needed=True, also=("day", "from day")),
    Column("from", needed=True, also=("lot", "fish lot", "from lot"), numbered=("from lot id", "fish lot id")),
    Column("to", also=("to lot",), numbered=("to lot id",)),
    Column("number", also=("count",)),
    MEAN,
    UNIT,
    NOTE,
)
KINDS = (Kind("fish lots", LOTS, each(_lot)), Kind("transfers", MOVES, each(_move)))
