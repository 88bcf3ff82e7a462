"""What can hold for the fish of a unit: a lot that is due for a weighing."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

WEIGHED_EVERY_DAYS = 30
"""Common practice, no source: a mean weight that is older misleads the ration and the density."""
WEIGHED = """
    SELECT fish_lot.code, fish_lot.closed_day, lot_place.unit_id,
        COALESCE(
            (SELECT MAX(day) FROM sample_weighing WHERE sample_weighing.fish_lot_id = fish_lot.id), fish_lot.stocked_day
        ) AS weighed_day
    FROM fish_lot
    JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
        SELECT MAX(latest.from_day) FROM lot_place AS latest WHERE latest.fish_lot_id = fish_lot.id
    )
    ORDER BY lot_place.unit_id, fish_lot.id
"""


@dataclass(frozen=True, slots=True)
class LastWeighed:
    """A lot, where it lives, and when it was weighed last: a sample of it, or when it was stocked."""

    code: str
    closed_day: date | None
    unit_id: int
    weighed_day: date


@condition("lot due for a weighing", place=AppliesTo.UNIT, tables=("fish_lot", "lot_place", "sample_weighing"))
def due_for_a_weighing(reader: Reader) -> Held:
    """No fish of a lot were weighed for 30 days, until some are or the lot is closed."""
    return by_place(_due_for_a_weighing(reader))


def _due_for_a_weighing(reader: Reader) -> Iterator[tuple[int, Holding]]:
    for lot in reader.all(LastWeighed, WEIGHED):
        since = lot.weighed_day + timedelta(days=WEIGHED_EVERY_DAYS)
        if lot.closed_day is None or lot.closed_day >= since:
            yield lot.unit_id, Holding(since, lot.closed_day, f"{lot.code} not weighed for a month", "a weighing of it")
