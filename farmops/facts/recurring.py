"""Costs that come again, and the times of them that are not booked yet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import islice, takewhile

from farmops.model.recurring import RecurringCost
from farmops.records.reading import Reader
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rules import OnCalendar

RECURRING = """
    SELECT recurring_cost.id, recurring_cost.what, recurring_cost.category, recurring_cost.payee,
        recurring_cost.amount_minor, recurring_cost.amount_typed, recurring_cost.unit_id, unit.code AS unit,
        recurring_cost.rule_text, recurring_cost.rule_words, recurring_cost.start_day, recurring_cost.until_day,
        recurring_cost.label, recurring_cost.note,
        (SELECT COUNT(*) FROM cost WHERE cost.recurring_cost_id = recurring_cost.id) AS booked
    FROM recurring_cost LEFT JOIN unit ON unit.id = recurring_cost.unit_id
"""


def recurring_costs(reader: Reader) -> list[RecurringCost]:
    """Every cost that comes again, in the order of their first days."""
    return reader.all(RecurringCost, f"{RECURRING} ORDER BY recurring_cost.start_day, recurring_cost.id")


def recurring_cost(reader: Reader, id: int) -> RecurringCost | None:
    """The recurring cost of that id."""
    return reader.one(RecurringCost, f"{RECURRING} WHERE recurring_cost.id = :id", id=id)


def open_days(one: RecurringCost) -> Iterator[date]:
    """The days on which it falls and that are not booked, earliest first: each booking settles the first of them."""
    days = islice(occurrences(OnCalendar(one.rule_text, one.start_day)), one.booked, None)
    until = one.until_day
    return days if until is None else takewhile(lambda day: day <= until, days)
