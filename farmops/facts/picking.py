"""What stands in the beds on a day, and when it was picked last before that day."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.plantings import StartedBy
from farmops.records.reading import Reader

STANDING = """
    SELECT planting.id, planting.bed_id, unit.code || '-' || bed.name AS bed, planting.crop_id, crop.name AS crop,
        crop.library_key, planting.started_day, planting.started_by, MAX(harvest.day) AS picked_day
    FROM planting
    JOIN crop ON crop.id = planting.crop_id
    JOIN bed ON bed.id = planting.bed_id
    JOIN unit ON unit.id = bed.unit_id
    LEFT JOIN harvest ON harvest.planting_id = planting.id AND harvest.day < :on_day
    WHERE planting.started_day <= :on_day AND (planting.cleared_day IS NULL OR planting.cleared_day >= :on_day)
    GROUP BY planting.id, planting.bed_id, unit.code, bed.name, planting.crop_id, crop.name, crop.library_key,
        planting.started_day, planting.started_by, unit.position, unit.id
    ORDER BY unit.position, unit.id, bed.name, planting.started_day, planting.id
"""


@dataclass(frozen=True, slots=True)
class StandingOn:
    """A planting that stands on a day, and the last day before it on which it was weighed."""

    id: int
    bed_id: int
    bed: str
    crop_id: int
    crop: str
    library_key: str | None
    started_day: date
    started_by: StartedBy
    picked_day: date | None


def standing_on(reader: Reader, on: date) -> list[StandingOn]:
    """The plantings that stand on a day, in walking order."""
    return reader.all(StandingOn, STANDING, on_day=on)
