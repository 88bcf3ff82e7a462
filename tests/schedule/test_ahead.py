"""What another program finds ahead of a chore: the days on which it falls due, and none on which it rests."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import islice

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.ahead import Ahead, ahead
from farmops.schedule.due import due, next_due, occurrence_settled, open_occurrence, standing
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rules import OnCalendar
from farmops.schedule.words import parse_words
from tests.schedule.strategies import calendar_rules
from tests.schedule.test_activity import activities

MONDAY = date(2026, 3, 2)
MOST = 8


def words(text: str, start: date = MONDAY) -> OnCalendar:
    rule = parse_words(text, start)
    assert isinstance(rule, OnCalendar)
    return rule


def done(rule: OnCalendar, history: Sequence[Settlement], day: date) -> list[Settlement]:
    return [*history, Settlement(occurrence_settled(rule, history, day), SettledAs.DONE, day)]


def seen(rule: OnCalendar, history: Sequence[Settlement], activity: Activity, today: date) -> Ahead | None:
    """What lies ahead by the due day that a store would hold, and what stands open of it."""
    day = next_due(rule, history, activity)
    if day is not None and day <= today:
        stands = standing(rule, history, activity, today)
        day = stands.due if stands else None
    return ahead(rule, history, activity, day, today) if day else None


def expanded(found: Ahead) -> list[date]:
    following = occurrences(OnCalendar(found.rrule, found.occurrence), found.occurrence) if found.rrule else ()
    return [found.day, *islice(following, MOST)]


@pytest.mark.parametrize(
    ("text", "rrule"),
    [
        ("day", "FREQ=DAILY"),
        ("2 weeks on Mon", "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO"),
        ("month on the 31st", "FREQ=MONTHLY;BYMONTHDAY=28,29,30,31;BYSETPOS=-1"),
        ("year", "FREQ=YEARLY;BYMONTH=3;BYMONTHDAY=2"),
        ("day 10 times", "FREQ=DAILY;COUNT=10"),
        ("Mon until 2026-04-30", "FREQ=WEEKLY;UNTIL=20260430;BYDAY=MO"),
    ],
)
def test_before_anything_was_done_the_rule_goes_on_as_it_stands(text, rrule):
    rule = words(text)
    found = seen(rule, [], Activity(), MONDAY)
    assert found is not None
    assert found.rrule == rrule
    assert expanded(found) == list(islice(occurrences(rule), MOST + 1))


def test_what_is_late_stands_on_its_latest_occurrence():
    assert seen(words("day"), [], Activity(), date(2026, 3, 9)) == Ahead(
        date(2026, 3, 9), date(2026, 3, 9), "FREQ=DAILY"
    )
    assert seen(words("Mon"), [], Activity(), date(2026, 3, 11)) == Ahead(
        date(2026, 3, 9), date(2026, 3, 9), "FREQ=WEEKLY;BYDAY=MO"
    )


def test_a_rule_that_counts_counts_what_is_left():
    rule = words("day 10 times")
    assert seen(rule, done(rule, [], date(2026, 3, 5)), Activity(), date(2026, 3, 6)) == Ahead(
        date(2026, 3, 6), date(2026, 3, 6), "FREQ=DAILY;COUNT=6"
    )
    assert seen(rule, done(rule, [], date(2026, 3, 10)), Activity(), date(2026, 3, 10)) == Ahead(
        date(2026, 3, 11), date(2026, 3, 11), None
    )


def test_an_occurrence_that_was_put_off_stands_on_its_new_day():
    off = Settlement(MONDAY, SettledAs.DEFERRED, MONDAY, date(2026, 3, 4))
    assert seen(words("Mon"), [off], Activity(), MONDAY) == Ahead(date(2026, 3, 4), MONDAY, "FREQ=WEEKLY;BYDAY=MO")


def test_an_occurrence_that_was_put_forward_stands_on_its_new_day():
    rule = words("Mon")
    sooner = Settlement(date(2026, 3, 9), SettledAs.DEFERRED, MONDAY, date(2026, 3, 7))
    assert seen(rule, [*done(rule, [], MONDAY), sooner], Activity(), MONDAY) == Ahead(
        date(2026, 3, 7), date(2026, 3, 9), "FREQ=WEEKLY;BYDAY=MO"
    )


def test_the_rule_ends_with_its_months_and_begins_with_what_fell_due_meanwhile():
    summer = Activity(months=frozenset(range(4, 11)))
    found = seen(words("Mon"), [], summer, MONDAY)
    assert found == Ahead(date(2026, 4, 1), date(2026, 3, 30), "FREQ=WEEKLY;UNTIL=20261031;BYDAY=MO")
    counted = seen(words("month on the 31st 10 times"), [], summer, MONDAY)
    assert counted == Ahead(
        date(2026, 4, 1), date(2026, 3, 31), "FREQ=MONTHLY;COUNT=8;BYMONTHDAY=28,29,30,31;BYSETPOS=-1"
    )


def test_the_rule_ends_before_a_pause_that_is_to_come():
    rests = Activity(pauses=(Pause(date(2026, 3, 10), date(2026, 3, 12)),))
    assert seen(words("day"), [], rests, MONDAY) == Ahead(MONDAY, MONDAY, "FREQ=DAILY;UNTIL=20260309")
    assert seen(words("Mon"), [], Activity(pauses=(Pause(date(2026, 3, 3)),)), MONDAY) == Ahead(MONDAY, MONDAY, None)


@st.composite
def pasts(draw: st.DrawFn, rule: OnCalendar) -> list[Settlement]:
    """A history as it comes about: done on some days, what is open then put off, maybe."""
    history: list[Settlement] = []
    for ahead_days in sorted(draw(st.lists(st.integers(-5, 400), max_size=4))):
        day = rule.start + timedelta(days=ahead_days)
        history = done(rule, history, day)
    opened = open_occurrence(rule, history)
    if opened is not None and draw(st.booleans()):
        known = [day for one in history for day in (one.on, one.occurrence)]
        put_off = opened + timedelta(days=draw(st.integers(-20, 40)))
        if put_off > max(known, default=rule.start):
            history.append(Settlement(opened, SettledAs.DEFERRED, opened, put_off))
    return history


@given(st.data(), calendar_rules(), activities, st.integers(-30, 500))
def test_it_is_the_days_on_which_the_chore_falls_due_when_each_is_done_in_time(data, rule, activity, today):
    history, day = data.draw(pasts(rule)), rule.start + timedelta(days=today)
    found = seen(rule, history, activity, day)
    assume(found is not None)
    assert found is not None
    for at, expected in enumerate(expanded(found)):
        on = max(expected, day) if at == 0 else expected
        assert activity.active(on)
        if at:
            assert next_due(rule, history, activity) == expected
        history = done(rule, history, on)
    if len(expanded(found)) <= MOST:
        last, after = activity.active_until(found.day), due(rule, history)
        assert after is None or (last is not None and after > last)
