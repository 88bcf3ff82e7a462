"""Welch's t test of two means, for values that do not depend on each other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean, stdev

from farmops.model.errors import Refused
from farmops.model.frozen import dataclass


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
    degrees = welch_degrees(first, second)
    return WelchTest(t, degrees, 2 * float(students_t.sf(abs(t), degrees)))


def welch_degrees(first: Sample, second: Sample) -> float:
    """Degrees of freedom of the difference of two means whose spreads may differ.

    Two samples without any spread count as one of the smaller size.

    Source:
        Welch (1947), Biometrika 34:28-35; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3.
    """
    both = first.error_squared + second.error_squared
    if both == 0:
        return min(first.size, second.size) - 1
    spreads = (sample.error_squared**2 / (sample.size - 1) for sample in (first, second))
    return both**2 / math.fsum(spreads)
