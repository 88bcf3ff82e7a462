"""Weighted-average stock: what is used and what is left always make up what was bought."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.inventory import Bought, Stock, Used, moving_average, periodic_average
from farmops.model.errors import Refused

purchases = st.builds(Bought, st.integers(1, 10**10), st.integers(0, 10**8))


@st.composite
def histories(draw):
    """Purchases and uses, in an order in which nothing is used before it is held."""
    held, movements = 0, []
    for bought in draw(st.lists(purchases, min_size=1, max_size=8)):
        movements.append(bought)
        held += bought.quantity
        for _ in range(draw(st.integers(0, 4))):
            used = draw(st.integers(0, held))
            movements.append(Used(used))
            held -= used
    return movements


def bought_of(movements):
    return [movement for movement in movements if isinstance(movement, Bought)]


@settings(deadline=None)
@given(histories())
def test_used_and_left_make_up_what_was_bought(movements):
    costs, left = moving_average(Stock(), movements)
    assert sum(costs) + left.cost == sum(bought.cost for bought in bought_of(movements))
    used = sum(movement.quantity for movement in movements if isinstance(movement, Used))
    assert used + left.quantity == sum(bought.quantity for bought in bought_of(movements))
    assert min([0, *costs]) == 0


@settings(deadline=None)
@given(histories())
def test_an_emptied_stock_is_worth_nothing(movements):
    _, left = moving_average(Stock(), movements)
    empty, cost = left.used(left.quantity)
    assert (empty.quantity, empty.cost, cost) == (0, 0, left.cost)


@settings(deadline=None)
@given(st.lists(purchases, min_size=1, max_size=8), st.fractions(0, 1))
def test_a_period_uses_at_its_one_average(bought, share):
    quantity = sum(purchase.quantity for purchase in bought)
    cost = sum(purchase.cost for purchase in bought)
    used, left = periodic_average(Stock(), bought, int(quantity * share))
    assert used + left.cost == cost
    assert abs(used - Fraction(cost * int(quantity * share), quantity)) <= Fraction(1, 2)


@settings(deadline=None)
@given(purchases, st.lists(st.integers(0, 10**7), min_size=1, max_size=30))
def test_many_small_feedings_cost_what_one_large_one_would(bought, feedings):
    full = Stock().bought(bought.quantity + sum(feedings), bought.cost)
    costs, left = moving_average(full, [Used(feeding) for feeding in feedings])
    at_once, left_at_once = full.used(sum(feedings))
    assert sum(costs) == left_at_once
    assert (left.quantity, left.cost) == (at_once.quantity, at_once.cost)


def test_feedings_worth_less_than_half_a_cent_are_charged_in_time():
    costs, left = moving_average(Stock(1000, 300), [Used(1)] * 10)
    assert costs == [0, 1, 0, 0, 1, 0, 0, 0, 1, 0]
    assert left.cost == 297


def test_a_purchase_starts_a_new_average():
    stock = Stock(100, 200).bought(100, 400)
    assert stock.unit_cost == 3
    after, cost = stock.used(50)
    assert (cost, after.unit_cost, after.quantity, after.cost) == (150, 3, 150, 450)


def test_nothing_ever_held_has_no_unit_cost():
    assert Stock().unit_cost is None
    assert Stock().used(0) == (Stock(), 0)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda: Stock(10, 5).used(11), "More is used than is held"),
        (lambda: Stock(10, 5).used(-1), "zero or more"),
        (lambda: Stock(10, 5).bought(0, 5), "above zero"),
        (lambda: Stock(10, 5).bought(1, -5), "zero or more"),
    ],
)
def test_what_cannot_be_is_refused(change, words):
    with pytest.raises(Refused, match=words):
        change()
