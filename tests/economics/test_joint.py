"""Joint cost: every method adds up, says when it cannot split, and meets the others where it should."""

from __future__ import annotations

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from farmops.economics.joint import JointProduct, split_joint_cost
from farmops.model.costs import JointMethod
from farmops.model.errors import Refused

costs = st.integers(-(10**9), 10**9)
cents = st.integers(0, 10**9)
products = st.lists(
    st.builds(
        lambda weight, value, final, own, share: JointProduct("it", weight, value, final, min(own, final), share),
        st.integers(0, 10**12),
        cents,
        cents,
        cents,
        st.one_of(st.integers(0, 100), st.fractions(0, 1, max_denominator=100)),
    ),
    min_size=1,
    max_size=6,
)


def split_where_possible(cost, made, method):
    try:
        return split_joint_cost(cost, made, method)
    except Refused:
        reject()


@settings(deadline=None)
@given(costs, products, st.sampled_from(JointMethod))
def test_parts_add_up_to_the_cost_for_every_method(cost, made, method):
    assert sum(split_where_possible(cost, made, method)) == cost


@settings(deadline=None)
@given(costs, st.lists(st.tuples(st.integers(1, 10**9), cents), min_size=1, max_size=6))
def test_constant_margin_leaves_each_product_the_same_margin(cost, pairs):
    made = [JointProduct("it", final_value=final, own_cost=own) for final, own in pairs]
    parts = split_joint_cost(cost, made, JointMethod.CONSTANT_MARGIN)
    all_final = sum(final for final, _ in pairs)
    common = (all_final - sum(own for _, own in pairs) - cost) / all_final
    for part, (final, own) in zip(parts, pairs, strict=True):
        assert final - own - part == pytest.approx(common * final, rel=1e-9, abs=len(pairs) / 2 + 1)


@settings(deadline=None)
@given(costs, st.lists(cents, min_size=1, max_size=6).filter(any))
def test_without_own_cost_net_realisable_value_is_sales_value(cost, values):
    made = [JointProduct("it", sales_value=value, final_value=value) for value in values]
    by_value = split_joint_cost(cost, made, JointMethod.SALES_VALUE)
    assert split_joint_cost(cost, made, JointMethod.NET_REALISABLE_VALUE) == by_value


@settings(deadline=None)
@given(costs, products, st.sampled_from([JointMethod.WEIGHT, JointMethod.FIXED_SHARES]))
def test_a_credit_is_split_like_the_cost_it_takes_back(cost, made, method):
    turned = split_where_possible(-cost, made, method)
    assert turned == [-part for part in split_where_possible(cost, made, method)]


@pytest.mark.parametrize(
    ("cost", "made", "method", "parts"),
    [
        (36_000_00, [25, 75], JointMethod.WEIGHT, [9_000_00, 27_000_00]),
        (66_000_00, [44, 66], JointMethod.WEIGHT, [26_400_00, 39_600_00]),
        (40_000_00, [42_000, 4_000], JointMethod.WEIGHT, [36_521_74, 3_478_26]),
    ],
)
def test_exercises_without_a_printed_answer(cost, made, method, parts):
    assert split_joint_cost(cost, [JointProduct("it", weight) for weight in made], method) == parts


STRAWBERRIES = [
    JointProduct("mix", 42_000, 104_500_00, 125_000_00, 8_000_00),
    JointProduct("juice", 4_000, 50_500_00, 70_000_00, 40_000_00),
]
XYZ = [
    JointProduct("X", 0, 80_000_00, 110_000_00, 18_000_00),
    JointProduct("Y", 0, 70_000_00, 90_000_00, 14_000_00),
    JointProduct("Z", 0, 50_000_00, 50_000_00, 0),
]


@pytest.mark.parametrize(
    ("cost", "made", "method", "parts"),
    [
        (40_000_00, STRAWBERRIES, JointMethod.SALES_VALUE, [26_967_74, 13_032_26]),
        (40_000_00, STRAWBERRIES, JointMethod.NET_REALISABLE_VALUE, [31_836_73, 8_163_27]),
        (80_000_00, XYZ, JointMethod.NET_REALISABLE_VALUE, [33_761_47, 27_889_91, 18_348_62]),
    ],
)
def test_exercises_by_value_worked_apart_from_this_code(cost, made, method, parts):
    assert split_joint_cost(cost, made, method) == parts


def test_a_product_dear_to_finish_gets_a_negative_share_of_a_constant_margin():
    assert split_joint_cost(40_000_00, STRAWBERRIES, JointMethod.CONSTANT_MARGIN) == [48_410_26, -8_410_26]


@pytest.mark.parametrize(
    ("method", "fish_per_lb", "lettuce_per_head"),
    [
        (JointMethod.WEIGHT, 4.40, 1.55),
        (JointMethod.SALES_VALUE, 4.8941, 1.4676),
        (JointMethod.NET_REALISABLE_VALUE, 4.2262, 1.5790),
        (JointMethod.CONSTANT_MARGIN, 4.0294, 1.6118),
    ],
)
def test_one_unit_year_costs_fish_four_ways(method, fish_per_lb, lettuce_per_head):
    fish = JointProduct("fish", 100, 500_00, 500_00, 160_00)
    lettuce = JointProduct("lettuce", 300, 1_200_00, 1_200_00, 90_00)
    to_fish, to_lettuce = split_joint_cost(1_120_00, [fish, lettuce], method)
    assert (to_fish + 160_00) / 100 / 100 == pytest.approx(fish_per_lb, abs=0.0001)
    assert (to_lettuce + 90_00) / 600 / 100 == pytest.approx(lettuce_per_head, abs=0.0001)


def test_rounding_left_over_goes_to_the_largest_share():
    made = [JointProduct("small", share=1), JointProduct("large", share=4), JointProduct("other", share=1)]
    assert split_joint_cost(100, made, JointMethod.FIXED_SHARES) == [17, 66, 17]


@pytest.mark.parametrize("method", JointMethod)
def test_with_nothing_to_split_by_it_says_so(method):
    with pytest.raises(Refused, match=f"by {method}: nothing to split by is booked"):
        split_joint_cost(100, [JointProduct("fish"), JointProduct("plants")], method)


def test_a_product_that_costs_more_than_it_brings_is_named():
    made = [JointProduct("fish", final_value=100, own_cost=300), JointProduct("plants", final_value=900)]
    with pytest.raises(Refused, match="net realisable value: that of fish is below zero"):
        split_joint_cost(100, made, JointMethod.NET_REALISABLE_VALUE)
