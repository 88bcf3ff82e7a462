"""Rows about selling: lines of sales, standing orders, and what produce and fish are worth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from farmops.facts import costs as cost_facts
from farmops.facts import sales as sale_facts
from farmops.farm.costs import set_price
from farmops.farm.file_rows.booking import Book, Booking, Mark, alike, by
from farmops.farm.file_rows.days import Standing, once_a_day
from farmops.farm.operation import Operation
from farmops.farm.orders import record_order
from farmops.farm.sales import add_line, record_sale
from farmops.model.costs import NewPrice
from farmops.model.frozen import dataclass
from farmops.model.sales import NewOrder, NewSale, NewSaleLine, SaleLine, StandingOrder
from farmops.quantities import Price, show_price
from farmops.records.costs import PriceRow
from farmops.records.reading import Reader


@dataclass(frozen=True, slots=True)
class SoldLine:
    """A line of a sale as a row says it. Lines of one day, buyer and `slip` are one sale; the note is the first's."""

    day: date
    buyer: str
    line: NewSaleLine
    note: str | None = None
    slip: str | None = None

    @property
    def sale(self) -> Mark:
        """What the lines of one sale have in common."""
        return self.day, alike(self.buyer), alike(self.slip)


def _book_lines(op: Operation) -> Book[SoldLine]:
    """The first line of a sale makes it; one that is refused makes none, and the next is then the first."""
    made: dict[Mark, int] = {}

    def book(one: SoldLine) -> Sequence[Any]:
        with op.attempt():
            if one.sale in made:
                id = add_line(op, made[one.sale], one.line).id
            else:
                id = record_sale.body(op, NewSale(one.day, one.buyer, (one.line,), one.note)).id
        made[one.sale] = id
        return ()

    return book


def _lines_held(reader: Reader, entries: Sequence[SoldLine]) -> Iterator[Mark]:
    days = [one.day for one in entries]
    for sale in sale_facts.sales(reader, min(days), max(days)):
        for line in sale.lines:
            yield sale.day, alike(sale.buyer), _line_mark(line)


def _line_mark(one: SaleLine | NewSaleLine) -> Mark:
    """What came back may be booked later, and makes no other line of it."""
    terms = one.terms
    price = terms.price_minor, terms.per_amount
    return one.planting_id, one.fish_lot_id, terms.sold_by, terms.amount.exact, price


def _order_mark(one: NewOrder | StandingOrder) -> Mark:
    rule = one.rule if isinstance(one, NewOrder) else one.rule_words
    if isinstance(one, NewOrder):
        terms: Mark = one.terms.sold_by, one.terms.amount.exact, one.terms.price_minor, one.terms.per_amount
    else:
        terms = one.sold_by, one.amount, one.price_minor, one.per_amount
    return alike(one.buyer), one.crop_id, one.species, terms, rule, one.start_day


def _priced(op: Operation, entry: NewPrice) -> Standing | None:
    for one in cost_facts.prices(op.reader):
        if (one.crop_id, one.species, one.from_day) == (entry.crop_id, entry.species, entry.from_day):
            same = one.price_minor * entry.per_mg == entry.price_minor * one.per_mg
            price = show_price(Price(one.price_minor, one.per_mg), op.farm.measures)
            return Standing(PriceRow, one.id, same, f"{one.what} is worth {price} from {one.from_day}")
    return None


BOOKINGS: dict[str, Booking[Any]] = {
    "sales": Booking(lambda one: (one.day, alike(one.buyer), _line_mark(one.line)), _lines_held, _book_lines),
    "orders": Booking(
        _order_mark,
        lambda reader, entries: map(_order_mark, sale_facts.orders(reader)),
        by(record_order.body),
        one_by_one=True,
    ),
    "prices": once_a_day(_priced, set_price.body),
}
