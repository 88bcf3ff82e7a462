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
    WITH taken AS (
        SELECT id, supply_id, day, kind, unit_id, amount,
            SUM(CASE WHEN kind = 'counted' THEN 1 ELSE 0 END) OVER (PARTITION BY supply_id, day ORDER BY id) AS counts
        FROM supply_use WHERE day <= :last
    )
    SELECT supply_id, day, kind, unit_id, COUNT(*) AS entries, CAST(SUM(amount) AS BIGINT) AS amount,
        MAX(id) AS last_id
    FROM taken GROUP BY supply_id, day, kind, unit_id, counts ORDER BY supply_id, day, MAX(id)
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
    """Everything that went out of supplies up to and on a day, summed by day, kind and unit; each count by itself.

    What went out on the day of a count is summed apart before and after it.
    """
    return reader.all(Went, WENT, last=last)
