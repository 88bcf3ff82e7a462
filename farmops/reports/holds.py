"""What treatments hold on a day: places nobody goes into yet, beds that are not picked, fish that are not taken."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from datetime import date, datetime, timedelta

from farmops import clock
from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import treatments as treatment_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.treatments import Hold, Treatment, longest, short_day

LOOK_BACK = timedelta(days=400)
"""Longer than any hold."""


@dataclass(frozen=True, slots=True)
class HoldLine:
    """A hold that lasts, on a bed, a fish lot or all people at a place, in words."""

    unit_id: int
    unit: str
    where: str
    words: str
    product: str
    until: datetime
    people: bool = False


@dataclass(frozen=True, slots=True)
class Holds:
    """What is held on a day: produce by bed, fish by lot, and people by place."""

    farm: Farm
    on: date
    beds: dict[int, Hold] = field(default_factory=dict)
    lots: dict[int, Hold] = field(default_factory=dict)
    entries: tuple[Treatment, ...] = ()


def held_on(store: Store, on: date | None = None) -> Holds:
    """What is held on a day."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        return holds_on(reader, farm, on or farm.today())


def holds_on(reader: Reader, farm: Farm, day: date) -> Holds:
    """What is held on a day; on the farm's own day, people only until the hour has come."""
    moment = farm.now() if day == farm.today() else clock.instant_of(day, 0, farm.time_zone)
    done = treatment_facts.treatments(reader, day - LOOK_BACK, day)
    entries = tuple(one for one in done if one.at + timedelta(hours=one.reentry_hours) > moment)
    if not done:
        return Holds(farm, day)
    beds = _lasting(treatment_facts.bed_holds(reader), day)
    return Holds(farm, day, beds, _lasting(treatment_facts.lot_holds(reader), day), entries)


def _lasting(held: dict[int, list[Hold]], day: date) -> dict[int, Hold]:
    found = {place: longest(holds, day) for place, holds in held.items()}
    return {place: hold for place, hold in found.items() if hold is not None}


def hold_lines(reader: Reader, farm: Farm, day: date, unit: str | None = None) -> tuple[HoldLine, ...]:
    """What is held on a day in walking order, people first: of one unit, or of all."""
    held = holds_on(reader, farm, day)
    if not (held.beds or held.lots or held.entries):
        return ()
    units = {one.id: (at, one.code) for at, one in enumerate(unit_facts.units(reader))}
    lines = [*_people(held), *_produce(reader, held), *_fish(reader, held)]
    lines.sort(key=lambda one: units[one.unit_id][0])
    return tuple(one for one in lines if unit in (None, one.unit))


def _people(held: Holds) -> Iterator[HoldLine]:
    zone = held.farm.time_zone
    for one in held.entries:
        until = one.at + timedelta(hours=one.reentry_hours)
        day = until.astimezone(clock.time_zone(zone)).date()
        when = clock.hour_of(until, zone) if day == held.on else f"{short_day(day)} {clock.hour_of(until, zone)}"
        words = f"nobody goes in before {when}: {one.product}"
        yield HoldLine(one.unit_id, one.unit, one.where, words, one.product, until, people=True)


def _produce(reader: Reader, held: Holds) -> Iterator[HoldLine]:
    for bed in bed_facts.beds(reader):
        hold = held.beds.get(bed.id)
        if hold is not None:
            words = f"no picking {hold.words}"
            yield HoldLine(bed.unit_id, bed.unit, bed.code, words, hold.treatment.product, hold.free_at)


def _fish(reader: Reader, held: Holds) -> Iterator[HoldLine]:
    for lot in fish_facts.lots(reader):
        hold = held.lots.get(lot.id)
        if hold is not None:
            words = f"no fish taken {hold.words}"
            yield HoldLine(lot.unit_id, lot.unit, lot.code, words, hold.treatment.product, hold.free_at)
