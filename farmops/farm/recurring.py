"""Costs that come again: described, ended, and booked one time after the other by a person."""

from __future__ import annotations

from typing import Any

from farmops.facts import recurring as recurring_facts
from farmops.farm.cost_labels import known_label
from farmops.farm.costs import add_cost
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.costs import Cost, NewCost
from farmops.model.errors import OutOfRange, Refused
from farmops.model.recurring import NewRecurring, NewTime, RecurringChange, RecurringCost
from farmops.model.text import name_of, note_of
from farmops.model.values import Measured
from farmops.records.costs import RecurringCostRow
from farmops.records.units import UnitRow
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import OnCalendar
from farmops.schedule.words import in_words, parse_words


@operation("recurring cost")
def add_recurring(op: Operation, entry: NewRecurring) -> RecurringCost:
    """Describe a cost that comes again; nothing is booked by it."""
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    comes = _rule_of(op, entry)
    row = op.add(
        RecurringCostRow(
            what=_what(entry.what),
            category=entry.category.value,
            payee=note_of(entry.payee, "payee"),
            amount_minor=entry.amount.exact,
            amount_typed=entry.amount.typed,
            unit_id=entry.unit_id,
            rule_text=comes.rrule,
            rule_words=in_words(comes),
            start_day=op.sensible_day(comes.start),
            until_day=op.sensible_end(entry.until_day),
            label=known_label(op, entry.label),
            note=note_of(entry.note),
        )
    )
    return _recurring(op, row.id)


def _rule_of(op: Operation, entry: NewRecurring) -> OnCalendar:
    if entry.literal:
        return parse_rrule(entry.rule, entry.start_day, op.farm.time_zone)
    comes = parse_words(entry.rule, entry.start_day)
    if not isinstance(comes, OnCalendar):
        raise Refused("Not booked: a cost comes again on the calendar, such as 'month on the 1st' or 'year on 3 may'.")
    return comes


@operation("change recurring cost")
def change_recurring(op: Operation, entry: RecurringChange) -> RecurringCost:
    """Correct what comes again, or end it; what is booked already stays as it is."""
    row = op.get(RecurringCostRow, entry.recurring_id)
    names = ("what", "category", "payee", "unit_id", "until_day", "label", "note")
    values: dict[str, Any] = mapped(
        given(entry, *names), what=_what, category=str, payee=note_of, until_day=op.sensible_end, note=note_of
    )
    if values.get("unit_id") is not None:
        op.get(UnitRow, values["unit_id"])
    if values.get("label") is not None:
        values["label"] = known_label(op, values["label"])
    op.change(row, **values, **measured(entry.amount, "amount_minor", "amount_typed"))
    return _recurring(op, row.id)


@operation("recurring cost paid")
def book_time(op: Operation, entry: NewTime) -> Cost:
    """Book the time of a recurring cost that is open first. Refuses one that is booked already."""
    op.get(RecurringCostRow, entry.recurring_id)
    one = _recurring(op, entry.recurring_id)
    open_first = next(recurring_facts.open_days(one), None)
    if open_first != entry.due_day:
        said = f"the next one is of {open_first}" if open_first else "it is over"
        raise Refused(f"Not booked: {one.what} of {entry.due_day} is not open; {said}.")
    cost = NewCost(
        entry.day or entry.due_day,
        one.what,
        entry.amount or Measured(one.amount_minor, one.amount_typed),
        one.category,
        one.payee,
        one.unit_id,
        label=one.label,
        again=entry.again,
    )
    return add_cost(op, cost, recurring_cost_id=one.id)


@rule(RecurringCostRow, alone=True)
def is_more_than_nothing_and_ends_after_it_began(op: Operation, row: RecurringCostRow) -> None:
    """What comes again costs something, and its last day is not before its first."""
    if row.amount_minor <= 0:
        raise OutOfRange("Not booked: a cost is more than nothing.")
    if row.until_day is not None and row.until_day < row.start_day:
        raise Refused(f"Not booked: {row.what} would end on {row.until_day}, before it begins on {row.start_day}.")


def _what(text: str) -> str:
    return name_of(text, "name of what is paid for")


def _recurring(op: Operation, id: int) -> RecurringCost:
    found = recurring_facts.recurring_cost(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
