"""Weighings with who booked them, to hold one against the others of its kind."""

from __future__ import annotations

from datetime import date

from farmops.facts.harvests import SOURCES
from farmops.model.frozen import dataclass
from farmops.model.harvests import Use
from farmops.records.reading import Reader

BOOKED = f"""
    SELECT harvest.id, harvest.day, unit.code AS unit, planting.bed_id,
        CASE WHEN bed.id IS NOT NULL THEN unit.code || '-' || bed.name END AS bed, planting.crop_id,
        harvest.fish_lot_id, COALESCE(crop.name, fish_lot.code) AS what, harvest.mass_mg, harvest.mass_typed,
        harvest.tare_mg, harvest.number, harvest.use, journal.actor
    {SOURCES}
    JOIN journal ON journal.operation = harvest.operation
"""
OF_THE_KIND = """
    WHERE harvest.fish_lot_id = :lot OR (planting.bed_id, planting.crop_id) = (
        SELECT one.bed_id, one.crop_id FROM planting AS one WHERE one.id = :planting)
"""

GROUND = """
    SELECT crop.name AS what, unit.code || '-' || bed.name AS bed, COALESCE(planting.area_mm2, (
        SELECT area_mm2 FROM bed_size WHERE bed_size.bed_id = bed.id AND from_day <= :on_day
        ORDER BY from_day DESC LIMIT 1)) AS area_mm2
    FROM planting
    JOIN bed ON bed.id = planting.bed_id
    JOIN unit ON unit.id = bed.unit_id
    JOIN crop ON crop.id = planting.crop_id
    WHERE planting.id = :planting
"""


@dataclass(frozen=True, slots=True)
class Ground:
    """Where a crop stands, and on how much; `area_mm2` None where no size is booked."""

    what: str
    bed: str
    area_mm2: int | None


@dataclass(frozen=True, slots=True)
class BookedWeighing:
    """A weighing, net of its tare, and who booked it or corrected it last."""

    id: int
    day: date
    unit: str
    bed_id: int | None
    bed: str | None
    crop_id: int | None
    fish_lot_id: int | None
    what: str
    mass_mg: int
    mass_typed: str
    tare_mg: int
    number: int | None
    use: Use
    actor: str

    @property
    def kind(self) -> tuple[int | None, int | None, int | None]:
        """What it is alike with: the crop in its bed, or the fish lot."""
        return self.bed_id, self.crop_id, self.fish_lot_id

    @property
    def where(self) -> str:
        """The bed, or the unit of fish."""
        return self.bed or self.unit

    @property
    def measured_mg(self) -> float | None:
        """What is alike from time to time: all of the produce, of fish the weight of each where they were counted."""
        if self.fish_lot_id is None:
            return self.mass_mg
        return self.mass_mg / self.number if self.number else None


def booked(reader: Reader, first: date, last: date) -> list[BookedWeighing]:
    """The weighings of a span of days, in their order."""
    where = "WHERE harvest.day BETWEEN :first AND :last"
    return reader.all(BookedWeighing, f"{BOOKED} {where} ORDER BY harvest.day, harvest.id", first=first, last=last)


def ground(reader: Reader, planting: int, on: date) -> Ground | None:
    """The ground that a planting takes on a day."""
    return reader.one(Ground, GROUND, planting=planting, on_day=on)


def of_the_kind(reader: Reader, planting: int | None, lot: int | None) -> list[BookedWeighing]:
    """The weighings of the same crop from the same bed as a planting, or of the same fish lot, in their order."""
    query = f"{BOOKED} {OF_THE_KIND} ORDER BY harvest.day, harvest.id"
    return reader.all(BookedWeighing, query, planting=planting, lot=lot)
