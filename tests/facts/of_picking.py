"""What the tables say of what stands on a day."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import picking
from farmops.model.plantings import StartedBy
from farmops.records.beds import BedRow
from farmops.records.harvests import HarvestRow
from farmops.records.plantings import CropRow, PlantingRow
from tests.facts.tables import DAYS, Answer, Tables, columns, says


@says(picking.standing_on)
def plantings_on_days(rows: Tables) -> Iterator[Answer]:
    for day in DAYS:
        standing = [
            row
            for row in rows[PlantingRow]
            if row.started_day <= day and (row.cleared_day is None or row.cleared_day >= day)
        ]
        beds = {row.id: rows.get(BedRow, row.bed_id) for row in standing}
        walked = sorted(
            standing,
            key=lambda row: (*rows.walking(beds[row.id].unit_id), beds[row.id].name, row.started_day, row.id),
        )
        yield (
            (day,),
            [
                picking.StandingOn(
                    **columns(row, "id", "bed_id", "crop_id", "started_day"),
                    bed=rows.bed_code(row.bed_id),
                    crop=rows.get(CropRow, row.crop_id).name,
                    library_key=rows.get(CropRow, row.crop_id).library_key,
                    started_by=StartedBy(row.started_by),
                    picked_day=max(
                        (one.day for one in rows[HarvestRow] if one.planting_id == row.id and one.day < day),
                        default=None,
                    ),
                )
                for row in walked
            ],
        )
