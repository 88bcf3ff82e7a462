"""Readings: booked alone, as a row of one unit, or with the doing of a chore; nitrogen compounds kept as N."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from farmops.facts import readings as reading_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused, Unlikely
from farmops.model.readings import (
    NITROGEN,
    Form,
    Measure,
    NewReading,
    NewReadings,
    Reading,
    ReadingChange,
    ReadingsBooked,
    form_of,
)
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep
from farmops.quantities.readings import check_possible, question
from farmops.records.readings import ReadingRow
from farmops.records.units import UnitRow
from farmops.science.judging import as_nitrogen

MINUTES_A_DAY = 1440


@operation("readings")
def record_readings(op: Operation, entry: NewReadings) -> ReadingsBooked:
    """Book the readings of one unit together. Asks once about an unlikely value: raises Unlikely."""
    unit = op.get(UnitRow, entry.unit_id)
    if not entry.readings:
        raise Refused("Not booked: no reading was given.")
    rows = reading_rows(op, unit.id, entry.day, entry.readings, minute=entry.minute)
    return ReadingsBooked(tuple(_reading(op, op.add(row).id) for row in rows))


@operation("change reading")
def change_reading(op: Operation, entry: ReadingChange) -> Reading:
    """Correct a reading: its day, its hour, its value."""
    row = op.get(ReadingRow, entry.reading_id)
    values = mapped(given(entry, "day", "minute", "note"), day=op.sensible_day, note=note_of)
    if not isinstance(entry.read, Keep):
        if entry.read.measure.value != row.measure:
            raise Refused(f"Not changed: this reads {row.measure}. Remove it, and book the other measure anew.")
        held = {Measure(row.measure): Form(row.form)} if row.form else {}
        values |= _columns(op, entry.read, held)
    return _reading(op, op.change(row, **values).id)


def reading_rows(
    op: Operation,
    unit_id: int,
    day: date,
    entries: Iterable[NewReading],
    *,
    minute: int | None = None,
    settlement_id: int | None = None,
) -> list[ReadingRow]:
    """The rows of new readings, not written yet. Raises OutOfRange or Unlikely before anything is."""
    op.sensible_day(day)
    forms = reading_facts.last_forms(op.reader)
    rows = [
        ReadingRow(
            day=day,
            minute=minute,
            unit_id=unit_id,
            settlement_id=settlement_id,
            note=note_of(one.note),
            **_columns(op, one, forms),
        )
        for one in entries
    ]
    for row in rows:
        can_be(op, row)
    return rows


def _columns(op: Operation, entry: NewReading, forms: Mapping[Measure, Form]) -> dict[str, Any]:
    measure, form = entry.measure, form_of(entry.measure, entry.form, forms)
    check_possible(entry.value, measure, op.farm.measures)
    value = as_nitrogen(measure, entry.value, form)
    asked = question(value, measure, op.farm.measures)
    if asked and not entry.sure:
        raise Unlikely(f"Not booked yet: {asked}")
    return {
        "measure": measure.value,
        "value": value,
        "form": form.value if form else None,
        "typed": name_of(entry.typed, "reading"),
    }


@rule(ReadingRow, alone=True)
def can_be(op: Operation, row: ReadingRow) -> None:
    """A reading can be what it says, and only a nitrogen compound has a form."""
    measure = Measure(row.measure)
    check_possible(row.value, measure, op.farm.measures)
    if (row.form is not None) != (measure in NITROGEN):
        forms = "as N or as ion" if row.form is None else "in one form only"
        raise Refused(f"Not booked: {measure} is reported {forms}.")
    if row.minute is not None and not 0 <= row.minute < MINUTES_A_DAY:
        raise Refused("Not booked: a time of day lies between 00:00 and 23:59.")


def _reading(op: Operation, id: int) -> Reading:
    found = reading_facts.reading(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
