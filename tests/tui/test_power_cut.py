"""A power cut on the screen: a key and Enter begin it, minutes run down by the farm's clock, each step is a key."""

from __future__ import annotations

import csv
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from textual.widgets import Digits

from farmops.farm.incidents import tick_steps
from farmops.farm.readings import record_readings
from farmops.model.incidents import Phase, Tick
from farmops.model.readings import Measure, NewReading, NewReadings
from farmops.records.store import Store
from farmops.reports import lists, names
from farmops.reports.power_cut import standing_now, standing_of
from farmops.tui.screens.first_run import FirstRun
from farmops.tui.screens.incident import IncidentScreen, PowerOut
from farmops.tui.widgets.listing import Listing
from tests.farmhand import on, stock
from tests.tui.demo import (
    Driver,
    frame_of,
    go_to,
    last_journal,
    listing_of,
    on_screen,
    press,
    running,
    seen,
    until,
    until_idle,
    until_seen,
)
from tests.tui.stage import TODAY
from tests.tui.test_goes_out import write

NARROW = (60, 20)


@pytest.fixture
def warm(demo_store: Store) -> Store:
    """The invented farm with the water of three units read this morning."""
    for code in ("WREN", "ROOK", "TEAL"):
        read = (NewReading(Measure.TEMPERATURE, 15.0, "15 C"),)
        record_readings(demo_store, NewReadings(names.unit(demo_store, code).id, TODAY, read), by="Maren")
    return demo_store


@pytest.fixture
def unread(warm: Store) -> Store:
    """Fish went into DIPPER yesterday, and its water was never read."""
    stock(warm, names.unit(warm, "DIPPER"), "PERCH-26", on(10, 13))
    return warm


class StandingClock:
    """The clock that the farm reads; timers of the interface go on meanwhile."""

    def __init__(self) -> None:
        self.at = datetime(2026, 10, 14, 16, tzinfo=UTC)

    def tick(self, by: timedelta) -> None:
        self.at += by

    def __call__(self) -> datetime:
        return self.at


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> StandingClock:
    """It is noon on the farm, and stays so until a test moves it."""
    standing = StandingClock()
    monkeypatch.setattr("farmops.clock.now", standing)
    return standing


def screen_of(pilot: Driver) -> IncidentScreen:
    screen = pilot.app.screen
    assert isinstance(screen, IncidentScreen), seen(pilot.app)
    return screen


async def power_goes(pilot: Driver, key: str = "!") -> None:
    """Press the one key, Enter where it is asked, and wait until the steps stand there."""
    await pilot.press("exclamation_mark" if key == "!" else key)
    if isinstance(pilot.app.screen, PowerOut):
        await pilot.press("enter")
    await until(pilot, lambda: isinstance(pilot.app.screen, IncidentScreen) and screen_of(pilot).found, "the power cut")
    await until_idle(pilot)


def figures(pilot: Driver) -> int:
    """The large figures."""
    return int(screen_of(pilot).query_one(Digits).value)


async def stand_on(pilot: Driver, *words: str) -> None:
    """Walk to the first line that holds all these words."""
    listing = screen_of(pilot).query_one(Listing)
    await pilot.press("home")
    for _ in range(80):
        cells = " ".join(str(cell) for cell in listing.current.cells) if listing.current else ""
        if all(word in cells for word in words):
            return
        await pilot.press("down")
    raise AssertionError("\n".join([f"no line {words}", *seen(pilot.app)]))


def _steps(listing: Listing) -> list[list[str]]:
    """Unit and step of each line, whatever its tick and its remark."""
    text = listing.as_text("table").replace("[x]", "").replace("[ ]", "")
    return [line.split()[:2] for line in text.splitlines()]


@pytest.mark.parametrize("size", [NARROW, (80, 24), (120, 40)])
async def test_a_key_and_enter_begin_and_show_how_long_and_what_first(
    demo_place: str, warm: Store, clock: StandingClock, size: tuple[int, int]
) -> None:
    async with running(demo_place, size=size, by="Maren") as pilot:
        await power_goes(pilot)
        text = on_screen(pilot.app)
        assert "POWER CUT SINCE 12:00, 0 MIN" in text
        least = min(time.minutes for time in standing_now(warm).times if time.minutes)
        assert figures(pilot) == int(least)
        assert "min left in TEAL" in text
        assert "Air first" in text
        assert f"{int(least)} min left" in text
        assert "Space tick" in text
        assert "It begins now" in text
    assert (last_journal(warm).name, last_journal(warm).by) == ("begin incident", "Maren")


async def test_the_minutes_run_down_by_the_clock_of_the_farm(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        first = figures(pilot)
        clock.tick(timedelta(minutes=5))
        await until_seen(pilot, "POWER CUT SINCE 12:00, 5 MIN")
        assert figures(pilot) == first - 5
        clock.tick(timedelta(hours=6))
        await until_seen(pilot, "time is up. Look at the fish, air now.")
        assert figures(pilot) == 0


async def test_a_step_is_ticked_with_who_and_when_and_taken_back(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    async with running(demo_place, by="Tobit") as pilot:
        await power_goes(pilot)
        await stand_on(pilot, "TEAL", "Air")
        listing = pilot.app.screen.query_one(Listing)
        order = _steps(listing)
        await press(pilot, "space")
        await until_seen(pilot, "air since 12:00, Tobit")
        assert _steps(listing) == order
        assert "min left in ROOK" in on_screen(pilot.app)
        await press(pilot, "space")
        await until_seen(pilot, "Air is ticked already")
        await press(pilot, "u")
        await until_seen(pilot, "Taken back: tick step", "min left in TEAL")
        await stand_on(pilot, "Feeding off")
        await press(pilot, "enter")
        await until_seen(pilot, "[x] all", "12:00 Tobit")
    assert (last_journal(warm).name, last_journal(warm).by) == ("tick step", "Tobit")


async def test_a_narrow_terminal_tells_all_that_a_step_asks_for(demo_place: str, clock: StandingClock) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await power_goes(pilot)
        await stand_on(pilot, "PLOVER", "Air")
        await until_seen(pilot, "there is less time", "without a pause. The unit with the least time first.")


@pytest.mark.usefixtures("unread")
async def test_what_is_under_the_cursor_tells_what_it_asks_for(demo_place: str, clock: StandingClock) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await power_goes(pilot)
        await stand_on(pilot, "TEAL", "Air")
        await until_seen(pilot, "Battery bubbler", "38 fish of", "at 15.0 °C; oxygen not below 6 mg/L")
        await stand_on(pilot, "PLOVER", "Air")
        await until_seen(pilot, "15 fish of", "weighed on 2025-09-03: grown since, there is less time")
        await stand_on(pilot, "DIPPER", "Air")
        await until_seen(pilot, "cannot be said: no water temperature was read. r reads the water.")
        await stand_on(pilot, "Generator")
        await until_seen(pilot, "Never plug it into a house outlet")


async def test_everything_is_seen_running_then_it_ends_with_what_follows(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    async with running(demo_place, by="Maren") as pilot:
        await power_goes(pilot)
        await stand_on(pilot, "WREN", "Pump")
        await press(pilot, "a")
        await until_seen(pilot, "WREN: ground-fault device, pump, air pump, siphon, heater. All of it seen running?")
        await press(pilot, "enter")
        await until_seen(pilot, "Ground-fault device, Pump, Air pump, Siphon, Heater in WREN: ticked.")
        await press(pilot, "a")
        await until_seen(pilot, "Everything was seen running in WREN.")
        clock.tick(timedelta(minutes=25))
        await press(pilot, "e")
        await until_seen(pilot, "All seen running in ROOK, TEAL, PLOVER, SISKIN", "no feed today")
        await press(pilot, "enter")
        await until(pilot, lambda: pilot.app.screen is frame_of(pilot.app), "the frame")
        await until_seen(pilot, "The power cut is over.", "Left out today: Feed the fish")
    done = standing_of(warm, lists.incidents(warm)[0].id)
    assert (done.over, done.all_running) == (True, True)
    assert done.incident is not None
    assert done.incident.ended_at is not None
    assert done.incident.ended_at - done.incident.began_at == timedelta(minutes=25)
    assert last_journal(warm).name == "end incident"


async def test_saying_no_ends_nothing(demo_place: str, warm: Store, clock: StandingClock) -> None:
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        await press(pilot, "e")
        await press(pilot, "escape")
        await stand_on(pilot, "all", "Covers")
        await press(pilot, "a")
        await until_seen(pilot, "Stand on a line of a unit")
    assert standing_now(warm).incident is not None


async def test_leaving_leaves_it_open_the_frame_tells_and_the_key_comes_back(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    before = lists.incidents(warm)
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        await press(pilot, "escape")
        await until_seen(pilot, "POWER CUT since 12:00: !", "The power cut goes on")
        await power_goes(pilot, "f11")
        await press(pilot, "f11")
        assert [type(one) for one in pilot.app.screen_stack].count(IncidentScreen) == 1
        assert "It begins now" not in on_screen(pilot.app)
    assert lists.incidents(warm)[1:] == before


async def test_a_slip_is_taken_back_at_once(demo_place: str, warm: Store, clock: StandingClock) -> None:
    before = lists.incidents(warm)
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        assert len(lists.incidents(warm)) == len(before) + 1
        await press(pilot, "u")
        await until(pilot, lambda: pilot.app.screen is frame_of(pilot.app), "the frame")
        await until_seen(pilot, "Taken back: begin incident")
        assert "POWER CUT" not in on_screen(pilot.app)
    assert lists.incidents(warm) == before


async def test_a_key_pressed_by_mistake_begins_nothing(demo_place: str, warm: Store, clock: StandingClock) -> None:
    before, entry = lists.incidents(warm), last_journal(warm)
    async with running(demo_place) as pilot:
        await pilot.press("!", "f11", "!")
        await until_seen(pilot, "Is the power out?", "Esc: no")
        await press(pilot, "escape")
        assert pilot.app.screen is frame_of(pilot.app)
        assert "POWER CUT" not in on_screen(pilot.app)
    assert (lists.incidents(warm), last_journal(warm)) == (before, entry)


async def test_it_comes_over_a_form_and_what_was_typed_there_stays(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    before = lists.incidents(warm)
    async with running(demo_place) as pilot:
        await go_to(pilot, "money")
        await press(pilot, "n")
        await until_seen(pilot, "Amount")
        await pilot.press(*"12.50!")
        assert lists.incidents(warm) == before
        await power_goes(pilot, "f11")
        await press(pilot, "escape")
        await until_seen(pilot, "Amount", "12.50!")


async def test_before_there_is_a_farm_the_key_begins_nothing(tmp_path: Path) -> None:
    async with running(str(tmp_path / "new.db"), read=False) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, FirstRun), "the first question")
        await press(pilot, "f11")
        await until_idle(pilot)
        assert isinstance(pilot.app.screen, FirstRun)


async def test_before_there_is_a_farm_the_key_for_help_tells_what_the_choices_come_to(tmp_path: Path) -> None:
    async with running(str(tmp_path / "new.db"), read=False) as pilot:
        await until(pilot, lambda: isinstance(pilot.app.screen, FirstRun), "the first question")
        await pilot.press("?")
        await until_seen(pilot, "asks for the farm's name", "Esc closes")
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, FirstRun), "the first question again")


async def test_what_somebody_else_ticks_shows_within_a_second_or_two(
    demo_place: str, warm: Store, clock: StandingClock
) -> None:
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        tick_steps(warm, Tick(("air",), names.unit(warm, "TEAL").id), by="Ines")
        await until_seen(pilot, "air since 12:00, Ines")


@pytest.mark.usefixtures("unread")
async def test_oxygen_read_now_makes_the_minutes_better_and_the_hour_is_corrected(
    demo_place: str, clock: StandingClock
) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await power_goes(pilot)
        await press(pilot, "b")
        await until_seen(pilot, "Began")
        pilot.app.screen.box("began_at").text = "11:40"  # type: ignore[attr-defined]
        await press(pilot, "f2")
        await until_seen(pilot, "POWER CUT SINCE 11:40, 20 MIN")
        await stand_on(pilot, "DIPPER", "Air")
        await until_seen(pilot, "cannot be said")
        await press(pilot, "r")
        await until_seen(pilot, "temperature")
        pilot.app.screen.box("temperature").text = "14 C"  # type: ignore[attr-defined]
        await press(pilot, "f2")
        await until(pilot, lambda: isinstance(pilot.app.screen, IncidentScreen), "the power cut")
        await until(pilot, lambda: "cannot be said" not in on_screen(pilot.app), "minutes for DIPPER")


async def test_the_wall_card_of_the_unit_is_printed(
    demo_place: str, warm: Store, clock: StandingClock, tmp_path: Path
) -> None:
    async with running(demo_place) as pilot:
        await power_goes(pilot)
        await stand_on(pilot, "Covers")
        await press(pilot, "P")
        await until_seen(pilot, "Stand on a line of a unit")
        await stand_on(pilot, "TEAL", "Air")
        await press(pilot, "P")
        await until_seen(pilot, "Wall card of TEAL")
        pilot.app.screen.box("file").text = str(tmp_path / "teal.pdf")  # type: ignore[attr-defined]
        await press(pilot, "f2")
        await until_seen(pilot, "Wall card of TEAL: 1 page (letter)")
    assert (tmp_path / "teal.pdf").read_bytes().startswith(b"%PDF")


async def test_a_farm_without_fish_or_units_is_calm(demo_place: str, clock: StandingClock, sqlite_store: Store) -> None:
    from tests.farmhand import open_farm

    open_farm(sqlite_store)
    async with running(sqlite_store.place, read=False) as pilot:
        await power_goes(pilot)
        await until_seen(pilot, "No live fish are booked in any unit")
        assert standing_now(sqlite_store).of(Phase.AFTER) == ()


async def test_records_list_power_cuts_and_print_cards_and_sheets(
    demo_place: str, warm: Store, clock: StandingClock, tmp_path: Path
) -> None:
    before = lists.incidents(warm)
    async with running(demo_place, size=(120, 40)) as pilot:
        await power_goes(pilot)
        await press(pilot, "escape")
        await go_to(pilot, "records")
        await walk_to_kind(pilot, "Power cuts")
        await until_seen(pilot, "2026-10-14 12:00", "lasts", "2026-09-22 13:40")
        await press(pilot, "e")
        await until_seen(pilot, "Power cut of 2026-10-14 12:00")
        await press(pilot, "escape")
        await press(pilot, "P")
        await until_seen(pilot, "Stand on a unit for its wall card")
        await press(pilot, "n")
        await until(pilot, lambda: isinstance(pilot.app.screen, IncidentScreen), "the power cut")
        await press(pilot, "escape")
        await walk_to_kind(pilot, "Units")
        await press(pilot, "P")
        await until_seen(pilot, "Wall card of")
        await press(pilot, "escape")
    assert lists.incidents(warm)[1:] == before


async def walk_to_kind(pilot: Driver, title: str) -> None:
    """Go through the kinds of records to one."""
    for _ in range(60):
        if f"[{title}]" in on_screen(pilot.app):
            await until(pilot, lambda: listing_of(pilot.app).columns, title)
            return
        await press(pilot, "full_stop")
    raise AssertionError("\n".join(seen(pilot.app)))


async def test_the_list_goes_into_a_file(demo_place: str, warm: Store, clock: StandingClock, tmp_path: Path) -> None:
    file = tmp_path / "cut.csv"
    async with running(demo_place, by="Maren") as pilot:
        await power_goes(pilot)
        await write(pilot, file)
        await until(pilot, file.exists, "the file")
        await until(pilot, lambda: isinstance(pilot.app.screen, IncidentScreen), "the steps again")
        await until_seen(pilot, "are in")
        rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
        found = standing_now(warm)
        assert len(rows) == len([*found.of(Phase.DURING), *found.of(Phase.AFTER)])
        assert rows[0]["section"].startswith("Air first")
        assert {row["ticked"] for row in rows} == {"[ ]"}
        assert rows[0]["where"] == "TEAL"
