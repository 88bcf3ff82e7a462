"""The minutes of the days ahead, and a month at a glance."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.farm.chores import pause
from farmops.farm.farm import add_person
from farmops.farm.presence import say_who_is_here
from farmops.model.chores import NewPause, SettledAs
from farmops.model.errors import NotFound
from farmops.model.farm import NewPerson
from farmops.model.presence import NewPresence
from farmops.records.store import Store
from farmops.reports.load import Load, load_of
from farmops.reports.month import Month, MonthDay, month_of
from farmops.reports.round import round_of
from tests.farmhand import ADA, TODAY, a_chore, a_unit, on, settle

DAY = on(10, 14)


def told(found: Load) -> list[list[str]]:
    return [[one.chore.title for one in day.expected] for day in found.days]


@pytest.fixture
def row(farm_store: Store) -> Store:
    """Feed daily, rinse three days after doing (late), sweep on Fridays, paint once, and a paused chore."""
    wren = a_unit(farm_store)
    a_chore(farm_store, "Feed", "day", on(10, 14), unit_id=wren.id, minutes=2)
    a_chore(farm_store, "Rinse", "3 days after", on(10, 12), unit_id=wren.id, minutes=5)
    a_chore(farm_store, "Sweep", "Fri", on(10, 9), minutes=10)
    a_chore(farm_store, "Paint", "once", on(10, 18), minutes=60)
    rests = a_chore(farm_store, "Mow", "day", on(10, 14), minutes=30)
    pause(farm_store, NewPause(rests.id, on(10, 1)), by=ADA)
    return farm_store


def test_each_day_holds_what_falls_due_when_all_is_done_in_time(row: Store):
    found = load_of(row, DAY, days=7)
    assert told(found) == [
        ["Sweep", "Feed", "Rinse"],
        ["Feed"],
        ["Sweep", "Feed"],
        ["Feed", "Rinse"],
        ["Paint", "Feed"],
        ["Feed"],
        ["Feed", "Rinse"],
    ]
    assert [day.minutes for day in found.days] == [17, 2, 12, 7, 62, 2, 7]
    assert [day.late for day in found.days] == [2, 0, 0, 0, 0, 0, 0]
    assert found.minutes == 109


def test_the_first_day_is_the_round_of_that_day(row: Store):
    lines = round_of(row, DAY).lines
    first = load_of(row, DAY).days[0]
    assert sorted(one.chore.id for one in first.expected) == sorted(one.chore.id for one in lines)
    assert first.late == len(round_of(row, DAY).late)


def test_without_a_day_it_begins_today_and_goes_on_for_fourteen(row: Store):
    found = load_of(row)
    assert (found.days[0].day, len(found.days)) == (TODAY, 14)


def test_days_further_ahead_are_reckoned_from_today(row: Store):
    whole, later = load_of(row, DAY, days=7), load_of(row, DAY, first=on(10, 17), days=4)
    assert later.days == whole.days[3:]
    assert not any(day.late for day in later.days)


def test_a_first_day_behind_stands_in_for_today(row: Store):
    assert load_of(row, DAY, first=on(10, 13), days=3) == load_of(row, on(10, 13), days=3)


def test_a_unit_has_its_own_load(row: Store):
    assert told(load_of(row, DAY, days=2, unit="WREN")) == [["Feed", "Rinse"], ["Feed"]]
    with pytest.raises(NotFound, match="There is no unit OWL"):
        load_of(row, unit="OWL")


def test_a_farm_without_chores_has_empty_days(farm_store: Store):
    found = load_of(farm_store, days=2)
    assert (found.minutes, [day.minutes for day in found.days], found.people) == (0, [0, 0], ())


def test_minutes_fall_to_people_by_who_is_here_each_day(row: Store):
    anna, bea = (add_person(row, NewPerson(name), by=ADA) for name in ("Anna", "Bea"))
    bo = add_person(row, NewPerson("Bo", minor=True), by=ADA)
    a_chore(row, "Grade", "day", DAY, minutes=7, person_id=anna.id, adults_only=True)
    say_who_is_here(row, NewPresence(on(10, 15), (bea.id, bo.id)), by=ADA)
    say_who_is_here(row, NewPresence(on(10, 16), (bo.id,)), by=ADA)
    found = load_of(row, DAY, days=3)
    assert [dict(day.by_person) for day in found.days] == [
        {"anyone": 17, "Anna": 7},
        {"anyone": 2, "Bea": 7},
        {"anyone": 12, "an adult": 7},
    ]
    assert found.people == ("Anna", "Bea", "an adult", "anyone")
    assert [day.minutes for day in load_of(row, DAY, days=3, person=anna).days] == [24, 0, 0]
    assert [day.minutes for day in load_of(row, DAY, days=3, person=bea).days] == [17, 9, 0]
    assert [day.minutes for day in load_of(row, DAY, days=3, person=bo).days] == [17, 2, 19]


def day_of(found: Month, day: date) -> MonthDay:
    return next(one for one in found.days if one.day == day)


def test_a_month_knows_what_was_done_what_is_due_and_what_is_expected(farm_store: Store):
    feed = a_chore(farm_store, "Feed", "day", on(10, 10), minutes=2)
    for day in (10, 11, 13):
        settle(farm_store, feed, on(10, day), minutes=None if day == 11 else 3)
    settle(farm_store, a_chore(farm_store, "Sort", "once", on(10, 8)), on(10, 10), SettledAs.SKIPPED, reason="no")
    a_chore(farm_store, "Sweep", "Mon", on(10, 12), minutes=10)
    found = month_of(farm_store, on=DAY)
    assert len(found.days) == 31
    assert day_of(found, on(10, 9)) == MonthDay(on(10, 9))
    assert day_of(found, on(10, 8)).late == 1
    assert day_of(found, on(10, 10)) == MonthDay(on(10, 10), done=1, done_minutes=3)
    assert day_of(found, on(10, 11)) == MonthDay(on(10, 11), done=1, done_minutes=2)
    assert day_of(found, on(10, 12)) == MonthDay(on(10, 12), late=2)
    assert day_of(found, DAY) == MonthDay(DAY, expected=2, expected_minutes=12, late=1)
    assert day_of(found, on(10, 19)) == MonthDay(on(10, 19), expected=2, expected_minutes=12)


def test_today_shows_what_is_done_beside_what_is_left(farm_store: Store):
    settle(farm_store, a_chore(farm_store, "Feed", "day", DAY, minutes=2), DAY)
    a_chore(farm_store, "Sweep", "day", DAY, minutes=10)
    assert day_of(month_of(farm_store, on=DAY), DAY) == MonthDay(DAY, 1, 2, 1, 10)


def test_a_month_ahead_is_reckoned_from_today(farm_store: Store):
    a_chore(farm_store, "Rinse", "10 days after", on(10, 10), minutes=5)
    found = month_of(farm_store, on(11, 1), DAY)
    assert [day.day.day for day in found.days if day.expected] == [3, 13, 23]
    assert not any(day.late for day in found.days)


def test_a_month_behind_holds_no_forecast(farm_store: Store):
    a_chore(farm_store, "Rinse", "10 days after", on(10, 10))
    assert not any(day.expected for day in month_of(farm_store, on(9, 1), DAY).days)


def test_a_month_of_one_unit(farm_store: Store):
    wren = a_unit(farm_store)
    a_chore(farm_store, "Feed", "day", DAY, unit_id=wren.id)
    a_chore(farm_store, "Sweep", "day", DAY)
    found = month_of(farm_store, on=DAY, unit=" wren ")
    assert (day_of(found, DAY).expected, found.unit) == (1, "WREN")


@pytest.mark.parametrize("month", [1, 2, 3, 8, 11])
def test_weeks_begin_on_monday_and_hold_every_day_once(farm_store: Store, month: int):
    found = month_of(farm_store, on(month, 5), DAY)
    assert all(len(week) == 7 for week in found.weeks)
    assert [day for week in found.weeks for day in week if day] == list(found.days)
    assert all(day is None or day.day.weekday() == at for week in found.weeks for at, day in enumerate(week))
