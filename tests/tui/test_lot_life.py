"""Enter on a fish lot: its numbers, its growth drawn, and the book of what happened, to be put right there."""

from __future__ import annotations

from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.fish_book import book
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.lot_life import LotLife
from farmops.tui.screens.why import Why
from farmops.tui.widgets.forms import FormScreen
from farmops.tui.widgets.listing import Listing
from tests.tui.demo import go_to, listing_of, press, running, until, until_seen


async def test_a_lot_is_opened_its_numbers_too_and_an_entry_is_put_right(demo_place: str, demo_store: Store) -> None:
    lot = lists.fish_lots(demo_store)[0]
    last = book(demo_store, lot.id)[-1]
    async with running(demo_place) as pilot:
        await go_to(pilot, "fish")
        await until(pilot, lambda: listing_of(pilot.app).go_to(f"fish {lot.id}"), "the lot")
        await press(pilot, "enter")
        await until_seen(pilot, "In numbers", "fish alive", "feed conversion", "known")
        assert isinstance(pilot.app.screen, LotLife)
        await press(pilot, "enter")
        await until_seen(pilot, "= came in - gone")
        assert isinstance(pilot.app.screen, Why)
        await press(pilot, "escape")
        found = pilot.app.screen.query_one(Listing)
        await until(pilot, lambda: found.go_to(f"feeding {last.id}"), "the last feeding")
        await press(pilot, "enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen), "the form")
        await press(pilot, "tab", "n", "f2")
        await until_seen(pilot, f"Feeding of {lot.code} changed.")
        await press(pilot, "x")
        await until_seen(pilot, "Feeding removed. u brings it back.")
        await press(pilot, "escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, Frame), "back")
    assert last.id not in [one.id for one in book(demo_store, lot.id)]
