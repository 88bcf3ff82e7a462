"""Whether one unit, crop or habit is really better than another, from its weeks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from statistics import NormalDist, fmean, stdev
from typing import TYPE_CHECKING

from farmops.model.errors import OutOfRange, Refused

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FEWEST_WEEKS = 8
ROUGH_BELOW_WEEKS = 10
MOST_WEEKS = 20 * 52
CONFIDENCE = 0.95
RESAMPLES = 19_999
SEED = 20_260_101
ROUNDING_NOISE = 1e-12


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
        interval: the difference and its interval; None where there is too little data for one.
        more_weeks: weeks more of each that would settle it, approximately; 0 where it is settled, None where
            no number would; with too little data, the weeks until a first verdict.
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
    """Judge the difference of two weekly series by a block bootstrap, at 95 % confidence.

    The interval is widened for few weeks (`widened_confidence`). Of two that do not differ it then calls one
    better about once in twenty where weeks are independent; up to once in five where they are few and each
    resembles the one before (ten paired weeks, autocorrelation 0.5, by simulation).

    Args:
        first: one value per week, in order, in any unit common to both.
        second: as `first`; of the same weeks where `paired`.
        paired: both series cover the same weeks, so that weather and season, which struck both, cancel.

    Raises:
        Refused: paired series differ in length, or a value is not a finite number.
    """
    weeks = min(len(first), len(second))
    if weeks < FEWEST_WEEKS:
        return Comparison(Verdict.TOO_LITTLE, weeks, None, FEWEST_WEEKS - weeks)
    block = usual_block(weeks)
    confidence = widened_confidence(CONFIDENCE, weeks / block)
    interval = difference_of_means(first, second, paired=paired, block_weeks=block, confidence=confidence)
    if interval.excludes_zero:
        return Comparison(Verdict.CLEARLY_BETTER, weeks, interval, 0)
    return Comparison(Verdict.TOO_CLOSE, weeks, interval, weeks_to_settle(weeks, interval))


def usual_block(weeks: int) -> int:
    """Length of a block for a series of that many weeks: its cube root, rounded [weeks]."""
    return round(math.cbrt(weeks))


def widened_confidence(confidence: float, observations: float) -> float:
    """Confidence to ask of a percentile interval so that, from few observations, it covers what it should.

    The percentile interval is too narrow by sqrt((n - 1) / n), and takes the normal for Student's t. Here
    blocks stand for observations, as the weeks within one are not independent.

    Args:
        confidence: wanted of the interval [fraction], between 0 and 1.
        observations: number of independent observations, or of blocks; 3 or more.

    Raises:
        OutOfRange: there are fewer than 3 observations.

    Source:
        Hesterberg (2015), The American Statistician 69:371-386 (expanded percentile interval); t by the
        expansion of Abramowitz and Stegun (1964), 26.7.5, within 2 % from 3 observations on at 95 %.
    """
    if observations < 3:
        raise OutOfRange(f"{observations:g} observations are outside the range: 3 or more.")
    normal = NormalDist()
    reach = math.sqrt(observations / (observations - 1))
    reach *= _student_quantile(normal.inv_cdf((1 + confidence) / 2), observations - 1)
    return 1 - 2 * normal.cdf(-reach)


def _student_quantile(z: float, degrees: float) -> float:
    terms = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92_160,
    )
    return z + sum(term / degrees**power for power, term in enumerate(terms, start=1))


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
        block_weeks: length of a block [weeks], from 1 to the length of the series; `usual_block` unless
            given.
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
    noise = ROUNDING_NOISE * max(float(np.abs(ones).max()), float(np.abs(others).max()))
    return Interval(*(_quiet(number, noise) for number in (ones.mean() - others.mean(), low, high)))


def weeks_to_settle(weeks: int, interval: Interval) -> int | None:
    """Weeks more of each until the interval would no longer reach zero, if the difference stays as it is.

    The half width w shrinks with the root of the number of weeks n, so that it equals the difference d at
    n (w / d)^2 weeks. Approximate: it takes the d seen so far for the true one.

    Args:
        weeks: number of weeks the interval rests on.
        interval: one that reaches zero.

    Returns:
        At least 1; None where there is no difference to settle, or so small a one that it would take
        more than twenty years.
    """
    if interval.difference == 0:
        return None
    widths = (interval.high - interval.low) / 2 / interval.difference
    more = weeks * widths * widths - weeks
    return max(1, math.ceil(more)) if more <= MOST_WEEKS else None


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


def _quiet(number: float, noise: float) -> float:
    """Zero for what is but the rounding of the sums, lest it pass for a difference."""
    return float(number) if abs(number) > noise else 0.0


def _block_means(
    values: NDArray[np.float64], block_weeks: int | None, resamples: int, generator: np.random.Generator
) -> NDArray[np.float64]:
    """Means of resamples as long as the series, each of whole blocks and the head of a last one."""
    weeks = len(values)
    block = usual_block(weeks) if block_weeks is None else block_weeks
    if not 1 <= block <= weeks:
        raise Refused(f"A block of {block} weeks does not fit a series of {weeks}.")
    whole, rest = divmod(weeks, block)
    starts = generator.integers(0, weeks - block + 1, size=(resamples, whole + 1))
    sums = _sums_of(values, block)[starts[:, :whole]].sum(axis=1)
    if rest:
        sums = sums + _sums_of(values, rest)[starts[:, whole]]
    means: NDArray[np.float64] = sums / weeks
    return means


def _sums_of(values: NDArray[np.float64], length: int) -> NDArray[np.float64]:
    """Sum of every run of neighbours of that length, by its first position."""
    from numpy.lib.stride_tricks import sliding_window_view

    sums: NDArray[np.float64] = sliding_window_view(values, length).sum(axis=1)
    return sums
