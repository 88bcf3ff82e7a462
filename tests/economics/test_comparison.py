"""Verdicts on two series of weeks: clear, too close, too little, and never clear by rounding alone."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.bootstrap import (
    Interval,
    difference_of_means,
    fitting_block,
    interval_of,
    usual_block,
    widened_confidence,
)
from farmops.economics.comparison import FEWEST_WEEKS, Verdict, compare, weeks_to_settle
from farmops.economics.welch import Sample, sample_of, welch_degrees, welch_test
from farmops.model.errors import OutOfRange, Refused

weekly = st.lists(st.integers(0, 10_000).map(lambda grams: grams / 10), min_size=1, max_size=60)


def noise(weeks, mean, seed, spread=1.0):
    return np.random.default_rng(seed).normal(mean, spread, weeks).tolist()


def test_a_large_difference_over_a_season_is_clear():
    found = compare(noise(26, 8, 1), noise(26, 5, 2))
    assert (found.verdict, found.more_weeks, found.rough) == (Verdict.CLEARLY_BETTER, 0, False)
    assert 2 < found.interval.low < found.interval.difference < found.interval.high < 4


def test_the_second_can_be_the_better_one():
    found = compare(noise(26, 5, 2), noise(26, 8, 1))
    assert found.verdict is Verdict.CLEARLY_BETTER
    assert found.interval.high < 0


def test_a_small_difference_is_too_close_and_says_how_many_weeks_are_missing():
    found = compare(noise(20, 5.4, 3), noise(20, 5, 4))
    assert found.verdict is Verdict.TOO_CLOSE
    half_width = (found.interval.high - found.interval.low) / 2
    needed = 20 * (half_width / found.interval.difference) ** 2
    assert found.more_weeks == math.ceil(needed - 20) > 0


def test_the_same_weather_on_both_cancels_when_paired():
    weather = noise(20, 0, 5, spread=3)
    first = [good + 1 + small for good, small in zip(weather, noise(20, 5, 6, spread=0.2), strict=True)]
    second = [good + small for good, small in zip(weather, noise(20, 5, 7, spread=0.2), strict=True)]
    assert compare(first, second).verdict is Verdict.TOO_CLOSE
    assert compare(first, second, paired=True).verdict is Verdict.CLEARLY_BETTER


@pytest.mark.parametrize("weeks", range(FEWEST_WEEKS))
def test_a_few_weeks_are_too_little(weeks):
    found = compare([5.0] * weeks, noise(30, 1, 8))
    assert (found.verdict, found.interval, found.weeks) == (Verdict.TOO_LITTLE, None, weeks)
    assert found.more_weeks == FEWEST_WEEKS - weeks


def test_eight_weeks_are_enough_for_a_rough_verdict():
    found = compare([10.0] * 8, noise(8, 1, 9))
    assert (found.verdict, found.rough) == (Verdict.CLEARLY_BETTER, True)


@settings(deadline=None)
@given(st.floats(0.01, 1000), st.integers(8, 60), st.integers(8, 60))
def test_rounding_is_never_a_difference(value, weeks, other_weeks):
    found = compare([value] * weeks, [value] * other_weeks)
    assert (found.verdict, found.more_weeks) == (Verdict.TOO_CLOSE, None)
    assert found.interval == Interval(0.0, 0.0, 0.0)


def test_two_that_do_not_differ_are_rarely_called_different():
    generator = np.random.default_rng(12)
    pairs = [(generator.normal(size=10), generator.normal(size=10)) for _ in range(200)]
    wrong = sum(compare(*pair).verdict is Verdict.CLEARLY_BETTER for pair in pairs)
    assert wrong <= 14


def test_blocks_widen_the_interval_where_weeks_resemble_their_neighbours():
    generator = np.random.default_rng(13)
    slow = np.repeat(generator.normal(size=30), 4)
    other = np.repeat(generator.normal(size=30), 4)
    single = difference_of_means(slow, other, block_weeks=1)
    blocks = difference_of_means(slow, other, block_weeks=5)
    assert blocks.high - blocks.low > 1.4 * (single.high - single.low)


@settings(deadline=None)
@given(weekly, weekly)
def test_swapping_the_two_turns_the_difference(first, second):
    one, other = difference_of_means(first, second), difference_of_means(second, first)
    assert one.difference == pytest.approx(-other.difference)


@settings(deadline=None)
@given(weekly, weekly, st.integers(0, 2**32))
def test_the_interval_lies_within_what_was_seen_and_repeats(first, second, seed):
    found = difference_of_means(first, second, resamples=200, seed=seed)
    assert min(first) - max(second) - 1e-6 <= found.low <= found.high <= max(first) - min(second) + 1e-6
    assert found == difference_of_means(first, second, resamples=200, seed=seed)


def test_a_block_as_long_as_the_series_leaves_nothing_to_chance():
    found = difference_of_means([1, 2, 3, 4], [1, 1, 1, 1], paired=True, block_weeks=4)
    assert (found.low, found.high) == (1.5, 1.5)


def test_a_block_is_as_long_as_the_cube_root_of_the_weeks():
    assert [usual_block(weeks) for weeks in (1, 8, 27, 52, 104)] == [1, 2, 3, 4, 5]


def test_weeks_that_do_not_resemble_each_other_are_drawn_one_by_one():
    assert fitting_block([1.0, 3.0] * 15) == fitting_block([2.0] * 30) == 1
    assert fitting_block([1.0] * 15 + [3.0] * 15) == usual_block(30) == 3


def test_the_interval_of_a_total_is_that_of_the_mean_times_the_weeks():
    values = noise(24, 5, 14)
    low, high = interval_of(values, lambda weeks: weeks.sum(axis=-1), block_weeks=3)
    mean = difference_of_means(values, [0.0], block_weeks=None)
    assert low < sum(values) < high
    assert (high - low) / 24 == pytest.approx(mean.high - mean.low, rel=0.05)
    assert interval_of([1.0, 2.0, 3.0], lambda weeks: weeks.max(axis=-1), block_weeks=3) == (3.0, 3.0)


def test_two_without_any_spread_have_the_degrees_of_the_smaller():
    assert welch_degrees(Sample(5, 1, 0), Sample(9, 1, 0)) == 4
    assert welch_degrees(Sample(10, 1, 2), Sample(10, 1, 2)) == pytest.approx(18)


def test_a_last_block_is_cut_to_the_length_of_the_series():
    found = difference_of_means([0, 0, 0, 0, 6], [0] * 5, paired=True, block_weeks=2, confidence=0.999)
    assert (found.low, found.high) == (0, pytest.approx(2 * 6 / 5))


def test_no_difference_is_never_settled_and_a_hair_short_takes_a_week():
    assert weeks_to_settle(10, Interval(0, -1, 1)) is None
    assert weeks_to_settle(10, Interval(1e-300, -1, 1)) is None
    assert weeks_to_settle(10, Interval(0.1, -1, 1.2)) is None
    assert weeks_to_settle(10, Interval(1, -0.01, 1.9)) == 1
    assert weeks_to_settle(10, Interval(1, -1, 3)) == 30


def test_widening_never_narrows():
    assert widened_confidence(0.95, 3) > widened_confidence(0.95, 10) > widened_confidence(0.95, 1000) > 0.95


@pytest.mark.parametrize(
    ("asked", "error", "words"),
    [
        (lambda: difference_of_means([], [1]), Refused, "no weeks"),
        (lambda: difference_of_means([1, 2], [1], paired=True), Refused, "same weeks"),
        (lambda: difference_of_means([1, math.nan], [1]), Refused, "without a value"),
        (lambda: difference_of_means([1, 2], [1, 2], block_weeks=3), Refused, "does not fit"),
        (lambda: difference_of_means([1, 2], [1, 2], block_weeks=0), Refused, "does not fit"),
        (lambda: widened_confidence(0.95, 2), OutOfRange, "3 or more"),
        (lambda: sample_of([1]), Refused, "two values"),
        (lambda: welch_test(Sample(1, 1, 0), Sample(5, 1, 1)), Refused, "two values"),
        (lambda: welch_test(Sample(5, 1, 0), Sample(5, 2, 0)), Refused, "not all alike"),
    ],
)
def test_what_cannot_be_compared_is_refused(asked, error, words):
    with pytest.raises(error, match=words):
        asked()
