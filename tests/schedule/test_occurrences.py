"""The days a calendar rule falls on: in order, wherever the listing begins."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import islice, takewhile

import pytest
from dateutil.rrule import rrulestr
from hypothesis import assume, given
from hypothesis import strategies as st

from farmops.schedule.occurrences import (
    count_occurrences,
    latest_occurrence,
    next_occurrence,
    occurrences,
)
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import OnCalendar
from tests.schedule.strategies import calendar_rules, untimed

ahead = st.integers(0, 4000)
HORIZON = timedelta(days=5000)


def expanded(rule: OnCalendar) -> list[date]:
    """Every day of the rule from its start, for some years."""
    return list(takewhile(lambda day: day <= rule.start + HORIZON, occurrences(rule)))


@untimed
@given(calendar_rules())
def test_expanding_from_the_start_gives_what_the_library_gives(rule):
    # The library begins a week at the start, not at WKST, and takes MO,1TU for days that are both.
    assume(not ("WEEKLY" in rule.rrule and "BYSETPOS" in rule.rrule))
    assume("BYDAY" not in rule.rrule or len({day[:-2] != "" for day in days_of(rule)}) == 1)
    begin = datetime(rule.start.year, rule.start.month, rule.start.day)  # noqa: DTZ001
    theirs = (moment.date() for moment in rrulestr(rule.rrule, dtstart=begin))
    assert expanded(rule) == list(takewhile(lambda day: day <= rule.start + HORIZON, theirs))


def days_of(rule: OnCalendar) -> list[str]:
    return next(part[6:] for part in rule.rrule.split(";") if part.startswith("BYDAY=")).split(",")


@untimed
@given(calendar_rules(), ahead)
def test_beginning_late_gives_the_same_days_as_expanding_from_the_start(rule, days):
    after = rule.start + timedelta(days=days)
    late = takewhile(lambda day: day <= rule.start + HORIZON, occurrences(rule, after))
    assert list(late) == [day for day in expanded(rule) if day > after]


@untimed
@given(calendar_rules())
def test_going_on_from_each_occurrence_gives_the_same_days(rule):
    walked, day = [], None
    while len(walked) < 12 and (day := next_occurrence(rule, day)) is not None:
        walked.append(day)
    assert walked == list(islice(occurrences(rule), 12))
    assert walked == sorted(set(walked))


@untimed
@given(calendar_rules(), ahead)
def test_the_latest_is_the_last_that_has_come(rule, days):
    day = rule.start + timedelta(days=days)
    assert latest_occurrence(rule, day) == max((d for d in expanded(rule) if d <= day), default=None)


@untimed
@given(calendar_rules(), ahead, ahead)
def test_counting_includes_both_ends(rule, one, other):
    first, last = (rule.start + timedelta(days=days) for days in (one, other))
    assert count_occurrences(rule, first, last) == sum(first <= day <= last for day in expanded(rule))


def test_nothing_comes_before_the_start_or_after_the_end():
    rule = parse_rrule("FREQ=DAILY;UNTIL=20260110", date(2026, 1, 5))
    assert next_occurrence(rule, date(2020, 1, 1)) == date(2026, 1, 5)
    assert latest_occurrence(rule, date(2026, 1, 4)) is None
    assert next_occurrence(rule, date(2026, 1, 9)) == date(2026, 1, 10)
    assert next_occurrence(rule, date(2026, 1, 10)) is None
    assert latest_occurrence(rule, date(2030, 1, 1)) == date(2026, 1, 10)
    assert count_occurrences(rule, date.min, date.max) == 6


def test_a_count_is_counted_from_the_start():
    rule = parse_rrule("FREQ=DAILY;COUNT=3", date(2026, 1, 5))
    assert list(occurrences(rule, after=date(2026, 1, 6))) == [date(2026, 1, 7)]
    assert latest_occurrence(rule, date(2030, 1, 1)) == date(2026, 1, 7)


@pytest.mark.parametrize("text", ["FREQ=DAILY", "FREQ=WEEKLY", "FREQ=MONTHLY", "FREQ=YEARLY"])
def test_the_end_of_the_calendar_is_an_end_and_not_an_error(text):
    rule = parse_rrule(text, date(2026, 1, 1))
    assert next_occurrence(rule, date.max) is None
    assert next_occurrence(rule, date(9999, 12, 31)) is None
    assert latest_occurrence(rule, date.max) > date(9998, 12, 31)
    assert sum(1 for _ in occurrences(rule, after=date(9999, 12, 1))) in (0, 4, 5, 30)


def test_plain_and_numbered_weekdays_in_one_rule_are_either_of_them():
    rule = parse_rrule("FREQ=MONTHLY;BYDAY=MO,1TU", date(2026, 1, 1))
    january = [day.day for day in takewhile(lambda day: day.month == 1, occurrences(rule))]
    assert january == [5, 6, 12, 19, 26]


def test_a_position_in_a_week_counts_from_the_first_day_of_that_week():
    rule = parse_rrule("FREQ=WEEKLY;BYDAY=MO,WE,FR;BYSETPOS=1", date(2026, 1, 7))
    assert next_occurrence(rule, None) == date(2026, 1, 12)


@pytest.mark.parametrize(
    ("text", "after", "expected"),
    [
        ("FREQ=WEEKLY;INTERVAL=2;BYDAY=MO", date(2026, 1, 6), date(2026, 1, 19)),
        ("FREQ=DAILY;INTERVAL=3", date(2026, 1, 9), date(2026, 1, 11)),
        ("FREQ=MONTHLY;INTERVAL=5;BYMONTHDAY=1", date(2026, 1, 9), date(2026, 6, 1)),
        ("FREQ=YEARLY;INTERVAL=3;BYMONTH=3;BYMONTHDAY=1", date(2026, 3, 1), date(2029, 3, 1)),
    ],
)
def test_the_interval_keeps_in_step_with_the_start(text, after, expected):
    assert next_occurrence(parse_rrule(text, date(2026, 1, 5)), after) == expected
