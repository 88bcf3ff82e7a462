"""A unit that cycles: ammonia and nitrite day by day, what is missing until it is ready for fish, and a stall."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from farmops.facts import farm as farm_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import readings as reading_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Store
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.instruments import InstrumentCheck
from farmops.model.readings import FRESH_DAYS, Measure, Reading
from farmops.model.units import StateFrom, UnitState
from farmops.quantities import Measures
from farmops.quantities.readings import show_value

DAYS_ASKED = 7
"""For how many days the readings must be near nothing. Common practice: about a week."""
NEAR_NOTHING_MG_PER_L = 0.25
"""What counts as near nothing, as N: the first step of most kits. Common practice."""
STALL_DAYS = 7
"""After how many days without change it is said that it stands still. Common practice."""
CHANGE = 0.25
"""Which part of a value counts as a change, about what a step of a kit is. Common practice."""
SLOW_BELOW_C, SOUR_BELOW_PH = 14.0, 6.0
"""Below these the bacteria work slowly: the limits of the filter."""
CURVES = (Measure.AMMONIA, Measure.NITRITE, Measure.NITRATE)
FOOD = CURVES[:2]


@dataclass(frozen=True, slots=True)
class Cycling:
    """How far the cycling of a unit is. `day` counts from 1; `missing` is what must still be, none when `ready`.

    `stalls` say what stands still and what may be behind it.
    """

    unit: str
    on: date
    since: date
    day: int
    days_asked: int
    curves: tuple[tuple[Measure, tuple[Reading, ...]], ...]
    missing: tuple[str, ...]
    stalls: tuple[str, ...]

    @property
    def ready(self) -> bool:
        """Whether the readings say that fish can come."""
        return not self.missing

    def curve(self, measure: Measure) -> tuple[Reading, ...]:
        """What was read of a measure since the cycling began, oldest first."""
        return dict(self.curves)[measure]


def cycling_of(store: Store, unit_id: int, on: date | None = None, days_asked: int = DAYS_ASKED) -> Cycling | None:
    """The cycling of a unit on a day; None when it is not cycling then. Raises NotFound."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        unit = next((one for one in unit_facts.units(reader) if one.id == unit_id), None)
        if unit is None:
            raise NotFound(f"There is no unit {unit_id}.")
        day = on or farm.today()
        since = cycling_since(unit_facts.all_states(reader).get(unit_id, []), day)
        if since is None:
            return None
        read = reading_facts.readings(reader, since, day, unit_id)
        checks = instrument_facts.checks(reader)
    missing = missing_until_ready(read, checks, day, days_asked)
    curves = tuple((one, tuple(x for x in read if x.measure is one)) for one in CURVES)
    stalls = stalls_of(read, day, farm.measures)
    return Cycling(unit.code, day, since, (day - since).days + 1, days_asked, curves, tuple(missing), tuple(stalls))


def cycling_since(states: Sequence[StateFrom], on: date) -> date | None:
    """Since when a unit that cycles on a day does so."""
    held = [one for one in states if one.from_day <= on]
    return held[-1].from_day if held and held[-1].state is UnitState.CYCLING else None


def missing_until_ready(
    read: Sequence[Reading], checks: Iterable[InstrumentCheck], on: date, days_asked: int
) -> list[str]:
    """What must still be read before fish can come: near nothing for the days asked, and nitrate that climbs."""
    listed = list(checks)
    found = [
        words for one in FOOD for words in _lacks(one, [x for x in read if x.measure is one], listed, on, days_asked)
    ]
    return [*found, *_nitrate([x for x in read if x.measure is Measure.NITRATE])]


def _lacks(
    measure: Measure, read: Sequence[Reading], checks: Sequence[InstrumentCheck], on: date, days_asked: int
) -> list[str]:
    if not read:
        return [f"{measure} was not read yet"]
    last = read[-1]
    if last.value > NEAR_NOTHING_MG_PER_L:
        return [f"{measure} is {last.value:.3g} mg/L as N, wanted at most {NEAR_NOTHING_MG_PER_L}"]
    if (on - last.day).days > FRESH_DAYS:
        return [f"{measure} was last read on {last.day}; read it again"]
    run = _run(read)
    days = (last.day - run[0].day).days + 1
    short = [] if days >= days_asked else [f"{measure} near nothing for {days} of {days_asked} days"]
    return [*short, *_untrusted(measure, [x for x in run if (last.day - x.day).days < days_asked], checks)]


def _run(read: Sequence[Reading]) -> list[Reading]:
    """The readings near nothing that end with the last, with no gap between them longer than a reading stands."""
    found = [read[-1]]
    for one in reversed(read[:-1]):
        if one.value > NEAR_NOTHING_MG_PER_L or (found[0].day - one.day).days > FRESH_DAYS:
            break
        found.insert(0, one)
    return found


def _untrusted(measure: Measure, run: Iterable[Reading], checks: Sequence[InstrumentCheck]) -> list[str]:
    """Why the readings do not count: no instrument, one that passed no check, one that is doubtful."""
    passed = {one.instrument_id for one in checks if one.passed}
    found = []
    for one in run:
        if one.instrument is None:
            found.append(f"{measure} was read with no instrument named; say which: --with")
        elif one.doubt is not None:
            found.append(f"{measure} is {one.doubtful}")
        elif one.instrument_id not in passed:
            found.append(f"{one.instrument} has passed no check; hold it against something known")
    return list(dict.fromkeys(found))


def _nitrate(read: Sequence[Reading]) -> list[str]:
    if len(read) < 2:
        return ["nitrate was read once, and must be seen to climb" if read else "nitrate was not read yet"]
    climbs = read[-1].value > read[0].value
    return [] if climbs else ["nitrate does not climb"]


def stalls_of(read: Sequence[Reading], on: date, measures: Measures) -> list[str]:
    """What has stood still for a week or more above near nothing, and what may be behind it."""
    found = []
    for measure in FOOD:
        own = [one for one in read if one.measure is measure]
        days = _still(own)
        if days >= STALL_DAYS:
            value = show_value(own[-1].value, measure, measures)
            found.append(f"{measure} has hardly changed for {days} days, {value}{_behind(own, read, on, measures)}")
    return found


def _still(own: Sequence[Reading]) -> int:
    """For how many days up to the last reading all lie near it; 0 when there is next to nothing to change."""
    if not own or own[-1].value <= NEAR_NOTHING_MG_PER_L:
        return 0
    last, since = own[-1], own[-1].day
    for one in reversed(own):
        if abs(one.value - last.value) > CHANGE * last.value:
            break
        since = one.day
    return (last.day - since).days


def _behind(own: Sequence[Reading], read: Sequence[Reading], on: date, measures: Measures) -> str:
    causes = []
    cold = _last(read, Measure.TEMPERATURE, on)
    sour = _last(read, Measure.PH, on)
    if cold is not None and cold.value < SLOW_BELOW_C:
        causes.append(f"the water is cold, {show_value(cold.value, cold.measure, measures)}: bacteria work slowly")
    if sour is not None and sour.value < SOUR_BELOW_PH:
        causes.append(f"the water is sour, pH {sour.value:.3g}: bacteria work slowly")
    if own[-1].doubt is not None:
        causes.append(f"{own[-1].doubtful}: read it with another")
    return f"; {'; '.join(causes)}" if causes else "; read with another kit, look at pH and temperature"


def _last(read: Sequence[Reading], measure: Measure, on: date) -> Reading | None:
    fresh = on - timedelta(days=2 * STALL_DAYS)
    return next((one for one in reversed(read) if one.measure is measure and one.day >= fresh), None)
