"""Trends: what must hold for any data."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.trends import mann_kendall, median_slope, theil_sen
from farmops.model.errors import Refused

numbers = st.integers(-(10**6), 10**6).map(lambda number: number / 100)
series = st.lists(numbers, min_size=4, max_size=30)


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
    ("asked", "words"),
    [
        (lambda: mann_kendall([1, 2, 3]), "4 values"),
        (lambda: theil_sen([1, 2], [1]), "one time for every value"),
        (lambda: theil_sen([3, 3], [1, 2]), "two times"),
    ],
)
def test_what_makes_no_trend_is_refused(asked, words):
    with pytest.raises(Refused, match=words):
        asked()


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
