"""Readings: booked alone, as a row of one unit, or with the doing of a chore; nitrogen compounds kept as N."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from farmops.facts import instruments as instrument_facts
from farmops.facts import readings as reading_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused, Unlikely
from farmops.model.instruments import Instrument
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
from farmops.records.readings import InstrumentRow, ReadingRow
from farmops.records.units import UnitRow
from farmops.science.judging import as_nitrogen

MINUTES_A_DAY = 1440

Known = tuple[Mapping[Measure, Form], Mapping[Measure, Instrument]]
"""The form in which each measure was read last, and what it is read with on a day."""


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
    values = mapped(given(entry, "day", "minute", "note", "instrument_id"), day=op.past_day, note=note_of)
    if isinstance(entry.instrument_id, int):
        op.get(InstrumentRow, entry.instrument_id)
    if not isinstance(entry.read, Keep):
        if entry.read.measure.value != row.measure:
            raise Refused(f"Not changed: this reads {row.measure}. Remove it, and book the other measure anew.")
        held = {Measure(row.measure): Form(row.form)} if row.form else {}
        values |= _columns(op, entry.read, form_of(entry.read.measure, entry.read.form, held))
    return _reading(op, op.change(row, **values).id)


def reading_rows(
    op: Operation,
    unit_id: int,
    day: date,
    entries: Iterable[NewReading],
    *,
    minute: int | None = None,
    settlement_id: int | None = None,
    known: Known | None = None,
) -> list[ReadingRow]:
    """The rows of new readings, not written yet. Raises OutOfRange or Unlikely before anything is.

    What is `known` of the day need not be read again.
    """
    op.past_day(day)
    forms, usual = known or (reading_facts.last_forms(op.reader), instrument_facts.read_with(op.reader, day))
    rows = [
        ReadingRow(
            day=day,
            minute=minute,
            unit_id=unit_id,
            settlement_id=settlement_id,
            note=note_of(one.note),
            instrument_id=instrument.id if instrument else None,
            **_columns(op, one, _form_with(instrument, one, forms)),
        )
        for one, instrument in ((one, _instrument(op, one, usual)) for one in entries)
    ]
    for row in rows:
        can_be(op, row)
    return rows


def _instrument(op: Operation, entry: NewReading, usual: Mapping[Measure, Instrument]) -> Instrument | None:
    """What a measure was read with: what was said, else what it is read with."""
    if isinstance(entry.instrument_id, Keep):
        return usual.get(entry.measure)
    if entry.instrument_id is None:
        return None
    return instrument_facts.instrument(op.reader, op.get(InstrumentRow, entry.instrument_id).id)


def _form_with(instrument: Instrument | None, entry: NewReading, last: Mapping[Measure, Form]) -> Form | None:
    """The form of a reading: the one said, else what its instrument reports, else the one it was read in last."""
    return form_of(entry.measure, entry.form or (instrument.form if instrument else None), last)


def _columns(op: Operation, entry: NewReading, form: Form | None) -> dict[str, Any]:
    measure = entry.measure
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
