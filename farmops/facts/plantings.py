"""Crops and their plantings."""

from __future__ import annotations

from datetime import date

from farmops.model.plantings import Crop, Planting
from farmops.records.reading import Reader

CROPS = "SELECT id, name, library_key, note FROM crop"
PLANTINGS = """
    SELECT planting.id, planting.bed_id, unit.code || '-' || bed.name AS bed, unit.code AS unit,
        planting.crop_id, crop.name AS crop, planting.variety, planting.started_day, planting.started_by,
        planting.cleared_day, planting.plants, planting.area_mm2, planting.area_typed, planting.note
    FROM planting
    JOIN bed ON bed.id = planting.bed_id
    JOIN unit ON unit.id = bed.unit_id
    JOIN crop ON crop.id = planting.crop_id
"""
IN_ORDER = "ORDER BY unit.position, unit.id, bed.name, planting.started_day, planting.id"
GROWING = "planting.started_day <= :on_day AND (planting.cleared_day IS NULL OR planting.cleared_day >= :on_day)"


def crops(reader: Reader) -> list[Crop]:
    """Every crop, by name."""
    return reader.all(Crop, f"{CROPS} ORDER BY name")


def crop(reader: Reader, id: int) -> Crop | None:
    """The crop of that id."""
    return reader.one(Crop, f"{CROPS} WHERE id = :id", id=id)


def crop_called(reader: Reader, name: str) -> Crop | None:
    """The crop of that name, in any letter case."""
    return reader.one(Crop, f"{CROPS} WHERE name = :name", name=" ".join(name.split()).upper())


def plantings(reader: Reader) -> list[Planting]:
    """Every planting, bed by bed in walking order, oldest first."""
    return reader.all(Planting, f"{PLANTINGS} {IN_ORDER}")


def planting(reader: Reader, id: int) -> Planting | None:
    """The planting of that id."""
    return reader.one(Planting, f"{PLANTINGS} WHERE planting.id = :id", id=id)


def growing(reader: Reader, on: date) -> list[Planting]:
    """The plantings that stand in a bed on a day, in walking order."""
    return reader.all(Planting, f"{PLANTINGS} WHERE {GROWING} {IN_ORDER}", on_day=on)


def in_bed(reader: Reader, bed: int) -> list[Planting]:
    """The plantings of one bed, oldest first."""
    return reader.all(Planting, f"{PLANTINGS} WHERE planting.bed_id = :bed {IN_ORDER}", bed=bed)


def of_crop_in_bed(reader: Reader, bed: int, crop: int) -> list[Planting]:
    """The plantings of a crop in one bed, oldest first."""
    where = "WHERE planting.bed_id = :bed AND planting.crop_id = :crop"
    return reader.all(Planting, f"{PLANTINGS} {where} {IN_ORDER}", bed=bed, crop=crop)
