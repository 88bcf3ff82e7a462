"""Weighings, one by one and summed."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest, Use
from farmops.records.reading import Reader, day

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
        harvest.use, harvest.note, harvest.operation, harvest.dressed_mg, harvest.dressed_typed
    {SOURCES}
"""
COUNTS = "harvest.use IN ('sold', 'home', 'given')"
VALUE = "(2 * harvest.mass_mg * price.price_minor + price.per_mg) / (2 * price.per_mg)"
PRICED = """
    LEFT JOIN price ON price.id = (
        SELECT held.id FROM price AS held
        WHERE (held.crop_id = planting.crop_id OR held.species = fish_lot.species) AND held.from_day <= harvest.day
        ORDER BY held.from_day DESC LIMIT 1
    )
"""
VALUED = f"""
    SELECT harvest.id, harvest.day, unit.id AS unit_id, bed.id AS bed_id, crop.id AS crop_id,
        COALESCE(crop.name, fish_lot.code) AS what, fish_lot.species, harvest.mass_mg, harvest.mass_typed, harvest.use,
        CASE WHEN {COUNTS} THEN CAST(COALESCE({VALUE}, 0) AS BIGINT) ELSE 0 END AS value_minor, harvest.tare_typed
    {SOURCES} {PRICED}
    WHERE harvest.day BETWEEN :first AND :last AND unit.id = :unit
    ORDER BY harvest.day, harvest.id
"""
DAILY = f"""
    SELECT unit.id AS unit_id, harvest.day, CAST(SUM(harvest.mass_mg) AS BIGINT) AS mass_mg
    {SOURCES}
    WHERE harvest.day BETWEEN :first AND :last AND {COUNTS} AND harvest.planting_id IS NOT NULL
    GROUP BY unit.id, harvest.day ORDER BY unit.id, harvest.day
"""
PICKED = f"""
    SELECT planting.bed_id, planting.crop_id, harvest.day, CAST(SUM(harvest.mass_mg) AS BIGINT) AS mass_mg
    FROM harvest JOIN planting ON planting.id = harvest.planting_id
    WHERE harvest.day BETWEEN :first AND :last AND {COUNTS}
    GROUP BY planting.bed_id, planting.crop_id, harvest.day
    ORDER BY planting.bed_id, planting.crop_id, harvest.day
"""
OF_PLANTINGS = f"""
    SELECT harvest.planting_id, CAST(SUM(harvest.mass_mg) AS BIGINT) AS mass_mg, MIN(harvest.day) AS first_day,
        MAX(harvest.day) AS last_day
    FROM harvest WHERE harvest.planting_id IS NOT NULL AND {COUNTS} AND harvest.day <= :on_day
    GROUP BY harvest.planting_id ORDER BY harvest.planting_id
"""
RECORDED = """
    SELECT MIN(first_day) AS first_day, MAX(last_day) AS last_day FROM (
        SELECT (SELECT MIN(day) FROM harvest) AS first_day, (SELECT MAX(day) FROM harvest) AS last_day
        UNION ALL SELECT (SELECT MIN(day) FROM cost), (SELECT MAX(day) FROM cost)
        UNION ALL SELECT (SELECT MIN(from_day) FROM unit_state), (SELECT MAX(from_day) FROM unit_state)
    ) AS recorded
"""


@dataclass(frozen=True, slots=True)
class ValuedHarvest:
    """One weighing with its value at the list price of its day; 0 where it does not count or has no price."""

    id: int
    day: date
    unit_id: int
    bed_id: int | None
    crop_id: int | None
    what: str
    species: str | None
    mass_mg: int
    mass_typed: str
    use: Use
    value_minor: int
    tare_typed: str | None = None

    @property
    def words(self) -> str:
        """`2026-06-20 CHARD 1 6 (sold)`, with the tare where it was weighed in something."""
        less = f" less {self.tare_typed} tare" if self.tare_typed else ""
        return f"{self.day} {self.what} {self.mass_typed}{less} ({self.use})"


def harvests(reader: Reader, first: date, last: date) -> list[Harvest]:
    """The weighings of a span of days, both included, in the order they were booked."""
    where = "WHERE harvest.day BETWEEN :first AND :last"
    return reader.all(Harvest, f"{HARVESTS} {where} ORDER BY harvest.day, harvest.id", first=first, last=last)


def harvest(reader: Reader, id: int) -> Harvest | None:
    """The weighing of that id."""
    return reader.one(Harvest, f"{HARVESTS} WHERE harvest.id = :id", id=id)


def of_lot(reader: Reader, lot: int) -> list[Harvest]:
    """The weighings from a fish lot, the oldest first."""
    return reader.all(Harvest, f"{HARVESTS} WHERE harvest.fish_lot_id = :lot ORDER BY harvest.day, harvest.id", lot=lot)


def valued(reader: Reader, unit: int, first: date, last: date) -> list[ValuedHarvest]:
    """The weighings of a unit in a span, each with its value."""
    return reader.all(ValuedHarvest, VALUED, unit=unit, first=first, last=last)


@dataclass(frozen=True, slots=True)
class DayTotal:
    """Produce that counts from one unit on one day, in milligrams."""

    unit_id: int
    day: date
    mass_mg: int


def daily(reader: Reader, first: date, last: date) -> list[DayTotal]:
    """Produce that counts, summed by unit and day."""
    return reader.all(DayTotal, DAILY, first=first, last=last)


@dataclass(frozen=True, slots=True)
class Picked:
    """Produce that counts of one crop from one bed on one day, in milligrams."""

    bed_id: int
    crop_id: int
    day: date
    mass_mg: int


def picked(reader: Reader, first: date, last: date) -> list[Picked]:
    """Produce that counts, summed by bed, crop and day."""
    return reader.all(Picked, PICKED, first=first, last=last)


@dataclass(frozen=True, slots=True)
class PlantingTotal:
    """Produce that counts from one planting so far, in milligrams, and the days of its first and last weighing."""

    planting_id: int
    mass_mg: int
    first_day: date
    last_day: date


def of_plantings(reader: Reader, on: date) -> dict[int, PlantingTotal]:
    """What each planting has brought up to a day, by planting id."""
    return {one.planting_id: one for one in reader.all(PlantingTotal, OF_PLANTINGS, on_day=on)}


def recorded_days(reader: Reader) -> tuple[date, date] | None:
    """The first and the last day on which a harvest, a cost or a unit's state is booked."""
    found = next(reader.rows(RECORDED))
    return (day(found["first_day"]), day(found["last_day"])) if found["first_day"] else None


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


def fingerprints(reader: Reader) -> set[str]:
    """The marks of rows that came from files."""
    return {row["fingerprint"] for row in reader.rows("SELECT fingerprint FROM harvest WHERE fingerprint IS NOT NULL")}
