"""Files about money paid: costs, what of them comes again, and what an hour of work is worth."""

from __future__ import annotations

from farmops.exchange.cells import Cells, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import (
    BEGINS,
    DATE,
    EVERY,
    NOTE,
    PLACES,
    UNIT,
    UNTIL,
    Kind,
    Take,
    as_said,
    each,
    rule_of,
    unit_or_all,
)
from farmops.farm.file_rows.days import OfDay
from farmops.model.costs import Category, CostKind, NewCost, NewLabourRate
from farmops.model.recurring import NewRecurring
from farmops.quantities.lives import parse_life


def _cost(cells: Cells, take: Take) -> NewCost:
    place = take.names.somewhere(cells)
    life = None
    if not cells.empty("life"):
        with in_column("life"):
            life = parse_life(cells.with_unit("life"))
    return NewCost(
        cells.day(),
        cells.name("what"),
        cells.money(),
        category=cells.word("category", Category, Category.OTHER),
        payee=cells.note("payee"),
        kind=cells.word("kind", CostKind, CostKind.OPERATING if life is None else CostKind.CAPITAL),
        life_months=life,
        salvage_minor=None if cells.empty("salvage") else cells.money("salvage").exact,
        note=cells.note(),
        label=cells.note("label"),
        again=take.sure,
        unit_id=place.get("unit_id"),
        bed_id=place.get("bed_id"),
        fish_lot_id=place.get("fish_lot_id"),
    )


def _recurring(cells: Cells, take: Take) -> NewRecurring:
    first = cells.day("from")
    return NewRecurring(
        cells.name("what"),
        cells.money(),
        rule_of(cells, first),
        first,
        cells.word("category", Category, Category.OTHER),
        cells.note("payee"),
        unit_or_all(cells, take),
        cells.day_or_none("until"),
        cells.note("label"),
        cells.note(),
    )


def _rate(cells: Cells, take: Take) -> OfDay[NewLabourRate]:
    person = None if cells.empty("person") else take.names.person(cells, "person")
    return OfDay(NewLabourRate(cells.day("from"), cells.money("rate"), person), take.sure)


PAID = (
    DATE,
    Column("what", needed=True, also=("item", "description")),
    Column("amount", needed=True, also=("amount typed", "paid", "cost", "total")),
    Column("category"),
    Column("payee", also=("paid to", "supplier", "vendor", "shop")),
    *PLACES,
    Column("kind"),
    Column("life", also=("life months",), unit_of=as_said),
    Column("salvage"),
    Column("label"),
    NOTE,
)
AGAIN = (
    Column("what", needed=True, also=("item", "description")),
    Column("amount", needed=True, also=("amount typed", "cost", "sum")),
    EVERY,
    BEGINS,
    UNTIL,
    Column("category"),
    Column("payee", also=("paid to", "supplier", "to whom")),
    UNIT,
    Column("label"),
    NOTE,
)
RATED = (
    BEGINS,
    Column("rate", needed=True, also=("typed", "an hour", "wage")),
    Column("person", also=("who", "name"), numbered=("person id",)),
)
KINDS = (
    Kind("costs", PAID, each(_cost)),
    Kind("recurring costs", AGAIN, each(_recurring)),
    Kind("labour rates", RATED, each(_rate)),
)
