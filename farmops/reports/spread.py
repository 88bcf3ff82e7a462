"""How sure the yields of units are: an interval from week to week, and who clearly out-yields whom."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise

from farmops.economics.bootstrap import difference_of_means
from farmops.economics.comparison import Verdict, compare
from farmops.facts import beds as bed_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.units import StateFrom
from farmops.reports.spans import Span, active_days

FEWEST_WEEKS = 8
RESAMPLES = 2000


@dataclass(frozen=True, slots=True)
class Weekly:
    """Produce per area of one unit in each week of a span in which it was active, in mg per mm2, by week number."""

    unit: str
    by_week: dict[int, float]

    @property
    def weeks(self) -> tuple[float, ...]:
        """The values, in order."""
        return tuple(self.by_week.values())

    @property
    def total(self) -> float:
        """The yield of all its weeks."""
        return sum(self.weeks)


@dataclass(frozen=True, slots=True)
class Spread:
    """The yield of a unit in a span and the 95 % interval it may lie in by chance of its weeks, in mg per mm2."""

    unit: str
    low: float
    high: float


def weekly_yields(store: Store, span: Span) -> list[Weekly]:
    """The weekly yields of every unit with a bed area and at least one active whole week."""
    with store.reading() as reader:
        areas = _areas(reader, span)
        states = unit_facts.all_states(reader)
        days = harvest_facts.daily(reader, span.first, span.last)
        found = []
        for unit in unit_facts.units(reader):
            active = [week for week in range(span.days // 7) if _active(states.get(unit.id, []), span, week)]
            if not areas.get(unit.id) or not active:
                continue
            masses = [0] * (span.days // 7)
            for one in days:
                week = (one.day - span.first).days // 7
                if one.unit_id == unit.id and week < len(masses):
                    masses[week] += one.mass_mg
            found.append(Weekly(unit.code, {week: masses[week] / areas[unit.id] for week in active}))
        return found


def _areas(reader: Reader, span: Span) -> dict[int, int]:
    on = bed_facts.areas_on(reader, span.last)
    areas: dict[int, int] = {}
    for bed in bed_facts.beds(reader):
        areas[bed.unit_id] = areas.get(bed.unit_id, 0) + on.get(bed.id, 0)
    return areas


def _active(states: list[StateFrom], span: Span, week: int) -> bool:
    first = span.first + timedelta(days=7 * week)
    return active_days(states, Span(first, first + timedelta(days=6))) > 0


def spreads(found: Sequence[Weekly]) -> dict[str, Spread]:
    """For units with enough weeks, the interval of their yield over those weeks, by block bootstrap over weeks."""
    return {one.unit: _spread(one) for one in found if len(one.weeks) >= FEWEST_WEEKS and any(one.weeks)}


def _spread(one: Weekly) -> Spread:
    interval = difference_of_means(one.weeks, [0.0], resamples=RESAMPLES)
    weeks = len(one.weeks)
    return Spread(one.unit, max(0.0, interval.low * weeks), interval.high * weeks)


def verdicts(found: Sequence[Weekly]) -> list[str]:
    """Neighbours in the order of their yields, compared week by week over the weeks both were active."""
    ordered = sorted((one for one in found if any(one.weeks)), key=lambda one: -one.total)
    return [_verdict(better, worse) for better, worse in pairwise(ordered)]


def _verdict(better: Weekly, worse: Weekly) -> str:
    common = [week for week in better.by_week if week in worse.by_week]
    ones, others = ([one.by_week[week] for week in common] for one in (better, worse))
    result = compare(ones, others, paired=True)
    pair = f"{better.unit} against {worse.unit}"
    if result.verdict is Verdict.TOO_LITTLE:
        return f"{pair}: too little data, {len(common)} weeks of both."
    if result.interval is not None and result.interval.excludes_zero:
        name = better.unit if result.interval.difference > 0 else worse.unit
        return f"{pair}: {name} yields clearly more per area, week for week."
    more = f"; about {result.more_weeks} more weeks would settle it" if result.more_weeks else ""
    return f"{pair}: too close to call{more}."
