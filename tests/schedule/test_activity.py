"""When a chore is active: months, states of the unit, pauses, and fish that must not go without."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.chores import Pause
from farmops.model.units import StateFrom, UnitState
from farmops.schedule.activity import Activity
from tests.schedule.strategies import untimed

RUNNING, RESTING, PLANNED = UnitState.RUNNING, UnitState.RESTING, UnitState.PLANNED
BASE = date(2026, 1, 1)
HISTORY = (
    StateFrom(date(2026, 10, 1), RESTING),
    StateFrom(date(2026, 3, 1), PLANNED),
    StateFrom(date(2026, 5, 1), RUNNING),
)


def test_without_conditions_it_is_always_active():
    assert Activity().active(date(2026, 7, 1))
    assert Activity().first_active(date(2026, 7, 1)) == date(2026, 7, 1)
    assert Activity().first_active(date.max) == date.max


@pytest.mark.parametrize(
    ("day", "active"),
    [
        (date(2026, 1, 1), False),
        (date(2026, 4, 30), False),
        (date(2026, 5, 1), True),
        (date(2026, 9, 30), True),
        (date(2026, 10, 1), False),
    ],
)
def test_it_follows_the_states_of_the_unit(day, active):
    assert Activity(states=frozenset({RUNNING}), history=HISTORY).active(day) is active


def test_before_the_first_state_it_is_not_active_unless_any_state_will_do():
    assert Activity(states=frozenset({RUNNING}), history=HISTORY).first_active(BASE) == date(2026, 5, 1)
    assert Activity(history=HISTORY).first_active(BASE) == BASE
    assert Activity(states=frozenset({RUNNING})).first_active(BASE) is None


def test_of_two_states_from_one_day_the_later_listed_holds():
    history = (StateFrom(BASE, RUNNING), StateFrom(BASE, RESTING))
    assert not Activity(states=frozenset({RUNNING}), history=history).active(BASE)


@pytest.mark.parametrize(
    ("day", "first"),
    [
        (date(2026, 3, 31), date(2026, 4, 1)),
        (date(2026, 4, 15), date(2026, 4, 15)),
        (date(2026, 10, 1), date(2027, 4, 1)),
        (date(9999, 10, 1), None),
    ],
)
def test_active_months(day, first):
    assert Activity(months=frozenset(range(4, 10))).first_active(day) == first


def test_a_pause_includes_both_its_days_and_may_be_open():
    paused = Activity(pauses=(Pause(date(2026, 5, 1), date(2026, 5, 9)), Pause(date(2026, 5, 10), date(2026, 5, 12))))
    assert paused.active(date(2026, 4, 30))
    assert paused.first_active(date(2026, 5, 1)) == date(2026, 5, 13)
    assert Activity(pauses=(Pause(date(2026, 5, 1)),)).first_active(date(2026, 5, 1)) is None
    assert Activity(pauses=(Pause(date(2026, 5, 1), date.max),)).first_active(date(2026, 5, 1)) is None


def feeding(**conditions: object) -> Activity:
    fish = ((date(2026, 6, 1), date(2026, 10, 15)),)
    return Activity(states=frozenset({RUNNING}), history=HISTORY, fish_spans=fish, keeps_fish_alive=True, **conditions)


def test_no_state_suspends_what_keeps_fish_alive_while_fish_are_there():
    assert feeding().active(date(2026, 10, 1))
    assert feeding().active(date(2026, 10, 15))
    assert not feeding().active(date(2026, 10, 16))
    assert feeding().first_active(date(2026, 10, 2)) == date(2026, 10, 2)


def test_fish_still_there_have_no_last_day():
    chore = Activity(frozenset(), frozenset({RUNNING}), HISTORY, (), ((date(2026, 12, 1), None),), True)
    assert chore.first_active(date(2026, 11, 1)) == date(2026, 12, 1)
    assert chore.active(date(2040, 1, 1))


def test_other_chores_are_suspended_though_fish_are_there():
    upkeep = Activity(frozenset(), frozenset({RUNNING}), HISTORY, (), ((date(2026, 6, 1), None),), False)
    assert not upkeep.active(date(2026, 10, 2))


def test_months_and_pauses_hold_even_for_what_keeps_fish_alive():
    assert not feeding(months=frozenset({7})).active(date(2026, 8, 1))
    assert not feeding(pauses=(Pause(date(2026, 8, 1), date(2026, 8, 3)),)).active(date(2026, 8, 2))


offsets = st.integers(0, 900).map(lambda days: BASE + timedelta(days=days))
spans = st.tuples(offsets, st.none() | offsets)
activities = st.builds(
    Activity,
    months=st.frozensets(st.integers(1, 12)),
    states=st.frozensets(st.sampled_from((RUNNING, RESTING)), max_size=2),
    history=st.lists(st.builds(StateFrom, offsets, st.sampled_from((RUNNING, RESTING, PLANNED))), max_size=4).map(
        tuple
    ),
    pauses=st.lists(spans.map(lambda span: Pause(*span)), max_size=2).map(tuple),
    fish_spans=st.lists(spans, max_size=2).map(tuple),
    keeps_fish_alive=st.booleans(),
)


@untimed
@given(activities, offsets)
def test_the_first_active_day_is_the_one_found_day_by_day(activity, day):
    found = activity.first_active(day)
    days = (day + timedelta(days=ahead) for ahead in range(1700))
    assert found == next((other for other in days if activity.active(other)), None)


@untimed
@given(activities, offsets)
def test_the_active_time_ends_on_the_day_found_day_by_day(activity, day):
    first = activity.first_active(day)
    if first is not None:
        days = (first + timedelta(days=ahead) for ahead in range(1700))
        last = next((other - timedelta(days=1) for other in days if not activity.active(other)), None)
        assert activity.active_until(first) == last
