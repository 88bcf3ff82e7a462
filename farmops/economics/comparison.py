"""Whether one unit, crop or habit is really better than another, from its weeks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from farmops.model.errors import Refused

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FEWEST_WEEKS = 6
ROUGH_BELOW_WEEKS = 10
CONFIDENCE = 0.95
RESAMPLES = 9_999
SEED = 20_260_101


class Verdict(StrEnum):
    """The plain answer to a comparison."""

    CLEARLY_BETTER = "clearly better"
    TOO_CLOSE = "too close to call"
    TOO_LITTLE = "too little data"


@dataclass(frozen=True, slots=True)
class Interval:
    """A difference of two means and where it lies, in the unit of the values.

    Attributes:
        difference: mean of the first less mean of the second.
        low: lower end of the interval.
        high: upper end of the interval.
    """

    difference: float
    low: float
    high: float

    @property
    def excludes_zero(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """What the weeks of two say about their difference.

    Attributes:
        verdict: the plain answer; "clearly better" is the first where the difference is above zero and more
            is better, else the second.
        weeks: weeks of the one with fewer.
        interval: the difference and its interval; None where a mean cannot be taken.
        more_weeks: weeks more of each that would settle it if the difference stays as it is, approximately;
            0 where it is settled, None where no number would.
    """

    verdict: Verdict
    weeks: int
    interval: Interval | None
    more_weeks: int | None

    @property
    def rough(self) -> bool:
        """Whether there are so few weeks that the interval is no more than a hint."""
        return self.weeks < ROUGH_BELOW_WEEKS


def compare(first: Sequence[float], second: Sequence[float], *, paired: bool = False) -> Comparison:
    """Judge the difference of two weekly series by a block bootstrap at 95 % confidence.

    Args:
        first: one value per week, in order, in any unit common to both.
        second: as `first`; of the same weeks where `paired`.
        paired: both series cover the same weeks, so that weather and season, which struck both, cancel.

    Raises:
        Refused: paired series differ in length, or a value is not a finite number.
    """
    weeks = min(len(first), len(second))
    if weeks == 0:
        return Comparison(Verdict.TOO_LITTLE, 0, None, FEWEST_WEEKS)
    interval = difference_of_means(first, second, paired=paired)
    if weeks < FEWEST_WEEKS:
        return Comparison(Verdict.TOO_LITTLE, weeks, interval, FEWEST_WEEKS - weeks)
    if interval.excludes_zero:
        return Comparison(Verdict.CLEARLY_BETTER, weeks, interval, 0)
    return Comparison(Verdict.TOO_CLOSE, weeks, interval, weeks_to_settle(weeks, interval))


def difference_of_means(
    first: Sequence[float],
    second: Sequence[float],
    *,
    paired: bool = False,
    block_weeks: int | None = None,
    confidence: float = CONFIDENCE,
    resamples: int = RESAMPLES,
    seed: int = SEED,
) -> Interval:
    """Percentile interval of the difference of two means by the moving-block bootstrap.

    Runs of neighbouring weeks are drawn whole, because a good week follows a good week. With blocks of one
    week it is the ordinary bootstrap.

    Args:
        first: one value per week, in order, in any unit common to both.
        second: as `first`; of the same weeks where `paired`.
        paired: draw the same weeks from both.
        block_weeks: length of a block [weeks], from 1 to the length of the series; the cube root of that
            length unless given.
        confidence: of the interval [fraction], between 0 and 1.
        resamples: number of draws.
        seed: of the random generator; the same seed gives the same interval.

    Raises:
        Refused: a series is empty, paired series differ in length, a value is not a finite number, or the
            block length does not fit.

    Source:
        Kuensch (1989), Annals of Statistics 17:1217-1241; Efron and Tibshirani (1993), An Introduction to the
        Bootstrap, 8.6 and 13.3.
    """
    import numpy as np

    _check_series(first, second, paired=paired)
    generator = np.random.default_rng(seed)
    ones, others = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    if paired:
        draws = _block_means(ones - others, block_weeks, resamples, generator)
    else:
        draws = _block_means(ones, block_weeks, resamples, generator)
        draws = draws - _block_means(others, block_weeks, resamples, generator)
    low, high = np.quantile(draws, [(1 - confidence) / 2, (1 + confidence) / 2])
    return Interval(float(ones.mean() - others.mean()), float(low), float(high))


def weeks_to_settle(weeks: int, interval: Interval) -> int | None:
    """Weeks more of each until the interval would no longer reach zero, if the difference stays as it is.

    The half width w shrinks with the root of the number of weeks n, so that it equals the difference d at
    n (w / d)^2 weeks. Approximate: it takes the d seen so far for the true one.

    Args:
        weeks: number of weeks the interval rests on.
        interval: one that reaches zero.

    Returns:
        At least 1; None where there is no difference to settle.
    """
    if interval.difference == 0:
        return None
    half_width = (interval.high - interval.low) / 2
    needed = weeks * (half_width / interval.difference) ** 2
    return max(1, math.ceil(needed) - weeks) if math.isfinite(needed) else None


@dataclass(frozen=True, slots=True)
class Sample:
    """Size, mean and standard deviation (n - 1) of a sample, the last two in the unit of its values."""

    size: int
    mean: float
    deviation: float

    @property
    def error_squared(self) -> float:
        """Variance of the mean."""
        return self.deviation**2 / self.size


@dataclass(frozen=True, slots=True)
class WelchTest:
    """Welch's t, its degrees of freedom and the two-sided probability."""

    t: float
    degrees_of_freedom: float
    probability: float


def sample_of(values: Sequence[float]) -> Sample:
    """Size, mean and standard deviation of values.

    Raises:
        Refused: there are fewer than two.
    """
    from statistics import fmean, stdev

    if len(values) < 2:
        raise Refused("A spread needs two values or more.")
    return Sample(len(values), fmean(values), stdev(values))


def welch_test(first: Sample, second: Sample) -> WelchTest:
    """Welch's t test of two means whose spreads may differ; for values that do not depend on each other.

    Raises:
        Refused: a sample has fewer than two values, or neither has any spread.

    Source:
        NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3.
    """
    from scipy.stats import t as students_t

    if min(first.size, second.size) < 2:
        raise Refused("A t test needs two values or more of each.")
    both = first.error_squared + second.error_squared
    if both == 0:
        raise Refused("A t test needs values that are not all alike.")
    t = (first.mean - second.mean) / math.sqrt(both)
    spreads = (sample.error_squared**2 / (sample.size - 1) for sample in (first, second))
    degrees = both**2 / math.fsum(spreads)
    return WelchTest(t, degrees, 2 * float(students_t.sf(abs(t), degrees)))


def _check_series(first: Sequence[float], second: Sequence[float], *, paired: bool) -> None:
    if not len(first) or not len(second):
        raise Refused("There is nothing to compare: one of the two has no weeks.")
    if paired and len(first) != len(second):
        raise Refused("To compare week by week, both must cover the same weeks.")
    if not all(math.isfinite(value) for series in (first, second) for value in series):
        raise Refused("A week without a value cannot be compared; leave it out.")


def _block_means(
    values: NDArray[np.float64], block_weeks: int | None, resamples: int, generator: np.random.Generator
) -> NDArray[np.float64]:
    """Means of resamples as long as the series, each of whole blocks and the head of a last one."""
    import numpy as np

    weeks = len(values)
    block = block_weeks or round(weeks ** (1 / 3))
    if not 1 <= block <= weeks:
        raise Refused(f"A block of {block} weeks does not fit a series of {weeks}.")
    whole, rest = divmod(weeks, block)
    running = np.concatenate([[0.0], np.cumsum(values)])
    starts = generator.integers(0, weeks - block + 1, size=(resamples, whole + 1))
    sums = (running[starts[:, :whole] + block] - running[starts[:, :whole]]).sum(axis=1)
    last = starts[:, whole]
    means: NDArray[np.float64] = (sums + running[last + rest] - running[last]) / weeks
    return means
