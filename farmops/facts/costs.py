"""Money paid, and list prices."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.costs import Cost, CostKind, ListPrice
from farmops.records.reading import Reader

COSTS = """
    SELECT cost.id, cost.day, cost.what, cost.category, cost.payee, cost.amount_minor, cost.amount_typed, cost.unit_id,
        unit.code AS unit, cost.kind, cost.life_months, cost.salvage_minor, cost.note
    FROM cost LEFT JOIN unit ON unit.id = cost.unit_id
"""
PRICES = """
    SELECT price.id, price.crop_id, price.species, COALESCE(crop.name, price.species) AS what, price.from_day,
        price.price_minor, price.per_mg, price.typed
    FROM price LEFT JOIN crop ON crop.id = price.crop_id
"""


TOTALS = """
    SELECT unit_id, kind, COUNT(*) AS entries, CAST(SUM(amount_minor) AS BIGINT) AS amount_minor
    FROM cost WHERE day BETWEEN :first AND :last GROUP BY unit_id, kind ORDER BY unit_id, kind
"""


@dataclass(frozen=True, slots=True)
class CostTotal:
    """What was paid in a span for one unit, or shared (None), for one kind of cost; minor units."""

    unit_id: int | None
    kind: CostKind
    entries: int
    amount_minor: int


def totals(reader: Reader, first: date, last: date) -> list[CostTotal]:
    """What was paid in a span of days, summed by unit and kind."""
    return reader.all(CostTotal, TOTALS, first=first, last=last)


def costs(reader: Reader, first: date, last: date) -> list[Cost]:
    """What was paid in a span of days, both included, in the order of payment."""
    where = "WHERE cost.day BETWEEN :first AND :last"
    return reader.all(Cost, f"{COSTS} {where} ORDER BY cost.day, cost.id", first=first, last=last)


def cost(reader: Reader, id: int) -> Cost | None:
    """The cost of that id."""
    return reader.one(Cost, f"{COSTS} WHERE cost.id = :id", id=id)


def capital(reader: Reader, last: date) -> list[Cost]:
    """Everything that was bought to last up to and on a day."""
    where = "WHERE cost.kind = 'capital' AND cost.day <= :last"
    return reader.all(Cost, f"{COSTS} {where} ORDER BY cost.day, cost.id", last=last)


def prices(reader: Reader) -> list[ListPrice]:
    """Every list price, by product and day."""
    return reader.all(ListPrice, f"{PRICES} ORDER BY COALESCE(crop.name, price.species), price.from_day")


def price(reader: Reader, id: int) -> ListPrice | None:
    """The list price of that id."""
    return reader.one(ListPrice, f"{PRICES} WHERE price.id = :id", id=id)
