"""What the tables say of readings: in their order, the latest of each, what kits report."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts import readings
from farmops.model.readings import NITROGEN, Form, Measure, Reading
from farmops.records.chores import SettlementRow
from farmops.records.readings import ReadingRow
from farmops.records.units import UnitRow
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, in_span, says

COLUMNS = ("id", "day", "minute", "unit_id", "value", "typed", "settlement_id", "note", "operation")


def _reading(rows: Tables, row: ReadingRow) -> Reading:
    return Reading(
        **columns(row, *COLUMNS),
        unit=rows.get(UnitRow, row.unit_id).code,
        measure=Measure(row.measure),
        form=Form(row.form) if row.form else None,
    )


def _minute(rows: Tables, row: ReadingRow) -> int:
    """The hour of a reading; one without takes the latest of those booked before it on its day."""
    if row.minute is not None:
        return row.minute
    alike = (
        one for one in rows[ReadingRow] if (one.unit_id, one.measure, one.day) == (row.unit_id, row.measure, row.day)
    )
    return max((one.minute for one in alike if one.id < row.id and one.minute is not None), default=-1)


def _in_order(rows: Tables) -> list[ReadingRow]:
    return sorted(rows[ReadingRow], key=lambda row: (row.day, _minute(rows, row), row.id))


@says(readings.readings)
def readings_of_spans(rows: Tables) -> Iterator[Answer]:
    every = _in_order(rows)
    for span in (*SPANS, (date.min, date.max)):
        found = [row for row in every if in_span(row.day, span)]
        yield span, [_reading(rows, row) for row in found]
        for unit in rows[UnitRow]:
            own = [row for row in found if row.unit_id == unit.id]
            yield (*span, unit.id), [_reading(rows, row) for row in own]
            for measure in (Measure.PH, Measure.FILL_TIME):
                yield (
                    (*span, unit.id, measure),
                    [_reading(rows, row) for row in own if row.measure == measure.value],
                )
        yield (*span, None, Measure.NITRITE), [_reading(rows, row) for row in found if row.measure == "nitrite"]


@says(readings.reading)
def each_reading(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[ReadingRow]:
        yield (row.id,), _reading(rows, row)


def _latest(rows: Tables, on: date) -> list[ReadingRow]:
    held = {(row.unit_id, row.measure): row for row in _in_order(rows) if row.day <= on}
    kinds = [measure.value for measure in Measure]
    return sorted(held.values(), key=lambda row: (*rows.walking(row.unit_id), kinds.index(row.measure)))


@says(readings.latest)
def latest_of_each(rows: Tables) -> Iterator[Answer]:
    for day in (*DAYS, date(2026, 6, 19), date.max - timedelta(days=1)):
        found = [_reading(rows, row) for row in _latest(rows, day)]
        yield (day,), found
        yield (day, Measure.AMMONIA), [one for one in found if one.measure is Measure.AMMONIA]


@says(readings.of_settlements)
def readings_of_doings(rows: Tables) -> Iterator[Answer]:
    yield ([],), []
    ids = [row.id for row in rows[SettlementRow]]
    for some in (ids, ids[::2], [*ids[-1:], *ids[-1:], 9999]):
        found = [row for row in rows[ReadingRow] if row.settlement_id in some]
        yield (some,), [_reading(rows, row) for row in found]


@says(readings.last_forms)
def forms_of_kits(rows: Tables) -> Iterator[Answer]:
    own = sorted(_latest(rows, date.max), key=lambda row: (row.day, row.id))
    yield (), {Measure(row.measure): Form(row.form) for row in own if Measure(row.measure) in NITROGEN and row.form}
