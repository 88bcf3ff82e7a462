"""Weighings with who booked them, to hold one against the others of its kind."""

from __future__ import annotations

from datetime import date

from farmops.facts.harvests import COUNTS, SOURCES
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
OF_LOT = "harvest.fish_lot_id = :source"
SAME = "one.id = :source AND same.bed_id = one.bed_id AND +same.crop_id = one.crop_id"
"""The plantings of one's crop in its bed; the sign makes both stores look among those of the bed, which are few."""
OF_BED_AND_CROP = (
    f"harvest.planting_id IN (SELECT same.id FROM planting AS one CROSS JOIN planting AS same WHERE {SAME})"
)
LAST_OF_LOT = f"""
    SELECT harvest.id FROM harvest WHERE {OF_LOT} AND harvest.day <= :on_day AND {COUNTS} AND harvest.number > 0
    ORDER BY harvest.day DESC, harvest.id DESC LIMIT :most
"""
LAST_OF_BED_AND_CROP = f"""
    SELECT harvest.id FROM planting AS one CROSS JOIN planting AS same CROSS JOIN harvest
    WHERE {SAME} AND harvest.id IN (
        SELECT harvest.id FROM harvest WHERE harvest.planting_id = same.id AND harvest.day <= :on_day AND {COUNTS}
        ORDER BY harvest.day DESC, harvest.id DESC LIMIT :most)
    ORDER BY harvest.day DESC, harvest.id DESC LIMIT :most
"""
"""The last of each planting come in the order of an index, so that no more weighings are looked at than are told."""
LATELY = """
    WHERE harvest.id IN (
        SELECT last.id FROM ({last}) AS last
        UNION SELECT harvest.id FROM harvest
        WHERE {kind} AND harvest.day = :on_day AND harvest.mass_mg = :mass_mg)
    ORDER BY harvest.day, harvest.id
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
    kind = OF_LOT if planting is None else OF_BED_AND_CROP
    query = f"{BOOKED} WHERE {kind} ORDER BY harvest.day, harvest.id"
    return reader.all(BookedWeighing, query, source=lot if planting is None else planting)


def lately(
    reader: Reader, planting: int | None, lot: int | None, on: date, mass_mg: int, most: int
) -> list[BookedWeighing]:
    """Of the same kind, those of the day and weight, and the `most` last that tell what is usual then, in their order.

    What is usual is told by what counts and, of fish, was counted; a booking looks at no more, however old the farm is.
    """
    kind, last = (OF_LOT, LAST_OF_LOT) if planting is None else (OF_BED_AND_CROP, LAST_OF_BED_AND_CROP)
    query, source = BOOKED + LATELY.format(kind=kind, last=last), lot if planting is None else planting
    return reader.all(BookedWeighing, query, source=source, on_day=on, mass_mg=mass_mg, most=most)
