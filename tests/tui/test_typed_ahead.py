"""Keys that come faster than the store writes: each goes where it is meant, and undo knows what came just before."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from farmops.farm import chores, harvests
from farmops.model.errors import Refused
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import round_of
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.weigh import Weigh
from tests.tui.demo import go_to_chore, on_screen, press, running, until, until_seen


def weighed(store: Store) -> list[tuple[str, str | None]]:
    """What was weighed today."""
    today = lists.farm(store).today()
    return [(one.mass_typed, one.what) for one in lists.harvests(store, today, today)]


async def test_a_whole_basket_typed_in_one_go_lands_bowl_by_bowl(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "h", *".2", "enter", *"cel", "enter", *"1", "enter", *".9", "enter")
        await until_seen(pilot, "Booked: 14.4 oz CELERY from WREN-S")
    assert weighed(demo_store) == [(".2", "MINT"), ("1", "CELERY"), (".9", "CELERY")]


async def test_undo_waits_for_what_was_entered_just_before(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    held, settle_many = threading.Event(), chores.settle_many

    def slowly(*entries: Any, **options: Any) -> Any:
        held.wait()
        return settle_many(*entries, **options)

    monkeypatch.setattr(chores, "settle_many", slowly)
    before = round_of(demo_store).due
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, "Feed the fish")
        await pilot.press("space", "a", "u")
        held.set()
        await until_seen(pilot, "Taken back: settle")
    assert round_of(demo_store).due == before
    assert lists.journal(demo_store, 1)[0].name == "undo"


async def test_who_leaves_the_scale_while_it_books_is_told_what_was_refused(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = threading.Event()

    def refuse(*_: Any, **__: Any) -> None:
        held.wait()
        raise Refused("Not booked: the scale is out of order.")

    monkeypatch.setattr(harvests, "record_harvest", refuse)
    async with running(demo_place) as pilot:
        await pilot.press("h", *".2", "enter")
        await until_seen(pilot, "Booking ...")
        await pilot.press("escape")
        held.set()
        await until_seen(pilot, "! .2: Not booked: the scale is out of order.", "Weight          .2")
        assert isinstance(pilot.app.screen, Weigh)
        monkeypatch.undo()
        await press(pilot, "enter", "escape")
        await until(pilot, lambda: isinstance(pilot.app.screen, Frame), "the round")
        await until_seen(pilot, "Booked: 3.2 oz MINT")
    assert weighed(demo_store) == [(".2", "MINT")]


async def test_a_weight_far_from_the_usual_is_asked_about_and_enter_books_it(
    demo_place: str, demo_store: Store
) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "h", "8", "enter")
        await until_seen(pilot, "! 8: Not booked yet: 8 lb is far from the", "Weight          8")
        assert weighed(demo_store) == []
        await press(pilot, "enter")
        await until_seen(pilot, "Booked: 8 lb MINT")
    assert weighed(demo_store) == [("8", "MINT")]


async def test_fish_are_weighed_whole_and_dressed_and_produce_has_no_such_field(
    demo_place: str, demo_store: Store
) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "h")
        await until_seen(pilot, "Weigh a harvest")
        assert "Dressed" not in on_screen(pilot.app)
        await press(pilot, *"perch-24", "enter", *"11oz", "tab", "tab", "tab", *"2", "tab")
        await until_seen(pilot, "Dressed", "gutted, if weighed")
        await press(pilot, *"8oz", "enter")
        await until_seen(pilot, "Booked: 11 oz PERCH-24")
        await press(pilot, *"chard", "enter")
        await until_seen(pilot, "CHARD now")
        assert "Dressed" not in on_screen(pilot.app)
    today = lists.farm(demo_store).today()
    booked = lists.harvests(demo_store, today, today)[-1]
    assert (booked.number, booked.mass_typed, booked.dressed_typed) == (2, "11oz", "8oz")


async def test_letters_that_name_nothing_are_told_and_kept(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "h", *"quince", "enter")
        await until_seen(pilot, "There is no 'quince' here.", "Weight          quince")
        assert "Booked" not in on_screen(pilot.app)
    assert weighed(demo_store) == []
