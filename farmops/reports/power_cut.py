"""How long the fish of each unit have without pump and air, by what is known now, and where a power cut stands."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta

from farmops import clock
from farmops.facts import contacts as contact_facts
from farmops.facts import farm as farm_facts
from farmops.facts import incidents as incident_facts
from farmops.facts import readings as reading_facts
from farmops.facts import units as unit_facts
from farmops.facts.incidents import AtStake
from farmops.facts.live_fish import LiveLot, live_on
from farmops.facts.reading import Reader, Store
from farmops.library import species
from farmops.library.incident_steps import AIR, incident_steps, steps_of
from farmops.model.contacts import Contact
from farmops.model.errors import NotFound, OutOfRange
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.incidents import Incident, Phase, Step, Ticked
from farmops.model.readings import FRESH_DAYS, Measure, Reading
from farmops.model.units import Unit
from farmops.science.oxygen import USUAL_FLOOR_MG_PER_L, minutes_without_power

STALE_DAYS = 30
"""How old a temperature may be to say anything: a season changes it."""
GROWN_DAYS = 30
"""After how many days fish are told to be heavier than when they were weighed."""
MG_PER_G, ML_PER_L, UM_PER_M = 1000, 1000, 1_000_000


@dataclass(frozen=True, slots=True)
class Basis:
    """What the minutes rest on: litres of water, fish and the weight of one in grams, temperature and when it was read.

    `floor_mg_per_l` is the oxygen not to fall below, `oxygen_mg_per_l` what was read since the power went, None if
    nothing was; `weighed_day` is the oldest day on which fish of the unit were weighed.
    """

    volume_l: float
    number: int
    mean_g: float
    biomass_kg: float
    temperature_c: float
    temperature_day: date
    floor_mg_per_l: float
    oxygen_mg_per_l: float | None
    weighed_day: date


@dataclass(frozen=True, slots=True)
class UnitTime:
    """How long a unit has: minutes from `since` on, or None with what is `missing`, in words. `remarks` shorten it."""

    unit: Unit
    minutes: float | None
    since: datetime
    missing: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    basis: Basis | None = None
    air: Ticked | None = None

    def left(self, now: datetime) -> float | None:
        """Minutes left, 0 when the time is up; None when it cannot be said or air runs."""
        if self.minutes is None or self.air is not None:
            return None
        return max(0.0, self.minutes - (now - self.since).total_seconds() / 60)


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step for one unit, or for the farm, and when and by whom it was taken."""

    step: Step
    unit: Unit | None
    ticked: Ticked | None


@dataclass(frozen=True, slots=True)
class Standing:
    """A power cut, or (incident None) what would come of one that begins now.

    Times are those of units with fish, the least first; the steps of while it lasts come before those after it.
    """

    farm: Farm
    incident: Incident | None
    now: datetime
    times: tuple[UnitTime, ...]
    steps: tuple[StepLine, ...]
    contacts: tuple[Contact, ...]

    def of(self, phase: Phase) -> tuple[StepLine, ...]:
        """The steps of a phase."""
        return tuple(one for one in self.steps if one.step.phase is phase)

    @property
    def over(self) -> bool:
        """Whether it was and is no more."""
        return self.incident is not None and self.incident.ended_at is not None

    @property
    def all_running(self) -> bool:
        """Whether everything was seen running again."""
        return all(one.ticked for one in self.of(Phase.AFTER))


def standing_now(store: Store) -> Standing:
    """The power cut that is open, or what would come of one that begins now."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        found = incident_facts.open_incidents(reader)
        return _standing(reader, farm, found[0] if found else None)


def standing_of(store: Store, number: int) -> Standing:
    """How a power cut stood or stands, by its number. Raises NotFound."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        found = incident_facts.incident(reader, number)
        if found is None:
            raise NotFound(f"There is no incident {number}. See: farmops incident list")
        return _standing(reader, farm, found)


def _standing(reader: Reader, farm: Farm, incident: Incident | None) -> Standing:
    now = farm.now()
    ticked = incident_facts.ticked(reader, incident.id) if incident else []
    over = incident is not None and incident.ended_at is not None
    times = [] if over else unit_times(reader, farm, incident.began_at if incident else now, ticked)
    lines = _taken(reader, ticked) if over else _lines(incident_facts.units_at_stake(reader, farm.today()), ticked)
    return Standing(farm, incident, now, tuple(times), tuple(lines), tuple(contact_facts.contacts(reader)))


def _lines(at_stake: Sequence[AtStake], ticked: Sequence[Ticked]) -> Iterable[StepLine]:
    """The steps in their order, each for the farm or for the units that call for it; then unit by unit what to see."""
    taken = {(one.step, one.unit_id): one for one in ticked}
    for step in steps_of(Phase.DURING):
        units = [one.unit for one in at_stake if step.fits(one.unit.kind, fish=one.with_fish)]
        for unit in units if step.per_unit else [None]:
            yield StepLine(step, unit, taken.get((step.key, unit.id if unit else None)))
    for one in at_stake:
        for step in steps_of(Phase.AFTER):
            if step.fits(one.unit.kind, fish=one.with_fish):
                yield StepLine(step, one.unit, taken.get((step.key, one.unit.id)))


def _taken(reader: Reader, ticked: Sequence[Ticked]) -> Iterable[StepLine]:
    """What was done in a power cut that is over, step by step."""
    units = {unit.id: unit for unit in unit_facts.units(reader)}
    taken = ((step, one) for step in incident_steps() for one in ticked if one.step == step.key)
    return (StepLine(step, units.get(one.unit_id or 0), one) for step, one in taken)


def unit_times(reader: Reader, farm: Farm, began: datetime, ticked: Sequence[Ticked] = ()) -> list[UnitTime]:
    """How long each unit with fish has from an instant on, the least first, those that cannot be said before all."""
    today = farm.today()
    lots = live_on(reader, today)
    warmth = _latest(reader, today, Measure.TEMPERATURE)
    oxygen = _since(_latest(reader, today, Measure.OXYGEN), farm, began)
    aired = {one.unit_id: one for one in reversed(ticked) if one.step == AIR}
    times = []
    for one in incident_facts.units_at_stake(reader, today):
        own = [lot for lot in lots if lot.unit_id == one.unit.id]
        if own:
            conditions = Conditions(one.unit, own, warmth.get(one.unit.id), oxygen.get(one.unit.id))
            times.append(time_of(conditions, farm, began, today, aired.get(one.unit.id)))
    return sorted(times, key=lambda time: (time.air is not None, time.minutes or 0.0))


def _latest(reader: Reader, on: date, measure: Measure) -> dict[int, Reading]:
    return {one.unit_id: one for one in reading_facts.latest(reader, on, measure)}


def _since(readings: dict[int, Reading], farm: Farm, began: datetime) -> dict[int, Reading]:
    """The readings that were taken since an instant: only what has an hour can be told to be one."""
    return {id: one for id, one in readings.items() if one.minute is not None and _instant(one, farm) >= began}


def _instant(one: Reading, farm: Farm) -> datetime:
    return clock.instant_of(one.day, one.minute or 0, farm.time_zone)


@dataclass(frozen=True, slots=True)
class Conditions:
    """What is known of a unit with fish: its lots, the last temperature, and oxygen read since the power went."""

    unit: Unit
    lots: Sequence[LiveLot]
    warmth: Reading | None = None
    oxygen: Reading | None = None

    @property
    def number(self) -> int:
        """How many fish there are."""
        return sum(lot.number for lot in self.lots)

    @property
    def biomass_kg(self) -> float:
        """What the fish weigh together, rather too much than too little."""
        return sum(lot.number * lot.heavy_mg for lot in self.lots) / MG_PER_G / 1000

    @property
    def mean_g(self) -> float:
        """The weight of the smallest kind of fish there: small ones breathe most for their weight."""
        return min(lot.heavy_mg for lot in self.lots) / MG_PER_G

    @property
    def floor_mg_per_l(self) -> float:
        """The oxygen that the most demanding of them needs."""
        return max(_floor(lot) for lot in self.lots)

    @property
    def weighed_day(self) -> date:
        """The oldest day on which one of the lots was weighed."""
        return min(lot.weighed_day for lot in self.lots)


def _floor(lot: LiveLot) -> float:
    facts = species(lot.library_key or lot.species)
    return (facts and facts.oxygen_floor_mg_l) or USUAL_FLOOR_MG_PER_L


def time_of(found: Conditions, farm: Farm, began: datetime, today: date, air: Ticked | None = None) -> UnitTime:
    """How long a unit has, or what is missing to say it."""
    since = _instant(found.oxygen, farm) if found.oxygen else began
    missing = tuple(_missing(found, today))
    if missing or found.warmth is None:
        return UnitTime(found.unit, None, since, missing, air=air)
    basis = basis_at(found, found.warmth.value, found.warmth.day)
    try:
        minutes = minutes_at(basis, farm)
    except OutOfRange as error:
        return UnitTime(found.unit, None, since, (f"{error}",), air=air)
    return UnitTime(found.unit, minutes, since, (), tuple(_remarks(basis, today)), basis, air)


def _missing(found: Conditions, today: date) -> Iterable[str]:
    if found.unit.tank_ml is None:
        yield "how much water the tank holds is not known"
    if found.warmth is None:
        yield "no water temperature was read"
    elif (today - found.warmth.day).days > STALE_DAYS:
        yield f"the last water temperature is of {found.warmth.day}"


def _remarks(basis: Basis, today: date) -> Iterable[str]:
    if (today - basis.temperature_day).days > FRESH_DAYS:
        yield f"the temperature is of {basis.temperature_day}: in warmer water there is less time"
    if (today - basis.weighed_day).days > GROWN_DAYS:
        yield f"weighed on {basis.weighed_day}: grown since, there is less time"


def basis_at(found: Conditions, temperature_c: float, day: date) -> Basis:
    """What minutes rest on at a temperature that was read, or is supposed, on a day."""
    return Basis(
        volume_l=(found.unit.tank_ml or 0) / ML_PER_L,
        number=found.number,
        mean_g=found.mean_g,
        biomass_kg=found.biomass_kg,
        temperature_c=temperature_c,
        temperature_day=day,
        floor_mg_per_l=found.floor_mg_per_l,
        oxygen_mg_per_l=found.oxygen.value if found.oxygen else None,
        weighed_day=found.weighed_day,
    )


def minutes_at(basis: Basis, farm: Farm) -> float:
    """Minutes without power, rather too few than too many. Raises OutOfRange."""
    return minutes_without_power(
        volume_l=basis.volume_l,
        biomass_kg=basis.biomass_kg,
        mean_g=basis.mean_g,
        temperature_c=basis.temperature_c,
        limit_mg_per_l=basis.floor_mg_per_l,
        measured_mg_per_l=basis.oxygen_mg_per_l,
        altitude_m=(farm.altitude_um or 0) / UM_PER_M,
    ).minutes


def conditions_of(reader: Reader, unit: Unit, on: date) -> Conditions | None:
    """What is known of one unit on a day; None when no fish live there."""
    own = [lot for lot in live_on(reader, on) if lot.unit_id == unit.id]
    return Conditions(unit, own, _latest(reader, on, Measure.TEMPERATURE).get(unit.id)) if own else None


def least_of(found: Standing, now: datetime) -> UnitTime | None:
    """The unit with the least time left, of those without air of which it can be said."""
    running = [(left, time) for time in found.times if (left := time.left(now)) is not None]
    return min(running, key=lambda one: one[0])[1] if running else None


def elapsed(began: datetime, now: datetime) -> timedelta:
    """How long it has lasted, never less than nothing."""
    return max(timedelta(0), now - began)
