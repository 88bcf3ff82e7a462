"""Straight line by the day: periods add up, days outside the life cost nothing."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.depreciation import straight_line
from farmops.model.errors import OutOfRange, Refused

DAY = timedelta(days=1)
lives = st.builds(
    lambda salvage, loss, start, months: straight_line(salvage + loss, salvage, start, months),
    st.integers(0, 10**9),
    st.integers(0, 10**9),
    st.dates(date(2000, 1, 1), date(2060, 1, 1)),
    st.integers(1, 400),
)


@settings(deadline=None)
@given(lives)
def test_the_whole_life_costs_what_was_paid_less_salvage(life):
    assert life.charge(life.in_service, life.last_day) == life.cost - life.salvage


@settings(deadline=None)
@given(lives, st.lists(st.integers(0, 14_000), max_size=8))
def test_periods_that_follow_one_another_lose_no_cent(life, cuts):
    edges = [life.in_service, *sorted({life.in_service + DAY * n for n in cuts} - {life.in_service})]
    ends = [*(edge - DAY for edge in edges[1:]), max(life.last_day, edges[-1])]
    charges = [life.charge(first, last) for first, last in zip(edges, ends, strict=True)]
    assert sum(charges) == life.cost - life.salvage
    assert min(charges) >= 0


@settings(deadline=None)
@given(lives, st.integers(-500, 14_000))
def test_book_value_falls_by_the_charge(life, offset):
    on = life.in_service + DAY * offset
    assert life.book_value(on - DAY) - life.book_value(on) == life.charge(on, on)
    assert life.salvage <= life.book_value(on) <= life.cost


def test_days_outside_the_life_cost_nothing():
    life = straight_line(120_000, 0, date(2026, 4, 1), 12)
    assert life.last_day == date(2027, 3, 31)
    assert life.charge(date(2026, 1, 1), date(2026, 3, 31)) == 0
    assert life.charge(date(2027, 4, 1), date(2030, 1, 1)) == 0
    assert life.charge(date.min, date.max) == 120_000
    assert life.book_value(date(2026, 3, 31)) == 120_000


@pytest.mark.parametrize(
    ("in_service", "months", "last_day"),
    [
        (date(2026, 1, 1), 12, date(2026, 12, 31)),
        (date(2026, 1, 31), 1, date(2026, 2, 27)),
        (date(2024, 2, 29), 12, date(2025, 2, 27)),
        (date(2026, 11, 15), 3, date(2027, 2, 14)),
        (date(2026, 12, 31), 2, date(2027, 2, 27)),
        (date(2027, 12, 31), 2, date(2028, 2, 28)),
        (date(2026, 10, 31), 1, date(2026, 11, 29)),
    ],
)
def test_a_life_ends_the_day_before_the_same_day_of_the_month(in_service, months, last_day):
    assert straight_line(100, 0, in_service, months).last_day == last_day


@pytest.mark.parametrize(
    ("cost", "salvage", "months", "words"),
    [
        (100, 101, 12, "between zero"),
        (100, -1, 12, "between zero"),
        (-5, 0, 12, "between zero"),
        (9, 0, 0, "month"),
    ],
)
def test_what_makes_no_sense_is_refused(cost, salvage, months, words):
    with pytest.raises(Refused, match=words):
        straight_line(cost, salvage, date(2026, 1, 1), months)


def test_a_period_the_wrong_way_round_is_refused():
    with pytest.raises(Refused, match="before it begins"):
        straight_line(100, 0, date(2026, 1, 1), 12).charge(date(2026, 2, 2), date(2026, 2, 1))


def test_a_life_past_the_calendar_is_refused():
    with pytest.raises(OutOfRange, match="9999"):
        straight_line(100, 0, date(2026, 1, 1), 100_000)
