"""Lists of a hundred thousand lines made on demand, and lists under a storm of keys."""

from __future__ import annotations

import random

import pytest
from textual.pilot import Pilot

from farmops.tui.widgets.listing import Column, Heading, Item, Line
from farmops.tui.widgets.listing_lines import Made
from tests.tui.listing_stage import CHORE_COLUMNS, CHORES, ONE_COLUMN, Stage, numbered

MANY = 100_000
SIZE = (60, 20)
COLUMNS = (Column("number", "no", align="right"), Column("name", "name", grow=True))


class Counted(Made):
    """Lines that are made when they are asked for, and a count of how often that was."""

    def __init__(self, count: int = MANY, name: str = "") -> None:
        super().__init__(range(count), self._line_of)
        self.name = name
        self.asked = 0

    def _line_of(self, number: int) -> Line:
        self.asked += 1
        return Line(f"{self.name}{number}", (str(number), f"record {number}"))


class Known(Counted):
    """Lines that know where a key is."""

    def place_of(self, key: str) -> int | None:
        return int(key) if key.isdigit() and int(key) < len(self) else None


async def _searched(app: Stage, pilot: Pilot[None]) -> None:
    while any(not worker.is_finished for worker in app.workers):
        await pilot.pause(0.01)
    await pilot.pause()


async def test_few_lines_are_made_whatever_the_length() -> None:
    items = Counted()
    app = Stage(COLUMNS, items)
    async with app.run_test(size=SIZE) as pilot:
        assert items.asked < 1_000
        items.asked = 0
        await pilot.press("end")
        assert app.marked() == ["99999  record 99999"]
        assert items.asked < 200
        items.asked = 0
        await pilot.press("up")
        assert app.marked() == ["99998  record 99998"]
        assert items.asked < 20


async def test_shown_again_the_cursor_is_kept_without_going_through_all() -> None:
    app = Stage(COLUMNS, Counted())
    async with app.run_test(size=SIZE) as pilot:
        await pilot.press("end", "pageup")
        key = app.key
        items = Counted(MANY + 300)
        app.listing.show(COLUMNS, items)
        await pilot.pause()
        assert app.key == key
        assert items.asked < 2_000
        others = Counted(name="other")
        app.listing.show(COLUMNS, others)
        await pilot.pause()
        assert app.key == f"other{key}"
        assert others.asked < 6_000
        fewer = Counted(10)
        app.listing.show(COLUMNS, fewer)
        await pilot.pause()
        assert app.key == "9"


async def test_lines_that_know_their_places_are_asked() -> None:
    items = Known()
    app = Stage(COLUMNS, items)
    async with app.run_test(size=SIZE) as pilot:
        items.asked = 0
        assert app.listing.go_to("77777")
        await pilot.pause()
        assert app.marked() == ["77777  record 77777"]
        assert items.asked < 200
        assert not app.listing.go_to("no such")


async def test_a_search_through_many_goes_on_beside_the_screen() -> None:
    app = Stage(COLUMNS, Counted(30_000))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.go_to("29001")
        app.listing.filter("record 1234")
        app.listing.filter("record 2900")
        await _searched(app, pilot)
        assert "13 of 30,000 hold: record 2900" in app.text()
        assert app.key == "29001"
        app.listing.filter("")
        await pilot.pause()
        assert app.key == "29001"
        assert app.marked() == ["29001  record 29001"]


async def test_a_search_that_was_overtaken_by_other_lines_changes_nothing() -> None:
    app = Stage(COLUMNS, Counted(30_000))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("record 2900")
        app.listing.show(ONE_COLUMN, numbered(10, "record 2900"))
        await _searched(app, pilot)
        assert "10 of 10 hold: record 2900" in app.text()
        assert app.seen()[1] == "▸ record 2900 0"


async def test_many_new_lines_under_a_filter() -> None:
    app = Stage(COLUMNS, Counted(30_000))
    async with app.run_test(size=SIZE) as pilot:
        app.listing.filter("record 2900")
        await _searched(app, pilot)
        app.listing.show(COLUMNS, Counted(29_003))
        await _searched(app, pilot)
        assert "6 of 29,003 hold: record 2900" in app.text()


ACTIONS = ("step(-1)", "step(1)", "page(-1)", "page(1)", "edge(1)", "edge(-1)", "open")


async def _keys(app: Stage, dice: random.Random) -> None:
    """What a burst of keys does, without the wait after each that a pilot takes."""
    for action in dice.choices(ACTIONS, k=6):
        await app.run_action(action, app.listing)


def _storm(dice: random.Random) -> list[Item]:
    items: list[Item] = []
    for index in range(dice.choice((0, 1, 3, 30, 200))):
        if dice.random() < 0.3:
            items.append(Heading(f"section {index}"))
        else:
            items.append(
                Line(f"k{index}", (f"U{index}", dice.choice(("採收" * 9, "x", "", "a" * 90)), "c", "late", "1.5 min"))
            )
    return items


@pytest.mark.parametrize("seed", range(3))
async def test_no_order_of_keys_sizes_and_lines_breaks_it(seed: int) -> None:
    dice = random.Random(seed)
    app = Stage(CHORE_COLUMNS, CHORES)
    async with app.run_test(size=SIZE) as pilot:
        for _ in range(40):
            match dice.randrange(8):
                case 0:
                    await app.resized(pilot, dice.randint(1, 130), dice.randint(1, 50))
                case 1:
                    app.listing.show(CHORE_COLUMNS[: dice.randint(0, 5)], _storm(dice))
                case 2:
                    app.listing.filter(dice.choice(("", "", "x", "採", "no such", "1")))
                case 3:
                    app.listing.go_to(f"k{dice.randrange(200)}")
                case 4:
                    width, height = app.listing.size
                    if width and height:
                        await pilot.click(app.listing, offset=(dice.randrange(width), dice.randrange(height)))
                case _:
                    await _keys(app, dice)
            await pilot.pause()
            _is_sound(app)


def _is_sound(app: Stage) -> None:
    listing, items = app.listing, app.listing._view
    has_lines = any(isinstance(items[index], Line) for index in range(len(items)))
    assert (listing.current is not None) == has_lines
    assert len(app.marked()) <= 1
    assert all(strip.cell_length == app.size.width for strip in app.screen._compositor.render_strips())


@pytest.mark.parametrize("seed", range(2))
async def test_with_room_for_it_the_cursor_is_always_in_sight_after_a_key(seed: int) -> None:
    dice = random.Random(seed)
    app = Stage(CHORE_COLUMNS, _storm(random.Random(4)))
    async with app.run_test(size=SIZE) as pilot:
        for _ in range(20):
            await app.resized(pilot, dice.randint(12, 120), dice.randint(5, 40))
            await _keys(app, dice)
            await pilot.pause()
            assert len(app.marked()) == (app.key is not None)
