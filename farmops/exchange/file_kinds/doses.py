"""Files about what went into the water, and where it came from: doses, top-ups, sources with what they are like."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, FROM, NOTE, UNIT, Kind, Take, each
from farmops.exchange.file_kinds.water import MEASURE, MEASURES, VALUE, values_read
from farmops.farm.file_rows.doses import SourceSaid
from farmops.model.errors import NotUnderstood
from farmops.model.water import Amount, NewDose, NewTopUp, SourceKind
from farmops.quantities import MASS, VOLUME
from farmops.quantities.doses import parse_amount


def _dose(cells: Cells, take: Take) -> NewDose:
    unit = take.names.unit(cells)
    supply = None if cells.empty("supply") else take.goods.supply(cells).id
    return NewDose(unit, cells.day(), cells.name("what"), _amount(cells), cells.note("why"), cells.note(), supply)


def _amount(cells: Cells) -> Amount:
    if cells.empty("amount"):
        raise RowRefusedError("amount", "no amount")
    with in_column("amount"):
        return parse_amount(cells.with_unit("amount"), cells.customs.measures)


def _top_up(cells: Cells, take: Take) -> NewTopUp:
    volume = cells.measured("volume", VOLUME)
    if volume is None:
        raise RowRefusedError("volume", "no volume")
    source = None if cells.empty("source") else take.names.source(cells)
    return NewTopUp(take.names.unit(cells), cells.day(), volume, source, cells.note())


def _source(cells: Cells, take: Take) -> SourceSaid:
    readings = tuple(one for _, one in values_read(cells, take))
    name, kind = take.names.source_name(cells), cells.chosen("kind", SourceKind)
    return SourceSaid(name, kind, cells.day_or_none("from"), readings, cells.note())


def _amount_unit(text: str) -> str:
    try:
        return MASS.unit(text).name
    except NotUnderstood:
        return VOLUME.unit(text).name


DOSES = (
    DATE,
    UNIT,
    Column("what", needed=True, also=("product", "added")),
    Column("amount", needed=True, also=("dose", "how much", "amount typed"), unit_of=_amount_unit),
    Column("why", also=("reason",)),
    Column("supply", also=("out of",), numbered=("supply id",)),
    NOTE,
)
TOP_UPS = (
    DATE,
    UNIT,
    Column("volume", needed=True, also=("amount", "water", "added"), unit_of=lambda text: VOLUME.unit(text).name),
    Column("source", also=("from", "out of"), numbered=("water source id",)),
    NOTE,
)
SOURCES = (
    Column("source", needed=True, also=("name", "water source"), numbered=("water source id",)),
    Column("kind", also=("water",)),
    FROM,
    MEASURE,
    VALUE,
    *MEASURES,
    NOTE,
)
KINDS = (
    Kind("doses", DOSES, each(_dose)),
    Kind("top-ups", TOP_UPS, each(_top_up)),
    Kind("water sources", SOURCES, each(_source)),
)
