"""Files about what the water is read with and held to: instruments, their checks, limits of one's own."""

from __future__ import annotations

from farmops.exchange.cells import AN_AGE, Cells, RowRefusedError, in_column
from farmops.exchange.columns import BY_NUMBER, Column
from farmops.exchange.file_kinds.kind import DATE, FROM, NOTE, UNIT, Kind, Take, as_said, each
from farmops.farm.file_rows.instruments import InstrumentSaid
from farmops.model.instruments import NewCheck
from farmops.model.limits import NewOwnLimit
from farmops.model.readings import READ_IN, Form, Measure, measure_called
from farmops.quantities.readings import typed_reading
from farmops.science.judging import as_nitrogen


def _instrument(cells: Cells, _: Take) -> InstrumentSaid:
    return InstrumentSaid(
        cells.name("instrument"),
        _measures(cells),
        cells.day_or_none("from"),
        _form(cells),
        cells.day_or_none("expires", AN_AGE),
        cells.day_or_none("until"),
        cells.number("check-days"),
        cells.note(),
    )


def _measures(cells: Cells) -> tuple[Measure, ...]:
    with in_column("reads"):
        return tuple(measure_called(word) for word in cells.text("reads").replace("+", ",").split(",") if word.strip())


def _form(cells: Cells) -> Form | None:
    if cells.empty("reports"):
        return None
    said = cells.text("reports").lower().removeprefix("as ").strip()
    if said not in FORMS:
        raise RowRefusedError("reports", f"understood: {', '.join(FORMS)}")
    return FORMS[said]


def _check(cells: Cells, take: Take) -> NewCheck:
    instrument, day, passed = take.names.instrument(cells), cells.day(), cells.yes("passed")
    if passed is None:
        raise RowRefusedError("passed", "no passed; say yes or no")
    return NewCheck(instrument, day, passed, cells.note("against"), cells.note("showed"), cells.note())


def _limit(cells: Cells, take: Take) -> NewOwnLimit:
    with in_column("measure"):
        measure = measure_called(cells.text("measure"))
    low, high = (_bound(cells, column, measure) for column in ("low", "high"))
    unit = None if cells.empty("unit") else take.names.unit(cells)
    return NewOwnLimit(cells.day("from"), measure, low, high, unit, cells.note())


def _bound(cells: Cells, column: str, measure: Measure) -> float | None:
    """A limit; in a file that names units by number, as an export does, in the unit it is stored in."""
    if cells.empty(column):
        return None
    typed = cells.with_unit(column)
    if cells.customs.units.get("unit") == BY_NUMBER:
        typed = f"{typed} {READ_IN[measure]}"
    with in_column(column):
        read = typed_reading(measure, typed, cells.customs.measures)
        return as_nitrogen(read.measure, read.value, read.form or Form.AS_N)


FORMS = {"n": Form.AS_N, "ion": Form.AS_ION}
INSTRUMENTS = (
    Column("instrument", needed=True, also=("name", "kit", "meter")),
    Column("reads", also=("measures", "measure")),
    FROM,
    Column("reports", also=("form",)),
    Column("expires", also=("expires day", "expiry", "use by")),
    Column("until", also=("until day", "retired")),
    Column("check-days", also=("check days", "check every")),
    NOTE,
)
CHECKS = (
    DATE,
    Column("instrument", needed=True, also=("name", "kit", "meter"), numbered=("instrument id",)),
    Column("passed", needed=True, also=("ok", "good")),
    Column("against", also=("held against",)),
    Column("showed", also=("shown", "read")),
    NOTE,
)
LIMITS = (
    FROM,
    Column("measure", needed=True, also=("what", "parameter")),
    Column("low", also=("min", "at least"), unit_of=as_said),
    Column("high", also=("max", "at most"), unit_of=as_said),
    UNIT,
    NOTE,
)
KINDS = (
    Kind("instruments", INSTRUMENTS, each(_instrument)),
    Kind("instrument checks", CHECKS, each(_check)),
    Kind("own limits", LIMITS, each(_limit)),
)
