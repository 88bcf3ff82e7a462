"""From the Chores place by a key each: how chores went, the days ahead, a month at a glance."""

from __future__ import annotations

import pytest

from farmops.farm.chores import add_chore, settle
from farmops.farm.farm import open_farm
from farmops.model.chores import NewChore, SettledAs, Settling
from farmops.model.farm import NewFarm
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.screens.chore_past import ChorePast
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.load import LoadAhead
from farmops.tui.screens.month import MonthGlance
from farmops.tui.widgets.listing import Listing
from tests.farmhand import on
from tests.tui.demo import Driver, go_to_chore, on_screen, press, running, seen, until, until_seen

SIZES = ((80, 24), (120, 40), (60, 20))


def lines(pilot: Driver) -> list[str]:
    """The lines of the list on top."""
    view = pilot.app.screen.query_one(Listing)._view
    return [" ".join(str(cell) for cell in view[at].cells).strip() for at in range(len(view))]


@pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40", "60x20"])
@pytest.mark.parametrize(("key", "kind"), [("t", ChorePast), ("T", ChorePast), ("o", LoadAhead), ("m", MonthGlance)])
async def test_a_key_opens_it_nothing_runs_out_of_sight_and_escape_comes_back(
    demo_place: str, size: tuple[int, int], key: str, kind: type
) -> None:
    async with running(demo_place, size=size) as pilot:
        await press(pilot, key)
        assert isinstance(pilot.app.screen, kind)
        await until_seen(pilot, "Esc back")
        assert any(line.endswith("Y file   Esc back") for line in seen(pilot.app))
        assert all(len(line) <= size[0] for line in seen(pilot.app))
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, Frame)


async def test_the_chore_under_the_cursor_tells_how_it_went(demo_place: str, demo_store: Store) -> None:
    unit = next(line.unit for line in lists.units(demo_store) if line.unit.code == "TEAL")
    chore = add_chore(demo_store, NewChore("Oil the hinge", "day", on(10, 10), unit_id=unit.id, minutes=3), by="Ada")
    settle(demo_store, Settling(chore.id, SettledAs.DONE, on(10, 11), minutes=5), by="Bea")
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to_chore(pilot, "Oil the hinge")
        await press(pilot, "t")
        await until_seen(
            pilot, "Oil the hinge, TEAL · every day", "1 done; 2 missed; usually 5 min, estimated 3; by Bea 1"
        )
        assert lines(pilot) == ["2026-10-11 done 2026-10-11 5 min Bea"]


async def test_what_was_never_settled_says_so(demo_place: str, demo_store: Store) -> None:
    add_chore(demo_store, NewChore("Oil the hinge", "once", on(10, 14)), by="Ada")
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to_chore(pilot, "Oil the hinge")
        await press(pilot, "t")
        await until_seen(pilot, "Never settled yet.", "Nothing was settled.")


async def test_all_chores_are_told_and_one_is_opened_and_left_again(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "T")
        await until_seen(pilot, "Quillet Bank, 2026-07-15 to 2026-10-14", "Look round again before dark")
        await press(pilot, "down", "enter")
        await until_seen(pilot, "Look round again before dark, all · every day", "14 done")
        await press(pilot, "escape")
        await until_seen(pilot, "Enter opens   Left, Right: other weeks")
        await press(pilot, "left")
        await until_seen(pilot, "Quillet Bank, 2026-04-14 to 2026-07-14")
        await press(pilot, "right", "q")
        assert isinstance(pilot.app.screen, Frame)


async def test_where_a_person_stands_it_is_told_of_that_unit(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "3", "T")
        await until_seen(pilot, "TEAL, 2026-07-15 to 2026-10-14")
        assert all(line.startswith("TEAL") for line in lines(pilot))
        await press(pilot, "escape", "o")
        await until_seen(pilot, "TEAL, 14 days from Wed 2026-10-14")
        await press(pilot, "escape", "m")
        await until_seen(pilot, "October 2026, TEAL:")


async def test_the_days_ahead_are_read_line_by_line_and_fortnight_by_fortnight(
    demo_place: str, demo_store: Store
) -> None:
    add_chore(demo_store, NewChore("Oil the hinge", "once", on(10, 15), minutes=7), by="Ada")
    async with running(demo_place) as pilot:
        await press(pilot, "o")
        await until_seen(pilot, "14 days from Wed 2026-10-14", "late", "Feed the fish (3)")
        assert len(lines(pilot)) == 14
        await press(pilot, "down")
        await until_seen(pilot, "Oil the hinge")
        await press(pilot, "right")
        await until_seen(pilot, "14 days from Wed 2026-10-28")
        await press(pilot, "home")
        await until_seen(pilot, "14 days from Wed 2026-10-14")


async def test_months_are_walked_through(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "m")
        await until_seen(pilot, "October 2026, Quillet Bank:", ">14", "~", "late", "Sun")
        await press(pilot, "right", "right")
        await until_seen(pilot, "December 2026, Quillet Bank:")
        await until(pilot, lambda: "late" not in on_screen(pilot.app), "nothing is late ahead")
        await press(pilot, "left", "left", "left")
        await until_seen(pilot, "September 2026, Quillet Bank:")
        await press(pilot, "home")
        await until_seen(pilot, "October 2026, Quillet Bank:")
        await pilot.resize_terminal(60, 20)
        await until_seen(pilot, "! late; > today")


async def test_a_farm_without_chores_says_so_in_each(sqlite_store: Store) -> None:
    open_farm(sqlite_store, NewFarm("Bare Hill", US, "UTC", stands_on=on(10, 14)), by="Ada")
    async with running(sqlite_store.place) as pilot:
        await press(pilot, "o")
        await until_seen(pilot, "14 days from Wed 2026-10-14: nothing expected", "A unit brings its chores along")
        await press(pilot, "escape", "m")
        await until_seen(pilot, "October 2026, Bare Hill: nothing")
        await press(pilot, "escape", "T")
        await until_seen(pilot, "Nothing was settled.")
        await press(pilot, "escape", "t")
        await until_seen(pilot, "Nothing was settled.")
