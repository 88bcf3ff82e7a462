"""Money paid, and list prices."""

from __future__ import annotations

from datetime import date

from farmops.model.costs import Cost, ListPrice
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
