"""What is expected to be due on the days of a span, each time done on its day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.model.usage import Counter
from farmops.schedule.activity import Activity
from farmops.schedule.due import occurrence_settled, standing, to_come
from farmops.schedule.forecast import days_due
from farmops.schedule.rules import AfterDoing, ByUse, Holding, Once, Rule, Use, WhenHolds
from farmops.schedule.words import parse_words
from tests.schedule.strategies import calendar_rules, rules_by_use, rules_when, settlements, untimed
from tests.schedule.test_activity import activities

MONDAY = date(2026, 3, 2)
ALWAYS = Activity()


def day(ahead: int) -> date:
    return MONDAY + timedelta(days=ahead)


def expected(
    rule: Rule, history: list[Settlement], first: date, days: int = 14, activity: Activity = ALWAYS
) -> list[int]:
    """The days due, counted from Monday."""
    last = first + timedelta(days=days - 1)
    return [(found - MONDAY).days for found in days_due(rule, history, activity, first, last)]


def done(rule: Rule, on: date) -> list[Settlement]:
    return [Settlement(occurrence_settled(rule, [], on), SettledAs.DONE, on)]


@pytest.mark.parametrize(
    ("rule", "days"),
    [
        (parse_words("Mon Thu", MONDAY), [0, 3, 7, 10]),
        (parse_words("month on the 31st", MONDAY), []),
        (parse_words("day 3 times", MONDAY), [0, 1, 2]),
        (AfterDoing(5, "day", day(2)), [2, 7, 12]),
        (Once(day(4)), [4]),
        (Once(day(14)), []),
    ],
)
def test_rules_fall_on_their_days(rule: Rule, days: list[int]):
    assert expected(rule, [], MONDAY) == days


@pytest.mark.parametrize("rule", [parse_words("day", MONDAY), AfterDoing(3, "day", MONDAY), Once(MONDAY)])
def test_what_is_late_asks_once_on_the_first_day(rule: Rule):
    found = expected(rule, [], day(5), days=4)
    assert found == {"OnCalendar": [5, 6, 7, 8], "AfterDoing": [5, 8], "Once": [5]}[type(rule).__name__]


def test_what_was_done_already_comes_on_its_next_day():
    weekly = parse_words("Mon", MONDAY)
    assert expected(weekly, done(weekly, day(-1)), MONDAY) == [7]
    assert expected(AfterDoing(10, "day", MONDAY), done(AfterDoing(10, "day", MONDAY), day(1)), day(2)) == [11]
    assert expected(Once(MONDAY), done(Once(MONDAY), MONDAY), MONDAY) == []


def test_what_was_put_off_comes_on_its_new_day_and_goes_on_as_before():
    weekly = parse_words("Mon", MONDAY)
    off = Settlement(MONDAY, SettledAs.DEFERRED, MONDAY, day(3))
    assert expected(weekly, [off], MONDAY) == [3, 7]
    forward = Settlement(day(7), SettledAs.DEFERRED, day(1), day(5))
    assert expected(weekly, [*done(weekly, MONDAY), forward], day(1)) == [5, 14]


def test_work_that_rests_is_expected_once_when_it_goes_on():
    rests = Activity(pauses=(Pause(day(2), day(4)),))
    assert expected(parse_words("day", MONDAY), [], MONDAY, 8, rests) == [0, 1, 5, 6, 7]
    for_good = Activity(pauses=(Pause(day(2)),))
    assert expected(parse_words("day", MONDAY), [], MONDAY, 8, for_good) == [0, 1]


def test_by_use_goes_on_at_the_rate_of_the_last_records():
    record = (Use(day(-10), 100), Use(MONDAY, 100))
    assert expected(ByUse(50, Counter.PUMP_HOURS, day(-20), None, record), [], MONDAY) == [0, 5, 10]


def test_what_holds_is_expected_once_for_each_holding():
    holds = WhenHolds("wet", day(-30), (Holding(day(-3), day(1), "wet", "dry"), Holding(day(6), None, "wet", "dry")))
    assert expected(holds, [], MONDAY) == [0, 6]


@untimed
@given(
    calendar_rules()
    | rules_by_use()
    | rules_when()
    | st.builds(AfterDoing, st.integers(1, 9), st.just("week"), st.dates(date(2020, 1, 1), date(2021, 1, 1))),
    st.lists(settlements(), max_size=4),
    activities,
    st.dates(date(2020, 1, 1), date(2022, 1, 1)),
)
def test_it_is_what_falls_due_when_each_is_done_on_its_day(rule, history, activity, first):
    last = first + timedelta(days=45)
    found = list(days_due(rule, history, activity, first, last))
    assert found == sorted(set(found))
    past = list(history)
    today = first
    for expected_day in found:
        stands = standing(rule, past, activity, today) if today == first else None
        coming = to_come(rule, past, activity, today)
        assert (today if stands else coming and coming.due) == expected_day
        past.append(Settlement(occurrence_settled(rule, past, expected_day), SettledAs.DONE, expected_day))
        today = expected_day
    coming = to_come(rule, past, activity, today) if found else None
    assert coming is None or coming.due > last
