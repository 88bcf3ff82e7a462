"""The kinds of records on one line: the one that is open always in sight, however narrow the terminal."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from farmops.records.store import Store
from farmops.tui.screens import records
from farmops.tui.screens.lot_trace import LotTrace
from farmops.tui.screens.record_kinds import KINDS
from farmops.tui.screens.records import _read, kinds_words
from tests.farmhand import open_farm
from tests.tui.demo import LARGE, PATIENCE_S, go_to, on_screen, press, running, until_idle, until_seen

TITLES = [kind.title for kind in KINDS]


@pytest.mark.parametrize("room", [40, 58, 78, 118, 300])
@pytest.mark.parametrize("chosen", range(len(TITLES)))
def test_the_open_kind_is_in_sight_and_the_line_fits(room: int, chosen: int) -> None:
    words = kinds_words(TITLES, chosen, room)
    assert f"[{TITLES[chosen]}]" in words
    assert len(words) <= room
    assert words.endswith(", . others")


def test_where_there_is_room_all_kinds_are_named() -> None:
    assert all(title in kinds_words(TITLES, 0, 600) for title in TITLES)
    assert "…" not in kinds_words(TITLES, 0, 600)
    assert kinds_words(TITLES, len(TITLES) - 1, 40).startswith("…")


async def test_the_lot_of_a_weighing_is_followed_to_its_buyer(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "records")
        await press(pilot, "t")
        await until_seen(pilot, "weighed", "chores are left out")
        screen = pilot.app.screen
        assert isinstance(screen, LotTrace)
        await press(pilot, "c")
        assert screen.with_chores
        assert "chores are left out" not in on_screen(pilot.app)
        await press(pilot, "escape")
        assert not isinstance(pilot.app.screen, LotTrace)


async def test_the_footer_names_the_key_that_follows_a_lot_for_weighings_alone(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "records")
        await until_seen(pilot, "t trace")
        await press(pilot, "full_stop")
        assert "t trace" not in on_screen(pilot.app)
        await press(pilot, "comma")
        await until_seen(pilot, "t trace")


async def test_on_a_bare_farm_the_keys_that_are_named_lead_to_the_first_unit(sqlite_store: Store) -> None:
    open_farm(sqlite_store)
    async with running(sqlite_store.place) as pilot:
        await until_seen(pilot, "F7 Records, . to Units, then n")
        for place in ("f3", "f4"):
            await press(pilot, place)
            await until_seen(pilot, "No unit yet. F7 Records, . to Units, then n adds the first.")
        await press(pilot, "f7", ".", "n")
        await until_seen(pilot, "New unit")


async def test_no_line_of_the_kind_before_is_taken_for_one_of_the_next(
    demo_place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on = threading.Event()

    def slowly(*arguments: Any, **named: Any) -> Any:
        go_on.wait(PATIENCE_S)
        return _read(*arguments, **named)

    async with running(demo_place) as pilot:
        await go_to(pilot, "records")
        await until_seen(pilot, "weight")
        monkeypatch.setattr(records, "_read", slowly)
        await pilot.press("full_stop", "full_stop", "e")
        assert "no line under the cursor" in on_screen(pilot.app)
        go_on.set()
        await until_idle(pilot)
        await pilot.press("e")
        await until_seen(pilot, "F2 change")
