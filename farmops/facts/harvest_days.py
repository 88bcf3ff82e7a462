"""Weighings day by day, for who needs no single one of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.records.reading import Reader, day

COUNTS = "harvest.use IN ('sold', 'home', 'given')"
DAILY = f"""
    SELECT bed.unit_id, harvest.day, CAST(SUM(harvest.mass_mg) AS BIGINT) AS mass_mg
    FROM harvest
    JOIN planting ON planting.id = harvest.planting_id
    JOIN bed ON bed.id = planting.bed_id
    WHERE harvest.day BETWEEN :first AND :last AND {COUNTS}
    GROUP BY bed.unit_id, harvest.day ORDER BY bed.unit_id, harvest.day
"""
RECORDED = """
    SELECT MIN(first_day) AS first_day, MAX(last_day) AS last_day FROM (
        SELECT (SELECT MIN(day) FROM harvest) AS first_day, (SELECT MAX(day) FROM harvest) AS last_day
        UNION ALL SELECT (SELECT MIN(day) FROM cost), (SELECT MAX(day) FROM cost)
        UNION ALL SELECT (SELECT MIN(from_day) FROM unit_state), (SELECT MAX(from_day) FROM unit_state)
    ) AS recorded
"""


@dataclass(frozen=True, slots=True)
class DayTotal:
    """Produce that counts from one unit on one day, in milligrams."""

    unit_id: int
    day: date
    mass_mg: int


def daily(reader: Reader, first: date, last: date) -> list[DayTotal]:
    """Produce that counts, summed by unit and day."""
    return reader.all(DayTotal, DAILY, first=first, last=last)


def recorded_days(reader: Reader) -> tuple[date, date] | None:
    """The first and the last day on which a harvest, a cost or a unit's state is booked."""
    found = next(reader.rows(RECORDED))
    return (day(found["first_day"]), day(found["last_day"])) if found["first_day"] else None
