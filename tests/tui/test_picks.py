"""The pick list on the screen: what is ordered and where it is; a key books the sale, another a part of it."""

from __future__ import annotations

import pytest

from farmops.records.store import Store
from farmops.reports import lists, selling
from farmops.reports.picks import picks
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.picks import Picks
from farmops.tui.widgets.listing import Line, Listing
from farmops.tui.widgets.sale_lines import Ordered, pick_lines
from tests.farmhand import TODAY, a_crop, on, order, plant
from tests.tui.demo import Driver, press, running, seen, until, until_seen


@pytest.fixture
def ordered(demo_store: Store) -> Store:
    """The inn wants sorrel on Wednesdays, and sorrel stands in one bed."""
    sorrel = a_crop(demo_store, "SORREL")
    plant(demo_store, lists.beds(demo_store)[0].bed, sorrel, on(8, 1))
    order(demo_store, "the inn", sorrel, "2 lb at 3.25/lb", "Wed", on(9, 2))
    return demo_store


async def stand_on_order_of(pilot: Driver, buyer: str) -> None:
    """Walk down to the first order of a buyer, from wherever the cursor is."""
    listing = pilot.app.screen.query_one(Listing)
    await until(pilot, lambda: listing.current, "the list")
    for _ in range(60):
        data = listing.current.data if listing.current else None
        if isinstance(data, Ordered) and data.wanted.order.buyer == buyer:
            return
        await press(pilot, "down")
    raise AssertionError("\n".join([f"no order of {buyer}", *seen(pilot.app)]))


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (60, 20)], ids=["80x24", "120x40", "60x20"])
async def test_space_books_the_sale_and_escape_comes_back(
    demo_place: str, ordered: Store, size: tuple[int, int]
) -> None:
    async with running(demo_place, size=size) as pilot:
        await press(pilot, "f5", "k")
        await until_seen(pilot, "Pick list for Wed 14 Oct 2026", "Esc back")
        assert any(line.endswith("Y file   Esc back") for line in seen(pilot.app))
        await stand_on_order_of(pilot, "the inn")
        await until_seen(pilot, "2 lb for the inn")
        assert all(len(line) <= size[0] for line in seen(pilot.app))
        await press(pilot, "space")
        await until_seen(pilot, "to the inn booked", "sold: sale")
        await press(pilot, "space")
        await until_seen(pilot, "It is filled: sale")
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, Frame)
    sale = selling.sales(ordered, TODAY, TODAY)[-1]
    assert (sale.buyer, sale.paid_minor) == ("the inn", 650)


async def test_enter_fills_a_part_and_other_days_have_their_own_lists(demo_place: str, ordered: Store) -> None:
    async with running(demo_place, size=(80, 24)) as pilot:
        await press(pilot, "f5", "k")
        await until_seen(pilot, "Pick list for Wed 14 Oct 2026")
        await stand_on_order_of(pilot, "the inn")
        await until_seen(pilot, "2 lb for the inn")
        await press(pilot, "enter")
        await until_seen(pilot, "SORREL for the inn, 2026-10-14")
        await press(pilot, *["backspace"] * 20, *"1 lb for 3", "f2")
        await until(pilot, lambda: isinstance(pilot.app.screen, Picks), "the pick list again")
        await until_seen(pilot, "1 lb left to fill")
        await press(pilot, "right")
        await until_seen(pilot, "Pick list for Thu 15 Oct 2026 Nothing is ordered")
        screen = pilot.app.screen
        assert isinstance(screen, Picks)
        assert screen.found is not None
        assert screen.found.ordered == ()
        assert not any("for the inn" in line for line in seen(pilot.app)[1:10])


def test_what_is_held_is_marked_where_the_line_begins(demo_store: Store) -> None:
    marked = [
        line.cells for line in pick_lines(picks(demo_store)) if isinstance(line, Line) and "HELD" in line.cells[1]
    ]
    assert marked
    assert {state for state, _ in marked} == {"HELD"}
