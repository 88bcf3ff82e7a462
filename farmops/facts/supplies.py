"""Supplies, what was bought of them and what was taken, record by record."""

from __future__ import annotations

from farmops.model.supplies import Supply, SupplyLot, SupplyUse
from farmops.records.reading import Reader

SUPPLIES = "SELECT id, name, category, held_by, reorder_at, reorder_typed, note FROM supply"
LOTS = """
    SELECT supply_lot.id, supply_lot.supply_id, supply.name AS supply, supply.held_by, supply_lot.day,
        supply_lot.amount, supply_lot.amount_typed, supply_lot.cost_id, cost.amount_minor AS cost_minor,
        cost.amount_typed AS cost_typed, cost.payee, supply_lot.lot_code, supply_lot.opened_day,
        supply_lot.expires_day, supply_lot.note
    FROM supply_lot JOIN supply ON supply.id = supply_lot.supply_id LEFT JOIN cost ON cost.id = supply_lot.cost_id
"""
USES = """
    SELECT supply_use.id, supply_use.supply_id, supply.name AS supply, supply.held_by, supply_use.day,
        supply_use.kind, supply_use.amount, supply_use.amount_typed, supply_use.unit_id, unit.code AS unit,
        supply_use.note
    FROM supply_use JOIN supply ON supply.id = supply_use.supply_id LEFT JOIN unit ON unit.id = supply_use.unit_id
"""


def supplies(reader: Reader) -> list[Supply]:
    """Every supply, by name."""
    return sorted(reader.all(Supply, SUPPLIES), key=lambda one: (one.name.casefold(), one.id))


def supply(reader: Reader, id: int) -> Supply | None:
    """The supply of that id."""
    return reader.one(Supply, f"{SUPPLIES} WHERE id = :id", id=id)


def lots(reader: Reader, supply: int) -> list[SupplyLot]:
    """What was bought of a supply, the latest first."""
    where = "WHERE supply_lot.supply_id = :supply ORDER BY supply_lot.day DESC, supply_lot.id DESC"
    return reader.all(SupplyLot, f"{LOTS} {where}", supply=supply)


def lot(reader: Reader, id: int) -> SupplyLot | None:
    """What was bought at once, by its number."""
    return reader.one(SupplyLot, f"{LOTS} WHERE supply_lot.id = :id", id=id)


def uses(reader: Reader, supply: int, most: int) -> list[SupplyUse]:
    """The latest that was taken from a supply or counted, so many at most, the latest first."""
    where = "WHERE supply_use.supply_id = :supply ORDER BY supply_use.day DESC, supply_use.id DESC LIMIT :most"
    return reader.all(SupplyUse, f"{USES} {where}", supply=supply, most=most)


def use(reader: Reader, id: int) -> SupplyUse | None:
    """What was taken or counted, by its number."""
    return reader.one(SupplyUse, f"{USES} WHERE supply_use.id = :id", id=id)
