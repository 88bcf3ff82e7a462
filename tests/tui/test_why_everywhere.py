"""`w` on every line of every place: figures that add up, or words that say why there is nothing to open."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest
from textual.screen import Screen

from farmops.figures import RecordLine
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.behind import Behind, behind
from farmops.reports.round import round_of
from farmops.tui.screens import beds, fish, money
from farmops.tui.screens.chore_past import ChorePast
from farmops.tui.screens.load import LoadAhead
from farmops.tui.screens.lot_trace import LotTrace
from farmops.tui.screens.month import MonthGlance
from farmops.tui.screens.picks import Picks
from farmops.tui.screens.record_kinds import KINDS
from farmops.tui.screens.series import Series
from farmops.tui.screens.why import Why
from farmops.tui.widgets.label_lines import LabelYears
from farmops.tui.widgets.listing import Listing
from tests.farmhand import TODAY
from tests.land import Land
from tests.tui.demo import LARGE, go_to, listing_of, press, running, until, until_idle, until_seen

PER_TYPE = 2
ON_A_DISK = ("backups",)
"""Kinds that lie beside the store, not in it."""
OPENED = {"FishLot", "Planting", "Bed", "Unit", "Supply", "PlaceUse", "Sale", "CostLabel"}
"""What figures stand behind; a weighing where there was a tare, too."""


def listed(store: Store) -> Iterator[object]:
    """What the lines of all places stand for; those of Returns hold their figures themselves."""
    for section in round_of(store, TODAY).sections:
        yield from section.items
    standing = beds.read(store, on=TODAY, unit=None)
    yield from (*standing.plantings, *(one.bed for one in standing.beds))
    water = fish._lots_and_water(store)
    yield from (*water.lots, *(one.reading for one in water.waters.lines(None)), *water.cycling)
    yield from (one.instrument for one in water.instruments)
    books = money.read(store, first=TODAY - timedelta(days=money.DAYS_BACK), last=TODAY, unit=None)
    yield from (*books.costs, *books.sales, *books.prices, *books.power, *books.orders, *books.recurring)
    yield from (*(one.supply for one in books.supplies), *books.sharing.drivers, *books.sharing.rates)
    for kind in (one for one in KINDS if one.name not in ON_A_DISK):
        data = [kind.line(one, US).data for one in kind.read(store, TODAY, None)]
        yield from (one.now.label if isinstance(one, LabelYears) else one for one in data)


def some_of_each(store: Store) -> list[object]:
    """A few records of every type that is listed."""
    found: dict[type, list[object]] = {}
    for one in listed(store):
        held = found.setdefault(type(one), [])
        if len(held) < PER_TYPE:
            held.append(one)
    return [one for held in found.values() for one in held]


def test_behind_every_line_are_figures_that_add_up_or_words(laid: Land) -> None:
    opened = set()
    for record in some_of_each(laid.store):
        answer = behind(record, laid.store, TODAY)
        if isinstance(answer, Behind):
            opened.add(type(record).__name__)
            parts = [part for figure in answer.figures for part in figure.walk()]
            assert [f"{record}: {part.name}" for part in parts if not part.adds_up()] == []
        else:
            assert answer.endswith("."), record
    assert opened == OPENED


def test_a_weighing_with_a_tare_opens_into_what_was_on_the_scale(laid: Land) -> None:
    weighed = lists.harvests(laid.store, date.min, TODAY)[0]
    answer = behind(replace(weighed, tare_mg=1000, tare_typed="1 g"), laid.store, TODAY)
    assert isinstance(answer, Behind)
    (net,) = answer.figures
    assert (net.value, net.adds_up()) == (weighed.mass_mg, True)
    assert [part.value for part in net.parts] == [weighed.mass_mg + 1000, 1000]


async def test_w_opens_several_numbers_one_by_one_or_says_why_not(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "fish")
        await press(pilot, "w")
        await until_seen(pilot, "PERCH-24 on 2026-10-14", "fish alive ›")
        await press(pilot, "enter")
        await until_seen(pilot, "= came in - gone")
        await press(pilot, "escape")
        await until_seen(pilot, "PERCH-24 on 2026-10-14")
        assert isinstance(pilot.app.screen, Why)
        await press(pilot, "escape")
        await go_to(pilot, "money")
        await press(pilot, "w")
        await until_seen(pilot, "was typed, not worked out.")


async def test_enter_on_a_record_goes_to_it_in_its_list(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "full_stop", "w")
        await until_seen(pilot, "produce of WREN that counts", "(home)")
        record = pilot.app.screen.query_one(Listing).current
        assert record is not None
        assert isinstance(record.data, RecordLine)
        await press(pilot, "enter")
        await until_seen(pilot, "[Harvests]")
        key = f"harvests {record.data.id}"
        await until(pilot, lambda: (line := listing_of(pilot.app).current) and line.key == key, "the weighing")


@pytest.mark.parametrize(
    ("place", "keys", "words"),
    [
        ("chores", ("o",), "The minutes are those"),
        ("chores", ("m",), "Counted from the chores"),
        ("chores", ("T",), "Counted from the doings"),
        ("money", ("k",), "Wanted is what the orders"),
        ("records", ("t",), "Every line is a record"),
        ("returns", ("r",), "Net return and cost per weight"),
        ("returns", ("p",), "Earned back"),
    ],
)
async def test_w_answers_on_what_lies_over_a_place(
    demo_place: str, place: str, keys: tuple[str, ...], words: str
) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, place)
        frame = pilot.app.screen
        await press(pilot, *keys)
        await until(pilot, lambda: pilot.app.screen is not frame)
        await until_idle(pilot)
        await press(pilot, "w")
        await until_seen(pilot, words)


async def test_the_order_of_the_units_says_which_key_opens_its_numbers(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "r")
        await until_seen(pilot, "Up, Down: scroll   w why   Y file   Esc back")


@pytest.mark.parametrize("screen", [ChorePast, LoadAhead, LotTrace, MonthGlance, Picks, Series])
def test_what_lies_over_a_place_has_the_styles_of_a_screen(screen: type[Screen[object]]) -> None:
    """Without them a word that is selected by a double click could not be drawn."""
    assert "screen--selection" in screen._get_component_classes()
