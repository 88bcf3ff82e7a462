"""What chores by use and by condition follow from: what was used, what is forecast, what holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from farmops.facts import beds as bed_facts
from farmops.facts import forecasts as forecast_facts
from farmops.facts import units as unit_facts
from farmops.facts import usage as usage_facts
from farmops.facts.conditions import CONDITIONS, named
from farmops.facts.conditions import Held as HeldAnywhere
from farmops.facts.farm import farm
from farmops.facts.reading import Reader, Store
from farmops.model.chores import AppliesTo
from farmops.model.forecasts import Forecast
from farmops.model.frozen import dataclass
from farmops.model.usage import Usage


@dataclass(frozen=True, slots=True)
class Held:
    """What holds at a place on a day: since when, until when where an end is known, why, and what would end it.

    `unit` is None for the whole farm.
    """

    where: str
    unit: str | None
    since: date
    until: date | None
    why: str
    ends: str


@dataclass(frozen=True, slots=True)
class ConditionNow:
    """A condition that chores can wait for: for which kind of place, what it means, and where it holds."""

    name: str
    place: AppliesTo
    words: str
    holds: tuple[Held, ...]


def usages(store: Store, unit: int | None = None) -> list[Usage]:
    """Every record of use, or those of one unit, newest first."""
    with store.reading() as reader:
        return usage_facts.usages(reader, unit)


def forecasts(store: Store, first: date | None = None) -> list[Forecast]:
    """What is forecast for a day, today unless another is named, and for those after it."""
    with store.reading() as reader:
        return forecast_facts.forecasts(reader, first or farm(reader).today())


def condition_names() -> tuple[str, ...]:
    """The conditions that chores can wait for."""
    return tuple(CONDITIONS)


def check_condition(name: str) -> None:
    """Raises NotUnderstood for a condition that there is not."""
    named(name)


def conditions(store: Store, on: date | None = None) -> list[ConditionNow]:
    """Every condition, and what holds on a day."""
    with store.reading() as reader:
        day = on or farm(reader).today()
        places = _places(reader)
        return [
            ConditionNow(one.name, one.place, one.words, tuple(_held(one.read(reader), one.place, places, day)))
            for one in CONDITIONS.values()
        ]


def _places(reader: Reader) -> dict[tuple[AppliesTo, int], tuple[str, str]]:
    """Every unit and bed by its code, with the code of its unit, in walking order."""
    units = {(AppliesTo.UNIT, one.id): (one.code, one.code) for one in unit_facts.units(reader)}
    return units | {(AppliesTo.BED, one.id): (one.code, one.unit) for one in bed_facts.beds(reader)}


def _held(
    found: HeldAnywhere, kind: AppliesTo, places: Mapping[tuple[AppliesTo, int], tuple[str, str]], day: date
) -> Iterator[Held]:
    """What holds on the day, place by place in walking order."""
    order = list(places)
    for place in sorted(found, key=lambda place: order.index((kind, place)) if place is not None else -1):
        where, unit = places[kind, place] if place is not None else ("all", None)
        for one in found[place]:
            if one.since <= day and (one.until is None or day <= one.until):
                yield Held(where, unit, one.since, one.until, one.why, one.ends)
