"""Keys that open something: help, palette, finding, copying, opening a number; and refusals in words."""

from __future__ import annotations

import re
from typing import Any

import pytest
from textual.widgets import Static

from farmops.records.store import Store
from farmops.reports.round import round_of
from farmops.tui.actions import ACTIONS, remapped
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.help import Help
from farmops.tui.screens.records import KINDS
from farmops.tui.screens.why import Why
from farmops.tui.widgets import clipboard
from farmops.tui.widgets.places import TITLES
from tests.tui.demo import (
    LARGE,
    PLACE_KEYS,
    SMALL,
    Driver,
    frame_of,
    go_to,
    go_to_chore,
    listing_of,
    on_screen,
    press,
    running,
    seen,
    until,
    until_seen,
)

MONEY = re.compile(r"(-?)\$([\d,]+\.\d\d)")


@pytest.mark.parametrize("place", PLACE_KEYS)
async def test_help_names_what_can_be_done_in_the_place(demo_place: str, place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, place)
        await press(pilot, "?")
        assert isinstance(pilot.app.screen, Help)
        grids: list[Any] = [one.content for one in pilot.app.screen.query(".keys").results(Static)]
        words = [str(cell) for grid in grids for cell in grid.columns[1].cells]
        assert [one.words for one in ACTIONS if one.where == place and one.words not in words] == []
        await until_seen(pilot, TITLES[place], "Esc closes")
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, Frame)


async def test_help_gives_the_whole_chore_where_the_screen_is_too_low_for_it(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await go_to_chore(pilot, "Look round: flow")
        assert "Dead fish out and counted" not in on_screen(pilot.app)
        await press(pilot, "?")
        await until_seen(pilot, "Unplug before a hand", "counted.")


@pytest.mark.parametrize("key", ["f9", ":"])
async def test_the_palette_runs_an_action_by_its_name(demo_place: str, key: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, key)
        await until_seen(pilot, "What to do, in a word or two")
        assert "\N{RIGHT-POINTING MAGNIFYING GLASS}" not in on_screen(pilot.app)
        await press(pilot, *"weigh a")
        await until_seen(pilot, "Weigh a harvest", "key h")
        await press(pilot, "enter")
        await until_seen(pilot, "Letters instead of a weight find another crop or bed.")


async def test_the_palette_opens_again_while_the_last_one_is_being_put_away_and_never_twice(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        app = pilot.app
        await press(pilot, "f9")
        app.pop_screen()
        app.action_command_palette()
        await until_seen(pilot, "What to do, in a word or two")
        await press(pilot, "f11", "f9")
        assert [type(screen).__name__ for screen in app.screen_stack].count("Palette") == 1


async def test_the_palette_in_a_window_without_room_for_its_list_takes_every_key(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "f9")
        await until_seen(pilot, "A month at a glance")
        await pilot.resize_terminal(12, 3)
        await press(pilot, *"we", "pagedown", "pageup", "down", "up", "home", "end", "pageup")
        await pilot.resize_terminal(*SMALL)
        await press(pilot, "escape", "escape")
        await until_seen(pilot, "Quillet Bank", "? help")


async def test_slash_finds_words_in_any_order_and_escape_shows_all_again(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "money")
        await press(pilot, "/", *"power july")
        await until_seen(pilot, "2026-07-20  Power, July")
        await until(pilot, lambda: "Power, August" not in on_screen(pilot.app))
        await press(pilot, "enter")
        assert "Power, July" in str(listing_of(pilot.app).current)
        await press(pilot, "/", "escape")
        await until_seen(pilot, "Power, July", "Power, June")


async def test_what_is_not_found_is_said(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "/", *"quince")
        await until(pilot, lambda: "Look round: flow" not in "\n".join(seen(pilot.app)[7:16]), "no line left")
        await until_seen(pilot, "quince")


@pytest.mark.parametrize(
    ("key", "copied"),
    [
        ("l", "2026-10-11\tSealant for drinking water, outlet gasket\tDIPPER\t$19.30"),
        ("2", "Sealant for drinking water, outlet gasket"),
        ("t", "day\twhat\tfor\tamount"),
    ],
)
async def test_y_copies_a_line_a_cell_or_the_table(
    demo_place: str, monkeypatch: pytest.MonkeyPatch, key: str, copied: str
) -> None:
    taken: list[str] = []
    monkeypatch.setattr(clipboard, "copy", lambda _app, text: f"Copied {taken.append(text) or len(text)} signs.")
    async with running(demo_place) as pilot:
        await go_to(pilot, "money")
        await press(pilot, "y")
        await until_seen(pilot, "Copy what?", "the line", "Power, September")
        await press(pilot, key)
        await until_seen(pilot, "Copied")
    assert taken[0].startswith(copied)


async def test_on_a_narrow_screen_why_says_all_its_keys(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "w")
        await until_seen(pilot, "Enter opens a part or a record   Esc back   q close")


async def test_why_goes_down_to_the_records_and_every_level_adds_up(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "w")
        await until_seen(pilot, "cost per weight of produce, WREN: $")
        await open_part(pilot, "cost of produce, WREN")
        await open_part(pilot, "cost that made both, WREN")
        assert sum(parts(pilot)) == top(pilot)
        await open_part(pilot, "part of the shared costs")
        await open_part(pilot, "shared costs")
        await until_seen(pilot, "Test kits (supplies)")
        assert sum(parts(pilot)) == top(pilot) > 0
        for _ in range(4):
            await press(pilot, "escape")
        await until_seen(pilot, "cost per weight of produce, WREN: $")
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, Frame)


async def open_part(pilot: Driver, name: str) -> None:
    """Go to a part of the number that is open, and into it."""
    listing = pilot.app.screen.query_one("Listing")
    for _ in range(30):
        if any(line.lstrip("│ ").startswith(f"▸ {name}") for line in seen(pilot.app)):
            break
        listing.action_step(1)
        await pilot.pause()
    await press(pilot, "enter")
    await until(pilot, lambda: f"│ {name}" in on_screen(pilot.app), name)


def cents(line: str) -> int:
    """The last sum of money on a line."""
    sign, digits = MONEY.findall(line)[-1]
    return int(f"{sign}{digits.replace(',', '').replace('.', '')}")


def top(pilot: Driver) -> int:
    """The number that is open."""
    return cents(next(line for line in seen(pilot.app) if ": $" in line))


def parts(pilot: Driver) -> list[int]:
    """What stands below it, line by line."""
    assert isinstance(pilot.app.screen, Why)
    lines = [line for line in seen(pilot.app) if line.startswith("│") and MONEY.search(line) and ": $" not in line]
    return [cents(line) for line in lines]


def to_kind(name: str) -> tuple[str, ...]:
    """The keys that go from the first kind of records to another."""
    return ("full_stop",) * [kind.name for kind in KINDS].index(name)


@pytest.mark.parametrize(
    ("place", "keys", "words"),
    [
        ("chores", (), "Due on 2026-10-14: every day."),
        ("money", (), "was typed, not worked out."),
        ("records", to_kind("people"), "This was typed, not worked out: it stands for itself."),
    ],
)
async def test_where_there_is_no_number_w_says_how_it_came_about(
    demo_place: str, place: str, keys: tuple[str, ...], words: str
) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, place)
        await press(pilot, *keys, "w")
        await until_seen(pilot, words)


@pytest.mark.parametrize(
    ("place", "keys", "words"),
    [
        ("chores", ("x",), "A chore with a past is not removed but paused"),
        ("beds", ("home", "down", "x"), " ! "),
        ("returns", ("n",), "Numbers come from records."),
        ("records", (*to_kind("people"), "l"), "A copy of people is not made here"),
        ("records", (*to_kind("journal"), "n"), "The journal writes itself."),
        ("records", (*to_kind("journal"), "e"), "The journal is not edited."),
        ("records", (*to_kind("journal"), "x"), "!"),
        ("chores", ("u",), "!"),
        ("chores", ("U",), "!"),
    ],
)
async def test_what_is_not_done_is_said_in_words(
    demo_place: str, demo_store: Store, place: str, keys: tuple[str, ...], words: str
) -> None:
    before = round_of(demo_store)
    async with running(demo_place) as pilot:
        await go_to(pilot, place)
        await press(pilot, *keys)
        await until_seen(pilot, words)
        said = next(line for line in seen(pilot.app) if line.startswith(" ! "))
        assert not re.search(r"Error|Exception|None|Traceback|[a-z]_[a-z]", said)
        assert frame_of(pilot.app).is_attached
    assert round_of(demo_store) == before


async def test_closing_what_is_not_there_is_refused_and_clearing_opens_its_form(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "beds")
        await press(pilot, "c")
        await until_seen(pilot, "Clear PAK CHOI out of TEAL-N")
        await press(pilot, "escape")
        await go_to(pilot, "fish")
        await press(pilot, "c")
        await until_seen(pilot, "PERCH-24", "Esc leave")


async def test_settings_of_ones_own_change_key_and_footer(demo_place: str) -> None:
    async with running(demo_place, actions=remapped({"weigh": "v"})) as pilot:
        await until_seen(pilot, "v weigh")
        await press(pilot, "v")
        await until_seen(pilot, "Weigh a harvest")


async def test_ctrl_c_in_a_form_says_how_to_leave_and_loses_nothing(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "n")
        await until_seen(pilot, "New chore")
        await press(pilot, "o", "i", "l", "ctrl+c")
        await until_seen(pilot, "Esc leaves, and what you typed is kept", "q in a place ends")
        assert "oil" in on_screen(pilot.app)


async def test_what_is_cut_below_the_round_says_where_it_is_told_whole(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, "Change the filter pad")
        await until_seen(pilot, "else rinse it and skip … ? tells all")
        await go_to_chore(pilot, "Ask the kitchen")
        assert "tells all" not in on_screen(pilot.app)


async def test_what_lasts_says_how_long_beside_its_name_and_its_kind_is_shown(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "money")
        await until_seen(pilot, "· lasts ")
        assert " months" not in next(line for line in on_screen(pilot.app).splitlines() if "· lasts 8 years" in line)
