"""The commonest jobs counted in keystrokes, from the screen that the interface opens with."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from farmops.model.chores import SettledAs
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import round_of
from farmops.reports.water import series_of
from tests.tui.demo import go_to_chore, last_journal, on_screen, press, running, until_water_is_known

PAGE = Path(__file__).parents[2] / "docs" / "keystrokes.md"
REGENERATE = "FARMOPS_WRITE_DOCS"
TODAY = date(2026, 10, 14)
HEAD = """# Keystrokes

The commonest jobs on the invented farm, counted by the tests that do them: pressed one by one in the interface, then
looked up in the store. Walking to a line with Up and Down is not counted. Do not edit by hand: the page is checked by
`pytest tests/journeys/test_keystrokes.py`, and written by it where `FARMOPS_WRITE_DOCS=1` is set.

| job | keys | pressed |
|---|---|---|
"""
FOOT = """
A weight, an amount or a number is counted by its digits (and the blank between pounds and ounces).
"""


@dataclass(frozen=True, slots=True)
class Job:
    """A job: the chore the cursor stands on, what was pressed before, what is pressed, and what of it is the value."""

    name: str
    keys: tuple[str, ...]
    value: tuple[str, ...] = ()
    at: str = ""
    before: tuple[str, ...] = ()

    @property
    def row(self) -> str:
        """The job as a row of the page."""
        own = len(self.keys) - len(self.value)
        count = f"{own} and the {len(self.value)} of the value" if self.value else str(own)
        pressed = " ".join(f"`{NAMES.get(key, key)}`" for key in self.keys)
        return f"| {self.name} | {count} | {pressed or 'nothing'} |"


NAMES = {"space": "Space", "enter": "Enter", "down": "Down", "f3": "F3", "f4": "F4", "f5": "F5", "f2": "F2"}
DUE = Job("see what is due", ())
DONE = Job("settle a chore as done", ("space",), at="Ask the kitchen")
INSISTS = Job("settle one that insists on a confirmation", ("space", "enter"), at="Look round: flow")
FEEDS = Job("settle all feeds of the row, and say how they ate", ("space", "a"), at="Feed the fish")
UNDONE = Job("take back all feeds at once", ("u",), at="Feed the fish", before=("space", "a"))
ONE_FEED = Job("settle one feed of the row", ("enter", "down", "space", "a"), at="Feed the fish")
NO_FEED = Job("leave out all feeds, with a reason", ("s", "1", "enter"), at="Feed the fish")
UNDO = Job("take back the last thing booked", ("u",), at="Ask the kitchen", before=("space",))
SKIP = Job("leave a chore out, with a reason", ("s", "1", "enter"), at="Ask the kitchen")
DEFER = Job("put a chore off to tomorrow", ("d", "1", "enter"), at="Change the filter pad")
WATER = Job(
    "book a water test of three readings",
    ("space", *"0.25", "enter", *"0.1", "enter", *"7.2", "enter", "enter"),
    (*"0.25", *"0.1", *"7.2"),
    at="Test ammonia, nitrite, pH after",
)
FIRST = ("0", "space", "3", "enter")
WEIGH = Job("open the scale and weigh", ("h", "0", "space", "3", "enter"), ("0", " ", "3"))
NEXT = Job("weigh the next bowl", (".", "2", "enter"), (".", "2"), before=("h", *FIRST))
CROP = Job("weigh another crop", ("c", "e", "l", "enter", "1", "enter"), ("1",), before=("h", *FIRST))
SLIP = Job("take back a slip at the scale", ("u",), before=("h", *FIRST))
COST = Job("repeat a cost with another amount", ("f5", "l", "1", "8", "enter"), ("1", "8"))
PLANT = Job("plant like last time, another number", ("f3", "l", "1", "2", "enter"), ("1", "2"))
ROUNDS = (DUE, DONE, INSISTS, FEEDS, ONE_FEED, UNDONE, UNDO, SKIP, NO_FEED, DEFER, WATER)
POWER = Job("say that the power is out, and see what first", ("!", "enter"))
DEATHS = Job("book deaths of fish", ("f4", "d", "2", "f2"), ("2",))
JOBS = (*ROUNDS, WEIGH, NEXT, CROP, SLIP, DEATHS, POWER, COST, PLANT)


async def do(place: str, job: Job) -> str:
    """Open the interface, go to the chore, press the keys, and give back what stands on the screen."""
    async with running(place) as pilot:
        await until_water_is_known(pilot)
        if job.at:
            await go_to_chore(pilot, job.at)
        for key in (*job.before, *job.keys):
            await press(pilot, key)
        return on_screen(pilot.app)


def due(store: Store, title: str) -> int:
    """How many chores of that title are still to do."""
    return sum(one.chore.title.startswith(title) for one in round_of(store).due)


def settled(store: Store, title: str) -> Sequence[Any]:
    """How the chore of that title, the first of them, was settled today."""
    return [one.settled for one in round_of(store).settled if one.chore.title.startswith(title)]


def weighed(store: Store) -> list[tuple[str, str | None]]:
    """What was weighed today."""
    return [(one.mass_typed, one.what) for one in lists.harvests(store, TODAY, TODAY)]


async def test_what_is_due_is_what_the_interface_opens_with(demo_place: str) -> None:
    screen = await do(demo_place, DUE)
    assert "19 to do, some late" in screen
    assert "Clear the pump intake" in screen
    assert "2 days late" in screen


async def test_done_is_one_key(demo_place: str, demo_store: Store) -> None:
    screen = await do(demo_place, DONE)
    assert due(demo_store, DONE.at) == 0
    assert "Done: Ask the kitchen" in screen


async def test_what_insists_on_being_seen_takes_one_more(demo_place: str, demo_store: Store) -> None:
    screen = await do(demo_place, Job("", INSISTS.keys[:1], at=INSISTS.at))
    assert "flow seen?" in screen
    assert due(demo_store, INSISTS.at) == 1
    await do(demo_place, INSISTS)
    assert due(demo_store, INSISTS.at) == 0
    assert settled(demo_store, INSISTS.at)[0].confirmed == "flow seen"


async def test_all_of_one_kind_are_one_key(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, FEEDS)
    assert due(demo_store, FEEDS.at) == 0
    assert {one.kind for one in settled(demo_store, FEEDS.at)} == {SettledAs.DONE}


async def test_all_of_one_kind_are_taken_back_as_one(demo_place: str, demo_store: Store) -> None:
    feeds = due(demo_store, UNDONE.at)
    await do(demo_place, UNDONE)
    assert due(demo_store, UNDONE.at) == feeds > 1
    assert not settled(demo_store, UNDONE.at)


async def test_undo_is_one_key(demo_place: str, demo_store: Store) -> None:
    screen = await do(demo_place, UNDO)
    assert due(demo_store, UNDO.at) == 1
    assert "Taken back" in screen


async def test_a_chore_is_left_out_in_three_keys(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, SKIP)
    (one,) = settled(demo_store, SKIP.at)
    assert (one.kind, one.reason) == (SettledAs.SKIPPED, "not needed this time")


async def test_one_of_several_is_settled_where_the_line_is_open(demo_place: str, demo_store: Store) -> None:
    feeds = due(demo_store, ONE_FEED.at)
    await do(demo_place, ONE_FEED)
    assert due(demo_store, ONE_FEED.at) == feeds - 1


async def test_all_feeds_are_left_out_in_three_keys(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, NO_FEED)
    assert due(demo_store, NO_FEED.at) == 0
    assert {(one.kind, one.reason) for one in settled(demo_store, NO_FEED.at)} == {
        (SettledAs.SKIPPED, "not needed this time")
    }


async def test_a_chore_is_put_off_in_three_keys(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, DEFER)
    (one,) = settled(demo_store, DEFER.at)
    assert (one.kind, one.until_day) == (SettledAs.DEFERRED, TODAY + timedelta(days=1))


async def test_a_water_test_is_its_digits_an_enter_each_and_space(demo_place: str, demo_store: Store) -> None:
    known = {one.reading.id for one in series_of(demo_store, date.min, date.max)}
    screen = await do(demo_place, WATER)
    read = [one.reading for one in series_of(demo_store, date.min, date.max) if one.reading.id not in known]
    assert [(one.measure, one.typed) for one in read] == [("ammonia", "0.25"), ("nitrite", "0.1"), ("pH", "7.2")]
    assert settled(demo_store, WATER.at)[0].kind is SettledAs.DONE
    assert "Not read: temperature." in screen
    assert len(WATER.keys) - len(WATER.value) == len(read) + 2


async def test_a_weighing_is_its_digits_and_enter_after_h(demo_place: str, demo_store: Store) -> None:
    screen = await do(demo_place, WEIGH)
    assert [typed for typed, _ in weighed(demo_store)] == ["0 3"]
    assert "Booked: 3 oz" in screen


async def test_the_next_bowl_is_its_digits_and_enter(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, NEXT)
    found = weighed(demo_store)
    assert [typed for typed, _ in found] == ["0 3", ".2"]
    assert found[0][1] == found[1][1]


async def test_another_crop_is_three_letters_and_enter_first(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, CROP)
    assert weighed(demo_store)[-1] == ("1", "CELERY")


async def test_a_slip_at_the_scale_is_one_key(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, SLIP)
    assert weighed(demo_store) == []


async def test_deaths_are_three_keys_and_their_number(demo_place: str, demo_store: Store) -> None:
    await do(demo_place, DEATHS)
    lot = next(one for one in lists.fish_lots(demo_store) if one.closed_day is None)
    booked = [(one.number, one.day) for one in lists.losses(demo_store, lot.id) if one.day == TODAY]
    assert booked == [(2, TODAY)]


async def test_a_power_cut_begins_with_a_key_and_enter(demo_place: str, demo_store: Store) -> None:
    before = len(lists.incidents(demo_store))
    assert "It begins now" in await do(demo_place, POWER)
    assert len(lists.incidents(demo_store)) == before + 1


async def test_a_cost_is_repeated_in_three_keys_and_its_amount(demo_place: str, demo_store: Store) -> None:
    last = lists.costs(demo_store, date.min, TODAY)[-1]
    await do(demo_place, COST)
    booked = lists.costs(demo_store, date.min, TODAY)[-1]
    assert (booked.what, booked.amount_minor, booked.day) == (last.what, 1800, TODAY)
    assert booked.id != last.id


async def test_planting_like_last_time_is_three_keys_and_the_number(demo_place: str, demo_store: Store) -> None:
    last = max(lists.plantings(demo_store), key=lambda one: one.started_day)
    await do(demo_place, PLANT)
    planted = max(lists.plantings(demo_store), key=lambda one: one.id)
    assert (planted.bed, planted.crop, planted.plants, planted.started_day) == (last.bed, last.crop, 12, TODAY)
    assert last_journal(demo_store).name == "planting"


def test_the_page_of_keystrokes_is_what_was_counted() -> None:
    page = HEAD + "\n".join(job.row for job in JOBS) + "\n" + FOOT
    if os.environ.get(REGENERATE):
        PAGE.write_text(page, encoding="utf-8")
    assert PAGE.read_text(encoding="utf-8") == page
