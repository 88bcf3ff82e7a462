"""What a person sees in every place of the invented farm, and how they walk through it."""

from __future__ import annotations

from typing import Any

import pytest
from textual.app import App
from textual.widget import Widget

from farmops.tui.screens.help import Help
from farmops.tui.widgets.footer import KeyFooter, key_name
from farmops.tui.widgets.places import TITLES, PlacesLine
from farmops.tui.widgets.row import CARD, UnitRow
from tests.tui.demo import (
    LARGE,
    PLACE_KEYS,
    SIZES,
    SMALL,
    Driver,
    frame_of,
    go_to,
    listing_of,
    on_screen,
    press,
    running,
    seen,
    until,
    until_seen,
)

UNITS = ("WREN", "ROOK", "TEAL", "PLOVER", "SISKIN", "DIPPER")
EVERYWHERE = ("Quillet Bank · Wed 14 Oct 2026 (demo)", "19 to do, some late", "? help", *UNITS)
WHOLE_FARM = {
    "chores": (
        "all        Look round: flow, air, level, temperature, fish, leaks",
        "TEAL       Clear the pump intake (adults only)",
        "4 days late",
        "Morning",
        "+ 3 units  Feed the fish: WREN 2 oz, ROOK 2.3 oz",
        "not done without: flow seen",
        "Fish gasping or no flow: air first",
    ),
    "beds": ("┌ WREN-N ─", "13.0 sq ft", "SISKIN-N", "free", "weeks", "▸ TEAL-N    PAK CHOI", "STRAWBERRY"),
    "fish": ("Living here", "▸ WREN    PERCH-24", "yellow perch", "rainbow trout", "30 left of 90"),
    "money": ("newest first", "▸ 2026-10-11  Sealant for drinking water", "$19.30", "$512.00", "DIPPER"),
    "returns": (
        "this year · full cost · by unit",
        "lb per sq ft",
        "▸ WREN       89 lb 5 oz",
        "─┿─",
        "no harvest",
        "the farm",
        "CHARD: WREN is clearly better than ROOK",
    ),
    "records": ("[Harvests]", "▸ 2026-10-12  PLOVER-S  CHARD", "leaf miner", "gate stall", "2 lb 2 oz"),
}
AT_SISKIN = {
    "chores": "Test ammonia, nitrite, pH, temperature",
    "beds": "SISKIN-N",
    "fish": "Water, latest readings",
    "money": "Washed slate for the bed",
    "returns": "SISKIN",
    "records": "Nothing weighed yet. h weighs a harvest.",
}


def nothing_runs_out_of_sight(app: App[Any]) -> None:
    """No line is longer than the terminal is wide, and nothing could be scrolled sideways."""
    width = app.size.width
    assert all(len(line) <= width for line in seen(app))
    widgets = [app.screen, *app.screen.query(Widget)]
    assert not [one for one in widgets if one.size and one.allow_horizontal_scroll and one.max_scroll_x > 0]


@pytest.mark.parametrize("size", SIZES, ids=["small", "large"])
async def test_each_place_of_the_whole_farm(demo_place: str, size: tuple[int, int]) -> None:
    async with running(demo_place, size=size) as pilot:
        for place, words in WHOLE_FARM.items():
            await go_to(pilot, place)
            await until_seen(pilot, *EVERYWHERE, *words, f"[{TITLES[place]}]")
            nothing_runs_out_of_sight(pilot.app)


@pytest.mark.parametrize("size", SIZES, ids=["small", "large"])
async def test_each_place_answers_for_the_unit_one_stands_at(demo_place: str, size: tuple[int, int]) -> None:
    async with running(demo_place, size=size) as pilot:
        for place, words in AT_SISKIN.items():
            await go_to(pilot, place)
            await press(pilot, "0", "5")
            await until_seen(pilot, words, "┏ 5 ━")
            others = {code for code in UNITS[:4] if code in listing_of(pilot.app).as_text("table")}
            assert not others, place
            nothing_runs_out_of_sight(pilot.app)


async def test_the_row_is_walked_with_digits_and_arrows_and_has_two_ends(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        frame = frame_of(pilot.app)
        walked = []
        for key in ("3", "right", "left", "6", "right", "9", "0", "left"):
            await press(pilot, key)
            walked.append(frame.standing)
        assert walked == [3, 4, 3, 6, 6, 6, 0, 0]
        await press(pilot, "3")
        await until_seen(pilot, "┏ 3 ━", "Clear the pump intake")
        assert "Change the filter pad" not in on_screen(pilot.app)


async def test_a_click_on_a_card_walks_there(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await pilot.click(UnitRow, offset=(CARD * 2 + 3, 2))
        await until_seen(pilot, "┏ 2 ━", "Change the filter pad")
        assert frame_of(pilot.app).standing == 2
        await pilot.click(UnitRow, offset=(1, 1))
        await until_seen(pilot, "┏ 0 ━", "Clear the pump intake")


async def test_places_are_opened_by_key_by_tab_and_by_click(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        frame, order = frame_of(pilot.app), list(PLACE_KEYS)
        for place in order:
            await go_to(pilot, place)
            assert frame.open_place == place
        for place in order:
            await press(pilot, "tab")
            assert frame.open_place == place
        await press(pilot, "shift+tab")
        assert frame.open_place == order[-2]
        for place in order:
            await click_on_word(pilot, PlacesLine, TITLES[place])
            assert frame.open_place == place


async def click_on_word(pilot: Driver, widget: type[Widget], word: str) -> None:
    """Click on a word of a line of words."""
    target = pilot.app.screen.query_one(widget)
    line = seen(pilot.app)[target.region.y]
    await pilot.click(widget, offset=(line.index(word) - target.region.x, 0))
    await press(pilot)


@pytest.mark.parametrize("place", PLACE_KEYS)
async def test_the_footer_says_keys_that_work_when_clicked_and_always_help(demo_place: str, place: str) -> None:
    async with running(demo_place, size=SMALL) as pilot:
        await go_to(pilot, place)
        shown = pilot.app.screen.query_one(KeyFooter)._shown()
        line = seen(pilot.app)[-1]
        for action, key, word in shown:
            assert f"{key} {word}" in line
            assert key_name(action.keys[0]) == key
        assert shown[-1][0].id == "help"
        assert place in ("chores", "returns") or {"new", "edit"} < {action.id for action, _, _ in shown}
        await click_on_word(pilot, KeyFooter, "weigh")
        await until_seen(pilot, "Weigh a harvest")
        await press(pilot, "escape")
        await click_on_word(pilot, KeyFooter, "? help")
        await until_seen(pilot, f"{TITLES[place]}: what can be done", "Esc closes")
        assert isinstance(pilot.app.screen, Help)


async def test_words_of_the_help_that_wrap_stay_beside_their_key(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await press(pilot, "question_mark")
        await until_seen(pilot, "Settle all chores of the same")
        lines = seen(pilot.app)
        at = next(n for n, line in enumerate(lines) if "Settle all chores" in line)
        assert lines[at + 1].index("done") == lines[at].index("Settle")


async def test_a_row_longer_than_the_terminal_shows_where_one_stands(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        assert ">0 all 19!" in on_screen(pilot.app)
        await press(pilot, "6")
        await until_seen(pilot, ">6 DIPPER")
        nothing_runs_out_of_sight(pilot.app)
        await pilot.resize_terminal(*LARGE)
        await until_seen(pilot, "┏ 6 ━", "┌ 0 ─")


def beneath_the_heads(pilot: Driver) -> str:
    """The first line of the plantings that is on the screen."""
    lines = seen(pilot.app)
    return lines[next(at for at, line in enumerate(lines) if "weeks" in line) + 1]


async def test_the_plantings_open_at_the_top_where_the_newest_stands(demo_place: str) -> None:
    async with running(demo_place, size=SMALL) as pilot:
        await go_to(pilot, "beds")
        listing = listing_of(pilot.app)
        assert listing.current.cells[1] == "PAK CHOI · planted last"
        assert beneath_the_heads(pilot).startswith("▸ TEAL-N")
        await press(pilot, "l", "1", "2", "enter")
        await until(pilot, lambda: listing.current.data.plants == 12, "the planting that was booked")
        assert beneath_the_heads(pilot).startswith("▸ TEAL-N")


async def test_a_bed_beside_others_and_its_new_size_have_keys(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "beds")
        await press(pilot, "z")
        await until_seen(pilot, "Size of TEAL-N", "sq ft since")
        await press(pilot, "escape")
        await until_seen(pilot, "[Beds]")
        await press(pilot, "b")
        await until_seen(pilot, "New bed")
