"""Whether one unit, crop or habit is really better than another, from its weeks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum

from farmops.economics.bootstrap import (
    CONFIDENCE,
    Interval,
    difference_of_means,
    fitting_block,
    widened_confidence,
)
from farmops.economics.welch import sample_of, welch_degrees
from farmops.model.frozen import dataclass

FEWEST_WEEKS = 8
ROUGH_BELOW_WEEKS = 10
MOST_WEEKS = 20 * 52


class Verdict(StrEnum):
    """The plain answer to a comparison."""

    CLEARLY_BETTER = "clearly better"
    TOO_CLOSE = "too close to call"
    TOO_LITTLE = "too little data"


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

    Blocks are as long as `fitting_block` finds, and the interval is widened for few weeks
    (`widened_confidence`). Of two that do not differ it then calls one better about once in twenty where weeks
    are independent; up to once in five where they are few and each resembles the one before (ten paired
    weeks, autocorrelation 0.5, by simulation).

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
    block, observations = _observed(first, second, paired=paired)
    confidence = widened_confidence(CONFIDENCE, observations)
    interval = difference_of_means(first, second, paired=paired, block_weeks=block, confidence=confidence)
    if interval.excludes_zero:
        return Comparison(Verdict.CLEARLY_BETTER, weeks, interval, 0)
    return Comparison(Verdict.TOO_CLOSE, weeks, interval, weeks_to_settle(weeks, interval))


def _observed(first: Sequence[float], second: Sequence[float], *, paired: bool) -> tuple[int, float]:
    """Length of a block, and how many independent observations the weeks are worth."""
    if paired:
        block = fitting_block([one - other for one, other in zip(first, second, strict=False)])
        return block, len(first) / block
    block = min(max(fitting_block(first), fitting_block(second)), len(first), len(second))
    return block, max(3, 1 + welch_degrees(sample_of(first), sample_of(second)) / block)


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
