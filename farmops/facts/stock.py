"""What came into supplies and went out, from which the cost of what was used follows."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Protocol, TypeVar

from farmops.model.costs import Category
from farmops.model.frozen import dataclass
from farmops.model.supplies import HeldBy, Movement
from farmops.records.reading import Reader

CAME = """
    SELECT supply_lot.supply_id, supply.name, supply.category, supply.held_by, supply_lot.day, supply_lot.amount,
        COALESCE(cost.amount_minor, 0) AS cost_minor, supply_lot.id
    FROM supply_lot JOIN supply ON supply.id = supply_lot.supply_id LEFT JOIN cost ON cost.id = supply_lot.cost_id
    WHERE supply_lot.day <= :last ORDER BY supply_lot.supply_id, supply_lot.day, supply_lot.id
"""
WENT = """
    WITH taken AS (
        SELECT id, supply_id, day, kind, {unit} AS unit_id, amount,
            SUM(CASE WHEN kind = 'counted' THEN 1 ELSE 0 END) OVER (PARTITION BY supply_id, day ORDER BY id) AS counts
        FROM supply_use WHERE day <= :last
    )
    SELECT supply_id, day, kind, unit_id, COUNT(*) AS entries, CAST(SUM(amount) AS BIGINT) AS amount,
        MAX(id) AS last_id
    FROM taken GROUP BY supply_id, day, kind, unit_id, counts ORDER BY supply_id, day, MAX(id)
"""
MOVED = """
    WITH counted AS (
        SELECT supply_id, day, id, amount,
            ROW_NUMBER() OVER (PARTITION BY supply_id ORDER BY day DESC, id DESC) AS latest
        FROM supply_use WHERE kind = 'counted'
    )
    SELECT supply_id, day, 0 AS turn, amount FROM counted WHERE latest = 1
    UNION ALL
    SELECT supply_lot.supply_id, supply_lot.day, 1 AS turn, CAST(SUM(supply_lot.amount) AS BIGINT) AS amount
    FROM supply_lot LEFT JOIN counted ON counted.supply_id = supply_lot.supply_id AND counted.latest = 1
    WHERE counted.day IS NULL OR supply_lot.day > counted.day
    GROUP BY supply_lot.supply_id, supply_lot.day
    UNION ALL
    SELECT supply_use.supply_id, supply_use.day, 2 AS turn, CAST(-SUM(supply_use.amount) AS BIGINT) AS amount
    FROM supply_use LEFT JOIN counted ON counted.supply_id = supply_use.supply_id AND counted.latest = 1
    WHERE supply_use.kind <> 'counted' AND (counted.day IS NULL OR supply_use.day > counted.day
        OR (supply_use.day = counted.day AND supply_use.id > counted.id))
    GROUP BY supply_use.supply_id, supply_use.day
    ORDER BY 1, 2, 3
"""


@dataclass(frozen=True, slots=True)
class Moved:
    """What a count found (turn 0), what came (1) and went (2, below zero) of a supply on a day."""

    supply_id: int
    day: date
    turn: int
    amount: int


@dataclass(frozen=True, slots=True)
class Level:
    """What the books hold of a supply from a day on: milligrams, millilitres or pieces."""

    day: date
    held: int


@dataclass(frozen=True, slots=True)
class Came:
    """What came into a supply at once: milligrams, millilitres or pieces, and what it cost."""

    supply_id: int
    name: str
    category: Category
    held_by: HeldBy
    day: date
    amount: int
    cost_minor: int
    id: int


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


def went(reader: Reader, last: date, by_unit: bool = True) -> list[Went]:
    """Everything that went out of supplies up to and on a day, summed by day, kind and unit; each count by itself.

    What went out on the day of a count is summed apart before and after it. When not `by_unit`, that of all is summed.
    """
    unit = "unit_id" if by_unit else "CAST(NULL AS BIGINT)"
    return reader.all(Went, WENT.format(unit=unit), last=last)


def levels(reader: Reader) -> dict[int, list[Level]]:
    """What the books hold of each supply, day by day since it was counted last; never less than nothing."""
    found: dict[int, list[Level]] = {}
    for one in reader.all(Moved, MOVED):
        own = found.setdefault(one.supply_id, [])
        before = own[-1].held if own else 0
        if own and own[-1].day == one.day:
            own.pop()
        own.append(Level(one.day, max(0, before + one.amount)))
    return found


L = TypeVar("L", bound="Lot")


class Lot(Protocol):
    """So much of a supply that came at once."""

    @property
    def amount(self) -> int:
        """How much it was."""
        ...


def still_held(lots: Sequence[L], held: int) -> list[L]:
    """The lots, the latest first as they are given, that what is held is taken to come from: the oldest goes first."""
    found = []
    for lot in lots:
        if held <= 0:
            break
        found.append(lot)
        held -= lot.amount
    return found
