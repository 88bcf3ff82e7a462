"""Instruments: taken into service, corrected, retired, and held against something known."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from farmops.facts import instruments as instrument_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused
from farmops.model.instruments import (
    CheckChange,
    Checked,
    Instrument,
    InstrumentChange,
    InstrumentCheck,
    NewCheck,
    NewInstrument,
)
from farmops.model.readings import NITROGEN, Measure, asked_for
from farmops.model.text import name_of, note_of, plain
from farmops.records.readings import InstrumentCheckRow, InstrumentRow, ReadingRow

LONGEST_CHECK_DAYS = 3650
OUTSIDE = """
    SELECT COUNT(*) FROM reading WHERE instrument_id = :id AND (day < :first OR day > :last)
"""


@operation("add instrument")
def add_instrument(op: Operation, entry: NewInstrument) -> Instrument:
    """Take a kit or a meter into service."""
    row = op.add(
        InstrumentRow(
            name=_free_name(op, entry.name),
            measures=_listed(entry.reads),
            form=entry.form.value if entry.form else None,
            from_day=op.sensible_day(entry.from_day),
            expires_day=entry.expires_day,
            until_day=None,
            check_days=entry.check_days,
            note=note_of(entry.note),
        )
    )
    return _instrument(op, row.id)


@operation("change instrument")
def change_instrument(op: Operation, entry: InstrumentChange) -> Instrument:
    """Correct an instrument, retire it from a day on, or take it back into service."""
    row = op.get(InstrumentRow, entry.instrument_id)
    values = mapped(
        given(entry, "name", "from_day", "form", "expires_day", "until_day", "check_days", "note"),
        name=lambda name: _free_name(op, name, besides=row.id),
        from_day=op.sensible_day,
        until_day=op.sensible_end,
        form=lambda form: form.value if form else None,
        note=note_of,
    )
    if isinstance(entry.reads, tuple):
        values["measures"] = _listed(entry.reads)
    return _instrument(op, op.change(row, **values).id)


@operation("check instrument")
def check_instrument(op: Operation, entry: NewCheck) -> Checked:
    """Book how an instrument stood against something known; a failed one makes its readings doubtful."""
    op.get(InstrumentRow, entry.instrument_id)
    row = op.add(
        InstrumentCheckRow(
            day=op.past_day(entry.day),
            instrument_id=entry.instrument_id,
            passed=entry.passed,
            against=note_of(entry.against, "value it was held against"),
            showed=note_of(entry.showed, "value it showed"),
            note=note_of(entry.note),
        )
    )
    return Checked(_check(op, row.id), instrument_facts.doubtful(op.reader, entry.instrument_id))


@operation("change instrument check")
def change_check(op: Operation, entry: CheckChange) -> Checked:
    """Correct a check: when it was, what came of it, and what was held against what."""
    row = op.get(InstrumentCheckRow, entry.check_id)
    values = given(entry, "day", "passed", "against", "showed", "note")
    op.change(row, **mapped(values, day=op.past_day, against=note_of, showed=note_of, note=note_of))
    return Checked(_check(op, row.id), instrument_facts.doubtful(op.reader, row.instrument_id))


def _listed(measures: Iterable[Measure]) -> str:
    return ",".join(one.value for one in dict.fromkeys(measures))


def _free_name(op: Operation, typed: str, besides: int | None = None) -> str:
    name = name_of(typed, "name of the instrument")
    for one in instrument_facts.instruments(op.reader):
        if one.name.casefold() == name.casefold() and one.id != besides:
            raise Refused(f"Not booked: there is an instrument {plain(one.name)} already. Give this one another name.")
    return name


@rule(InstrumentRow, alone=True)
def reads_something(op: Operation, row: InstrumentRow) -> None:
    """An instrument reads something, and its days follow each other."""
    reads = asked_for(row.measures)
    if not reads:
        raise Refused(f"Not booked: say what {row.name} reads, such as pH or ammonia.")
    if row.form is not None and not set(reads) & set(NITROGEN):
        raise Refused(
            f"Not booked: only ammonia, nitrite and nitrate are reported as N or as ion; {row.name} reads none."
        )
    if row.expires_day is not None and row.expires_day < row.from_day:
        raise Refused(f"Not booked: {row.name} was past its date, {row.expires_day}, before it came into service.")
    if row.until_day is not None and row.until_day < row.from_day:
        raise Refused(f"Not booked: {row.name} came into service on {row.from_day}, after {row.until_day}.")
    if row.check_days is not None and not 1 <= row.check_days <= LONGEST_CHECK_DAYS:
        raise Refused("Not booked: an instrument is checked every 1 to 3650 days.")


@rule(InstrumentRow)
def covers_its_readings(op: Operation, row: InstrumentRow) -> None:
    """Nothing was read with an instrument before or after its service."""
    last = row.until_day or date.max
    outside = op.reader.value(OUTSIDE, id=row.id, first=row.from_day, last=last)
    if outside:
        raise Refused(f"Not booked: {outside} readings were taken with {row.name} before or after these days.")


@rule(ReadingRow)
def was_read_with_it(op: Operation, row: ReadingRow) -> None:
    """An instrument reads what it is made for, while it is in service."""
    if row.instrument_id is None:
        return
    held = op.fact(instrument_facts.instrument, row.instrument_id)
    if held is None:
        return
    if Measure(row.measure) not in held.reads:
        raise Refused(f"Not booked: {held.name} does not read {row.measure}. Name another, or - for none.")
    if not held.serves(row.day):
        raise Refused(f"Not booked: {held.name} was not in service on {row.day}. Name another, or - for none.")


def _instrument(op: Operation, id: int) -> Instrument:
    found = instrument_facts.instrument(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _check(op: Operation, id: int) -> InstrumentCheck:
    found = instrument_facts.check(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
