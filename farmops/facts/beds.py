"""Beds and their planted area from day to day."""

from __future__ import annotations

from datetime import date

from farmops.model.beds import Bed, BedSize
from farmops.records.reading import Reader

BEDS = """
    SELECT bed.id, bed.unit_id, unit.code AS unit, bed.name, bed.kind, bed.depth_um, bed.depth_typed, bed.note
    FROM bed JOIN unit ON unit.id = bed.unit_id
"""
SIZES = "SELECT id, bed_id, from_day, area_mm2, area_typed FROM bed_size WHERE bed_id = :bed ORDER BY from_day"
ALL_SIZES = "SELECT id, bed_id, from_day, area_mm2, area_typed FROM bed_size ORDER BY bed_id, from_day"
AREAS = """
    SELECT bed_size.bed_id, bed_size.area_mm2
    FROM bed_size
    JOIN (
        SELECT bed_id, MAX(from_day) AS latest, MIN(from_day) AS earliest
        FROM bed_size WHERE from_day <= :on_day GROUP BY bed_id
    ) AS held ON held.bed_id = bed_size.bed_id AND held.latest = bed_size.from_day
"""


def beds(reader: Reader, unit: int | None = None) -> list[Bed]:
    """Every bed, or those of one unit, in walking order."""
    where = "WHERE bed.unit_id = :unit" if unit is not None else ""
    given = {"unit": unit} if unit is not None else {}
    return reader.all(Bed, f"{BEDS} {where} ORDER BY unit.position, unit.id, bed.name", **given)


def bed(reader: Reader, id: int) -> Bed | None:
    """The bed of that id."""
    return reader.one(Bed, f"{BEDS} WHERE bed.id = :id", id=id)


def bed_called(reader: Reader, unit: int, name: str) -> Bed | None:
    """The bed of a unit by its short name, in any letter case."""
    return reader.one(Bed, f"{BEDS} WHERE bed.unit_id = :unit AND bed.name = :name", unit=unit, name=name.upper())


def sizes(reader: Reader, bed: int) -> list[BedSize]:
    """The sizes of one bed, first to last."""
    return reader.all(BedSize, SIZES, bed=bed)


def all_sizes(reader: Reader) -> list[BedSize]:
    """The sizes of every bed, bed by bed, first to last."""
    return reader.all(BedSize, ALL_SIZES)


def areas_on(reader: Reader, on: date) -> dict[int, int]:
    """The area of each bed that has one on a day, in mm2, by bed id."""
    return {row["bed_id"]: row["area_mm2"] for row in reader.rows(AREAS, on_day=on)}


def sized_ever(reader: Reader) -> set[int]:
    """The beds for which a size is booked from any day."""
    return {row["bed_id"] for row in reader.rows("SELECT DISTINCT bed_id FROM bed_size")}
