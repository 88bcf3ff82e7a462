"""Late, missed, suspended, deferred, skipped: each rule of chores, seen on the round day by day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from farmops.farm import chores
from farmops.farm.chores import pause, resume
from farmops.model.chores import Chore, ChoreClass, NewPause, Resuming, SettledAs, Settling
from farmops.model.errors import Refused
from farmops.model.units import Unit, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import RoundLine, round_of
from tests.farmhand import ADA, BOB, TODAY, a_chore, a_unit, enters, on, settle, stock, take_back

DAY = on(10, 14)
FEED = {"grade": ChoreClass.FISH_CARE, "states": (UnitState.RUNNING,)}


@pytest.fixture
def unit(farm_store: Store) -> Unit:
    """A running unit with live fish."""
    found = a_unit(farm_store)
    stock(farm_store, found)
    return found


def line(store: Store, day: date = DAY) -> RoundLine | None:
    """The one line of the round, if there is one."""
    lines = round_of(store, day).lines
    assert len(lines) <= 1
    return lines[0] if lines else None


def seen(store: Store, day: date = DAY) -> tuple[date, int, int] | None:
    """Due since when, how many days late, how many missed besides; None when the round is empty."""
    found = line(store, day)
    return (found.due, found.days_late, found.missed) if found else None


def next_due(store: Store, chore: Chore) -> date | None:
    return next(one.next_due for one in lists.chores(store) if one.id == chore.id)


def test_a_missed_feed_is_never_made_up(farm_store: Store, unit: Unit):
    feed = a_chore(farm_store, "Feed", "day", on(10, 11), unit_id=unit.id, **FEED)
    assert seen(farm_store) == (on(10, 11), 3, 2)
    settle(farm_store, feed, DAY)
    assert seen(farm_store) is None
    assert seen(farm_store, on(10, 15)) == (on(10, 15), 0, 0)
    assert [one.occurrence for one in lists.settled(farm_store, feed.id)] == [DAY]


def test_a_second_feed_booked_on_the_same_day_moves_nothing(farm_store: Store, unit: Unit):
    feed = a_chore(farm_store, "Feed", "day", on(10, 11), unit_id=unit.id, **FEED)
    for _ in range(2):
        settle(farm_store, feed, DAY)
        assert next_due(farm_store, feed) == on(10, 15)


def test_a_feed_booked_the_day_after_settles_the_day_it_was_given(farm_store: Store, unit: Unit):
    feed = a_chore(farm_store, "Feed", "day", on(10, 11), unit_id=unit.id, **FEED)
    settle(farm_store, feed, on(10, 13))
    assert seen(farm_store) == (DAY, 0, 0)
    settle(farm_store, feed, on(10, 12))
    assert seen(farm_store) == (DAY, 0, 0)


def test_missed_calendar_days_are_one_line(farm_store: Store):
    a_chore(farm_store, "Sweep", "Mon", on(9, 21))
    assert seen(farm_store, on(10, 16)) == (on(9, 21), 25, 3)


def test_one_that_is_late_by_less_than_its_wait_has_missed_none(farm_store: Store):
    a_chore(farm_store, "Sweep", "Mon", on(10, 12))
    assert seen(farm_store) == (on(10, 12), 2, 0)


def test_on_the_calendar_late_does_not_shift_the_next(farm_store: Store):
    sweep = a_chore(farm_store, "Sweep", "Mon", on(10, 5))
    settle(farm_store, sweep, on(10, 8))
    assert next_due(farm_store, sweep) == on(10, 12)


def test_after_doing_late_shifts_the_next_and_nothing_is_missed(farm_store: Store):
    rinse = a_chore(farm_store, "Rinse", "7 days after", on(9, 1))
    assert seen(farm_store) == (on(9, 1), 43, 0)
    settle(farm_store, rinse, on(10, 10))
    assert next_due(farm_store, rinse) == on(10, 17)


@pytest.mark.parametrize("rule", ["day", "Mon", "7 days after", "once"])
@pytest.mark.parametrize(
    ("made_on", "until"),
    [(DAY, on(10, 15)), (on(10, 15), on(10, 15)), (on(10, 15), on(10, 16)), (on(10, 20), on(10, 20))],
)
def test_life_support_is_put_off_only_within_the_day(
    farm_store: Store, unit: Unit, rule: str, made_on: date, until: date
):
    look = a_chore(farm_store, "Look", rule, on(10, 12), unit_id=unit.id, grade=ChoreClass.LIFE_SUPPORT)
    with pytest.raises(Refused, match="life support and can only wait within the day"):
        chores.settle(farm_store, Settling(look.id, SettledAs.DEFERRED, made_on, until=until), by=ADA)
    settle(farm_store, look, DAY, SettledAs.DEFERRED, until=DAY)
    assert next_due(farm_store, look) == DAY
    assert line(farm_store) is not None


def test_life_support_that_is_not_due_yet_is_not_put_off_past_its_day(farm_store: Store, unit: Unit):
    look = a_chore(farm_store, "Look", "once", on(10, 16), unit_id=unit.id, grade=ChoreClass.LIFE_SUPPORT)
    with pytest.raises(Refused, match="within the day"):
        settle(farm_store, look, on(10, 17), SettledAs.DEFERRED, until=on(10, 17))
    settle(farm_store, look, on(10, 16), SettledAs.DEFERRED, until=on(10, 16))
    assert next_due(farm_store, look) == on(10, 16)


def test_other_work_is_put_off_to_its_day_and_is_late_only_after_it(farm_store: Store):
    rinse = a_chore(farm_store, "Rinse", "7 days after", on(10, 12))
    settle(farm_store, rinse, DAY, SettledAs.DEFERRED, until=on(10, 16))
    assert seen(farm_store, on(10, 15)) is None
    assert seen(farm_store, on(10, 16)) == (on(10, 16), 0, 0)
    assert seen(farm_store, on(10, 18)) == (on(10, 16), 2, 0)
    take_back(farm_store)
    assert seen(farm_store) == (on(10, 12), 2, 0)


def test_a_deferral_moves_the_occurrence_it_names_and_no_other(farm_store: Store):
    sweep = a_chore(farm_store, "Sweep", "Mon", on(10, 5))
    settle(farm_store, sweep, on(10, 5), SettledAs.DEFERRED, until=on(10, 7))
    settle(farm_store, sweep, on(10, 7))
    assert next_due(farm_store, sweep) == on(10, 12)


def test_what_is_skipped_says_why_and_who_and_comes_again(farm_store: Store):
    sweep = a_chore(farm_store, "Sweep", "Mon", on(10, 12))
    with pytest.raises(Refused, match="say why Sweep is left out"):
        settle(farm_store, sweep, DAY, SettledAs.SKIPPED)
    settle(farm_store, sweep, DAY, SettledAs.SKIPPED, reason="rain", by=BOB)
    (skipped,) = lists.settled(farm_store, sweep.id)
    assert (skipped.reason, skipped.actor, skipped.occurrence) == ("rain", BOB, on(10, 12))
    assert next_due(farm_store, sweep) == on(10, 19)


@pytest.mark.parametrize(("rule", "following"), [("day", on(10, 9)), ("Mon", on(10, 12)), ("7 days after", on(10, 15))])
def test_what_falls_due_while_a_state_suspends_it_is_due_once_on_the_first_active_day(
    farm_store: Store, rule: str, following: date
):
    unit = a_unit(farm_store)
    rinse = a_chore(farm_store, "Rinse", rule, on(9, 14), unit_id=unit.id, states=(UnitState.RUNNING,))
    enters(farm_store, unit, UnitState.RESTING, on(9, 10))
    assert [seen(farm_store, on(9, 14) + timedelta(days=days)) for days in range(24)] == [None] * 24
    enters(farm_store, unit, UnitState.RUNNING, on(10, 8))
    assert seen(farm_store, on(10, 7)) is None
    assert seen(farm_store, on(10, 8)) == (on(10, 8), 0, 0)
    settle(farm_store, rinse, on(10, 8))
    assert next_due(farm_store, rinse) == following


def test_months_suspend_and_what_fell_due_meanwhile_is_due_once(farm_store: Store):
    mow = a_chore(farm_store, "Mow", "Wed", on(3, 4), months=(5, 6))
    assert seen(farm_store, on(4, 30)) is None
    assert seen(farm_store, on(5, 1)) == (on(5, 1), 0, 0)
    settle(farm_store, mow, on(5, 1))
    assert next_due(farm_store, mow) == on(5, 6)


def test_a_rest_suspends_and_what_fell_due_meanwhile_is_due_once(farm_store: Store):
    sweep = a_chore(farm_store, "Sweep", "day", on(10, 1))
    pause(farm_store, NewPause(sweep.id, on(10, 1)), by=ADA)
    assert seen(farm_store) is None
    resume(farm_store, Resuming(sweep.id, DAY), by=ADA)
    assert seen(farm_store) == (DAY, 0, 0)


@pytest.mark.parametrize("grade", [ChoreClass.LIFE_SUPPORT, ChoreClass.FISH_CARE])
@pytest.mark.parametrize("state", [UnitState.RESTING, UnitState.WINTERING, UnitState.RETIRED])
def test_no_state_suspends_what_keeps_live_fish_alive(
    farm_store: Store, unit: Unit, grade: ChoreClass, state: UnitState
):
    a_chore(farm_store, "Look", "day", DAY, unit_id=unit.id, grade=grade, states=(UnitState.RUNNING,))
    enters(farm_store, unit, state, on(10, 1))
    assert seen(farm_store) == (DAY, 0, 0)


def test_a_state_suspends_other_work_where_fish_live_too(farm_store: Store, unit: Unit):
    a_chore(farm_store, "Rinse", "day", DAY, unit_id=unit.id, states=(UnitState.RUNNING,))
    enters(farm_store, unit, UnitState.RESTING, on(10, 1))
    assert seen(farm_store) is None


def test_settling_in_any_order_leaves_the_same_next_day(farm_store: Store):
    first, second = (a_chore(farm_store, title, "day", on(10, 10)) for title in ("Sweep", "Rake"))
    days = (on(10, 10), on(10, 12), on(10, 13))
    for day in days:
        settle(farm_store, first, day)
    for day in reversed(days):
        settle(farm_store, second, day)
    assert next_due(farm_store, first) == next_due(farm_store, second) == DAY
    assert TODAY == DAY
