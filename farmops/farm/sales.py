"""Sales: booked with their lines, corrected, and what came back of them."""

from __future__ import annotations

from collections.abc import Sequence

from farmops.facts import sales as sale_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule, rule_over
from farmops.model.errors import OutOfRange, Refused
from farmops.model.journal import Image
from farmops.model.sales import ComingBack, NewSale, NewSaleLine, Sale, SaleChange, SoldBy
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep
from farmops.records.fish import FishLotRow
from farmops.records.plantings import PlantingRow
from farmops.records.sales import SaleLineRow, SaleRow

MOST_KEPT = 2**63 - 1
LARGEST_PAID = 10**12


@operation("sale")
def record_sale(op: Operation, entry: NewSale) -> Sale:
    """Book what was sold to one buyer on a day, line by line. Refuses what was not growing or stocked yet."""
    row = op.add(SaleRow(day=op.past_day(entry.day), buyer=buyer_of(entry.buyer), note=note_of(entry.note)))
    _add_lines(op, row.id, entry.lines)
    return _sale(op, row.id)


@operation("change sale")
def change_sale(op: Operation, entry: SaleChange) -> Sale:
    """Correct a sale; lines that are given take the place of all it had."""
    row = op.get(SaleRow, entry.sale_id)
    values = given(entry, "day", "buyer", "note")
    op.change(row, **mapped(values, day=op.past_day, buyer=buyer_of, note=note_of))
    if not isinstance(entry.lines, Keep):
        for line in _sale(op, row.id).lines:
            op.remove(op.get(SaleLineRow, line.id))
        _add_lines(op, row.id, entry.lines)
    return _sale(op, row.id)


@operation("coming back")
def take_in_return(op: Operation, entry: ComingBack) -> Sale:
    """More of a line came back, from the buyer or unsold; it was not paid for."""
    if min(entry.returned, entry.unsold) < 0 or not entry.returned + entry.unsold:
        raise OutOfRange("Not booked: what came back is more than nothing.")
    row = op.get(SaleLineRow, entry.line_id)
    op.change(row, returned=row.returned + entry.returned, unsold=row.unsold + entry.unsold)
    return _sale(op, row.sale_id)


def add_line(op: Operation, sale_id: int, line: NewSaleLine) -> Sale:
    """Book within another operation one more line of a sale."""
    _add_lines(op, sale_id, (line,))
    return _sale(op, sale_id)


def _add_lines(op: Operation, sale_id: int, lines: Sequence[NewSaleLine]) -> None:
    for line in lines:
        if line.planting_id is not None:
            op.get(PlantingRow, line.planting_id)
        if line.fish_lot_id is not None:
            op.get(FishLotRow, line.fish_lot_id)
        op.add(_line_row(sale_id, line))


def _line_row(sale_id: int, line: NewSaleLine) -> SaleLineRow:
    return SaleLineRow(
        sale_id=sale_id,
        planting_id=line.planting_id,
        fish_lot_id=line.fish_lot_id,
        sold_by=line.terms.sold_by.value,
        amount=line.terms.amount.exact,
        amount_typed=line.terms.amount.typed,
        unsold=line.unsold,
        returned=line.returned,
        price_minor=line.terms.price_minor,
        per_amount=line.terms.per_amount,
        price_typed=line.terms.price_typed,
        mass_mg=line.mass.exact if line.mass else None,
        mass_typed=line.mass.typed if line.mass else None,
    )


def buyer_of(text: str) -> str:
    """The name of who buys. Raises NotUnderstood."""
    return name_of(text, "name of the buyer")


def check_terms(amount: int, price_minor: int, per_amount: int) -> None:
    """Something is sold, at nothing or more, and the sum can be kept. Raises OutOfRange."""
    if amount <= 0 or per_amount <= 0:
        raise OutOfRange("Not booked: an amount is more than nothing.")
    if price_minor < 0:
        raise OutOfRange("Not booked: a price is nothing or more.")
    if amount * price_minor > LARGEST_PAID * per_amount or max(price_minor, per_amount) > MOST_KEPT:
        raise OutOfRange("Not booked: the sum of the line is larger than any that is kept.")


@rule(SaleLineRow, alone=True)
def sells_something_sensible(op: Operation, row: SaleLineRow) -> None:
    """A line is of one planting or lot, and no more comes back than was taken along."""
    if (row.planting_id is None) == (row.fish_lot_id is None):
        raise Refused("Not booked: a line is of one planting or of one fish lot.")
    check_terms(row.amount, row.price_minor, row.per_amount)
    if min(row.unsold, row.returned) < 0 or row.unsold + row.returned > row.amount:
        raise Refused("Not booked: more would have come back than was taken along.")
    if row.mass_mg is not None and (row.mass_mg <= 0 or row.sold_by == SoldBy.WEIGHT):
        raise Refused("Not booked: a weight is more than nothing, and beside an amount sold by count.")


@rule_over(SaleRow, SaleLineRow, PlantingRow, FishLotRow)
def sells_what_is_there(op: Operation, touched: Sequence[Image]) -> None:
    """No line is sold before its planting started or its fish were stocked, and no sale is without lines."""
    early = sale_facts.sold_too_early(op.reader)
    if early is not None:
        raise Refused(f"Not booked: {early.what} was sold on {early.day}, and is there only since {early.since}.")
    if sale_facts.sale_without_lines(op.reader) is not None:
        raise Refused("Not booked: a sale says what was sold. Name at least one line.")


def _sale(op: Operation, id: int) -> Sale:
    found = sale_facts.sale(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
