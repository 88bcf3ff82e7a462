"""Control charts: what must hold for any data."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.drift import (
    Limits,
    cusum,
    ewma,
    ewma_limits,
    individuals,
    moving,
)
from farmops.model.errors import OutOfRange, Refused

numbers = st.integers(-(10**6), 10**6).map(lambda number: number / 100)
series = st.lists(numbers, min_size=4, max_size=30)


@settings(deadline=None)
@given(st.lists(numbers), numbers)
def test_with_all_weight_on_the_newest_the_average_is_the_data(values, start):
    assert ewma(values, 1, start) == values


@settings(deadline=None)
@given(st.lists(numbers, min_size=1), st.floats(0.01, 1), numbers)
def test_the_average_stays_within_what_was_seen(values, weight, start):
    seen = [start, *values]
    assert all(min(seen) - 1e-6 <= average <= max(seen) + 1e-6 for average in ewma(values, weight, start))


@settings(deadline=None)
@given(st.lists(numbers), numbers, st.floats(0, 100))
def test_cumulative_sums_are_never_below_zero(values, target, slack):
    assert all(above >= 0 and below >= 0 for above, below in cusum(values, target, slack))


def test_the_first_limits_of_a_moving_average_are_narrower():
    highs = [ewma_limits(50, 2.0539, 0.3, after=count).high for count in (1, 2, 3, 5, 10, 20)]
    assert highs == pytest.approx([51.8485, 52.2564, 52.4314, 52.5516, 52.5874, 52.5884], abs=1e-4)
    assert ewma_limits(50, 2.0539, 0.3, after=0).high == 50


def test_the_limit_of_a_step_between_neighbours():
    flow_rate = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]
    assert individuals(flow_rate).range_high == pytest.approx(6.1347, abs=1e-4)


@settings(deadline=None)
@given(series, numbers)
def test_moving_all_values_moves_the_limits_with_them(values, shift):
    here, there = individuals(values), individuals([value + shift for value in values])
    assert there.limits.high == pytest.approx(here.limits.high + shift, abs=1e-6)
    assert there.mean_range == pytest.approx(here.mean_range, abs=1e-6)


def test_values_on_a_limit_are_inside():
    assert Limits(1, 2, 3).outside([1, 3, 0.9, 2, 3.1]) == [2, 4]


@pytest.mark.parametrize(
    ("asked", "error", "words"),
    [
        (lambda: individuals([1]), Refused, "two values"),
        (lambda: ewma([1], 0, 0), OutOfRange, "at most 1"),
        (lambda: ewma([1], 1.1, 0), OutOfRange, "at most 1"),
        (lambda: ewma_limits(0, -1, 0.2), OutOfRange, "0 or more"),
        (lambda: ewma_limits(0, math.nan, 0.2), OutOfRange, "0 or more"),
    ],
)
def test_what_makes_no_chart_is_refused(asked, error, words):
    with pytest.raises(error, match=words):
        asked()


HELD = [11.9, 12.0, 11.8, 11.8, 12.0, 11.9]


def test_fewer_than_six_tell_nothing():
    assert moving(HELD[:5]) is None
    assert moving(HELD).sides == (0,) * 6


def test_what_leaves_the_usual_is_counted_until_it_comes_back():
    found = moving([*HELD, 11.9, 12.9, 13.3, 14.3, 14.6])
    assert (found.side, found.running, found.baseline) == (1, 4, 7)
    back = moving([*HELD, 11.9, 12.9, 13.3, 14.3, 14.6, 11.9])
    assert (back.side, back.running) == (0, 0)
    assert moving([*HELD, 10.9, 10.8]).side == -1


def test_a_creep_within_the_limits_is_seen_by_the_average():
    found = moving([*HELD, 12.0, 11.8, 11.9, 12.0, *([12.15] * 6)])
    assert found.usual.high > 12.15
    assert (found.side, found.running) == (1, 4)


def test_after_ten_what_is_usual_stays():
    steady = [*HELD, *([11.9] * 20)]
    assert moving(steady).baseline == 10
    assert moving([*steady, *HELD]).usual == moving(steady).usual


@settings(deadline=None)
@given(st.lists(st.sampled_from([11.85, 11.9, 11.95]), min_size=6, max_size=40))
def test_what_a_clock_cannot_tell_apart_is_as_usual(values):
    assert set(moving(values).sides) == {0}
