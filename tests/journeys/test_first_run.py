"""From an empty machine to a useful round, on the screen."""

from __future__ import annotations

from pathlib import Path

from farmops.exchange.packages import export
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.screens.frame import Frame
from farmops.tui.widgets.forms import FormScreen
from tests.farmhand import a_unit, open_farm
from tests.tui.demo import is_read, on_screen, press, running, until, until_seen

FEW = 40


async def test_four_questions_lead_to_a_round_in_under_forty_keys(tmp_path: Path) -> None:
    place = str(tmp_path / "farm.db")
    keys = ("n", *"Hill Farm", "enter", "enter", "enter", "enter", "enter", "enter", "right", "right", "enter")
    async with running(place, read=False) as pilot:
        await until_seen(pilot, "There is no farm in this place yet.", "open your own farm", "invented farm")
        for key in keys:
            await press(pilot, "space" if key == " " else key)
        await until(pilot, lambda: is_read(pilot.app), "the new farm")
        await until_seen(pilot, "Hill Farm", "WREN", "Look round", "Space done", "Hill Farm is open.")
    assert len(keys) < FEW
    store = Store(place)
    assert lists.farm(store).name == "Hill Farm"
    assert lists.units(store)[0].states[-1].state == "running"
    store.close()


async def test_what_is_not_understood_is_said_and_nothing_typed_is_lost(tmp_path: Path) -> None:
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "There is no farm in this place yet.")
        await press(pilot, "n")
        await press(pilot, *"Mill", "enter", "enter", *"XYZ", "f2")
        await until_seen(pilot, "XYZ is no currency of ISO 4217", "Mill")
        await press(pilot, "escape")
        await until_seen(pilot, "There is no farm in this place yet.")
        await press(pilot, "n")
        await until_seen(pilot, "Mill", "XYZ", "Filled in with what you typed before you left.")
    assert not (tmp_path / "farm.db").exists()


async def test_a_unit_that_has_no_such_name_opens_no_farm(tmp_path: Path) -> None:
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "There is no farm in this place yet.")
        await press(pilot, "n")
        await press(pilot, *"Mill", "enter", "enter", "enter", "enter", "enter", *"the/first", "f2")
        await until_seen(pilot, "is no code of a unit")
    assert not (tmp_path / "farm.db").exists()


async def test_d_opens_an_invented_farm_and_leaves_the_place_empty(tmp_path: Path) -> None:
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "look around on an invented farm first")
        await press(pilot, "d")
        await until(pilot, lambda: is_read(pilot.app), "the invented farm")
        await until_seen(pilot, "Quillet Bank", "(demo)", "Clear the pump intake")
    assert not (tmp_path / "farm.db").exists()


async def test_t_takes_in_the_farm_of_an_export_and_says_why_where_there_is_none(tmp_path: Path) -> None:
    there = Store(str(tmp_path / "there.db"))
    open_farm(there)
    a_unit(there, "LARK")
    export(there, str(tmp_path / "out"))
    there.close()
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "take in the farm that an export holds")
        await press(pilot, "t")
        await until_seen(pilot, "Take in a farm", "the folder, or the workbook")
        await press(pilot, *str(tmp_path / "nowhere"), "enter")
        await until_seen(pilot, "There is no")
        form = pilot.app.screen
        assert isinstance(form, FormScreen)
        form.box("place").text = str(tmp_path / "out")
        await press(pilot, "f2")
        await until(pilot, lambda: is_read(pilot.app), "the farm of the export")
        await until_seen(pilot, "Hollow Lane Holding", "LARK", "rows, its journal included")


async def test_q_leaves_an_empty_place_with_nothing_made(tmp_path: Path) -> None:
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "leave")
        await pilot.press("q")
        await pilot.pause()
        assert not isinstance(pilot.app.screen, Frame) or "Quillet" not in on_screen(pilot.app)
    assert pilot.app.return_code == 0
    assert not (tmp_path / "farm.db").exists()


async def test_a_city_is_enough_to_find_the_time_zone(tmp_path: Path) -> None:
    async with running(str(tmp_path / "farm.db"), read=False) as pilot:
        await until_seen(pilot, "There is no farm in this place yet.")
        await press(pilot, "n")
        await press(
            pilot,
            *"Mill",
            "enter",
            "enter",
            "enter",
            *(sign if sign != " " else "space" for sign in "new york"),
            "enter",
        )
        await until_seen(pilot, "America/New_York")
        await press(pilot, "shift+tab", *"Nowhereville", "f2")
        await until_seen(pilot, "There is no 'Nowhereville' here.", "Name a large city in your zone")
    assert not (tmp_path / "farm.db").exists()
