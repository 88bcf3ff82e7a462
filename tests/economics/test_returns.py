"""Returns, break-even and payback, and that a loss is a number like any other."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.returns import (
    Budget,
    PartialBudget,
    break_even_price,
    break_even_units,
    break_even_yield,
    payback_years,
)
from farmops.model.errors import Refused

cents = st.integers(0, 10**10)
UNIT_YEAR = Budget(gross_returns=1_700_00, operating_cost=440_00, ownership_cost=210_00, labour_cost=720_00)


def test_a_year_of_one_unit():
    assert UNIT_YEAR.total_cost == 1_370_00
    assert UNIT_YEAR.returns_over_operating_cost == 1_260_00
    assert UNIT_YEAR.net_return == 330_00
    assert UNIT_YEAR.return_to_labour == 1_050_00
    assert UNIT_YEAR.return_per_hour(60 * 60) == 17_50
    assert float(UNIT_YEAR.share_of_returns_needed()) == pytest.approx(0.8059, abs=5e-5)


def test_hired_labour_is_an_operating_cost():
    assert Budget(1_700_00, 1_160_00, 210_00).returns_over_operating_cost == 540_00


def test_break_even_of_two_products():
    assert break_even_price(1_370_00, 100, other_returns=1_200_00) == 1_70
    assert break_even_yield(1_370_00, 5_00, other_returns=1_200_00) == 34
    assert break_even_price(1_370_00, 600, other_returns=500_00) == 1_45


def test_payback_with_labour_unpaid_and_charged():
    assert float(payback_years(1_500_00, 1_260_00)) == pytest.approx(1.1905, abs=5e-5)
    assert float(payback_years(1_500_00, 540_00)) == pytest.approx(2.7778, abs=5e-5)


def test_a_loss_is_a_number():
    losing = Budget(100_00, 250_00, 50_00, 60_00)
    assert losing.returns_over_operating_cost == -150_00
    assert losing.net_return == -260_00
    assert losing.return_per_hour(300) == -40_00
    assert losing.share_of_returns_needed() == Fraction(360, 100)


def test_where_the_other_product_pays_for_all_the_price_is_below_zero():
    assert break_even_price(1_000, 10, other_returns=1_500) == -50
    assert break_even_yield(1_000, 10, other_returns=1_500) == -50


@settings(deadline=None)
@given(cents, st.fractions(Fraction(1, 1000), 10**6), cents)
def test_at_the_break_even_price_nothing_is_gained_or_lost(total, quantity, other):
    price = break_even_price(total, quantity, other)
    assert price * quantity + other == total


@settings(deadline=None)
@given(cents, st.fractions(Fraction(1, 1000), 10**6), cents)
def test_at_the_break_even_yield_nothing_is_gained_or_lost(total, price, other):
    assert break_even_yield(total, price, other) * price + other == total


@settings(deadline=None)
@given(cents, st.integers(0, 10**6), st.integers(1, 10**6))
def test_at_the_break_even_number_what_is_left_pays_the_fixed_cost(fixed, unit_cost, margin):
    units = break_even_units(fixed, unit_cost + margin, unit_cost)
    assert units * (unit_cost + margin) == fixed + units * unit_cost


@settings(deadline=None)
@given(cents, cents, cents, cents)
def test_a_change_and_its_reverse_cancel(added_returns, reduced_costs, added_costs, reduced_returns):
    change = PartialBudget(added_returns, reduced_costs, added_costs, reduced_returns)
    back = PartialBudget(reduced_returns, added_costs, reduced_costs, added_returns)
    assert change.net_change == -back.net_change == added_returns + reduced_costs - added_costs - reduced_returns


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (lambda: UNIT_YEAR.return_per_hour(0), "no minutes worked"),
        (lambda: Budget(0, 10).share_of_returns_needed(), "nothing was brought in"),
        (lambda: break_even_price(100, 0), "nothing was harvested"),
        (lambda: break_even_yield(100, 0), "no price"),
        (lambda: break_even_units(100, 5, 5), "No number sold breaks even"),
        (lambda: payback_years(100, 0), "never pays back"),
    ],
)
def test_where_there_is_no_number_the_words_say_why(asked, words):
    with pytest.raises(Refused, match=words):
        asked()
