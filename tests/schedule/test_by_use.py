"""Due by use: counted since the last doing, foreseen from the rate of the last weeks, never later than allowed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.model.usage import Counter
from farmops.schedule.activity import Activity
from farmops.schedule.by_use import rate, used
from farmops.schedule.due import (
    Standing,
    due,
    next_due,
    occurrence_settled,
    occurrence_skipped,
    standing,
    to_come,
    upcoming,
)
from farmops.schedule.rules import ByUse, Use, Wait
from tests.schedule.strategies import rules_by_use, settlements, untimed

HOUR = 60
START = date(2026, 1, 1)
ALWAYS = Activity()


def day(number: int) -> date:
    """So many days after the start."""
    return START + timedelta(days=number)


def strip(*record: Use, limit: int = 2000, latest: Wait | None = None) -> ByUse:
    """Strip the pump every so many hours."""
    return ByUse(limit * HOUR, Counter.PUMP_HOURS, START, latest, record)


def hours(number: int, amount: float) -> Use:
    return Use(day(number), round(amount * HOUR))


def done(on: date, occurrence: date | None = None) -> Settlement:
    return Settlement(occurrence or on, SettledAs.DONE, on)


def deferred(on: date, until: date, occurrence: date | None = None) -> Settlement:
    return Settlement(occurrence or on, SettledAs.DEFERRED, on, until)


def settle(rule: ByUse, history: list[Settlement], on: date) -> list[Settlement]:
    return [*history, done(on, occurrence_settled(rule, history, on))]


def test_it_is_due_on_the_day_of_the_record_that_reaches_the_limit():
    rule = strip(hours(40, 960), hours(70, 720), hours(84, 336), hours(90, 144))
    assert due(rule, []) == day(84)
    assert used(rule, []).reached == day(84)


def test_use_is_counted_strictly_after_the_last_doing_done_or_skipped():
    rule = strip(hours(10, 500), hours(20, 500), hours(30, 500), limit=500)
    assert due(rule, []) == day(10)
    assert due(rule, [done(day(10))]) == day(20)
    skipped = Settlement(day(20), SettledAs.SKIPPED, day(20))
    assert due(rule, [skipped, done(day(10))]) == day(30)


def test_use_before_the_start_tells_the_rate_but_does_not_count():
    rule = strip(hours(-20, 240), hours(-10, 240), hours(0, 240), limit=480)
    assert used(rule, []).amount == 240 * HOUR
    assert due(rule, []) == day(10)


def test_the_day_is_foreseen_from_the_last_record_at_the_rate_of_the_28_days_before_rounded_up():
    rule = strip(hours(10, 240), hours(20, 240))
    assert used(rule, []).a_day == 24 * HOUR
    assert due(rule, []) == day(20) + timedelta(days=64)
    assert due(strip(hours(10, 240), hours(20, 241)), []) == day(20) + timedelta(days=64)
    assert due(strip(hours(10, 239), hours(20, 240)), []) == day(20) + timedelta(days=64)


def test_the_day_moves_with_every_record():
    rule = strip(hours(7, 168), hours(14, 168))
    assert due(rule, []) == day(84)
    slower = replace(rule, record=(*rule.record, hours(28, 168)))
    assert used(slower, []).a_day == Fraction(336 * HOUR, 21)
    assert due(slower, []) == day(28 + 94)


@pytest.mark.parametrize(
    ("record", "expected"),
    [
        ([], None),
        ([hours(5, 100)], None),
        ([hours(5, 100), hours(7, 48)], 24 * HOUR),
        ([hours(0, 9), hours(30, 720)], 24 * HOUR),
        ([hours(0, 9), hours(30, 300), hours(44, 336)], Fraction(14 * 24 + 14 * 10, 28) * HOUR),
        ([hours(-200, 9), hours(0, 24000), hours(28, 28)], 1 * HOUR),
    ],
    ids=["none", "one says nothing", "the first left out", "spread over its days", "part of a record", "28 days"],
)
def test_the_rate_is_that_of_the_28_days_to_the_last_record(record, expected):
    assert rate(record) == expected


def test_several_records_on_one_day_add_up():
    rule = strip(hours(10, 100), hours(10, 140), hours(20, 240))
    assert due(rule, []) == day(84)
    assert due(strip(hours(10, 100), hours(10, 140)), []) is None


def test_a_doing_after_the_last_record_begins_the_count_anew():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    assert due(rule, []) == day(20)
    assert due(rule, [done(day(25))]) == day(25) + timedelta(days=20)


def test_without_a_record_only_the_latest_day_says_when():
    assert due(strip(), []) is None
    assert next_due(strip(), [], ALWAYS) is None
    assert due(strip(latest=Wait(6, "month")), []) == date(2026, 7, 1)
    assert due(strip(hours(5, 10), latest=Wait(12, "week")), [done(day(5))]) == day(5 + 84)


def test_the_latest_day_counts_when_it_comes_first():
    record = (hours(10, 240), hours(20, 240))
    assert due(strip(*record, latest=Wait(60, "day")), []) == day(60)
    assert due(strip(*record, latest=Wait(12, "month")), []) == day(84)
    by_month = ByUse(10**6, Counter.SIPHON_CYCLES, date(2026, 1, 31), Wait(1, "month"))
    assert due(by_month, []) == date(2026, 2, 28)
    assert due(by_month, [done(date(2026, 2, 28))]) == date(2026, 3, 31)


def test_a_limit_that_lies_more_than_40_years_away_is_on_no_day():
    rule = ByUse(10_000_000, Counter.SIPHON_CYCLES, START, None, (Use(day(0), 1), Use(day(10), 1)))
    assert due(rule, []) is None


def test_a_deferral_after_the_last_doing_puts_it_off_whatever_the_forecast():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    history = [deferred(day(22), day(40), day(20))]
    assert due(rule, history) == day(40)
    moved = replace(rule, record=(*rule.record, hours(30, 960)))
    assert due(moved, history) == day(40)
    assert due(moved, [*history, deferred(day(39), day(45), day(20))]) == day(45)
    assert due(moved, [*history, done(day(41), day(20))]) == day(41) + timedelta(days=8)
    assert due(strip(), [deferred(day(3), day(9))]) == day(9)


def test_of_a_doing_and_a_deferral_on_one_day_the_later_occurrence_came_last():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    first_put_off = [deferred(day(20), day(30), day(20)), done(day(20), day(20))]
    assert due(rule, first_put_off) == day(40)
    then_put_off = [done(day(20), day(20)), deferred(day(20), day(55), day(40))]
    assert due(rule, then_put_off) == due(rule, then_put_off[::-1]) == day(55)


def test_a_deferral_within_the_day_ends_with_the_doing_of_that_day():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    assert due(rule, [deferred(day(20), day(20), day(25)), done(day(20), day(20))]) == day(40)


def test_the_occurrence_a_doing_settles():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    assert occurrence_settled(rule, [], day(30)) == day(20)
    assert occurrence_settled(rule, [], day(12)) == occurrence_skipped(rule, [], day(12)) == day(20)
    assert occurrence_settled(rule, [done(day(30))], day(25)) == day(25)
    assert occurrence_settled(strip(), [], day(25)) == day(25)


def test_what_stands_open_is_one_doing_however_late():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    assert standing(rule, [], ALWAYS, day(19)) is None
    assert standing(rule, [], ALWAYS, day(60)) == Standing(day(20), 0)
    paused = Activity(pauses=(Pause(day(15), day(70)),))
    assert next_due(rule, [], paused) == day(71)
    assert standing(rule, [], paused, day(60)) is None
    assert to_come(rule, [], paused, day(60)) == Standing(day(71), 0)
    resting_since = Activity(pauses=(Pause(day(25), day(30)),))
    assert standing(rule, [], resting_since, day(27)) is None
    assert to_come(rule, [], resting_since, day(27)) == Standing(day(31), 0)


def test_the_next_days_go_on_at_the_same_rate():
    rule = strip(hours(10, 240), hours(20, 240), limit=480)
    assert upcoming(rule, 3) == [day(20), day(40), day(60)]
    assert upcoming(strip(), 3) == []


@untimed
@given(rules_by_use(), st.lists(settlements(), max_size=8), st.randoms())
def test_the_order_of_records_and_of_entry_does_not_matter(rule, history, random):
    shuffled = replace(rule, record=tuple(random.sample(rule.record, len(rule.record))))
    assert due(shuffled, random.sample(history, len(history))) == due(rule, history)


@untimed
@given(rules_by_use(), st.lists(settlements(), max_size=8))
def test_settling_on_the_day_moves_it_forward(rule, history):
    history = [one for one in history if one.until is None or one.until > one.on]
    on = due(rule, history)
    last = max((one.on for one in history if one.kind is not SettledAs.DEFERRED), default=date.min)
    if on is not None and on > last:
        following = due(rule, settle(rule, history, on))
        assert following is None or following > on


@untimed
@given(rules_by_use(), st.lists(st.dates(date(2020, 1, 1), date(2021, 12, 31)), min_size=1, max_size=6))
def test_a_doing_leaves_it_due_later_than_every_doing(rule, days):
    history: list[Settlement] = []
    for on in days:
        history = settle(rule, history, on)
    found = due(rule, history)
    assert found is None or found > max(days)


@untimed
@given(rules_by_use(), st.lists(settlements(), max_size=6), st.integers(1, 5_000))
def test_a_record_more_never_makes_it_due_later_than_the_record_when_it_reaches_the_limit(rule, history, amount):
    last = max((one.day for one in rule.record), default=date(2021, 12, 31))
    more = replace(rule, record=(*rule.record, Use(last + timedelta(days=7), rule.limit + amount)))
    undeferred = [one for one in history if one.kind is not SettledAs.DEFERRED]
    since = max((one.on for one in undeferred), default=rule.start - timedelta(days=1))
    if last + timedelta(days=7) > since:
        found = due(more, undeferred)
        assert found is not None
        assert found <= last + timedelta(days=7)


@untimed
@given(rules_by_use(), st.lists(settlements(), max_size=6))
def test_the_latest_day_is_never_passed_without_a_deferral(rule, history):
    undeferred = [one for one in history if one.kind is not SettledAs.DEFERRED]
    without = due(replace(rule, latest=None), undeferred)
    found = due(rule, undeferred)
    assert without is None or (found is not None and found <= without)
    assert rule.latest is None or found is not None
