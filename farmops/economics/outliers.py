"""Which number lies far from what is usual: robust bands that a few wrong numbers do not move."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import median

from farmops.model.frozen import dataclass

CUTOFF = 3.5
NORMAL_QUARTILE = 0.6745


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual among some positive numbers: the middle, the band around it, and how many were looked at."""

    middle: float
    low: float
    high: float
    count: int

    def holds(self, value: float) -> bool:
        """Whether a number lies in the band."""
        return self.low <= value <= self.high


def usual(values: Sequence[float], *, fewest: int = 5, least_factor: float = 1.0) -> Usual | None:
    """The band of values whose modified z-score is at most 3.5, on their logarithms.

    Args:
        values: positive numbers in any one unit.
        fewest: how many make a band at all.
        least_factor: the band reaches at least from middle / factor to middle * factor.

    Returns:
        The band in the unit of the values; None when there are fewer than `fewest`.

    Source:
        Iglewicz, Hoaglin (1993), How to Detect and Handle Outliers, as in NIST/SEMATECH e-Handbook 1.3.5.17:
        M = 0.6745 (x - median) / MAD, an outlier where |M| > 3.5. Logarithms, because weights differ by factors.
    """
    if len(values) < fewest:
        return None
    logs = [math.log(value) for value in values]
    centre = median(logs)
    spread = median(abs(one - centre) for one in logs)
    reach = max(CUTOFF * spread / NORMAL_QUARTILE, math.log(least_factor))
    return Usual(math.exp(centre), math.exp(centre - reach), math.exp(centre + reach), len(values))
