"""What the tables say of readings: in their order, the latest of each, what kits report."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts import instruments, readings
from farmops.model.instruments import Instrument, InstrumentCheck
from farmops.model.readings import NITROGEN, Doubt, Form, Measure, Reading
from farmops.records.chores import SettlementRow
from farmops.records.readings import InstrumentCheckRow, InstrumentRow, ReadingRow
from farmops.records.units import UnitRow
from tests.facts.of_limits import readings_in_order
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, in_span, says

COLUMNS = ("id", "day", "minute", "unit_id", "value", "typed", "settlement_id", "note", "operation")


def _reading(rows: Tables, row: ReadingRow) -> Reading:
    return Reading(
        **columns(row, *COLUMNS),
        unit=rows.get(UnitRow, row.unit_id).code,
        measure=Measure(row.measure),
        form=Form(row.form) if row.form else None,
        instrument_id=row.instrument_id,
        instrument=rows.get(InstrumentRow, row.instrument_id).name if row.instrument_id else None,
        doubt=_doubt(rows, row),
    )


def _doubt(rows: Tables, row: ReadingRow) -> Doubt | None:
    """Failed: at the check next to it, or at the last one before; else past the date."""
    if row.instrument_id is None:
        return None
    checks = sorted(
        (one for one in rows[InstrumentCheckRow] if one.instrument_id == row.instrument_id),
        key=lambda one: (one.day, one.id),
    )
    before, after = [one for one in checks if one.day < row.day], [one for one in checks if one.day >= row.day]
    if not all(one.passed for one in [*before[-1:], *after[:1]]):
        return Doubt.FAILED
    expires = rows.get(InstrumentRow, row.instrument_id).expires_day
    return Doubt.EXPIRED if expires and expires < row.day else None


@says(readings.readings)
def readings_of_spans(rows: Tables) -> Iterator[Answer]:
    every = readings_in_order(rows)
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
    held = {(row.unit_id, row.measure): row for row in readings_in_order(rows) if row.day <= on}
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


def _instrument(row: InstrumentRow) -> Instrument:
    names = ("id", "name", "measures", "from_day", "expires_day", "until_day", "check_days", "note")
    return Instrument(**columns(row, *names), form=Form(row.form) if row.form else None)


@says(instruments.instruments)
def every_instrument(rows: Tables) -> Iterator[Answer]:
    yield (), [_instrument(row) for row in sorted(rows[InstrumentRow], key=lambda row: (row.from_day, row.id))]


@says(instruments.instrument)
def each_instrument(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[InstrumentRow]:
        yield (row.id,), _instrument(row)


def _check(rows: Tables, row: InstrumentCheckRow) -> InstrumentCheck:
    names = ("id", "day", "instrument_id", "passed", "against", "showed", "note")
    return InstrumentCheck(**columns(row, *names), instrument=rows.get(InstrumentRow, row.instrument_id).name)


@says(instruments.checks)
def every_check(rows: Tables) -> Iterator[Answer]:
    yield (), [_check(rows, row) for row in sorted(rows[InstrumentCheckRow], key=lambda row: (row.day, row.id))]


@says(instruments.check)
def each_check(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[InstrumentCheckRow]:
        yield (row.id,), _check(rows, row)


@says(instruments.read_with)
def what_is_read_with(rows: Tables) -> Iterator[Answer]:
    for day in (*DAYS, date(2026, 8, 11)):
        found = {}
        for measure in Measure:
            able = [
                row
                for row in rows[InstrumentRow]
                if measure.value in row.measures.split(",") and row.from_day <= day <= (row.until_day or date.max)
            ]
            used = {row.unit_id: row for row in readings_in_order(rows) if row.measure == measure and row.day <= day}
            last = [row for row in used.values() if row.instrument_id in [one.id for one in able]]
            if last:
                newest = max(last, key=lambda row: (row.day, row.id))
                found[measure] = _instrument(rows.get(InstrumentRow, newest.instrument_id))
            elif len(able) == 1:
                found[measure] = _instrument(able[0])
        yield (day,), found


@says(instruments.doubtful)
def how_many_are_doubtful(rows: Tables) -> Iterator[Answer]:
    for one in rows[InstrumentRow]:
        own = [row for row in rows[ReadingRow] if row.instrument_id == one.id]
        yield (one.id,), sum(1 for row in own if _doubt(rows, row) is Doubt.FAILED)
    yield (9999,), 0
