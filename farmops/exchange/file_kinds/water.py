"""Files about the water: readings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, TIME, UNIT, Kind, Take, as_said
from farmops.farm.file_rows import FileRow
from farmops.model.readings import ALSO_CALLED, Measure, NewReading, NewReadings, measure_called
from farmops.quantities.readings import typed_reading

MEASURE = Column("measure", also=("what", "parameter"))
VALUE = Column("value", also=("reading", "result", "typed"))


def _measure_column(measure: Measure) -> Column:
    short = tuple(word for word, meant in ALSO_CALLED.items() if meant is measure)
    return Column(measure.value, also=short, unit_of=as_said)


def values_read(cells: Cells, take: Take) -> Iterator[tuple[str, NewReading]]:
    """Long rows name a measure and its value, wide ones have a column for each; a row may do both."""
    measure, value = cells.text("measure"), cells.text("value")
    pairs = [(one.value, one.value, cells.with_unit(one)) for one in Measure if not cells.empty(one)]
    if (measure and value) or (pairs and (measure or value)):
        with in_column("measure"):
            pairs.append(("value", measure_called(measure).value, cells.numbers("value")))
    for column, name, typed in pairs:
        with in_column(column):
            yield column, typed_reading(name, typed, cells.customs.measures, take.form, sure=take.sure)


def _readings(cells: Cells, take: Take) -> Iterator[FileRow]:
    day, minute, unit = cells.day(), cells.minute(), take.names.unit(cells)
    found, note = list(values_read(cells, take)), cells.note()
    if not found:
        raise RowRefusedError(None, "nothing was read: no measure with its value")
    for column, one in found:
        yield FileRow(cells.row.line, NewReadings(unit, day, (replace(one, note=note),), minute), column)


MEASURES = tuple(_measure_column(one) for one in Measure)
READ = (DATE, UNIT, TIME, MEASURE, VALUE, *MEASURES, NOTE)
KINDS = (Kind("readings", READ, _readings),)
