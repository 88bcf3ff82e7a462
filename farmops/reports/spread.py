"""How sure yields are: an interval from week to week, and which neighbours in their order really differ."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from itertools import pairwise
from typing import TYPE_CHECKING

from farmops.economics.bootstrap import CONFIDENCE, fitting_block, interval_of, widened_confidence
from farmops.economics.comparison import FEWEST_WEEKS
from farmops.facts.reading import Store
from farmops.model.frozen import dataclass
from farmops.reports.comparing import VALUE, VALUE_PER_AREA, YIELD, Compared, compared
from farmops.reports.spans import Span
from farmops.reports.weeks import Plot, Series, Weeks

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

RESAMPLES = 2000
MOST_COMPARED = 40
"""Units, the best first, of which each is held against the next: who has more asks for two of them."""
FARM = "the farm"


@dataclass(frozen=True, slots=True)
class Spread:
    """A yield in a span and the 95 % interval it may lie in by the chance of its weeks, in mg per mm2."""

    name: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Sure:
    """How sure the yields of units, beds or crops are, how neighbours among the units compare, and their weeks.

    `weekly` is produce that counts in each whole week of the span, in mg, by name.
    """

    spreads: dict[str, Spread]
    neighbours: tuple[Compared, ...] = ()
    weekly: Mapping[str, Sequence[float]] = field(default_factory=dict)


def sure_of_units(store: Store, span: Span) -> Sure:
    """Intervals of every unit; neighbours among the best in the order of their yields, like crops against like."""
    with store.reading() as reader:
        weeks = Weeks(reader, span)
        plots = [weeks.of_unit(unit) for unit in weeks.units]
        found = [(plot, weeks.produce(plot)) for plot in plots]
        ordered = sorted((one for one in found if any(one[1].weeks)), key=lambda one: -one[1].total)
        best = [plot for plot, _ in ordered[:MOST_COMPARED]]
        compares = tuple(_likest(weeks, one, other) for one, other in pairwise(best))
        weekly = {plot.name: weeks.masses(plot) for plot in plots}
        weekly[FARM] = [sum(week) for week in zip(*weekly.values(), strict=True)]
        return Sure(spreads(series for _, series in found), compares, weekly)


def sure_of_names(store: Store, span: Span, names: Sequence[str]) -> Sure:
    """Intervals of beds or crops by name, each of the yield that stands in the table beside it."""
    with store.reading() as reader:
        weeks = Weeks(reader, span)
        plots = [weeks.plot(name) for name in names]
        weekly = {plot.name: weeks.masses(plot) for plot in plots}
        found = (weeks.per_sowing(plot) if plot.crop else weeks.produce(plot) for plot in plots)
        return Sure(spreads(found), (), weekly)


def spreads(found: Iterable[Series]) -> dict[str, Spread]:
    """Of those with enough weeks and something weighed, by name."""
    return {one.name: spread(one) for one in found if len(one.weeks) >= FEWEST_WEEKS and any(one.weeks)}


def spread(one: Series) -> Spread:
    """The interval of the sum of all weeks, by block bootstrap over them."""
    weeks = one.weeks
    block = fitting_block(weeks)
    confidence = widened_confidence(CONFIDENCE, len(weeks) / block)
    low, high = interval_of(weeks, _total, block_weeks=block, confidence=confidence, resamples=RESAMPLES)
    return Spread(one.name, max(0.0, low), high)


def _total(weeks: NDArray[np.float64]) -> NDArray[np.float64]:
    total: NDArray[np.float64] = weeks.sum(axis=-1)
    return total


def _likest(weeks: Weeks, one: Plot, other: Plot) -> Compared:
    """By the crop that both brought something of in most weeks, of equals the most; by value where they share none."""
    names = {crop.id: crop.name for crop in weeks.crops}
    shared = sorted(weeks.grown_in(one) & weeks.grown_in(other), key=lambda id: names[id])
    grown = [(names[id], weeks.of_crop(one, id), weeks.of_crop(other, id)) for id in shared]
    both = [line for line in grown if any(line[1].weeks) and any(line[2].weeks)]
    if not both:
        return compared(VALUE_PER_AREA, VALUE, weeks.value(one), weeks.value(other))
    name, first, second = max(both, key=lambda line: (_in_common(line[1], line[2]), line[1].total + line[2].total))
    return compared(name, YIELD, first, second)


def _in_common(first: Series, second: Series) -> int:
    return len(first.by_week.keys() & second.by_week.keys())
