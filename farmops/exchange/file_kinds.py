"""The kinds of rows a file may hold: their columns, and the entries each row becomes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_names import FileNames
from farmops.exchange.harvest_tables import mass_unit
from farmops.farm.batches import Grown
from farmops.farm.file_rows import Entry, FileRow
from farmops.model.costs import Category, CostKind, NewCost
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample
from farmops.model.plantings import NewPlanting, StartedBy
from farmops.model.readings import ALSO_CALLED, Form, Measure, NewReadings, measure_called
from farmops.quantities.lives import parse_life
from farmops.quantities.readings import typed_reading


@dataclass(frozen=True, slots=True)
class Take:
    """What rows are understood by: what the farm has, and what the grower said of the whole file.

    `form` is what kits report where a cell does not say; `sure` books unlikely rows.
    """

    names: FileNames
    form: Form | None = None
    sure: bool = False


Read = Callable[[Cells, Take], Iterable[FileRow]]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of rows: its columns and what a row of them books."""

    name: str
    columns: tuple[Column, ...]
    read: Read


DATE = Column("date", needed=True, also=("day",))
UNIT = Column("unit", also=("system",))
NOTE = Column("note", also=("notes", "remark", "comment"))
LOT = Column("lot", needed=True, also=("fish lot", "fish"))
MEASURE, VALUE = Column("measure", also=("what", "parameter")), Column("value", also=("reading", "result"))
TIME = Column("time", also=("hour",))


def _as_said(text: str) -> str:
    return text


def _measure_column(measure: Measure) -> Column:
    short = tuple(word for word, meant in ALSO_CALLED.items() if meant is measure)
    return Column(measure.value, also=short, unit_of=_as_said)


MEASURES = {one.value: one for one in Measure}


def _readings(cells: Cells, take: Take) -> Iterator[FileRow]:
    """Long rows name a measure and its value, wide ones have a column for each; a row may do both."""
    day, minute, unit = cells.day(), cells.minute(), take.names.unit(cells)
    measure, value = cells.text("measure"), cells.text("value")
    there = [name for name in MEASURES if not cells.empty(name)]
    if not there and not (measure and value):
        raise RowRefusedError(None, "nothing was read: no measure with its value")
    note = cells.note()
    pairs = [(name, name, cells.with_unit(name)) for name in there]
    if measure or value:
        with in_column("measure"):
            pairs.append(("value", measure_called(measure).value, cells.numbers("value")))
    for column, name, typed in pairs:
        with in_column(column):
            one = typed_reading(name, typed, cells.customs.measures, take.form, sure=take.sure)
        yield FileRow(cells.row.line, NewReadings(unit, day, (replace(one, note=note),), minute), column)


def _costs(cells: Cells, take: Take) -> Iterator[FileRow]:
    place = take.names.place(cells)
    life = None
    if not cells.empty("life"):
        with in_column("life"):
            life = parse_life(cells.text("life"))
    kind = cells.word("kind", CostKind, CostKind.OPERATING if life is None else CostKind.CAPITAL)
    salvage = None if cells.empty("salvage") else cells.money("salvage").exact
    cost = NewCost(
        cells.day(),
        cells.name("what"),
        cells.money(),
        category=cells.word("category", Category, Category.OTHER),
        payee=cells.note("payee"),
        kind=kind,
        life_months=life,
        salvage_minor=salvage,
        note=cells.note(),
        label=cells.note("label"),
        again=take.sure,
        unit_id=place.get("unit_id"),
        bed_id=place.get("bed_id"),
        fish_lot_id=place.get("fish_lot_id"),
    )
    yield _row(cells, cost)


def _feedings(cells: Cells, take: Take) -> Iterator[FileRow]:
    lot = take.names.lot(cells)
    ate = None if cells.empty("ate") else cells.word("ate", Ate, Ate.ALL)
    yield _row(cells, NewFeeding(lot.id, cells.day(), cells.mass("feed"), ate, cells.note()))


def _samples(cells: Cells, take: Take) -> Iterator[FileRow]:
    number = _counted(cells, "number")
    yield _row(cells, NewSample(take.names.lot(cells).id, cells.day(), number, cells.mass("weight"), note=cells.note()))


def _losses(cells: Cells, take: Take) -> Iterator[FileRow]:
    loss = NewLoss(
        take.names.lot(cells).id,
        cells.day(),
        _counted(cells, "number"),
        cells.word("cause", LossCause, LossCause.UNKNOWN),
        None if cells.empty("disposal") else cells.word("disposal", Disposal, Disposal.OTHER),
        None if cells.empty("weight") else cells.mass("weight"),
        cells.note(),
    )
    yield _row(cells, loss)


def _plantings(cells: Cells, take: Take) -> Iterator[FileRow]:
    planting = NewPlanting(
        take.names.bed(cells),
        take.names.crop(cells),
        cells.day("started"),
        cells.word("by", StartedBy, StartedBy.TRANSPLANTING),
        variety=cells.note("variety"),
        plants=cells.number("plants"),
        note=cells.note(),
    )
    yield _row(cells, Grown(planting, None if cells.empty("cleared") else cells.day("cleared")))


def _counted(cells: Cells, column: str) -> int:
    number = cells.number(column)
    if number is None:
        raise RowRefusedError(column, f"no {column}")
    return number


def _row(cells: Cells, entry: Entry) -> FileRow:
    return FileRow(cells.row.line, entry)


READ = (DATE, UNIT, TIME, MEASURE, VALUE, *(_measure_column(one) for one in Measure), NOTE)
PAID = (
    DATE,
    Column("what", needed=True, also=("item", "description")),
    Column("amount", needed=True, also=("paid", "cost", "total")),
    Column("category"),
    Column("payee", also=("paid to", "supplier", "vendor", "shop")),
    Column("for", also=("unit", "place")),
    Column("kind"),
    Column("life"),
    Column("salvage"),
    Column("label"),
    NOTE,
)
FED = (
    DATE,
    LOT,
    Column("feed", needed=True, also=("weight", "amount", "fed"), unit_of=mass_unit),
    Column("ate", also=("eaten",)),
    NOTE,
)
WEIGHED = (
    DATE,
    LOT,
    Column("number", needed=True, also=("count",)),
    Column("weight", needed=True, unit_of=mass_unit),
    NOTE,
)
LOST = (
    DATE,
    LOT,
    Column("number", needed=True, also=("count", "dead", "died")),
    Column("cause"),
    Column("disposal"),
    Column("weight", unit_of=mass_unit),
    NOTE,
)
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
KINDS: Mapping[str, Kind] = {
    one.name: one
    for one in (
        Kind("readings", READ, _readings),
        Kind("costs", PAID, _costs),
        Kind("feedings", FED, _feedings),
        Kind("samples", WEIGHED, _samples),
        Kind("losses", LOST, _losses),
        Kind("plantings", PLANTED, _plantings),
    )
}
