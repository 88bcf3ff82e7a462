"""Facts about crops: room, time and temperatures they want, each row with its source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.beds import BedKind
from farmops.model.frozen import dataclass
from farmops.model.plantings import StartedBy


@dataclass(frozen=True, slots=True)
class CropFacts:
    """What a source says of a crop; None is not known.

    `counted_from` says what the days to the first harvest count from, None where the source does not.
    `pick_again_days` is how long a crop that is cut again and again takes to the next pick, None for others; it is
    common practice whatever the standing of the row.
    Temperatures [deg C] span day and night; pH is that of the water [-].
    """

    key: str
    name: str
    latin_name: str
    spacing_cm_low: float | None
    spacing_cm_high: float | None
    plants_per_m2_low: float | None
    plants_per_m2_high: float | None
    germination_days_low: int | None
    germination_days_high: int | None
    days_to_harvest_low: int | None
    days_to_harvest_high: int | None
    counted_from: StartedBy | None
    pick_again_days: int | None
    temp_low_c: float | None
    temp_high_c: float | None
    ph_low: float | None
    ph_high: float | None
    bed_kinds: tuple[BedKind, ...]
    source: str
    standing: Standing


@cache
def crops() -> tuple[CropFacts, ...]:
    """All crops, in the order of the table."""
    return tuple(_facts(row) for row in tables.read("crops.csv"))


def crop(key_or_name: str) -> CropFacts | None:
    """The crop of that key, name or Latin name, whatever its case; None when the table has none."""
    return _by_name().get(tables.lookup_name(key_or_name))


@cache
def _by_name() -> Mapping[str, CropFacts]:
    names = {tables.lookup_name(facts.latin_name): facts for facts in reversed(crops())}
    names |= {tables.lookup_name(name): facts for facts in crops() for name in (facts.key, facts.name)}
    return MappingProxyType(names)


def _facts(row: dict[str, str]) -> CropFacts:
    return CropFacts(
        key=row["key"],
        name=row["name"],
        latin_name=row["latin_name"],
        spacing_cm_low=tables.number(row["spacing_cm_low"]),
        spacing_cm_high=tables.number(row["spacing_cm_high"]),
        plants_per_m2_low=tables.number(row["plants_per_m2_low"]),
        plants_per_m2_high=tables.number(row["plants_per_m2_high"]),
        germination_days_low=tables.whole(row["germination_days_low"]),
        germination_days_high=tables.whole(row["germination_days_high"]),
        days_to_harvest_low=tables.whole(row["days_to_harvest_low"]),
        days_to_harvest_high=tables.whole(row["days_to_harvest_high"]),
        counted_from=StartedBy(row["from"]) if row["from"] else None,
        pick_again_days=tables.whole(row["pick_again_days"]),
        temp_low_c=tables.number(row["temp_low_c"]),
        temp_high_c=tables.number(row["temp_high_c"]),
        ph_low=tables.number(row["ph_low"]),
        ph_high=tables.number(row["ph_high"]),
        bed_kinds=tuple(BedKind(kind) for kind in tables.words(row["bed_kinds"])),
        source=row["source"],
        standing=Standing(row["standing"]),
    )
