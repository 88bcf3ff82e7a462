"""The block bootstrap: where a mean, a total or a difference may lie by the chance of its weeks."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from statistics import NormalDist
from typing import TYPE_CHECKING

from farmops.model.errors import OutOfRange, Refused
from farmops.model.frozen import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

CONFIDENCE = 0.95
RESAMPLES = 19_999
SEED = 20_260_101
ROUNDING_NOISE = 1e-12


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


def usual_block(weeks: int) -> int:
    """Length of a block for a series of that many weeks: its cube root, rounded [weeks]."""
    return round(math.cbrt(weeks))


def fitting_block(values: Sequence[float]) -> int:
    """Length of a block for these weeks: one where no week resembles the one before, else `usual_block` [weeks].

    A week resembles the one before where the first autocorrelation, less its bias of -1/n, is above zero.
    By simulation (ten to 52 weeks) weeks that depend on each other are then called different no more often
    than with the usual block, and independent ones as often as intended.

    Source:
        Bias: Kendall (1954), Biometrika 41:403-404 (from memory).
    """
    weeks = len(values)
    mean = math.fsum(values) / weeks
    off = [value - mean for value in values]
    spread = math.fsum(one * one for one in off)
    together = math.fsum(one * following for one, following in itertools.pairwise(off))
    return 1 if spread == 0 or together / spread + 1 / weeks <= 0 else usual_block(weeks)


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


def interval_of(
    values: Sequence[float],
    statistic: Callable[[NDArray[np.float64]], NDArray[np.float64]],
    *,
    block_weeks: int | None = None,
    confidence: float = CONFIDENCE,
    resamples: int = RESAMPLES,
    seed: int = SEED,
) -> tuple[float, float]:
    """Percentile interval of any statistic of a weekly series by the moving-block bootstrap.

    Args:
        values: one value per week, in order.
        statistic: of the last axis of an array, such as `lambda weeks: weeks.sum(axis=-1)`.
        block_weeks: length of a block [weeks]; `usual_block` unless given. One week is the ordinary bootstrap.
        confidence: of the interval [fraction], between 0 and 1.
        resamples: number of draws.
        seed: of the random generator; the same seed gives the same interval.

    Returns:
        Lower and upper end, in the unit of the statistic.

    Raises:
        Refused: the series is empty, a value is not a finite number, or the block length does not fit.

    Source:
        As `difference_of_means`.
    """
    import numpy as np

    _check_series(values, values, paired=True)
    series, block = np.asarray(values, dtype=float), _block_of(len(values), block_weeks)
    starts = np.random.default_rng(seed).integers(
        0, len(series) - block + 1, size=(resamples, math.ceil(len(series) / block))
    )
    drawn = (starts[:, :, None] + np.arange(block)).reshape(resamples, -1)[:, : len(series)]
    low, high = np.quantile(statistic(series[drawn]), [(1 - confidence) / 2, (1 + confidence) / 2])
    return float(low), float(high)


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


def _block_of(weeks: int, wanted: int | None) -> int:
    block = usual_block(weeks) if wanted is None else wanted
    if not 1 <= block <= weeks:
        raise Refused(f"A block of {block} weeks does not fit a series of {weeks}.")
    return block


def _block_means(
    values: NDArray[np.float64], block_weeks: int | None, resamples: int, generator: np.random.Generator
) -> NDArray[np.float64]:
    """Means of resamples as long as the series, each of whole blocks and the head of a last one."""
    weeks = len(values)
    block = _block_of(weeks, block_weeks)
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
