"""Use of pumps, feed and siphons: booked as it is read off, and corrected."""

from __future__ import annotations

from farmops.facts import usage as usage_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import OutOfRange, Refused
from farmops.model.text import note_of
from farmops.model.usage import Counter, NewUsage, Usage, UsageChange
from farmops.records.readings import UsageRow
from farmops.records.units import UnitRow
from farmops.schedule.stored import LARGEST
from farmops.schedule.use_words import amount_words

MINUTES_A_DAY = 1440


@operation("usage")
def record_usage(op: Operation, entry: NewUsage) -> Usage:
    """Book how much a part of a unit worked since the record before."""
    op.get(UnitRow, entry.unit_id)
    row = op.add(
        UsageRow(
            day=op.past_day(entry.day),
            unit_id=entry.unit_id,
            counter=entry.counter.value,
            note=note_of(entry.note),
            **measured(entry.amount, "amount", "typed"),
        )
    )
    _check_hours(op, row)
    return _usage(op, row.id)


@operation("change usage")
def change_usage(op: Operation, entry: UsageChange) -> Usage:
    """Correct a record of use: its day, how much it was."""
    row = op.get(UsageRow, entry.usage_id)
    values = mapped(given(entry, "day", "note"), day=op.past_day, note=note_of)
    op.change(row, **values, **measured(entry.amount, "amount", "typed"))
    _check_hours(op, row)
    return _usage(op, row.id)


@rule(UsageRow, alone=True)
def can_be_used(op: Operation, row: UsageRow) -> None:
    """Something was used, and no more than ever could be."""
    counter = Counter(row.counter)
    if not 0 < row.amount <= LARGEST[counter]:
        raise OutOfRange(f"Not booked: {amount_words(counter, row.amount, op.farm.measures)} is no amount of use.")


def _check_hours(op: Operation, row: UsageRow) -> None:
    """A pump runs 24 hours a day at most: more is the meter itself, not what it counted since the last record."""
    if row.counter != Counter.PUMP_HOURS.value:
        return
    before = usage_facts.day_before(op.reader, row.unit_id, Counter.PUMP_HOURS, row.day, besides=row.id)
    if before is not None and row.amount > ((row.day - before).days + 1) * MINUTES_A_DAY:
        raise Refused(
            f"Not booked: {amount_words(Counter.PUMP_HOURS, row.amount)} since {before} is more than a pump can run. "
            "Book the hours since the last record, not what the meter shows."
        )


def _usage(op: Operation, id: int) -> Usage:
    found = usage_facts.usage(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
