"""Every screen as it is drawn: no line wider than the terminal, all of it readable, whatever things are called."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from itertools import islice

import pytest
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual.app import App
from textual.color import Color
from textual.geometry import Region
from textual.screen import Screen

from farmops.tui.screens.frame import Frame
from farmops.tui.themes import THEMES
from tests.profiles import PROFILE, count
from tests.tui.demo import Driver, go_to, press, running, until_idle
from tests.tui.test_trouble import luminance

READABLE, HIGH = 4.5, 7
"""The least contrast of text, as WCAG 2.2 has it under 1.4.3 and 1.4.6; the second for the theme of high contrast."""
FULL = PROFILE == "full"
SIZES = ((60, 20), (80, 24), (120, 40), (200, 50)) if FULL else ((60, 20),)
COLOURS = [theme.name for theme in THEMES]
SCREENS = (
    ("money", ("slash",)),
    ("chores", ("h", "1", "space", "6")),
    ("beds", ("n",)),
    ("returns", ("w",)),
    ("fish", ("1", "b")),
    ("records", ("t",)),
    ("chores", ("question_mark",)),
    ("chores", ("m",)),
    ("chores", ("o",)),
    ("chores", ("T",)),
    ("chores", ("space",)),
    ("chores", ("n",)),
    ("beds", ("t",)),
    ("fish", ("r",)),
    ("fish", ("enter",)),
    ("money", ("k",)),
    ("money", ("k", "right")),
    ("money", ("n",)),
    ("money", ("y",)),
    ("returns", ("g", "b")),
    ("returns", ("b", "b")),
    ("returns", ("c", "1")),
    ("returns", ("r",)),
    ("returns", ("p",)),
    ("returns", ("T",)),
    ("records", ("e",)),
    ("records", ("full_stop", "n")),
    ("records", ("comma",)),
    ("chores", ("exclamation_mark",)),
    ("chores", ("exclamation_mark", "enter")),
)
"""Keys pressed in a place; Esc leads back."""
NAMES = {
    "as they are": {},
    "long": {
        "unit.code": "{0}.BY.THE.NORTH.WALL.OF.IT",
        "bed.name": "{0}.UNDER.THE.EAVES.OF.THE",
        "crop.name": "{0} BY THE NORTH WALL OF THE LOWER LANE AND",
        "chore.title": "{0} by the north wall of the lower lane and back",
        "person.name": "{0} of the house by the lower lane and back",
        "farm.name": "{0} by the north wall of the lower lane",
    },
    "other scripts": {
        "unit.code": "水耕栽培{1}号棟",
        "bed.name": "שמאל{1}",
        "crop.name": "मछली और सब्ज़ी {1}",
        "chore.title": "مزرعة السمك والخضار {1}",
        "person.name": "Э\u0301лла Ручьёва {1}",
        "farm.name": "小さな農場 ฟาร์มปลา",
    },
}


def call_anew(place: str, names: dict[str, str]) -> None:
    """Give all things of some kinds other names, as a file taken in could bring them."""
    with closing(sqlite3.connect(place)) as connection, connection:
        for what, pattern in names.items():
            table, column = what.split(".")
            longest = 24 if table in ("unit", "bed") else 40
            for id, name in connection.execute(f"SELECT id, {column} FROM {table}").fetchall():
                anew = pattern.format(name[:16], id)[:longest]
                connection.execute(f"UPDATE {table} SET {column} = ? WHERE id = ?", (anew, id))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("names", NAMES if FULL else ["other scripts"])
async def test_every_screen_fits_and_can_be_read(demo_place: str, names: str, size: tuple[int, int]) -> None:
    call_anew(demo_place, NAMES[names])
    async with running(demo_place, size=size) as pilot:
        for place, keys in islice(SCREENS, count(ci=2, full=len(SCREENS))):
            await go_to(pilot, place)
            await press(pilot, *keys)
            for theme in COLOURS:
                await show_in(pilot, theme)
                assert faults(pilot.app) == [], (place, keys, theme)
            await back(pilot)


async def show_in(pilot: Driver, theme: str) -> None:
    pilot.app.theme = theme
    await until_idle(pilot)


async def back(pilot: Driver) -> None:
    """To the list of the place, by Esc alone."""
    await press(pilot, "escape")
    while not isinstance(pilot.app.screen, Frame):
        await press(pilot, "escape")
    await press(pilot, "0")


@pytest.mark.parametrize("theme", COLOURS if FULL else COLOURS[1:2])
async def test_the_list_of_all_actions_can_be_read(demo_place: str, theme: str) -> None:
    async with running(demo_place, theme=theme) as pilot:
        await press(pilot, "f9", "p", "r")
        assert faults(pilot.app) == []


def faults(app: App[object]) -> list[str]:
    """Lines of another width than the terminal or with the sign for an end of line; words too near to their ground."""
    strips = app.screen._compositor.render_strips()
    wrong = [strip.text for strip in strips if cell_len(strip.text) != app.size.width or "\\n" in strip.text]
    least = HIGH if app.theme == "stark" else READABLE
    return wrong + [repr(one) for one in written(app) if contrast(one) < least]


def written(app: App[object]) -> Iterator[Segment]:
    """What is written on what lies on top; below it all is dimmed on purpose."""
    screen = app.screen
    top = [screen.region] if isinstance(screen, Frame) else list(_in_sight(screen))
    for row, strip in enumerate(screen._compositor.render_strips()):
        column = 0
        for one in strip:
            if any(sign.isalnum() for sign in one.text) and _is_in(top, column, row):
                yield one
            column += one.cell_length


def _in_sight(screen: Screen[object]) -> Iterator[Region]:
    """Where the widgets of a screen are drawn, without what is scrolled out of sight."""
    for widget, (region, clip) in screen._compositor.visible_widgets.items():
        if widget is not screen:
            yield region.intersection(clip)


def _is_in(regions: list[Region], column: int, row: int) -> bool:
    return any(region.contains(column, row) for region in regions)


def contrast(one: Segment) -> float:
    """How much lighter one of its two colours is than the other, from 1 to 21."""
    style = one.style
    if style is None or style.color is None or style.bgcolor is None:
        return 21
    dark, light = sorted(luminance(colour) for colour in (style.color, style.bgcolor))
    return (light + 0.05) / (dark + 0.05)


def test_words_in_the_colour_of_their_ground_are_a_fault() -> None:
    grey = Color(90, 90, 90).rich_color
    assert contrast(Segment("words", Style(color=grey, bgcolor=grey))) == 1
