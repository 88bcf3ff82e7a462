"""The balance of a unit on the screen: what is out of range, which way to move, and every number opened."""

from __future__ import annotations

from farmops.tui.screens.balance import BalanceScreen, told_here
from farmops.tui.screens.why import Why
from tests.tui.demo import SMALL, go_to, press, running, seen, until_seen


async def test_a_unit_is_weighed_up_and_its_numbers_open(demo_place: str) -> None:
    async with running(demo_place, size=SMALL) as pilot:
        await go_to(pilot, "fish")
        await press(pilot, "1")
        await until_seen(pilot, "Living here", "┏ 1 ━")
        await press(pilot, "b")
        await until_seen(pilot, "Out of range: feed per bed area", "too little")
        assert isinstance(pilot.app.screen, BalanceScreen)
        assert any("The beds could use more" in line for line in seen(pilot.app))
        await press(pilot, "enter")
        await until_seen(pilot, "feed a day ÷ bed area")
        assert isinstance(pilot.app.screen, Why)
        await press(pilot, "escape", "escape")
        await until_seen(pilot, "Living here")


def test_what_is_missing_is_told_with_the_key_that_books_it() -> None:
    assert told_here("no feed is booked in these weeks: farmops fish fed LOT WEIGHT") == (
        "no feed is booked in these weeks: f on a lot in Fish & water"
    )
    assert (
        told_here("the flow was not read: farmops water add U1 flow 250") == "the flow was not read: r in Fish & water"
    )
    assert told_here("17.3 g per m2 a day") == "17.3 g per m2 a day"
    assert told_here("no size: farmops beds size N 2") == "no size: farmops beds size N 2"
