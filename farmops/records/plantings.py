"""Crops and their plantings."""

from __future__ import annotations

from datetime import date

from farmops.model.plantings import StartedBy
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class CropRow(Row, table=True):
    """A crop the farm grows."""

    __tablename__ = "crop"
    __table_args__ = table_options(unique("name"))

    name: str = words()
    library_key: str | None = words(required=False)
    note: str | None = words(required=False)


class PlantingRow(Row, table=True):
    """A crop in a bed, from sowing or transplanting to clearing; area in square millimetres."""

    __tablename__ = "planting"
    __table_args__ = table_options(
        one_of("started_by", StartedBy),
        check("cleared_after_start", "cleared_day >= started_day"),
        check("plants_positive", "plants > 0"),
        check("area_positive", "area_mm2 > 0"),
    )

    bed_id: int = link("bed")
    crop_id: int = link("crop")
    variety: str | None = words(required=False)
    started_day: date
    started_by: str = words()
    cleared_day: date | None
    plants: int | None = whole(required=False)
    area_mm2: int | None = whole(required=False)
    area_typed: str | None = words(required=False)
    note: str | None = words(required=False)
