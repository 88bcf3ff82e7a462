"""Work around an absence: who is left, what falls into the time, what can be done before, and that nothing is late."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from farmops.model.chores import Chore, ChoreClass, PartOfDay, Pause, SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.away import (
    Alone,
    Falling,
    Gone,
    can_wait,
    every_day,
    falling,
    here_on,
    left_alone,
    on_sheet,
)
from farmops.schedule.due import next_due, occurrence_put_off, occurrence_settled, standing
from farmops.schedule.rules import Rule
from farmops.schedule.stored import rule_from
from farmops.schedule.words import parse_words
from tests.schedule.strategies import calendar_rules, rules_by_use

TODAY = date(2026, 3, 2)
DAY = timedelta(days=1)
ANNA, BO, CY = 1, 2, 3
ALWAYS = Activity()
WEEK = Alone(date(2026, 3, 9), date(2026, 3, 15), date(2026, 3, 16))


def on(day: int) -> date:
    return date(2026, 3, day)


def words(text: str, start: date = TODAY) -> Rule:
    return parse_words(text, start)


def test_while_somebody_stays_nobody_is_left_alone() -> None:
    assert left_alone([ANNA, BO], [Gone(ANNA, on(9), on(15))], on(9), on(15)) == []


def test_with_everybody_gone_the_days_run_until_the_first_is_back() -> None:
    gone = [Gone(ANNA, on(9), on(15)), Gone(BO, on(11), on(13))]
    assert left_alone([ANNA, BO], gone, on(9), on(15)) == [Alone(on(11), on(13), on(14))]


def test_who_stands_in_does_not_count_as_left() -> None:
    gone = [Gone(ANNA, on(9), on(15), BO)]
    assert here_on([ANNA, BO, CY], gone, on(9)) == {CY}
    assert here_on([ANNA, BO, CY], gone, on(16)) == {ANNA, BO, CY}
    assert left_alone([ANNA, BO], gone, on(9), on(15)) == [WEEK]


def test_an_absence_that_follows_at_once_puts_the_return_off() -> None:
    gone = [Gone(ANNA, on(9), on(15)), Gone(ANNA, on(16), on(18))]
    assert left_alone([ANNA], gone, on(9), on(15)) == [Alone(on(9), on(15), on(19))]


def test_a_day_with_somebody_there_parts_the_time_in_two() -> None:
    gone = [Gone(ANNA, on(9), on(15)), Gone(BO, on(9), on(10)), Gone(BO, on(12), on(20))]
    assert left_alone([ANNA, BO], gone, on(9), on(15)) == [
        Alone(on(9), on(10), on(11)),
        Alone(on(12), on(15), on(16)),
    ]


@st.composite
def absences(draw: st.DrawFn) -> list[Gone]:
    spans = st.tuples(st.integers(1, 28), st.integers(0, 9))
    found = draw(
        st.lists(st.tuples(st.sampled_from((ANNA, BO, CY)), spans, st.sampled_from((None, BO, CY))), max_size=6)
    )
    return [Gone(who, on(first), on(first) + more * DAY, who_else) for who, (first, more), who_else in found]


@given(gone=absences(), first=st.integers(1, 28), more=st.integers(0, 14))
def test_the_stretches_are_the_days_without_anybody(gone: list[Gone], first: int, more: int) -> None:
    people, last = (ANNA, BO, CY), on(first) + more * DAY
    found = left_alone(people, gone, on(first), last)
    alone = {one.first + ahead * DAY for one in found for ahead in range((one.last - one.first).days + 1)}
    span = [on(first) + ahead * DAY for ahead in range(more + 1)]
    assert alone == {day for day in span if not here_on(people, gone, day)}
    for one in found:
        assert here_on(people, gone, one.back)
        assert not any(here_on(people, gone, one.last + n * DAY) for n in range((one.back - one.last).days))


@pytest.mark.parametrize(
    ("rule", "start", "expected"),
    [
        ("14 days after", on(11), Falling(on(11), waits=True, stays_away=True, comes_again=False)),
        ("14 days after", on(4), Falling(on(4), waits=False, stays_away=True, comes_again=False)),
        ("8 days after", on(11), Falling(on(11), waits=True, stays_away=True, comes_again=True)),
        ("5 days after", on(11), Falling(on(11), waits=True, stays_away=False, comes_again=True)),
        ("Wed", on(4), Falling(on(4), waits=False, stays_away=False, comes_again=True)),
        ("Wed", on(5), Falling(on(11), waits=True, stays_away=True, comes_again=False)),
        ("month on the 12th", on(1), Falling(on(12), waits=True, stays_away=True, comes_again=False)),
        ("once", on(15), Falling(on(15), waits=True, stays_away=True, comes_again=False)),
        ("once", on(16), None),
        ("14 days after", on(16), None),
    ],
)
def test_how_a_chore_stands_to_a_week_alone(rule: str, start: date, expected: Falling | None) -> None:
    assert falling(words(rule, start), [], ALWAYS, WEEK, TODAY) == expected


def test_what_is_settled_for_good_falls_into_no_time() -> None:
    done = Settlement(on(12), SettledAs.DONE, on(1))
    assert falling(words("once", on(12)), [done], ALWAYS, WEEK, TODAY) is None


@pytest.mark.parametrize(("since", "until"), [(on(1), None), (on(5), on(15)), (on(9), on(16))])
def test_what_rests_all_the_time_falls_into_none_of_it(since: date, until: date | None) -> None:
    resting = Activity(pauses=(Pause(since, until),))
    assert falling(words("3 days after", on(2)), [], resting, WEEK, TODAY) is None
    awake = Activity(pauses=(Pause(on(5), on(14)),))
    assert falling(words("3 days after", on(6)), [], awake, WEEK, TODAY) == Falling(on(15), True, False, True)


ENDS = st.tuples(st.integers(0, 40), st.integers(0, 25))
AFTER = st.builds(
    lambda n, start: words(f"{n} days after", TODAY + start * DAY), st.integers(1, 40), st.integers(-60, 60)
)


def moved(rule: Rule, activity: Activity, found: Falling, alone: Alone) -> tuple[list[Settlement], Activity]:
    """What the farm writes for a chore that falls into days alone."""
    put_off = []
    if found.waits:
        occurrence = occurrence_put_off(rule, [], TODAY)
        assert occurrence is not None
        put_off = [Settlement(occurrence, SettledAs.DEFERRED, TODAY, alone.back)]
    if found.comes_again or not found.waits:
        activity = replace(activity, pauses=(Pause(alone.first, alone.last),))
    return put_off, activity


def done_on(rule: Rule, history: Sequence[Settlement], days: Sequence[date]) -> list[Settlement]:
    found = list(history)
    for day in days:
        found.append(Settlement(occurrence_settled(rule, found, day), SettledAs.DONE, day))
    return found


@example(words("5 days after", on(11)), (7, 6), {6})
@example(words("5 days after", on(4)), (7, 6), {2})
@example(words("5 days after", on(4)), (7, 6), set())
@example(words("Wed", on(4)), (7, 6), {1, 6})
@given(rule=AFTER | calendar_rules() | rules_by_use(), ends=ENDS, doings=st.sets(st.integers(0, 40), max_size=3))
def test_whatever_is_done_before_leaving_nothing_becomes_late(
    rule: Rule, ends: tuple[int, int], doings: set[int]
) -> None:
    first = TODAY + ends[0] * DAY
    alone = Alone(first, first + ends[1] * DAY, first + (ends[1] + 1) * DAY)
    found = falling(rule, [], ALWAYS, alone, TODAY)
    if found is None:
        return
    history, activity = moved(rule, ALWAYS, found, alone)
    history = done_on(rule, history, [TODAY + n * DAY for n in sorted(doings) if TODAY + n * DAY < first])
    for ahead in range(ends[1] + 1):
        assert standing(rule, history, activity, first + ahead * DAY) is None
    following = next_due(rule, history, activity)
    assert following is None or following >= alone.back or following < first


@pytest.mark.parametrize(
    ("text", "daily"),
    [
        ("day", True),
        ("1 day after", True),
        ("day 7 times", True),
        ("2 days", False),
        ("Mon Thu", False),
        ("once", False),
    ],
)
def test_what_comes_every_day(text: str, daily: bool) -> None:
    assert every_day(words(text)) is daily


def chore(
    grade: ChoreClass, rule_kind: str = "calendar", *, adults_only: bool = False, who: int | None = None
) -> Chore:
    return Chore(
        *(1, "Look", 1, "WREN", None, None, None, None, grade, rule_kind, "FREQ=DAILY", "day", TODAY),
        *(PartOfDay.NONE, 5, None, None, None, None, adults_only, None, None, False, None, None, TODAY, who),
    )


DAILY, WEEKLY = rule_from("calendar", "FREQ=DAILY", TODAY), rule_from("calendar", "FREQ=WEEKLY", TODAY)


@pytest.mark.parametrize("grade", [ChoreClass.LIFE_SUPPORT, ChoreClass.FISH_CARE, ChoreClass.FOOD_SAFETY])
def test_what_keeps_fish_and_people_well_never_waits_and_stands_on_every_sheet(grade: ChoreClass) -> None:
    one = chore(grade, adults_only=True)
    assert not can_wait(one)
    assert on_sheet(one, WEEKLY, None)


@pytest.mark.parametrize("grade", [ChoreClass.CROP, ChoreClass.UPKEEP, ChoreClass.PAPERWORK])
def test_the_rest_waits_unless_it_falls_to_the_stand_in(grade: ChoreClass) -> None:
    assert can_wait(chore(grade))
    assert not on_sheet(chore(grade, who=BO), WEEKLY, None)
    assert not on_sheet(chore(grade), WEEKLY, BO)
    assert on_sheet(chore(grade, who=BO), WEEKLY, BO)


def test_a_daily_look_at_the_crops_is_done_by_the_way() -> None:
    assert on_sheet(chore(ChoreClass.CROP), DAILY, BO)
    assert not on_sheet(chore(ChoreClass.CROP, adults_only=True), DAILY, BO)
    assert not on_sheet(chore(ChoreClass.UPKEEP), DAILY, BO)


def test_a_ripe_crop_does_not_wait_and_a_low_supply_does() -> None:
    assert not can_wait(chore(ChoreClass.CROP, "when"))
    assert can_wait(chore(ChoreClass.PAPERWORK, "when"))
