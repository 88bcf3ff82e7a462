"""Answers do not depend on the units they are asked in: cents or dollars, grams or pounds, days or years."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.capital import (
    annual_cost,
    discounted_payback,
    internal_rate,
    net_present_value,
    payback,
    profitability_index,
)
from farmops.economics.comparison import compare
from farmops.economics.drift import individuals
from farmops.economics.returns import Budget, break_even_price, break_even_yield, payback_years
from farmops.economics.trends import mann_kendall, theil_sen
from farmops.economics.welch import sample_of, welch_test

times = st.integers(2, 1000)
amounts = st.integers(1, 10**7)
ventures = st.builds(lambda out, back: [-out, *back], amounts, st.lists(amounts, min_size=1, max_size=10))
series = st.lists(st.integers(1, 1000).map(float), min_size=8, max_size=20).filter(lambda values: len(set(values)) > 2)
untimed = settings(deadline=None)


@untimed
@given(ventures, st.floats(0, 0.5), times)
def test_so_many_times_the_money_is_worth_so_many_times_as_much(flows, rate, many):
    more = [many * flow for flow in flows]
    size = many * sum(map(abs, flows))
    worth = many * net_present_value(rate, flows)
    assert net_present_value(rate, more) == pytest.approx(worth, abs=1e-9 * size)
    assert annual_cost(many * -flows[0], many * 10, 9, rate) == pytest.approx(
        many * annual_cost(-flows[0], 10, 9, rate)
    )


@untimed
@given(ventures, st.floats(0.001, 0.5), times)
def test_rates_and_years_do_not_depend_on_the_unit_of_money(flows, rate, many):
    more = [many * flow for flow in flows]
    assert internal_rate(more).rate == pytest.approx(internal_rate(flows).rate, abs=1e-9)
    assert payback(more) == payback(flows)
    assert profitability_index(rate, more) == pytest.approx(profitability_index(rate, flows))
    here, there = discounted_payback(rate, flows), discounted_payback(rate, more)
    if here is not None and there is not None:
        assert there == pytest.approx(here)


@given(amounts, amounts, amounts, amounts, times)
def test_a_budget_in_a_smaller_unit_of_money_says_the_same(returns, operating, ownership, labour, many):
    here = Budget(returns, operating, ownership, labour)
    there = Budget(many * returns, many * operating, many * ownership, many * labour)
    assert there.net_return == many * here.net_return
    assert there.return_per_hour(600) == many * here.return_per_hour(600)
    assert there.share_of_returns_needed() == here.share_of_returns_needed()
    assert payback_years(many * returns, many * operating) == payback_years(returns, operating)


@given(amounts, amounts, times)
def test_a_price_per_smaller_unit_of_weight_is_so_much_smaller(cost, quantity, many):
    assert break_even_price(cost, many * quantity) == break_even_price(cost, quantity) / many
    assert break_even_yield(cost, quantity) == many * break_even_yield(cost, many * quantity)


@untimed
@given(series, st.floats(0.001, 1000))
def test_a_trend_is_the_same_in_pounds_and_in_grams_in_days_and_in_years(values, many):
    days = [float(day) for day in range(len(values))]
    more = [many * value for value in values]
    slope = theil_sen(days, values).slope
    assert theil_sen(days, more).slope == pytest.approx(many * slope)
    assert theil_sen([day / 365 for day in days], values).slope == pytest.approx(365 * slope)
    assert mann_kendall([4 * value for value in values]) == mann_kendall(values)
    assert individuals(more).limits.high == pytest.approx(many * individuals(values).limits.high)


@settings(deadline=None, max_examples=15)
@given(series, series, st.sampled_from((0.5, 4.0, 1024.0)))
def test_who_is_better_does_not_depend_on_the_scale(first, second, many):
    """By powers of two, so that rounding has no part in it."""
    one, other = compare(first, second), compare([many * x for x in first], [many * x for x in second])
    assert (one.verdict, one.more_weeks) == (other.verdict, other.more_weeks)
    assert one.interval is not None
    assert other.interval is not None
    assert other.interval.low == pytest.approx(many * one.interval.low)
    t_here = welch_test(sample_of(first), sample_of(second)).t
    t_there = welch_test(sample_of([many * x for x in first]), sample_of([many * x for x in second])).t
    assert math.isclose(t_here, t_there, abs_tol=1e-9)
