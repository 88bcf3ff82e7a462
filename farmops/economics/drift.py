"""Whether a number that should hold still is moving: control charts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from statistics import fmean

from farmops.model.errors import OutOfRange, Refused
from farmops.model.frozen import dataclass

D2_OF_PAIRS = 1.128
D4_OF_PAIRS = 3.267
SIGMAS = 3.0

USUAL_WEIGHT = 0.3
"""Weight of the newest value in the moving average: NIST/SEMATECH e-Handbook, 6.3.2.4, takes 0.2 to 0.3."""

FEWEST_OF_BASELINE, MOST_OF_BASELINE = 6, 10
"""How many values tell what is usual. Common practice, no source."""

LEAST_SPREAD = 0.01
"""Standard deviation that is taken at least, as a share of the mean: a clock is read no finer. Common practice."""


@dataclass(frozen=True, slots=True)
class Limits:
    """The band within which values differ by chance alone, in their own unit."""

    low: float
    centre: float
    high: float

    def outside(self, values: Sequence[float]) -> list[int]:
        """Positions of the values beyond the limits, counted from 0."""
        return [at for at, value in enumerate(values) if not self.low <= value <= self.high]


@dataclass(frozen=True, slots=True)
class Individuals:
    """Chart of single values: their limits, the mean step between neighbours and the limit of a step."""

    limits: Limits
    mean_range: float
    range_high: float


def individuals(values: Sequence[float]) -> Individuals:
    """Limits of single values: mean +/- 3 MR / 1.128, with MR the mean step between neighbours.

    Args:
        values: in the order they were taken, in any unit; two or more, better twenty.

    Raises:
        Refused: there are fewer than two values.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.
    """
    if len(values) < 2:
        raise Refused("A chart needs two values or more.")
    mean = fmean(values)
    mean_range = fmean(abs(after - before) for before, after in pairwise(values))
    reach = SIGMAS * mean_range / D2_OF_PAIRS
    return Individuals(Limits(mean - reach, mean, mean + reach), mean_range, D4_OF_PAIRS * mean_range)


def ewma(values: Iterable[float], weight: float, start: float) -> list[float]:
    """Exponentially weighted moving average: z_t = w x_t + (1 - w) z_(t-1).

    Args:
        values: in the order they were taken, in any unit.
        weight: of the newest value (lambda) [-], above 0, at most 1; at 1 it is the data.
        start: what the average is before the first value, such as the target.

    Raises:
        OutOfRange: the weight is not in its range.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
    """
    _check_weight(weight)
    averages, average = [], start
    for value in values:
        average = weight * value + (1 - weight) * average
        averages.append(average)
    return averages


def ewma_limits(target: float, sigma: float, weight: float, after: int | None = None) -> Limits:
    """Limits of the moving average: target +/- 3 s sqrt(w / (2 - w)), narrower for the first values.

    Args:
        target: where the values should lie.
        sigma: standard deviation of single values while all was well, in their unit.
        weight: of the newest value (lambda) [-], above 0, at most 1.
        after: number of values so far, for the limits at the start of a chart; None for the steady ones.

    Raises:
        OutOfRange: the weight or the spread is not in its range.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4.
    """
    _check_weight(weight)
    if not sigma >= 0:
        raise OutOfRange(f"A standard deviation of {sigma:g} is outside the range: it is 0 or more.")
    early = 1.0 if after is None else 1 - (1 - weight) ** (2 * after)
    reach = SIGMAS * sigma * math.sqrt(weight / (2 - weight) * early)
    return Limits(target - reach, target, target + reach)


def cusum(values: Iterable[float], target: float, slack: float) -> list[tuple[float, float]]:
    """Sums of what lies above and below target by more than the slack, never below zero.

    Args:
        values: in the order they were taken, in any unit.
        target: where the values should lie.
        slack: what is let pass (k), half the shift to find, in the unit of the values; zero or more.

    Returns:
        One pair (above, below) per value; a shift shows when one exceeds the decision limit h.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
    """
    sums, above, below = [], 0.0, 0.0
    for value in values:
        above = max(0.0, above + value - target - slack)
        below = max(0.0, below + target - slack - value)
        sums.append((above, below))
    return sums


@dataclass(frozen=True, slots=True)
class Moving:
    """Where values lie against what is usual: `sides` has 1 above, -1 below, 0 within, for each of them.

    `baseline` counts the values that tell what is usual; they are within.
    """

    usual: Limits
    baseline: int
    sides: tuple[int, ...]

    @property
    def side(self) -> int:
        """On which side the latest value lies."""
        return self.sides[-1]

    @property
    def running(self) -> int:
        """How many of the latest values lie there, one after the other; 0 where the latest is as usual."""
        if not self.side:
            return 0
        others = [at for at, side in enumerate(self.sides) if side != self.side]
        return len(self.sides) - 1 - max(others, default=-1)


def moving(values: Sequence[float]) -> Moving | None:
    """Whether values move away from what was usual at first; None while there are too few to tell.

    The first six tell what is usual; those that follow join them while they are as usual, up to ten. A value is
    not as usual when it is beyond the limits of single values, or when it lies on the side to which the moving
    average is beyond its own.

    Args:
        values: in the order they were taken, in any unit.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4.
    """
    if len(values) < FEWEST_OF_BASELINE:
        return None
    baseline = list(values[:FEWEST_OF_BASELINE])
    watch = Watch(*_usual(baseline), USUAL_WEIGHT)
    sides = [0] * FEWEST_OF_BASELINE
    for value in values[FEWEST_OF_BASELINE:]:
        sides.append(watch.side(value))
        if not sides[-1] and len(baseline) < MOST_OF_BASELINE:
            baseline.append(value)
            watch.centre, watch.sigma = _usual(baseline)
    return Moving(watch.limits, len(baseline), tuple(sides))


def _usual(baseline: Sequence[float]) -> tuple[float, float]:
    """Mean and standard deviation of values while all is well, the latter from the steps between neighbours."""
    chart = individuals(baseline)
    return chart.limits.centre, max(chart.mean_range / D2_OF_PAIRS, LEAST_SPREAD * abs(chart.limits.centre))


class Watch:
    """Looks at values one by one, as single values and as a moving average, against a centre and a spread."""

    def __init__(self, centre: float, sigma: float, weight: float) -> None:
        self.centre, self.sigma, self.weight = centre, sigma, weight
        self.average, self.number, self.was_beyond = centre, 0, False

    @property
    def limits(self) -> Limits:
        """The limits of single values."""
        return Limits(self.centre - SIGMAS * self.sigma, self.centre, self.centre + SIGMAS * self.sigma)

    def side(self, value: float) -> int:
        """Where the next value lies: 1 above, -1 below, 0 as usual.

        One that comes back within the limits begins the average anew: what was wrong was put right.
        """
        beyond = _beyond(value, self.limits)
        if self.was_beyond and not beyond:
            self.average, self.number = self.centre, 0
        (self.average,), self.number = ewma([value], self.weight, self.average), self.number + 1
        self.was_beyond = bool(beyond)
        drawn = _beyond(self.average, ewma_limits(self.centre, self.sigma, self.weight, self.number))
        return beyond or (drawn if (value - self.centre) * drawn > 0 else 0)


def _beyond(value: float, limits: Limits) -> int:
    return (value > limits.high) - (value < limits.low)


def _check_weight(weight: float) -> None:
    if not 0 < weight <= 1:
        raise OutOfRange(f"A weight of {weight:g} is outside the range: above 0, at most 1.")
