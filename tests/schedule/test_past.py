"""What became of the days on which a chore was due: in time, late, missed."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.due import occurrence_settled
from farmops.schedule.past import Past
from farmops.schedule.rules import AfterDoing, Holding, Once, Rule, WhenHolds
from farmops.schedule.words import parse_words
from tests.schedule.strategies import untimed

MONDAY = date(2026, 3, 2)
ALWAYS = Activity()
DAILY, WEEKLY = parse_words("day", MONDAY), parse_words("Mon", MONDAY)


def day(ahead: int) -> date:
    return MONDAY + timedelta(days=ahead)


def history(rule: Rule, *on: int, kind: SettledAs = SettledAs.DONE) -> list[Settlement]:
    """Settled on these days, counted from Monday, each settling what the rule says."""
    found: list[Settlement] = []
    for ahead in on:
        found.append(Settlement(occurrence_settled(rule, found, day(ahead)), kind, day(ahead)))
    return found


def late(rule: Rule, *on: int, activity: Activity = ALWAYS) -> list[int]:
    past = history(rule, *on)
    return [Past(rule, past, activity).days_late(one) for one in past]


def missed(rule: Rule, past: list[Settlement], today: int, activity: Activity = ALWAYS) -> list[int]:
    return [(one - MONDAY).days for one in Past(rule, past, activity).missed_days(MONDAY, day(today))]


def not_kept(rule: Rule, past: list[Settlement], today: int, activity: Activity = ALWAYS) -> list[int]:
    return sorted((one - MONDAY).days for one in Past(rule, past, activity).days_not_kept(MONDAY, day(today)))


@pytest.mark.parametrize(
    ("rule", "on", "days"),
    [
        (WEEKLY, (0, 9, 14), [0, 2, 0]),
        (WEEKLY, (-1,), [0]),
        (AfterDoing(7, "day", MONDAY), (3, 10, 20), [3, 0, 3]),
        (Once(MONDAY), (5,), [5]),
    ],
)
def test_how_late_each_was(rule: Rule, on: tuple[int, ...], days: list[int]):
    assert late(rule, *on) == days


def test_a_daily_chore_done_after_days_off_is_in_time_but_missed_those():
    past = history(DAILY, 0, 4)
    assert late(DAILY, 0, 4) == [0, 0]
    assert missed(DAILY, past, today=5) == [1, 2, 3]


def test_a_second_booking_of_what_was_settled_in_time_is_not_late():
    first, again = Settlement(MONDAY, SettledAs.DONE, MONDAY), Settlement(MONDAY, SettledAs.DONE, day(2))
    assert [Past(WEEKLY, [again, first], ALWAYS).days_late(one) for one in (first, again)] == [0, 0]


def test_what_was_put_off_is_late_from_its_new_day():
    off = Settlement(MONDAY, SettledAs.DEFERRED, MONDAY, day(3))
    settled = Settlement(MONDAY, SettledAs.DONE, day(4))
    assert Past(WEEKLY, [off, settled], ALWAYS).days_late(settled) == 1
    afterwards = Settlement(MONDAY, SettledAs.DEFERRED, day(5), day(6))
    assert Past(WEEKLY, [off, settled, afterwards], ALWAYS).due_day(settled) == day(3)


def test_what_fell_into_a_rest_is_late_from_the_first_day_after():
    rests = Activity(pauses=(Pause(MONDAY, day(3)),))
    assert late(WEEKLY, 5, activity=rests) == [1]
    assert missed(DAILY, [], today=6, activity=rests) == [4, 5]


def test_the_latest_is_open_and_not_missed_before_the_next_has_come():
    assert missed(WEEKLY, [], today=6) == []
    assert missed(WEEKLY, [], today=7) == [0]


def test_before_it_was_ever_settled_nothing_counts_as_missed_but_of_what_never_was_all_does():
    assert missed(DAILY, history(DAILY, 4, 6), today=7) == [5]
    assert missed(DAILY, [], today=3) == [0, 1, 2]


def test_what_is_skipped_is_not_missed():
    assert missed(DAILY, history(DAILY, 0, 1, 2, kind=SettledAs.SKIPPED), today=3) == []


@pytest.mark.parametrize("rule", [AfterDoing(1, "day", MONDAY), Once(MONDAY)])
def test_other_work_misses_nothing_however_late(rule: Rule):
    assert missed(rule, [], today=30) == []
    assert not_kept(rule, [], today=30) == [0]


def test_days_of_another_rule_are_not_held_against_the_new_one():
    past = history(WEEKLY, 0, 7)
    tuesdays = parse_words("Tue", MONDAY)
    assert missed(tuesdays, [*past, *history(tuesdays, 8)], today=22) == [15]


def test_the_days_not_kept_are_those_of_late_of_missed_and_of_open_work():
    assert not_kept(WEEKLY, history(WEEKLY, 2), today=9) == [0, 7]
    assert not_kept(DAILY, history(DAILY, 0, 3), today=6) == [1, 2, 4, 5]
    assert not_kept(DAILY, history(DAILY, 0, 1), today=2) == []
    assert not_kept(WEEKLY, history(WEEKLY, -1, 7), today=14) == []


def test_what_is_only_open_while_something_holds_is_never_late():
    holds = WhenHolds("wet", MONDAY, (Holding(MONDAY, None, "wet", "dry"),))
    settled = Settlement(MONDAY, SettledAs.DONE, day(5))
    assert Past(holds, [settled], ALWAYS).days_late(settled) == 5
    assert Past(holds, [settled], ALWAYS, never_late=True).days_late(settled) == 0
    assert Past(holds, [], ALWAYS).days_not_kept(MONDAY, day(5)) == {MONDAY}
    assert Past(holds, [], ALWAYS, never_late=True).days_not_kept(MONDAY, day(5)) == set()


@untimed
@given(st.sampled_from((DAILY, WEEKLY)), st.lists(st.integers(0, 40), max_size=12), st.integers(1, 45))
def test_every_day_is_kept_or_not_and_never_both(rule: Rule, on: list[int], today: int):
    past = history(rule, *sorted(one for one in on if one <= today))
    kept = {one.occurrence for one in past if one.on <= one.occurrence}
    assert not {day(one) for one in not_kept(rule, past, today)} & kept
