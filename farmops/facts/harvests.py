"""Weighings, one by one and summed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.harvests import Harvest, Use
from farmops.records.reading import Reader

SOURCES = """
    FROM harvest
    LEFT JOIN planting ON planting.id = harvest.planting_id
    LEFT JOIN crop ON crop.id = planting.crop_id
    LEFT JOIN bed ON bed.id = planting.bed_id
    LEFT JOIN fish_lot ON fish_lot.id = harvest.fish_lot_id
    LEFT JOIN lot_place ON lot_place.fish_lot_id = harvest.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = harvest.fish_lot_id AND held.from_day <= harvest.day
    )
    JOIN unit ON unit.id = COALESCE(bed.unit_id, lot_place.unit_id)
"""
HARVESTS = f"""
    SELECT harvest.id, harvest.day, unit.code AS unit, unit.code || '-' || bed.name AS bed,
        COALESCE(crop.name, fish_lot.code) AS what, harvest.planting_id, harvest.fish_lot_id,
        harvest.mass_mg, harvest.mass_typed, harvest.tare_mg, harvest.tare_typed, harvest.number,
        harvest.use, harvest.note, harvest.operation
    {SOURCES}
"""
TOTALS = f"""
    SELECT unit.id AS unit_id, bed.id AS bed_id, planting.crop_id, crop.name AS crop, fish_lot.species,
        harvest.planting_id, harvest.fish_lot_id, harvest.day, harvest.use,
        CAST(SUM(harvest.mass_mg) AS BIGINT) AS mass_mg, COUNT(*) AS weighings
    {SOURCES}
    WHERE harvest.day BETWEEN :first AND :last
    GROUP BY unit.id, bed.id, planting.crop_id, crop.name, fish_lot.species,
        harvest.planting_id, harvest.fish_lot_id, harvest.day, harvest.use
    ORDER BY unit.id, bed.id, planting.crop_id, fish_lot.species, harvest.day, harvest.use
"""


@dataclass(frozen=True, slots=True)
class HarvestTotal:
    """What was weighed on one day from one planting or lot for one use; mass in milligrams."""

    unit_id: int
    bed_id: int | None
    crop_id: int | None
    crop: str | None
    species: str | None
    planting_id: int | None
    fish_lot_id: int | None
    day: date
    use: Use
    mass_mg: int
    weighings: int


def harvests(reader: Reader, first: date, last: date) -> list[Harvest]:
    """The weighings of a span of days, both included, in the order they were booked."""
    where = "WHERE harvest.day BETWEEN :first AND :last"
    return reader.all(Harvest, f"{HARVESTS} {where} ORDER BY harvest.day, harvest.id", first=first, last=last)


def harvest(reader: Reader, id: int) -> Harvest | None:
    """The weighing of that id."""
    return reader.one(Harvest, f"{HARVESTS} WHERE harvest.id = :id", id=id)


def totals(reader: Reader, first: date, last: date) -> list[HarvestTotal]:
    """The weighings of a span summed by day, planting or lot, and use."""
    return reader.all(HarvestTotal, TOTALS, first=first, last=last)


def span_of_planting(reader: Reader, planting: int) -> tuple[date, date] | None:
    """The days of the first and the last weighing from a planting."""
    return _span(reader, "planting_id", planting)


def span_of_lot(reader: Reader, lot: int) -> tuple[date, date] | None:
    """The days of the first and the last weighing from a fish lot."""
    return _span(reader, "fish_lot_id", lot)


def _span(reader: Reader, column: str, id: int) -> tuple[date, date] | None:
    days = reader.all(DayOnly, f"SELECT day FROM harvest WHERE {column} = :id ORDER BY day", id=id)
    return (days[0].day, days[-1].day) if days else None


@dataclass(frozen=True, slots=True)
class DayOnly:
    """A day on which something was booked."""

    day: date


def number_taken(reader: Reader, lot: int) -> int:
    """How many fish were counted out of a lot at its harvests."""
    return int(reader.value("SELECT COALESCE(SUM(number), 0) FROM harvest WHERE fish_lot_id = :lot", lot=lot))


def fingerprints(reader: Reader) -> set[str]:
    """The marks of rows that came from files."""
    return {row["fingerprint"] for row in reader.rows("SELECT fingerprint FROM harvest WHERE fingerprint IS NOT NULL")}
