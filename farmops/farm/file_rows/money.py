"""Rows about money paid: costs, what of them comes again, and what an hour of work is worth."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import costs as cost_facts
from farmops.facts import labour as labour_facts
from farmops.facts import recurring as recurring_facts
from farmops.farm.costs import ask_about_a_double, cost_row
from farmops.farm.file_rows.booking import Book, Booking, Mark, alike, by
from farmops.farm.file_rows.days import Standing, once_a_day
from farmops.farm.operation import Operation
from farmops.farm.recurring import add_recurring
from farmops.farm.sharing import set_labour_rate
from farmops.model.costs import Cost, NewCost, NewLabourRate
from farmops.model.recurring import NewRecurring, RecurringCost
from farmops.quantities import show_money
from farmops.records.base import Row
from farmops.records.costs import LabourRateRow
from farmops.records.reading import Reader


def _book_costs(op: Operation) -> Book[NewCost]:
    def book(entry: NewCost) -> Sequence[Row]:
        row = cost_row(op, entry)
        if not entry.again:
            ask_about_a_double(op, row)
        return [row]

    return book


def _costs_held(reader: Reader, entries: Sequence[NewCost]) -> list[Mark]:
    days = [one.day for one in entries]
    return [_cost_mark(one) for one in cost_facts.costs(reader, min(days), max(days))]


def _cost_mark(one: Cost) -> Mark:
    unit = None if one.bed_id or one.fish_lot_id else one.unit_id
    return one.day, alike(one.what), one.amount_minor, alike(one.payee), (unit, one.bed_id, one.fish_lot_id)


def _new_cost_mark(one: NewCost) -> Mark:
    places = (one.unit_id, one.bed_id, one.fish_lot_id)
    return one.day, alike(one.what), one.amount.exact, alike(one.payee), places


def _recurring_mark(one: NewRecurring | RecurringCost) -> Mark:
    amount, rule = (one.amount.exact, one.rule) if isinstance(one, NewRecurring) else (one.amount_minor, one.rule_words)
    return alike(one.what), amount, alike(one.payee), one.unit_id, rule, one.start_day


def _rated(op: Operation, entry: NewLabourRate) -> Standing | None:
    for one in labour_facts.rates(op.reader):
        if (one.person_id, one.from_day) == (entry.person_id, entry.from_day):
            rate = show_money(one.rate_minor, op.farm.measures)
            words = f"an hour of {one.person or 'everybody'} is worth {rate} from {one.from_day}"
            return Standing(LabourRateRow, one.id, one.rate_minor == entry.rate.exact, words)
    return None


BOOKINGS: dict[str, Booking[Any]] = {
    "costs": Booking(_new_cost_mark, _costs_held, _book_costs),
    "recurring costs": Booking(
        _recurring_mark,
        lambda reader, entries: map(_recurring_mark, recurring_facts.recurring_costs(reader)),
        by(add_recurring.body),
        one_by_one=True,
    ),
    "labour rates": once_a_day(_rated, set_labour_rate.body),
}
