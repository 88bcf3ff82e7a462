"""Beds of the units and their planted area from day to day."""

from __future__ import annotations

from datetime import date

from farmops.model.beds import BedKind
from farmops.records.base import Row, check, link, one_of, table_options, unique, whole, words


class BedRow(Row, table=True):
    """A bed of a unit; depth in micrometres."""

    __tablename__ = "bed"
    __table_args__ = table_options(
        unique("unit_id", "name"),
        one_of("kind", BedKind),
        check("depth_positive", "depth_um > 0"),
    )

    unit_id: int = link("unit")
    name: str = words()
    kind: str = words()
    depth_um: int | None = whole(required=False)
    depth_typed: str | None = words(required=False)
    note: str | None = words(required=False)


class BedSizeRow(Row, table=True):
    """The planted area of a bed from a day on, in square millimetres."""

    __tablename__ = "bed_size"
    __table_args__ = table_options(unique("bed_id", "from_day"), check("area_positive", "area_mm2 > 0"))

    bed_id: int = link("bed")
    from_day: date
    area_mm2: int = whole()
    area_typed: str = words()
