"""What came into supplies and went out, from which the cost of what was used follows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.costs import Category
from farmops.model.supplies import Movement
from farmops.records.reading import Reader

CAME = """
    SELECT supply_lot.supply_id, supply.name, supply.category, supply_lot.day, supply_lot.amount,
        COALESCE(cost.amount_minor, 0) AS cost_minor
    FROM supply_lot JOIN supply ON supply.id = supply_lot.supply_id LEFT JOIN cost ON cost.id = supply_lot.cost_id
    WHERE supply_lot.day <= :last ORDER BY supply_lot.supply_id, supply_lot.day, supply_lot.id
"""
WENT = """
    SELECT supply_use.supply_id, supply_use.day, supply_use.kind, supply_use.unit_id, COUNT(*) AS entries,
        CAST(SUM(supply_use.amount) AS BIGINT) AS amount, MAX(supply_use.id) AS last_id
    FROM supply_use WHERE supply_use.day <= :last
    GROUP BY supply_use.supply_id, supply_use.day, supply_use.kind, supply_use.unit_id,
        CASE WHEN supply_use.kind = 'counted' THEN supply_use.id END
    ORDER BY supply_use.supply_id, supply_use.day, MAX(supply_use.id)
"""


@dataclass(frozen=True, slots=True)
class Came:
    """What came into a supply at once: milligrams, millilitres or pieces, and what it cost."""

    supply_id: int
    name: str
    category: Category
    day: date
    amount: int
    cost_minor: int


@dataclass(frozen=True, slots=True)
class Went:
    """What went out of a supply on a day for one unit or for all (None), or what a count found to be left."""

    supply_id: int
    day: date
    kind: Movement
    unit_id: int | None
    entries: int
    amount: int
    last_id: int


def came(reader: Reader, last: date) -> list[Came]:
    """Everything that came into supplies up to and on a day."""
    return reader.all(Came, CAME, last=last)


def went(reader: Reader, last: date) -> list[Went]:
    """Everything that went out of supplies up to and on a day, summed by day, kind and unit; each count by itself."""
    return reader.all(Went, WENT, last=last)
