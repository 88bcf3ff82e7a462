"""Files about what grows: plantings."""

from __future__ import annotations

from farmops.exchange.cells import Cells
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import NOTE, UNIT, Kind, Take, each
from farmops.farm.batches import Grown
from farmops.model.plantings import NewPlanting, StartedBy


def _planting(cells: Cells, take: Take) -> Grown:
    planting = NewPlanting(
        take.names.bed(cells),
        take.names.crop(cells),
        cells.day("started"),
        cells.word("by", StartedBy, StartedBy.TRANSPLANTING),
        variety=cells.note("variety"),
        plants=cells.number("plants"),
        note=cells.note(),
    )
    return Grown(planting, None if cells.empty("cleared") else cells.day("cleared"))


PLANTED = (
    UNIT,
    Column("bed", needed=True),
    Column("crop", needed=True),
    Column("started", needed=True, also=("date", "planted", "sown", "day")),
    Column("cleared", also=("end",)),
    Column("by"),
    Column("variety"),
    Column("plants"),
    NOTE,
)
KINDS = (Kind("plantings", PLANTED, each(_planting)),)
