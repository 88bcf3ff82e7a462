"""Limits of the water for fish, filter and plants, each with its source; species have stricter ones of their own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

from farmops.library import tables
from farmops.library.species_facts import SpeciesFacts, species
from farmops.library.tables import Standing
from farmops.model.limits import Level, Limit, Side
from farmops.model.readings import Form, Measure

FISH, FILTER, PLANTS = "fish", "the filter", "plants"
OF_SPECIES = (
    ("tan_limit_mg_l", Measure.AMMONIA, Side.ABOVE, Level.HARMFUL, Form.AS_N, "more than they bear"),
    ("nitrite_limit_mg_l", Measure.NITRITE, Side.ABOVE, Level.HARMFUL, Form.AS_ION, "more than they bear"),
    ("oxygen_floor_mg_l", Measure.OXYGEN, Side.BELOW, Level.DANGEROUS, None, "less than they need"),
    ("vital_low_c", Measure.TEMPERATURE, Side.BELOW, Level.DANGEROUS, None, "colder than they live in"),
    ("vital_high_c", Measure.TEMPERATURE, Side.ABOVE, Level.DANGEROUS, None, "warmer than they live in"),
)
"""Which facts of a species are limits. The form of nitrite is not known; the ion is the safe side."""


@cache
def water_limits() -> tuple[Limit, ...]:
    """The limits that hold whatever the species, in the order of the table."""
    return tuple(_limit(row) for row in tables.read("water_limits.csv"))


def limits_for(species_keys: Iterable[str], *, fish: bool, bacteria: bool, plants: bool) -> tuple[Limit, ...]:
    """The limits of all who live in a unit, those of its species first."""
    living = {FISH: fish, FILTER: bacteria, PLANTS: plants}
    known = (species(key) for key in dict.fromkeys(species_keys))
    own = [limit for facts in known if facts is not None for limit in _of_species(facts)]
    return (*own, *(limit for limit in water_limits() if living[limit.who]))


def _of_species(facts: SpeciesFacts) -> Iterator[Limit]:
    for name, measure, side, level, form, why in OF_SPECIES:
        at = getattr(facts, name)
        if at is not None:
            remembered = facts.standing is not Standing.VERIFIED
            first = first_step(measure, side)
            yield Limit(facts.name.lower(), measure, side, at, level, why, first, facts.source, remembered, form)


@cache
def first_step(measure: Measure, side: Side) -> str:
    """What to do first when a measure lies beyond a limit; every limit of the tables has one, others have nothing."""
    rows = tables.read("water_steps.csv")
    return next((row["first"] for row in rows if (row["measure"], row["side"]) == (measure.value, side.value)), "")


def _limit(row: dict[str, str]) -> Limit:
    measure, side = Measure(row["measure"]), Side(row["side"])
    return Limit(
        who=row["who"],
        measure=measure,
        side=side,
        at=float(row["at"]),
        level=Level(row["level"]),
        why=row["why"],
        first=first_step(measure, side),
        source=row["source"],
        remembered=Standing(row["standing"]) is not Standing.VERIFIED,
        form=Form(row["form"]) if row["form"] else None,
        toxic=tables.yes(row["toxic"]),
    )
