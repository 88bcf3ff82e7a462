"""Whether a number that should hold still is moving: control charts and trends."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise
from statistics import fmean, median

from farmops.model.errors import OutOfRange, Refused
from farmops.model.frozen import dataclass

D2_OF_PAIRS = 1.128
D4_OF_PAIRS = 3.267
SIGMAS = 3.0
FEWEST_FOR_TREND = 4
FEW = 60
"""Up to so many values pairs are counted without numpy, which takes longer to load than they to count."""

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


@dataclass(frozen=True, slots=True)
class Slope:
    """A straight line through values, in their unit per unit of time.

    Attributes:
        slope: median of the slopes of all pairs.
        intercept: median value less slope times median time.
        low: lower end of the interval of the slope.
        high: upper end of the interval of the slope.
    """

    slope: float
    intercept: float
    low: float
    high: float


def theil_sen(times: Sequence[float], values: Sequence[float], confidence: float = 0.95) -> Slope:
    """Slope that a few wild values do not turn: the median over all pairs.

    Args:
        times: when each value was taken, in any unit (days, years); not all the same.
        values: one per time, in any unit.
        confidence: of the interval [fraction], between 0 and 1.

    Raises:
        Refused: the lengths differ, there are fewer than two values, or all times are the same.

    Source:
        Sen (1968), J. Am. Stat. Assoc. 63:1379-1389; its interval takes whole order statistics.
    """
    if len(times) != len(values):
        raise Refused("A trend needs one time for every value.")
    if len(set(times)) < 2:
        raise Refused("A trend needs values from two times or more.")
    from scipy.stats import theilslopes

    found = theilslopes(values, times, alpha=confidence, method="separate")
    return Slope(*(float(number) for number in found))


def median_slope(times: Sequence[float], values: Sequence[float]) -> float:
    """The slope of `theil_sen` alone, in the unit of the values per unit of time; counted without scipy.

    Raises:
        Refused: all times are the same, or there is one value only.
    """
    pairs = combinations(zip(times, values, strict=True), 2)
    slopes = [(after - before) / (later - earlier) for (earlier, before), (later, after) in pairs if later != earlier]
    if not slopes:
        raise Refused("A trend needs values from two times or more.")
    return median(slopes)


@dataclass(frozen=True, slots=True)
class Trend:
    """The Mann-Kendall test: rises less falls over all pairs, and how likely chance alone makes as many.

    Attributes:
        score: pairs that rise less pairs that fall (S).
        variance: of the score where there is no trend.
        z: the score in standard deviations, moved one pair towards zero.
        probability: two-sided.
        tau: the score as a fraction of all pairs, from -1 to 1.
    """

    score: int
    variance: float
    z: float
    probability: float
    tau: float


def mann_kendall(values: Sequence[float]) -> Trend:
    """Test whether values rise or fall steadily, whatever their distribution; only their order counts.

    Args:
        values: in the order they were taken, in any unit; four or more, ten for a sound probability.

    Raises:
        Refused: there are fewer than four values.

    Source:
        US EPA (2009), Unified Guidance, EPA 530/R-09-007, 17.3.2, with its correction for ties.
    """
    count = len(values)
    if count < FEWEST_FOR_TREND:
        raise Refused(f"A trend needs {FEWEST_FOR_TREND} values or more.")
    score = _rises_less_falls(values)
    ties = Counter(values).values()
    variance = (_pair_term(count) - sum(_pair_term(tied) for tied in ties)) / 18
    z = math.copysign(max(abs(score) - 1, 0), score) / math.sqrt(variance) if variance else 0.0
    probability = math.erfc(abs(z) / math.sqrt(2))
    return Trend(score, variance, z, probability, 2 * score / (count * (count - 1)))


def _pair_term(count: int) -> int:
    return count * (count - 1) * (2 * count + 5)


def _rises_less_falls(values: Sequence[float]) -> int:
    if len(values) <= FEW:
        return sum((after > before) - (after < before) for before, after in combinations(values, 2))
    import numpy as np

    series = np.asarray(values, dtype=float)
    return sum(int(np.sign(series[at + 1 :] - series[at]).sum()) for at in range(len(series)))


def _check_weight(weight: float) -> None:
    if not 0 < weight <= 1:
        raise OutOfRange(f"A weight of {weight:g} is outside the range: above 0, at most 1.")
