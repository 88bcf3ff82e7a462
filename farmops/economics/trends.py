"""Whether a series rises or falls, and how fast, whatever the distribution of its values."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import combinations
from statistics import median

from farmops.model.errors import Refused
from farmops.model.frozen import dataclass

FEWEST_FOR_TREND = 4
FEW = 60
"""Up to so many values pairs are counted without numpy, which takes longer to load than they to count."""


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
