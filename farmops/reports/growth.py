"""How heavy fish were when they were weighed, how fast they grew, and how heavy they will be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta

from farmops.facts.populations import Population, Step
from farmops.model.errors import OutOfRange
from farmops.model.fish_events import Happened
from farmops.model.frozen import dataclass
from farmops.model.readings import Reading
from farmops.science.fish import MeanWeight, project_by_sgr, specific_growth_rate

MG_PER_G = 1000
FURTHEST_DAYS = 120
"""So far a growth rate is carried on; `science.fish.project_by_sgr` goes no further."""
STEP_DAYS = 7
ROUNDING = 1e-9
"""So much of a day is no day more."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """The mean weight of one fish on a day it became known [mg], with its standard error where that is known."""

    day: date
    mean_mg: int
    se_mg: float | None
    fish: int


@dataclass(frozen=True, slots=True)
class Ahead:
    """The weight of one fish expected on a day [mg], with its band where fish were weighed one by one."""

    day: date
    mean_mg: int
    low_mg: int | None = None
    high_mg: int | None = None


@dataclass(frozen=True, slots=True)
class Reached:
    """The day a weight [mg] is reached, or why none can be told; `first` and `last` by the band of the weighing."""

    target_mg: int
    day: date | None
    first: date | None = None
    last: date | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class Interval:
    """Growth between the last weighing and the weight that was known before it: `start` and `end`."""

    start: Weighed
    end: Weighed

    @property
    def days(self) -> int:
        """Days between the two."""
        return (self.end.day - self.start.day).days

    @property
    def sgr(self) -> float:
        """Specific growth rate [% a day]. Raises OutOfRange where no day lies between."""
        return specific_growth_rate(self.start.mean_mg / MG_PER_G, self.end.mean_mg / MG_PER_G, self.days)


def weighings(steps: Sequence[Step]) -> list[Weighed]:
    """Each weight that became known: when stocked or come out of another lot, and at each weighing of a sample."""
    found: dict[date, Weighed] = {}
    for at, step in enumerate(steps):
        first = at == 0 or not steps[at - 1].after.number
        if (first or step.event.kind is Happened.SAMPLED) and (one := _weighed(step.after)) is not None:
            found[one.day] = one
    return list(found.values())


def _weighed(held: Population) -> Weighed | None:
    mean = held.mean_mg
    return None if mean is None else Weighed(held.weighed_day, mean, held.se_mg, held.sampled)


def last_interval(steps: Sequence[Step]) -> Interval | None:
    """The growth up to the last weighing of a sample; None where there is no weight of an earlier day."""
    for at in range(len(steps) - 1, 0, -1):
        if steps[at].event.kind is not Happened.SAMPLED:
            continue
        before, after = _weighed(steps[at - 1].after), _weighed(steps[at].after)
        if before and after and before.day < after.day:
            return Interval(before, after)
    return None


def expected(interval: Interval, day: date) -> Ahead:
    """The weight on a day after the last weighing, if they grow on as they did. Raises OutOfRange beyond 120 days."""
    end = interval.end
    start = MeanWeight(end.mean_mg / MG_PER_G, max(1, end.fish), None, _per_g(end.se_mg))
    found = project_by_sgr(start, interval.sgr, (day - end.day).days)
    band = found.band_g and tuple(round(grams * MG_PER_G) for grams in found.band_g)
    return Ahead(day, round(found.mean_g * MG_PER_G), *(band or ()))


def _per_g(se_mg: float | None) -> float | None:
    return None if se_mg is None else se_mg / MG_PER_G


def ahead(interval: Interval | None) -> list[Ahead]:
    """The weights expected week by week after the last weighing, as far as a growth rate is carried on."""
    if interval is None:
        return []
    days = range(0, FURTHEST_DAYS + 1, STEP_DAYS)
    return [expected(interval, interval.end.day + timedelta(days=n)) for n in days]


def reached(interval: Interval | None, target_mg: int) -> Reached:
    """The day on which one fish weighs so much, if they grow on as they did."""
    if interval is None:
        return Reached(target_mg, None, reason="weighed on one day alone: weigh a sample on another")
    end, rate = interval.end, interval.sgr
    if rate <= 0:
        return Reached(target_mg, None, reason="they did not grow between the last two weighings")
    day = _day_of(end, end.mean_mg, rate, target_mg)
    if day is None:
        far = f"not within {FURTHEST_DAYS} days of the last weighing, and no rate holds longer"
        return Reached(target_mg, None, reason=far)
    here = expected(interval, end.day)
    first = _day_of(end, here.high_mg, rate, target_mg) if here.high_mg else None
    last = _day_of(end, here.low_mg, rate, target_mg) if here.low_mg else None
    return Reached(target_mg, day, first, last)


def _day_of(end: Weighed, mean_mg: int, rate: float, target_mg: int) -> date | None:
    days = max(0, math.ceil(math.log(target_mg / mean_mg) / rate * 100 - ROUNDING))
    return end.day + timedelta(days=days) if days <= FURTHEST_DAYS else None


def daily_temperatures(readings: Sequence[Reading], first: date, last: date) -> list[float]:
    """The water temperature of each day after the first up to the last [deg C], between readings in a straight line.

    Raises OutOfRange where none was read.
    """
    known: dict[date, list[float]] = {}
    for one in readings:
        known.setdefault(one.day, []).append(one.value)
    means = sorted((day, math.fsum(values) / len(values)) for day, values in known.items())
    if not means:
        raise OutOfRange("no water temperature was read between the weighings")
    return [_between(means, first + timedelta(days=n)) for n in range(1, (last - first).days + 1)]


def _between(means: Sequence[tuple[date, float]], day: date) -> float:
    before = [one for one in means if one[0] <= day]
    after = [one for one in means if one[0] >= day]
    if not before or not after:
        return (before[-1] if before else after[0])[1]
    (d1, t1), (d2, t2) = before[-1], after[0]
    return t1 if d1 == d2 else t1 + (t2 - t1) * (day - d1).days / (d2 - d1).days
