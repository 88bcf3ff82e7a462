"""How many records of each kind there are, and of which days."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

COUNTED = """
    SELECT 'weighings' AS kind, COUNT(*) AS number, MIN(day) AS first_day, MAX(day) AS last_day FROM harvest
    UNION ALL SELECT 'readings of the water', COUNT(*), MIN(day), MAX(day) FROM reading
    UNION ALL SELECT 'chores settled', COUNT(*), MIN(on_day), MAX(on_day) FROM settlement
    UNION ALL SELECT 'treatments', COUNT(*), MIN(day), MAX(day) FROM treatment
    UNION ALL SELECT 'sales', COUNT(*), MIN(day), MAX(day) FROM sale
    UNION ALL SELECT 'fish lots', COUNT(*), MIN(stocked_day), MAX(stocked_day) FROM fish_lot
    UNION ALL SELECT 'costs', COUNT(*), MIN(day), MAX(day) FROM cost
"""


@dataclass(frozen=True, slots=True)
class Counted:
    """Records of one kind; days are None where there are none."""

    kind: str
    number: int
    first_day: date | None
    last_day: date | None


def counted(reader: Reader) -> list[Counted]:
    """Every kind that a rule about keeping speaks of."""
    return reader.all(Counted, COUNTED)
