"""Control charts and trends: what must hold for any data."""

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
    mann_kendall,
    median_slope,
    moving,
    theil_sen,
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


@settings(deadline=None)
@given(
    st.lists(st.integers(0, 10_000), min_size=2, max_size=20, unique=True),
    st.integers(-50, 50),
    st.integers(-(10**4), 10**4),
)
def test_the_slope_of_an_exact_line_is_its_slope(times, slope, intercept):
    found = theil_sen(times, [intercept + slope * time for time in times])
    assert (found.slope, found.low, found.high) == pytest.approx((slope, slope, slope))
    assert found.intercept == pytest.approx(intercept, abs=1e-6)


def test_one_wild_value_does_not_turn_the_slope():
    values = [1.0, 2.0, 3.0, 4.0, 500.0, 6.0, 7.0, 8.0, 9.0]
    assert theil_sen(range(9), values).slope == pytest.approx(1)


def test_uneven_dates_count_as_they_are():
    days, values = [0, 1, 2, 10, 11], [0, 1, 2, 10, 11]
    assert theil_sen(days, values).slope == 1
    assert theil_sen(range(5), values).slope != 1


@settings(deadline=None)
@given(series)
def test_turned_round_the_trend_turns_its_sign(values):
    forward, backward = mann_kendall(values), mann_kendall(values[::-1])
    assert (backward.score, backward.z, backward.tau) == (-forward.score, -forward.z, -forward.tau)
    assert backward.probability == forward.probability


@settings(deadline=None)
@given(series)
def test_only_the_order_of_values_counts(values):
    assert mann_kendall([value**3 for value in values]).score == mann_kendall(values).score


@settings(deadline=None)
@given(series)
def test_the_score_is_rises_less_falls(values):
    pairs = [(a, b) for at, a in enumerate(values) for b in values[at + 1 :]]
    found = mann_kendall(values)
    assert found.score == sum(b > a for a, b in pairs) - sum(b < a for a, b in pairs)
    assert -1 <= found.tau <= 1
    assert 0 <= found.probability <= 1


def test_the_sodium_of_one_well_without_ties():
    found = mann_kendall([56, 53, 51, 55, 52, 60, 62, 59, 61, 63])
    assert (found.score, found.variance) == (25, 125)


def test_ties_narrow_the_variance():
    # n 5 with one tie of two and one of three: (5*4*15 - 2*1*9 - 3*2*11) / 18
    assert mann_kendall([1, 1, 2, 2, 2]).variance == pytest.approx((300 - 18 - 66) / 18)


def test_values_all_alike_have_no_trend():
    found = mann_kendall([7, 7, 7, 7])
    assert (found.score, found.z, found.probability, found.tau) == (0, 0, 1, 0)


@pytest.mark.parametrize(
    ("asked", "error", "words"),
    [
        (lambda: individuals([1]), Refused, "two values"),
        (lambda: mann_kendall([1, 2, 3]), Refused, "4 values"),
        (lambda: theil_sen([1, 2], [1]), Refused, "one time for every value"),
        (lambda: theil_sen([3, 3], [1, 2]), Refused, "two times"),
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


@settings(deadline=None)
@given(series)
def test_the_slope_without_scipy_is_that_of_theil_and_sen(values):
    times = list(range(len(values)))
    assert median_slope(times, values) == pytest.approx(theil_sen(times, values).slope, abs=1e-9)


@settings(deadline=None, max_examples=20)
@given(st.lists(numbers, min_size=61, max_size=70))
def test_pairs_are_counted_alike_with_and_without_numpy(values):
    few, many = mann_kendall(values[:60]), mann_kendall(values[:61])
    last = sum((values[60] > one) - (values[60] < one) for one in values[:60])
    assert many.score == few.score + last
