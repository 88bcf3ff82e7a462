"""Cents shared by weights: every cent lands somewhere, none is made."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.allocation import allot, allot_by, proportion
from farmops.model.errors import Refused

totals = st.integers(-(10**15), 10**15)
weights = st.lists(
    st.one_of(st.integers(0, 10**9), st.fractions(0, 10**6, max_denominator=999)), min_size=1, max_size=30
).filter(any)


@settings(deadline=None)
@given(totals, weights)
def test_parts_add_up_to_the_whole(total, weights):
    assert sum(allot(total, weights)) == total


@settings(deadline=None)
@given(totals, weights)
def test_every_part_is_less_than_one_cent_from_its_exact_share(total, weights):
    exact = [Fraction(total) * weight / sum(weights) for weight in weights]
    assert all(abs(part - share) < 1 for part, share in zip(allot(total, weights), exact, strict=True))


@settings(deadline=None)
@given(totals, weights)
def test_a_refund_is_shared_like_the_bill_it_takes_back(total, weights):
    assert allot(-total, weights) == [-part for part in allot(total, weights)]


@settings(deadline=None)
@given(totals, weights, st.fractions(Fraction(1, 100), 100))
def test_only_the_proportion_of_weights_counts(total, weights, scale):
    assert allot(total, [weight * scale for weight in weights]) == allot(total, weights)


@settings(deadline=None)
@given(totals, weights)
def test_a_heavier_weight_never_gets_less(total, weights):
    parts = [abs(part) for part in allot(total, weights)]
    by_weight = sorted(range(len(weights)), key=lambda i: (weights[i], parts[i]))
    assert [parts[i] for i in by_weight] == sorted(parts)


@pytest.mark.parametrize(
    ("total", "weights", "parts"),
    [
        (100, [1, 1, 1], [34, 33, 33]),
        (-100, [1, 1, 1], [-34, -33, -33]),
        (2, [1, 1, 1], [1, 1, 0]),
        (1, [0, 1, 1], [0, 1, 0]),
        (1000, [Fraction(1, 3), Fraction(2, 3), 0], [333, 667, 0]),
        (0, [3, 4], [0, 0]),
        (7, [5], [7]),
    ],
)
def test_remainders_go_to_the_largest_then_to_the_first(total, weights, parts):
    assert allot(total, weights) == parts


def test_parts_come_back_under_their_keys_in_order():
    assert list(allot_by(1001, {"WREN": 2, "ALDER": 0, "FINCH": 1}).items()) == [
        ("WREN", 667),
        ("ALDER", 0),
        ("FINCH", 334),
    ]


@pytest.mark.parametrize(
    ("weights", "words"),
    [([], "nobody to share"), ([0, 0], "weights to share by are zero"), ([2, -1], "is negative")],
)
def test_what_cannot_be_shared_is_refused_in_words(weights, words):
    with pytest.raises(Refused, match=words):
        allot(100, weights)


@pytest.mark.parametrize(
    ("total", "part", "whole", "nearest"),
    [
        (100, 1, 3, 33),
        (100, 2, 3, 67),
        (5, 1, 2, 3),
        (-5, 1, 2, -3),
        (1, 1, 3, 0),
        (0, 7, 9, 0),
        (100, 0, 9, 0),
        (7, 9, 9, 7),
    ],
)
def test_a_part_of_a_sum_is_the_nearest_cent_halves_away_from_zero(total, part, whole, nearest):
    assert proportion(total, part, whole) == nearest


@given(totals, st.integers(0, 10**9), st.integers(1, 10**9))
def test_a_part_of_a_sum_lies_within_half_a_cent(total, part, whole):
    assert abs(proportion(total, part, whole) - Fraction(total * part, whole)) <= Fraction(1, 2)
