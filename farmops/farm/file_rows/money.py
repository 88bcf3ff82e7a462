"""Rows about money paid: costs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import costs as cost_facts
from farmops.farm.costs import ask_about_a_double, cost_row
from farmops.farm.file_rows.booking import Book, Booking, Mark, alike
from farmops.farm.operation import Operation
from farmops.model.costs import Cost, NewCost
from farmops.records.base import Row
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


BOOKINGS: dict[str, Booking[Any]] = {"costs": Booking(_new_cost_mark, _costs_held, _book_costs)}
