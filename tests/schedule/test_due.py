"""When a chore is due, whatever the order in which its history was entered."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.model.units import StateFrom, UnitState
from farmops.schedule.activity import Activity
from farmops.schedule.due import Standing, due, next_due, occurrence_settled, standing
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import AfterDoing, Once
from farmops.schedule.words import parse_words
from tests.schedule.strategies import settlements, untimed

START = date(2026, 1, 5)
MONDAYS = parse_rrule("FREQ=WEEKLY;BYDAY=MO", START)
DAILY = parse_rrule("FREQ=DAILY", START)
ALWAYS = Activity()


def jan(day: int) -> date:
    return date(2026, 1, day)


def done(occurrence: date, on: date | None = None) -> Settlement:
    return Settlement(occurrence, SettledAs.DONE, on or occurrence)


def skipped(occurrence: date, on: date | None = None) -> Settlement:
    return Settlement(occurrence, SettledAs.SKIPPED, on or occurrence)


def deferred(occurrence: date, until: date, on: date | None = None) -> Settlement:
    return Settlement(occurrence, SettledAs.DEFERRED, on or occurrence, until)


def settle(rule, history, on: date) -> list[Settlement]:
    """The history after the chore was done on that day, no occurrence being named."""
    return [*history, done(occurrence_settled(rule, history, on), on)]


@pytest.mark.parametrize(
    ("rule", "before", "on", "expected"),
    [
        (AfterDoing(7, "day", jan(5)), [], jan(7), jan(14)),
        (MONDAYS, [], jan(7), jan(12)),
        (MONDAYS, [], jan(14), jan(19)),
        (MONDAYS, [done(jan(5))], jan(11), jan(19)),
        (AfterDoing(7, "day", jan(12)), [], jan(11), jan(18)),
        (AfterDoing(1, "month", jan(31)), [], jan(31), date(2026, 2, 28)),
        (AfterDoing(1, "month", jan(31)), [done(jan(31))], date(2026, 2, 28), date(2026, 3, 31)),
        (parse_rrule("FREQ=MONTHLY;BYMONTHDAY=31", START), [], jan(31), date(2026, 3, 31)),
        (parse_rrule("FREQ=MONTHLY;BYMONTHDAY=-1", START), [], jan(31), date(2026, 2, 28)),
        (AfterDoing(12, "month", date(2024, 2, 29)), [], date(2024, 2, 29), date(2025, 2, 28)),
    ],
    ids=["C1 late", "C2 late", "C3 9 days late", "C5 early", "C6 early", "C7 clamped", "C8 kept anchor",
         "C9 literal 31st", "C10 last day", "C11 leap day"],
)  # fmt: skip
def test_the_next_due_day_after_a_doing(rule, before, on, expected):
    assert due(rule, settle(rule, before, on)) == expected


def test_a_chore_due_once_is_over_when_done_or_skipped():
    rule = Once(jan(9))
    assert due(rule, []) == jan(9)
    assert occurrence_settled(rule, [], jan(20)) == jan(9)
    assert due(rule, settle(rule, [], jan(20))) is None
    assert due(rule, [skipped(jan(9))]) is None


def test_a_calendar_rule_is_first_due_on_its_first_day():
    assert due(MONDAYS, []) == jan(5)


def test_late_does_not_shift_the_calendar_and_skipped_counts_as_settled():
    assert due(MONDAYS, [done(jan(5), jan(9))]) == jan(12)
    assert due(MONDAYS, [skipped(jan(12))]) == jan(19)


def test_a_rule_that_has_ended_is_not_due():
    rule = parse_rrule("FREQ=DAILY;COUNT=2", START)
    assert due(rule, [done(jan(6))]) is None
    assert next_due(rule, [done(jan(6))], Activity()) is None
    assert standing(rule, [done(jan(6))], ALWAYS, jan(30)) is None
    assert occurrence_settled(rule, [done(jan(6))], jan(9)) == jan(6)


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        ((date(2026, 1, 31), date(2026, 2, 28), date(2026, 3, 31)), date(2026, 4, 30)),
        ((date(2026, 1, 31), date(2026, 2, 27)), date(2026, 3, 27)),
        ((date(2026, 1, 31), date(2026, 2, 28), date(2026, 4, 2)), date(2026, 5, 2)),
        ((date(2026, 4, 30), date(2026, 2, 28)), date(2026, 5, 31)),
    ],
)
def test_months_after_doing_count_from_a_kept_anchor_day(days, expected):
    assert due(AfterDoing(1, "month", jan(31)), [done(day) for day in days]) == expected


@untimed
@given(st.integers(1, 60), st.sampled_from(("day", "week")), st.integers(1, 8))
def test_done_on_the_day_after_doing_goes_on_like_a_plain_interval(every, unit, times):
    rule = AfterDoing(every, unit, START)
    history: list[Settlement] = []
    for _ in range(times):
        history = settle(rule, history, due(rule, history))
    assert due(rule, history) == START + times * timedelta(**{f"{unit}s": every})


@untimed
@given(st.integers(1, 40), st.integers(0, 60))
def test_after_doing_is_always_later_than_the_doing(every, late):
    rule = AfterDoing(every, "month", START)
    on = START + timedelta(days=late)
    assert due(rule, settle(rule, [], on)) > on


def test_a_deferral_moves_only_the_occurrence_it_names():
    assert due(MONDAYS, [deferred(jan(5), jan(8))]) == jan(8)
    assert due(MONDAYS, [deferred(jan(12), jan(15))]) == jan(5)
    assert due(MONDAYS, [deferred(jan(5), jan(8)), done(jan(5), jan(8))]) == jan(12)
    assert due(Once(jan(9)), [deferred(jan(9), jan(20))]) == jan(20)
    assert due(AfterDoing(7, "day", START), [done(jan(5)), deferred(jan(12), jan(14))]) == jan(14)


def test_of_several_deferrals_the_latest_made_counts():
    first, second = deferred(jan(5), jan(20), on=jan(5)), deferred(jan(5), jan(8), on=jan(6))
    assert due(MONDAYS, [first, second]) == due(MONDAYS, [second, first]) == jan(8)
    assert due(MONDAYS, [deferred(jan(5), jan(9)), deferred(jan(5), jan(7))]) == jan(9)


def test_a_doing_after_a_deferral_settles_all_that_has_come():
    history = settle(MONDAYS, [deferred(jan(5), jan(14))], jan(14))
    assert history[-1].occurrence == jan(12)
    assert due(MONDAYS, history) == jan(19)


@pytest.mark.parametrize(
    ("history", "on", "expected"),
    [
        ([], jan(5), jan(5)),
        ([], jan(3), jan(5)),
        ([], jan(13), jan(12)),
        ([done(jan(5))], jan(10), jan(12)),
        ([done(jan(19))], jan(14), jan(12)),
        ([done(jan(19))], jan(19), jan(19)),
        ([done(jan(19))], jan(2), jan(5)),
        ([deferred(jan(5), jan(9))], jan(7), jan(5)),
    ],
    ids=[
        "on the day",
        "before the first",
        "late",
        "early",
        "into the past",
        "twice on a day",
        "before all",
        "deferred",
    ],
)
def test_the_occurrence_a_doing_settles_on_the_calendar(history, on, expected):
    assert occurrence_settled(MONDAYS, history, on) == expected


def test_the_occurrence_a_doing_settles_after_doing():
    rule = AfterDoing(7, "day", START)
    assert occurrence_settled(rule, [], jan(9)) == jan(5)
    assert occurrence_settled(rule, [done(jan(5), jan(9))], jan(12)) == jan(16)
    assert occurrence_settled(rule, [done(jan(5), jan(9))], jan(8)) == jan(8)
    assert occurrence_settled(rule, [done(jan(5), jan(9))], jan(9)) == jan(9)


def test_missed_occurrences_are_counted_beside_the_one_that_is_due():
    assert standing(DAILY, [], ALWAYS, START) == Standing(jan(5), 0)
    assert standing(DAILY, [], ALWAYS, jan(6)) == Standing(jan(5), 0)
    assert standing(DAILY, [], ALWAYS, jan(9)) == Standing(jan(5), 3)
    assert standing(MONDAYS, [done(jan(5))], ALWAYS, jan(27)) == Standing(jan(12), 2)
    assert standing(DAILY, [deferred(jan(5), jan(8))], ALWAYS, jan(8)) == Standing(jan(8), 0)
    assert standing(DAILY, [deferred(jan(5), jan(8))], ALWAYS, jan(10)) == Standing(jan(8), 1)


def test_a_chore_due_once_or_after_doing_stands_open_once():
    assert standing(Once(jan(5)), [], ALWAYS, jan(30)) == Standing(jan(5), 0)
    assert standing(AfterDoing(1, "day", START), [], ALWAYS, jan(30)) == Standing(jan(5), 0)


def test_what_falls_in_a_gap_is_due_once_on_the_first_active_day():
    paused = Activity(pauses=(Pause(jan(6), jan(20)),))
    history = [done(jan(5))]
    assert next_due(MONDAYS, history, paused) == jan(21)
    assert standing(MONDAYS, history, paused, jan(22)) == Standing(jan(21), 0)
    assert standing(MONDAYS, history, paused, jan(28)) == Standing(jan(21), 1)
    history = settle(MONDAYS, history, jan(21))
    assert history[-1].occurrence == jan(19)
    assert next_due(MONDAYS, history, paused) == jan(26)


def test_after_doing_in_a_gap_counts_on_from_the_day_it_was_done():
    rule, summer = AfterDoing(14, "day", date(2026, 9, 1)), Activity(months=frozenset(range(4, 10)))
    history = [done(date(2026, 9, 25))]
    assert next_due(rule, history, summer) == date(2027, 4, 1)
    assert next_due(rule, settle(rule, history, date(2027, 4, 1)), summer) == date(2027, 4, 15)


def test_a_chore_that_is_never_active_again_is_never_due():
    for_good = Activity(pauses=(Pause(START),))
    assert next_due(DAILY, [], for_good) is None
    assert standing(DAILY, [], for_good, jan(30)) is None


@pytest.mark.parametrize("words", ["day", "Mon Thu", "month on the 31st", "14 days after", "1 month after", "once"])
@untimed
@given(st.lists(settlements(), max_size=8), st.randoms())
def test_the_order_of_entry_does_not_matter(words, history, random):
    rule = parse_words(words, date(2020, 1, 31))
    shuffled = random.sample(history, len(history))
    assert due(rule, shuffled) == due(rule, history)
    today = date(2021, 6, 1)
    assert standing(rule, shuffled, ALWAYS, today) == standing(rule, history, ALWAYS, today)
    assert occurrence_settled(rule, shuffled, date(2020, 7, 7)) == occurrence_settled(rule, history, date(2020, 7, 7))


@pytest.mark.parametrize("words", ["day", "Mon Thu", "month on the 31st", "14 days after", "1 month after", "3 days"])
@untimed
@given(st.lists(st.dates(date(2020, 1, 1), date(2021, 12, 31)), min_size=1, max_size=8))
def test_a_doing_leaves_the_chore_due_later_than_every_doing(words, days):
    rule, history = parse_words(words, date(2020, 1, 31)), []
    for day in days:
        history = settle(rule, history, day)
    assert due(rule, history) > max(days)


CYCLING, RUNNING = UnitState.CYCLING, UnitState.RUNNING


def test_a_late_chore_is_not_asked_for_while_it_is_suspended() -> None:
    activity = Activity(
        states=frozenset({CYCLING}),
        history=(StateFrom(date(2026, 5, 1), CYCLING), StateFrom(date(2026, 5, 10), RUNNING)),
    )
    rule = parse_words("day", date(2026, 5, 1))
    assert standing(rule, (), activity, date(2026, 5, 5)) == Standing(date(2026, 5, 1), 3)
    assert standing(rule, (), activity, date(2026, 5, 12)) is None


def test_a_late_chore_that_was_suspended_is_due_again_from_the_day_it_goes_on() -> None:
    activity = Activity(pauses=(Pause(date(2026, 5, 10), date(2026, 5, 20)),))
    rule = parse_words("day", date(2026, 5, 1))
    assert standing(rule, (), activity, date(2026, 5, 15)) is None
    assert standing(rule, (), activity, date(2026, 5, 23)) == Standing(date(2026, 5, 21), 1)


def test_months_suspend_a_late_chore_too() -> None:
    activity = Activity(months=frozenset({5, 7}))
    rule = parse_words("week", date(2026, 5, 4))
    assert standing(rule, (), activity, date(2026, 6, 10)) is None
    assert standing(rule, (), activity, date(2026, 7, 14)) == Standing(date(2026, 7, 1), 2)


def test_nothing_stands_open_before_the_day() -> None:
    assert standing(parse_words("day", date(2026, 5, 4)), (), Activity(), date(2026, 5, 3)) is None
