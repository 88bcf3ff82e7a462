"""Standing orders: what a buyer takes again and again, by a rule of the calendar, from a day until a day."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.facts import sales as sale_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.sales import buyer_of, check_terms
from farmops.model.errors import Refused
from farmops.model.sales import NewOrder, OrderChange, StandingOrder, Terms
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep
from farmops.records.plantings import CropRow
from farmops.records.sales import StandingOrderRow
from farmops.schedule.rules import OnCalendar
from farmops.schedule.stored import rule_text
from farmops.schedule.words import in_words, parse_words


@operation("standing order")
def record_order(op: Operation, entry: NewOrder) -> StandingOrder:
    """A buyer wants so much of a crop, or of fish of a species, on the days of a rule."""
    if entry.crop_id is not None:
        op.get(CropRow, entry.crop_id)
    day = op.sensible_day(entry.start_day)
    row = op.add(
        StandingOrderRow(
            buyer=buyer_of(entry.buyer),
            crop_id=entry.crop_id,
            species=name_of(entry.species, "species").lower() if entry.species else None,
            start_day=day,
            until_day=op.sensible_end(entry.until_day),
            note=note_of(entry.note),
            **_terms(entry.terms),
            **_rule(entry.rule, day),
        )
    )
    return _order(op, row.id)


@operation("change standing order")
def change_order(op: Operation, entry: OrderChange) -> StandingOrder:
    """Correct a standing order, or end it: `until_day` is the last day it is wanted."""
    row = op.get(StandingOrderRow, entry.order_id)
    values = given(entry, "buyer", "start_day", "until_day", "note")
    values = mapped(values, buyer=buyer_of, note=note_of, start_day=op.sensible_day, until_day=op.sensible_end)
    if not isinstance(entry.terms, Keep):
        values |= _terms(entry.terms)
    start = values.get("start_day", row.start_day)
    if not isinstance(entry.rule, Keep):
        values |= _rule(entry.rule, start)
    elif start != row.start_day:
        values |= _rule(row.rule_words, start)
    op.change(row, **values)
    return _order(op, row.id)


def _terms(terms: Terms) -> dict[str, Any]:
    return {
        "sold_by": terms.sold_by.value,
        "amount": terms.amount.exact,
        "amount_typed": terms.amount.typed,
        "price_minor": terms.price_minor,
        "per_amount": terms.per_amount,
        "price_typed": terms.price_typed,
    }


def _rule(words: str, start: date) -> dict[str, Any]:
    """The columns of a rule of the calendar. Raises NotUnderstood, and Refused for any other rule."""
    rule = parse_words(words, start)
    if not isinstance(rule, OnCalendar):
        raise Refused("Not booked: an order comes on days of the calendar, such as Tue Fri, week, or 2 weeks on Sat.")
    return {"rule_text": rule_text(rule)[1], "rule_words": in_words(rule)}


@rule(StandingOrderRow, alone=True)
def wants_something_sensible(op: Operation, row: StandingOrderRow) -> None:
    """An order is of one crop or species, of more than nothing, and does not end before it begins."""
    if (row.crop_id is None) == (row.species is None):
        raise Refused("Not booked: an order is of one crop or of fish of one species.")
    check_terms(row.amount, row.price_minor, row.per_amount)
    if row.until_day is not None and row.until_day < row.start_day:
        raise Refused(f"Not booked: the order would end on {row.until_day}, before it begins on {row.start_day}.")


def _order(op: Operation, id: int) -> StandingOrder:
    found = sale_facts.order(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
