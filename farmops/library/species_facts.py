"""Facts about fish and prawns: temperatures, water limits, feed, the law; each row with its source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class SpeciesFacts:
    """What a source says of a species; None is not known.

    Temperatures [deg C]: `vital` bounds life, `best` bounds good growth; neither says when to stop feeding.
    Limits [mg/L] to stay below for total ammonia and nitrite, to stay above for oxygen. Feed protein [%].
    """

    key: str
    name: str
    latin_name: str
    vital_low_c: float | None
    vital_high_c: float | None
    best_low_c: float | None
    best_high_c: float | None
    tan_limit_mg_l: float | None
    nitrite_limit_mg_l: float | None
    oxygen_floor_mg_l: float | None
    feed_protein_low: float | None
    feed_protein_high: float | None
    usually_eaten: bool
    law_note: str
    source: str
    standing: Standing


@cache
def all_species() -> tuple[SpeciesFacts, ...]:
    """All species, in the order of the table."""
    return tuple(_facts(row) for row in tables.read("species.csv"))


def species(key_or_name: str) -> SpeciesFacts | None:
    """The species of that key, name or Latin name, whatever its case; None when the table has none."""
    return _by_name().get(tables.lookup_name(key_or_name))


def species_near(typed: str) -> tuple[str, ...]:
    """The names, in small letters, that were meant where the table has none of that name: by a part of it, or alike."""
    from difflib import get_close_matches

    known = [facts.name.lower() for facts in all_species()]
    words = typed.lower().split()
    parts = [name for name in known if words and set(words) <= set(name.split())]
    return tuple(parts or get_close_matches(" ".join(words), known, n=2))


@cache
def _by_name() -> Mapping[str, SpeciesFacts]:
    return MappingProxyType(
        {
            tables.lookup_name(name): facts
            for facts in all_species()
            for name in (facts.latin_name, facts.key, facts.name)
        }
    )


def _facts(row: dict[str, str]) -> SpeciesFacts:
    return SpeciesFacts(
        key=row["key"],
        name=row["name"],
        latin_name=row["latin_name"],
        vital_low_c=tables.number(row["vital_low_c"]),
        vital_high_c=tables.number(row["vital_high_c"]),
        best_low_c=tables.number(row["best_low_c"]),
        best_high_c=tables.number(row["best_high_c"]),
        tan_limit_mg_l=tables.number(row["tan_limit_mg_l"]),
        nitrite_limit_mg_l=tables.number(row["nitrite_limit_mg_l"]),
        oxygen_floor_mg_l=tables.number(row["oxygen_floor_mg_l"]),
        feed_protein_low=tables.number(row["feed_protein_low"]),
        feed_protein_high=tables.number(row["feed_protein_high"]),
        usually_eaten=tables.yes(row["usually_eaten"]),
        law_note=row["law_note"],
        source=row["source"],
        standing=Standing(row["standing"]),
    )
