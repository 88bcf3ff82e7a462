"""Files about what grows: crops and plantings."""

from __future__ import annotations

from farmops import library
from farmops.exchange.cells import Cells, RowRefusedError
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import NOTE, UNIT, Kind, Take, each
from farmops.farm.batches import Grown
from farmops.farm.file_rows.growing import CropSaid
from farmops.model.plantings import NewPlanting, StartedBy
from farmops.model.text import plain
from farmops.quantities import AREA


def _crop(cells: Cells, _: Take) -> CropSaid:
    return CropSaid(cells.code("crop"), _facts(cells), cells.note())


def _facts(cells: Cells) -> str | None:
    """The key of the packaged facts that are named; empty where there are to be none."""
    if cells.empty("facts"):
        return None
    if cells.text("facts").lower() == NO_FACTS:
        return ""
    found = library.crop(cells.text("facts"))
    if found is None:
        known = ", ".join(one.key for one in library.crops())
        raise RowRefusedError("facts", f"there are none on {plain(cells.text('facts'))}; known: {known}")
    return found.key


def _planting(cells: Cells, take: Take) -> Grown:
    planting = NewPlanting(
        take.names.bed(cells),
        take.names.crop(cells),
        cells.day("started"),
        cells.word("by", StartedBy, StartedBy.TRANSPLANTING),
        variety=cells.note("variety"),
        plants=cells.number("plants"),
        area=cells.measured("area", AREA),
        note=cells.note(),
        sure=take.sure,
    )
    return Grown(planting, None if cells.empty("cleared") else cells.day("cleared"))


NO_FACTS = "none"
CROPS = (
    Column("crop", needed=True, also=("name",)),
    Column("facts", also=("library key",)),
    NOTE,
)
PLANTED = (
    UNIT,
    Column("bed", needed=True, numbered=("bed id",)),
    Column("crop", needed=True, numbered=("crop id",)),
    Column("started", needed=True, also=("date", "planted", "sown", "day", "started day")),
    Column("cleared", also=("end", "cleared day")),
    Column("by", also=("started by",)),
    Column("variety"),
    Column("plants"),
    Column("area", unit_of=lambda text: AREA.unit(text).name),
    NOTE,
)
KINDS = (
    Kind("crops", CROPS, each(_crop)),
    Kind("plantings", PLANTED, each(_planting)),
)
