"""Files about selling: sales line by line, standing orders, and what produce and fish are worth from a day on."""

from __future__ import annotations

from farmops.exchange.cells import Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import (
    BEGINS,
    DATE,
    EVERY,
    NOTE,
    UNTIL,
    Kind,
    Take,
    as_said,
    each,
    rule_of,
)
from farmops.exchange.harvest_tables import mass_unit
from farmops.farm.file_rows.days import OfDay
from farmops.farm.file_rows.selling import SoldLine
from farmops.model.costs import NewPrice
from farmops.model.sales import NewOrder, NewSaleLine, SoldBy, Terms
from farmops.model.values import Measured
from farmops.quantities import MASS, parse_price
from farmops.quantities.sales import WORDS, parse_amount, parse_terms, part_of

IN_ALL, FOR_EACH = "for ", "at "
"""How a price is written that is for all of a line, and one for each, where a cell says which."""


def _sold(cells: Cells, take: Take) -> SoldLine:
    day = cells.day()
    source = take.goods.to_sell(cells, day)
    sold_by, amount = _amount(cells)
    unsold, returned = (_back(cells, column, sold_by) for column in ("unsold", "returned"))
    if unsold + returned > amount.exact:
        raise RowRefusedError("returned" if returned else "unsold", "more came back than was taken along")
    terms = _terms(cells, sold_by, amount, amount.exact - unsold - returned)
    weighing = cells.measured("weighing", MASS)
    line = NewSaleLine(terms, source.planting_id, source.fish_lot_id, unsold, returned, weighing)
    return SoldLine(day, cells.name("buyer"), line, cells.note(), cells.note("sale"))


def _order(cells: Cells, take: Take) -> NewOrder:
    crop_id, species = take.goods.product(cells)
    sold_by, amount = _amount(cells)
    first = cells.day("from")
    return NewOrder(
        cells.name("buyer"),
        _terms(cells, sold_by, amount, amount.exact),
        rule_of(cells, first),
        first,
        crop_id=crop_id,
        species=species,
        until_day=cells.day_or_none("until"),
        note=cells.note(),
    )


def _amount(cells: Cells) -> tuple[SoldBy, Measured]:
    if cells.empty("amount"):
        raise RowRefusedError("amount", "no amount")
    with in_column("amount"):
        return parse_amount(cells.with_unit("amount"), cells.customs.measures)


def _back(cells: Cells, column: str, sold_by: SoldBy) -> int:
    """What came back, in the unit of the amount where it names none; a line of an export has the exact number."""
    if cells.empty(column) or cells.text(column) == "0":
        return 0
    if cells.by_number("sale") is not None:
        return cells.whole(column) or 0
    with in_column(column):
        return part_of(cells.with_unit(column), sold_by, cells.customs.measures)


def _terms(cells: Cells, sold_by: SoldBy, amount: Measured, sold: int) -> Terms:
    """A price for each, in `price`, or a sum for what was sold of the line, in `paid`."""
    price, paid = (not cells.empty(column) for column in ("price", "paid"))
    if price and paid:
        raise RowRefusedError("paid", "a price and a sum; leave one empty")
    if not (price or paid):
        raise RowRefusedError("price", "no price and no sum")
    column = "price" if price else "paid"
    typed = cells.with_unit(column)
    in_all = paid or typed.startswith(IN_ALL)
    with in_column(column):
        bare = typed.removeprefix(IN_ALL).removeprefix(FOR_EACH)
        return parse_terms(bare, sold_by, amount, cells.customs.measures, sold=sold, in_all=in_all)


def _worth(cells: Cells, take: Take) -> OfDay[NewPrice]:
    crop_id, species = take.goods.product(cells)
    if cells.empty("price"):
        raise RowRefusedError("price", "no price")
    typed = cells.with_unit("price")
    with in_column("price"):
        worth = parse_price(typed, cells.customs.measures)
    return OfDay(NewPrice(cells.day("from"), worth.minor, worth.per_mg, typed, crop_id, species), take.sure)


def _amount_unit(text: str) -> str:
    return text if text in WORDS else mass_unit(text)


def _price_unit(text: str) -> str:
    return f"per {_amount_unit(text.removeprefix('per '))}"


BUYER = Column("buyer", needed=True, also=("customer", "sold to", "to"))
AMOUNT = Column("amount", needed=True, also=("amount typed", "weight", "quantity"), unit_of=_amount_unit)
PRICE = Column("price", also=("price typed", "typed", "unit price"), unit_of=_price_unit)
PRODUCT = Column("what", needed=True, also=("crop", "product"), numbered=("crop id",))
SPECIES = Column("species", also=("fish",))
PAID = Column("paid", also=("total", "sum"))
SOLD = (
    DATE,
    BUYER,
    Column("what", needed=True, also=("crop", "product", "item"), numbered=("planting id",)),
    AMOUNT,
    PRICE,
    PAID,
    Column("unit"),
    Column("bed"),
    Column("lot", numbered=("fish lot id",)),
    Column("unsold", unit_of=as_said),
    Column("returned", unit_of=as_said),
    Column("weighing", also=("mass typed",), unit_of=mass_unit),
    Column("sale", also=("receipt", "slip", "invoice"), numbered=("sale id",)),
    NOTE,
)
ORDERED = (
    BUYER,
    PRODUCT,
    SPECIES,
    AMOUNT,
    PRICE,
    PAID,
    EVERY,
    BEGINS,
    UNTIL,
    NOTE,
)
LISTED = (
    PRODUCT,
    SPECIES,
    BEGINS,
    Column("price", needed=True, also=PRICE.also, unit_of=_price_unit),
)
KINDS = (
    Kind("sales", SOLD, each(_sold), beside=(("sale_id", "sale.csv"),)),
    Kind("orders", ORDERED, each(_order)),
    Kind("prices", LISTED, each(_worth)),
)
