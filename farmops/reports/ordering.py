"""Standing orders: which are wanted on a day, what of them is sold already, and the sale that fills them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import sales as sale_facts
from farmops.facts.reading import Reader, Store
from farmops.model.errors import NotFound, Refused
from farmops.model.frozen import dataclass
from farmops.model.sales import NewSale, NewSaleLine, Sale, SaleLine, StandingOrder, Terms, halves_up
from farmops.model.values import Measured
from farmops.quantities import Measures, show_money_exact
from farmops.quantities.sales import TypedLine, exact_amount
from farmops.reports.products import product
from farmops.reports.selling import chosen, sources
from farmops.schedule.occurrences import next_occurrence
from farmops.schedule.rules import OnCalendar

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Wanted:
    """An order on a day it is wanted. `left` is what of it no sale of the day holds yet, in the unit of its amount."""

    order: StandingOrder
    left: int
    sale_id: int | None

    @property
    def filled(self) -> bool:
        """Whether a sale of the day holds all of it."""
        return self.left <= 0


def orders(store: Store) -> list[StandingOrder]:
    """Every standing order, by buyer."""
    with store.reading() as reader:
        farm_facts.farm(reader)
        return sale_facts.orders(reader)


def order(store: Store, number: int) -> StandingOrder:
    """The standing order of that number. Raises NotFound."""
    found = next((one for one in orders(store) if one.id == number), None)
    if found is None:
        raise NotFound(f"There is no standing order {number}. See: farmops orders list")
    return found


def next_wanted(order: StandingOrder, from_day: date) -> date | None:
    """The first day from a day on for which it is wanted; None when it is over."""
    day = next_occurrence(OnCalendar(order.rule_text, order.start_day), from_day - ONE_DAY)
    return None if day is None or (order.until_day is not None and day > order.until_day) else day


def next_day_wanted(reader: Reader, after: date) -> date | None:
    """The first day after a day for which anything is ordered; None where nothing is."""
    days = (next_wanted(one, after + ONE_DAY) for one in sale_facts.orders(reader))
    return min((day for day in days if day), default=None)


def wanted_on(reader: Reader, day: date) -> list[Wanted]:
    """The orders that are wanted on a day, by buyer, beside what was sold that day."""
    due = [one for one in sale_facts.orders(reader) if next_wanted(one, day) == day]
    if not due:
        return []
    species = {one.code: one.species for one in fish_facts.lots(reader)}
    sold = sale_facts.sales(reader, day, day)
    return [_wanted(one, sold, species) for one in due]


def _wanted(order: StandingOrder, sold: Iterable[Sale], species: dict[str, str]) -> Wanted:
    left, sale_id = order.amount, None
    for sale in sold:
        for line in sale.lines:
            if sale.buyer.casefold() == order.buyer.casefold() and _is_for(line, order, species):
                left -= line.amount if line.sold_by is order.sold_by else order.amount
                sale_id = sale.id
    return Wanted(order, max(left, 0), sale_id)


def _is_for(line: SaleLine, order: StandingOrder, species: dict[str, str]) -> bool:
    if order.crop_id is not None:
        return line.planting_id is not None and line.what == order.what
    return line.fish_lot_id is not None and species.get(line.what) == order.species


@dataclass(frozen=True, slots=True)
class Filling:
    """What is handed over of an order: all that is left unless less is said, from one bed or lot where it is named."""

    order_id: int
    source: str | None = None
    terms: Terms | None = None


def filling_sale(store: Store, fillings: Sequence[Filling], on: date) -> NewSale:
    """The sale that fills orders of one buyer on a day they are wanted. Raises Refused or NotFound."""
    known = {one.order_id: order(store, one.order_id) for one in fillings}
    with store.reading() as reader:
        measures = farm_facts.farm(reader).measures
        wanted = {one.order.id: one for one in wanted_on(reader, on)}
    buyers = {one.buyer for one in known.values()}
    if len(buyers) != 1:
        raise Refused(f"Not booked: a sale is to one buyer, and these orders are of {' and '.join(sorted(buyers))}.")
    there = sources(store, on)
    lines = []
    for one in fillings:
        asked = _still_wanted(known[one.order_id], wanted.get(one.order_id), on)
        source = chosen(one.source or known[one.order_id].what, there)
        _must_be_of(known[one.order_id], source.crop, source.species)
        lines.append(NewSaleLine(one.terms or terms_left(asked, measures), source.planting_id, source.fish_lot_id))
    return NewSale(on, buyers.pop(), tuple(lines))


def terms_left(wanted: Wanted, measures: Measures) -> Terms:
    """What is left of an order to fill, at its price; of a sum in all, that part."""
    order, left, terms = wanted.order, wanted.left, terms_of(wanted.order)
    if left == order.amount:
        return terms
    amount = Measured(left, exact_amount(order.sold_by, left, measures))
    if not terms.price_typed.startswith("for "):
        return replace(terms, amount=amount)
    part = halves_up(left * terms.price_minor, terms.per_amount)
    return Terms(terms.sold_by, amount, part, left, f"for {show_money_exact(part, measures)}")


def _still_wanted(order: StandingOrder, wanted: Wanted | None, on: date) -> Wanted:
    if wanted is None:
        following = next_wanted(order, on)
        when = f"next on {following:%a} {following}" if following else "it is over"
        raise Refused(f"Not booked: order {order.id} is not for {on:%a} {on}, {when}. Or book a sale of its own.")
    if wanted.filled:
        raise Refused(f"Not booked: order {order.id} of {on} is filled by sale {wanted.sale_id} already.")
    return wanted


def _must_be_of(order: StandingOrder, crop: str | None, species: str | None) -> None:
    if order.what not in (crop, species):
        raise Refused(f"Not booked: order {order.id} is of {order.what}, not of {crop or species}.")


def same_product(store: Store, order: StandingOrder, line: TypedLine) -> Terms:
    """What is typed of an order, once it is of the same crop or species. Raises Refused or NotFound."""
    if product(store, line.what) != (order.crop_id, order.species):
        raise Refused(f"Not booked: order {order.id} is of {order.what}. For another crop book another order.")
    return line.terms


def terms_of(order: StandingOrder) -> Terms:
    """How much it wants, and for what."""
    amount = Measured(order.amount, order.amount_typed)
    return Terms(order.sold_by, amount, order.price_minor, order.per_amount, order.price_typed)
