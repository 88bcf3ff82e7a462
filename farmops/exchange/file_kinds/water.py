"""Files about the water: readings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, UNIT, Kind, Take
from farmops.farm.file_rows import FileRow
from farmops.model.readings import ALSO_CALLED, Measure, NewReadings, measure_called
from farmops.quantities.readings import typed_reading

TIME = Column("time", also=("hour",))
MEASURE, VALUE = Column("measure", also=("what", "parameter")), Column("value", also=("reading", "result"))
MEASURES = {one.value: one for one in Measure}


def _as_said(text: str) -> str:
    return text


def _measure_column(measure: Measure) -> Column:
    short = tuple(word for word, meant in ALSO_CALLED.items() if meant is measure)
    return Column(measure.value, also=short, unit_of=_as_said)


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


READ = (DATE, UNIT, TIME, MEASURE, VALUE, *(_measure_column(one) for one in Measure), NOTE)
KINDS = (Kind("readings", READ, _readings),)
