"""Daily backups thin out with age, and never so far that a stretch of time has none."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.schedule.thinning import kept

TODAY = date(2026, 10, 14)
ALL_DAYS, WEEKLY_DAYS, MONTHLY_DAYS = 14, 91, 731
AGES = st.sets(st.integers(-3, 4_000), max_size=200)


def day(age: int) -> date:
    return TODAY - timedelta(days=age)


def thinned_every_day(days: int) -> set[date]:
    """What is left when a backup was made and thinned on each of so many days up to today."""
    left: set[date] = set()
    for age in reversed(range(days)):
        left = kept(left | {day(age)}, day(age))
    return left


@given(AGES)
def test_the_young_stay_and_what_goes_has_an_older_neighbour_that_stays(ages: set[int]) -> None:
    staying = kept({day(age) for age in ages}, TODAY)
    assert staying <= {day(age) for age in ages}
    for age in ages:
        if age < ALL_DAYS:
            assert day(age) in staying
        elif day(age) not in staying:
            apart = 7 if age < WEEKLY_DAYS else 31 if age < MONTHLY_DAYS else 366
            assert any(age < older <= age + apart and day(older) in staying for older in ages)


@given(AGES)
def test_the_oldest_stays_and_thinning_again_takes_nothing(ages: set[int]) -> None:
    staying = kept({day(age) for age in ages}, TODAY)
    assert not ages or day(max(ages)) in staying
    assert kept(staying, TODAY) == staying


def test_ten_years_of_days_leave_a_few_dozen_and_no_long_gap() -> None:
    left = sorted(thinned_every_day(3_650))
    assert len(left) <= 60
    assert left[-ALL_DAYS:] == [day(age) for age in reversed(range(ALL_DAYS))]
    for earlier, later in pairwise(left):
        age = (TODAY - earlier).days
        longest = 7 if age < WEEKLY_DAYS else 31 + 7 if age < MONTHLY_DAYS else 366 + 7
        assert (later - earlier).days <= longest


@pytest.mark.parametrize("year", [1970, 2099])
def test_a_clock_that_is_far_off_for_a_day_takes_next_to_nothing_away(year: int) -> None:
    before, wrong = thinned_every_day(3_650), date(year, 1, 1)
    after = kept(before | {wrong}, wrong)
    assert wrong in after
    assert len(before - after) <= 3
    assert len(after - kept(after | {day(-1)}, day(-1))) <= 3


def test_a_farm_at_rest_keeps_the_last_days_it_was_worked_on() -> None:
    before = thinned_every_day(100)
    assert len(before - kept(before | {day(-400)}, day(-400))) <= 1
