"""Due while something holds: once for each holding, off the list by itself when it stops."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause, SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.due import (
    Standing,
    due,
    next_due,
    occurrence_put_off,
    occurrence_settled,
    occurrence_skipped,
    open_occurrence,
    standing,
    to_come,
    upcoming,
)
from farmops.schedule.rules import Holding, WhenHolds
from tests.schedule.strategies import rules_when, settlements, untimed

ALWAYS = Activity()
DAYS = st.dates(date(2020, 1, 1), date(2021, 12, 31))


def oct_(day: int) -> date:
    return date(2026, 10, day)


def held(since: int, until: int | None = None, why: str = "chard ready") -> Holding:
    return Holding(oct_(since), None if until is None else oct_(until), why, "a weighing")


FIRST = oct_(1)


def when(*holdings: Holding, start: date = FIRST) -> WhenHolds:
    return WhenHolds("planting ready", start, holdings)


def done(occurrence: date, on: date | None = None) -> Settlement:
    return Settlement(occurrence, SettledAs.DONE, on or occurrence)


def deferred(on: date, until: date, occurrence: date) -> Settlement:
    return Settlement(occurrence, SettledAs.DEFERRED, on, until)


def settle(rule: WhenHolds, history: list[Settlement], on: date) -> list[Settlement]:
    return [*history, done(occurrence_settled(rule, history, on), on)]


def test_it_is_due_from_the_first_day_on_which_it_holds():
    assert due(when(), []) is None
    assert due(when(held(11), held(4, 6)), []) == oct_(4)
    assert due(when(held(4), start=oct_(9)), []) == oct_(9)


def test_what_ended_before_it_counted_is_not_due():
    assert due(when(held(2, 5), start=oct_(9)), []) is None
    assert next_due(when(held(2, 5), held(12)), [], Activity(pauses=(Pause(oct_(1), oct_(9)),))) == oct_(12)


def test_a_holding_is_settled_with_an_occurrence_on_or_after_its_first_day():
    rule = when(held(4), held(11))
    assert due(rule, [done(oct_(4), oct_(6))]) == oct_(11)
    assert due(rule, [done(oct_(11), oct_(12))]) is None
    assert due(rule, [Settlement(oct_(11), SettledAs.SKIPPED, oct_(12))]) is None


def test_what_stands_open_says_why_and_leaves_out_what_has_ended():
    rule = when(held(4, 6, "frost to come"), held(11, 12, "frost again"))
    assert standing(rule, [], ALWAYS, oct_(3)) is None
    assert standing(rule, [], ALWAYS, oct_(5)) == Standing(oct_(4), 0, (held(4, 6, "frost to come"),))
    assert standing(rule, [], ALWAYS, oct_(6)) is not None
    assert standing(rule, [], ALWAYS, oct_(7)) is None
    assert standing(rule, [], ALWAYS, oct_(12)) == Standing(oct_(11), 0, (held(11, 12, "frost again"),))
    assert standing(rule, [], ALWAYS, oct_(13)) is None


def test_two_holdings_at_once_are_one_line_and_none_counts_as_missed():
    first, second = held(4, None, "chard ready"), held(7, None, "kale ready")
    assert standing(when(second, first), [], ALWAYS, oct_(20)) == Standing(oct_(4), 0, (first, second))
    assert occurrence_settled(when(second, first), [], oct_(9)) == oct_(7)
    assert due(when(second, first), settle(when(second, first), [], oct_(9))) is None


def test_two_holdings_of_one_day_are_settled_together():
    rule = when(held(4, 9, "chard ready"), held(4, None, "kale ready"))
    assert standing(rule, [], ALWAYS, oct_(4)) == Standing(oct_(4), 0, rule.holdings)
    assert due(rule, settle(rule, [], oct_(4))) is None


def test_what_begins_after_the_doing_on_the_same_day_still_asks():
    before = when(held(4))
    history = settle(before, [], oct_(8))
    assert due(when(held(4), held(8)), history) == oct_(8)
    assert due(when(held(8)), settle(when(), [], oct_(8))) == oct_(8)


def test_done_early_it_leaves_what_is_to_come_but_can_be_left_out_early():
    rule = when(held(2, 3), held(9))
    assert occurrence_settled(rule, [], oct_(8)) == oct_(7)
    assert due(rule, settle(rule, [], oct_(8))) == oct_(9)
    assert occurrence_skipped(rule, [], oct_(8)) == oct_(9)
    assert occurrence_skipped(when(held(2, 3)), [], oct_(8)) == oct_(7)
    assert occurrence_settled(rule, [done(oct_(8))], oct_(5)) == oct_(4)


def test_a_deferral_puts_off_all_that_had_come():
    rule = when(held(4), held(6), held(11))
    assert occurrence_put_off(rule, [], oct_(7)) == oct_(6)
    history = [deferred(oct_(7), oct_(14), oct_(6))]
    assert due(rule, history) == oct_(11)
    assert due(when(held(4), held(6)), history) == oct_(14)
    assert standing(rule, history, ALWAYS, oct_(10)) is None
    assert standing(rule, history, ALWAYS, oct_(12)) == Standing(oct_(11), 0, (held(11),))
    assert due(when(held(4)), [*history, deferred(oct_(14), oct_(16), oct_(6))]) == oct_(16)
    assert due(when(held(4), held(7)), [deferred(oct_(8), oct_(14), oct_(4))]) == oct_(14)


def test_one_that_ends_before_the_day_it_was_put_off_to_asks_no_more():
    assert due(when(held(4, 6)), [deferred(oct_(5), oct_(7), oct_(4))]) is None
    assert due(when(held(4, 7)), [deferred(oct_(5), oct_(7), oct_(4))]) == oct_(7)


def test_nothing_is_put_off_where_nothing_holds():
    assert occurrence_put_off(when(held(2, 3)), [], oct_(5)) is None
    assert occurrence_put_off(when(held(2, 3), held(9)), [], oct_(5)) == oct_(9)


def test_a_gap_puts_it_off_and_it_is_due_once_if_it_still_holds():
    gap = Activity(pauses=(Pause(oct_(3), oct_(9)),))
    rule = when(held(4), held(5, 8))
    assert next_due(rule, [], gap) == oct_(10)
    assert standing(rule, [], gap, oct_(7)) is None
    assert to_come(rule, [], gap, oct_(7)) == Standing(oct_(10), 0, (held(4),))
    assert standing(rule, [], gap, oct_(12)) == Standing(oct_(10), 0, (held(4),))


def test_what_is_to_come_is_seen_past_what_was_left_unsettled():
    rule = when(held(2, 3), held(9, 9), held(9, 10), held(20))
    assert due(rule, []) == oct_(2)
    assert to_come(rule, [], ALWAYS, oct_(5)) == Standing(oct_(9), 0, (held(9, 9), held(9, 10)))
    assert to_come(rule, [], ALWAYS, oct_(20)) is None


def test_the_days_that_are_known_can_be_listed():
    assert upcoming(when(held(4), held(9, 12)), 5) == [oct_(4), oct_(9)]
    assert open_occurrence(when(held(9), held(4)), []) == oct_(4)


@untimed
@given(rules_when(), st.lists(settlements(), max_size=8), DAYS, st.randoms())
def test_the_order_of_holdings_and_of_entry_does_not_matter(rule, history, today, random):
    shuffled = replace(rule, holdings=tuple(random.sample(rule.holdings, len(rule.holdings))))
    other = random.sample(history, len(history))
    assert due(shuffled, other) == due(rule, history)
    assert standing(shuffled, other, ALWAYS, today) == standing(rule, history, ALWAYS, today)
    assert occurrence_settled(shuffled, other, today) == occurrence_settled(rule, history, today)


@untimed
@given(rules_when(), st.lists(DAYS, min_size=1, max_size=6))
def test_a_doing_leaves_it_due_later_than_every_doing(rule, days):
    history: list[Settlement] = []
    for on in days:
        history = settle(rule, history, on)
    found = due(rule, history)
    assert found is None or found > max(days)


@untimed
@given(rules_when(), st.lists(settlements(), max_size=8), DAYS)
def test_whatever_stands_open_fell_due_by_then_and_still_holds(rule, history, today):
    open_now = standing(rule, history, ALWAYS, today)
    stored = next_due(rule, history, ALWAYS)
    if open_now is not None:
        assert stored is not None
        assert stored <= open_now.due <= today
        assert all(one.since <= today and (one.until is None or one.until >= today) for one in open_now.holdings)
        assert open_now.holdings


@untimed
@given(rules_when(), DAYS)
def test_doing_it_takes_it_off_the_list_until_something_new_holds(rule, today):
    if standing(rule, [], ALWAYS, today) is not None:
        history = settle(rule, [], today)
        assert standing(rule, history, ALWAYS, today) is None
        coming = to_come(rule, history, ALWAYS, today)
        assert coming is None or all(one.since > today for one in coming.holdings)


@untimed
@given(rules_when(), st.lists(settlements(), max_size=5), DAYS, st.integers(0, 40))
def test_suspended_work_is_due_once_after_if_it_still_holds(rule, history, first, length):
    last = first + timedelta(days=length)
    gap = Activity(pauses=(Pause(first, last),))
    assert all(standing(rule, history, gap, day) is None for day in (first, last))
    after = last + timedelta(days=1)
    free = standing(rule, history, ALWAYS, after)
    kept = standing(rule, history, gap, after)
    assert (kept is None) == (free is None)
    if free is not None and kept is not None:
        assert kept.holdings == free.holdings
        assert kept.due == max(free.due, after) or free.due < first


@pytest.mark.parametrize("today", [oct_(4), oct_(30)])
def test_without_end_it_stands_until_it_is_settled(today):
    assert standing(when(held(4)), [], ALWAYS, today) == Standing(oct_(4), 0, (held(4),))
