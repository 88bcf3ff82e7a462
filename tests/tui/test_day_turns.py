"""An interface that stays open: over midnight, over a clock that is set back, over a change of the time zone."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from farmops.farm.farm import change_farm
from farmops.model.farm import FarmChange
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui import watch
from tests import farmhand as hand
from tests.tui.demo import press, running, until, until_seen

EVENING = datetime(2026, 10, 15, 3, 30, tzinfo=UTC)
"""Half past eleven at night in New York, of Wednesday the 14th."""


class Hands:
    """The hands of the computer's clock, which a test moves."""

    def __init__(self) -> None:
        self.at = EVENING

    def now(self) -> datetime:
        """The instant."""
        return self.at

    def today(self, zone: str) -> date:
        """The day in a zone."""
        from farmops import clock

        return self.at.astimezone(clock.time_zone(zone)).date()


@pytest.fixture
def hands(monkeypatch: pytest.MonkeyPatch) -> Hands:
    """A clock for the farm; timers of the interface go on."""
    found = Hands()
    monkeypatch.setattr("farmops.clock.now", found.now)
    monkeypatch.setattr("farmops.clock.today", found.today)
    monkeypatch.setattr(watch, "SECONDS", 0.05)
    return found


@pytest.fixture
def awake(hands: Hands, sqlite_store: Store) -> Store:
    """A farm on which the day is not held: every morning something is to be done."""
    hand.open_farm(sqlite_store)
    wren = hand.a_unit(sqlite_store)
    hand.plant(sqlite_store, hand.a_bed(sqlite_store, wren), hand.a_crop(sqlite_store))
    hand.a_chore(sqlite_store, "Only on Thursday", "once", hand.on(10, 15), unit_id=wren.id)
    hand.a_chore(sqlite_store, "Look for leaks", "day", hand.on(10, 14), unit_id=wren.id)
    return sqlite_store


async def test_at_midnight_the_round_is_the_new_days(awake: Store, hands: Hands) -> None:
    async with running(awake.place) as pilot:
        await until_seen(pilot, "Wed 14 Oct 2026", "1 to do")
        hands.at += timedelta(hours=1)
        await until_seen(pilot, "Thu 15 Oct 2026", "Only on Thursday", "2 to do")
        await press(pilot, "h", "3", "space", "0", "enter")
        await until_seen(pilot, "Booked: 3 lb")
    assert [one.day for one in lists.harvests(awake, hand.on(10, 1), hand.on(10, 31))] == [hand.on(10, 15)]


async def test_a_clock_that_is_set_back_takes_the_screen_along_and_is_told(
    awake: Store, hands: Hands, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("farmops.farm.daily.keep_daily", lambda _: None)
    async with running(awake.place, daily_backups=True) as pilot:
        await until_seen(pilot, "Wed 14 Oct 2026")
        hands.at -= timedelta(days=2)
        await until_seen(pilot, "Mon 12 Oct 2026")
        await press(pilot, "h", "3", "space", "0", "enter", "escape")
        await until(
            pilot,
            lambda: any("look at the clock" in one.message for one in pilot.app._notifications),
            "a word on the clock",
        )
    assert [one.day for one in lists.harvests(awake, hand.on(10, 1), hand.on(10, 31))] == [hand.on(10, 12)]


async def test_another_time_zone_is_another_day_at_once(awake: Store, hands: Hands) -> None:
    async with running(awake.place) as pilot:
        await until_seen(pilot, "Wed 14 Oct 2026")
        change_farm(awake, FarmChange(time_zone="Europe/Lisbon"), by="Bea")
        await until_seen(pilot, "Thu 15 Oct 2026", "Only on Thursday")
