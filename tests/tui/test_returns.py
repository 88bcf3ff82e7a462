"""Returns on the screen: two side by side, the order of units, earned back, pictures below, a span of one's own."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.model.errors import NotUnderstood
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports.comparing import Compared
from farmops.reports.returns import Asked, returns
from farmops.reports.spread import Spread, Sure
from farmops.reports.weeks import Series
from farmops.tui.screens.own_span import days_of
from farmops.tui.screens.returns_below import SOME_COMPARED, notes, some_bars, words_of
from farmops.tui.widgets.pictures import Stack
from tests.farmhand import TODAY as FARM_DAY
from tests.farmhand import a_bed, a_chore, a_crop, a_unit, on, open_farm, pay, plant, price, settle, weigh
from tests.tui.demo import LARGE, go_to, on_screen, press, running, seen, until_seen

TODAY = date(2026, 10, 14)


def test_of_many_units_the_bars_are_of_those_that_cost_most_and_of_many_months_the_last() -> None:
    bars = [Stack(f"U{at}", (float(at),), "") for at in (5, 3, *range(6, 18))]
    units, of_units = some_bars(bars, in_time=False)
    assert [one.name for one in units] == [f"U{at}" for at in range(17, 5, -1)]
    assert of_units == ", the 12 units that cost most"
    assert some_bars(bars, in_time=True) == (bars[2:], ", the last 12")
    assert some_bars(bars[:12], in_time=False) == (bars[:12], "")


def test_where_not_all_units_are_compared_that_is_said_before_the_verdicts() -> None:
    weeks = Series("U1", {})
    verdict = Compared("CHARD", "", "U1", "U2", 0, 0, True, None, (weeks, weeks), ((), ()), "Too few weeks")
    told = words_of((), Sure({f"U{at}": Spread(f"U{at}", 0, 1) for at in range(41)}, (verdict,)), None, US)
    assert told == [SOME_COMPARED, "CHARD: not enough records. Too few weeks."]


async def test_two_units_stand_side_by_side_on_a_narrow_terminal(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "c", "1")
        await until_seen(pilot, "WREN against ROOK", "value per area")
        assert [line.split()[0] for line in seen(pilot.app) if line.count("per sq ft") == 2] == ["yield", "value"]


async def test_two_units_side_by_side_with_a_verdict(demo_place: str) -> None:
    async with running(demo_place, size=LARGE) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "c")
        await until_seen(pilot, "Compare WREN with", "3 PLOVER")
        await press(pilot, "3")
        await until_seen(pilot, "WREN against PLOVER", "over operating", "CHARD: WREN is clearly better than PLOVER")
        await press(pilot, "escape", "r")
        await until_seen(pilot, "best first", "as the farm is set", "prices a fifth lower")
        await press(pilot, "escape", "p")
        await until_seen(pilot, "took to build", "rate of return", "SISKIN")


@pytest.mark.parametrize(
    ("keys", "name"),
    [(("r",), "net return of WREN, as the farm is set"), (("c", "1"), "CELERY of WREN a week")],
)
async def test_the_order_and_a_comparison_open_into_their_numbers(
    demo_place: str, keys: tuple[str, ...], name: str
) -> None:
    async with running(demo_place, size=(120, 40)) as pilot:
        await go_to(pilot, "returns")
        for key in keys:
            await press(pilot, key)
        await until_seen(pilot, "Esc back")
        await press(pilot, "w")
        await until_seen(pilot, name)
        await press(pilot, "enter")
        await until_seen(pilot, f"{name}: ", "= ")


async def test_one_unit_alone_has_no_second_one_to_be_compared_with(sqlite_store: Store) -> None:
    open_farm(sqlite_store)
    unit = a_unit(sqlite_store)
    bed, crop = a_bed(sqlite_store, unit), a_crop(sqlite_store, "OKRA")
    weigh(sqlite_store, plant(sqlite_store, bed, crop), "1 lb", FARM_DAY)
    async with running(sqlite_store.place) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "c")
        await until_seen(pilot, "There is no second unit to compare WREN with.")


async def test_what_is_missing_on_a_new_farm_names_its_next_step_and_the_step_leads_there(sqlite_store: Store) -> None:
    open_farm(sqlite_store)
    planting = plant(sqlite_store, a_bed(sqlite_store, a_unit(sqlite_store)), a_crop(sqlite_store, "OKRA"))
    weigh(sqlite_store, planting, "1 lb", FARM_DAY)
    async with running(sqlite_store.place, size=LARGE) as pilot:
        await go_to(pilot, "returns")
        await until_seen(pilot, "no list price for OKRA on some days; enter one with farmops prices add, or F5, g, l.")
        await go_to(pilot, "money")
        await press(pilot, "g", "l")
        await until_seen(pilot, "New price")


def test_an_hour_that_cannot_be_priced_says_why_below(sqlite_store: Store) -> None:
    open_farm(sqlite_store)
    unit = a_unit(sqlite_store)
    chard = a_crop(sqlite_store)
    planting = plant(sqlite_store, a_bed(sqlite_store, unit), chard)
    price(sqlite_store, chard, "3/lb")
    pay(sqlite_store, "5", on(6, 1), unit=unit)
    weigh(sqlite_store, planting, "1 lb", on(6, 13))
    asked = Asked(FARM_DAY, on(6, 1), on(6, 30))
    assert "WREN: no minutes are booked for it." in notes(returns(sqlite_store, asked), US)
    chore = a_chore(sqlite_store, "Prune", "day", on(6, 14), unit_id=unit.id)
    settle(sqlite_store, chore, on(6, 14), minutes=20)
    few = "WREN: not enough records: minutes are booked on 1 of 30 days, and an hour is priced from one in 4."
    assert few in notes(returns(sqlite_store, asked), US)


async def test_pictures_follow_each_other_below_and_stand_together_where_there_is_room(demo_place: str) -> None:
    async with running(demo_place, size=(60, 20)) as pilot:
        await go_to(pilot, "returns")
        for words in (
            "What the cost is made up of",
            "Produce of WREN, every week",
            "What a lb of produce cost, the farm",
        ):
            await press(pilot, "b")
            await until_seen(pilot, words)
        assert "USD/lb" in on_screen(pilot.app)
    async with running(demo_place, size=(120, 50)) as pilot:
        await go_to(pilot, "returns")
        await until_seen(pilot, "clearly better", "What the cost is made up of", "every week", "month by month")


async def test_where_nothing_is_drawn_it_is_told_why_and_what_was_asked_is_never_cut(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, *"gggbb")
        await until_seen(pilot, "Weeks are drawn of produce, not of fish; g shows")
        await press(pilot, *"ss")
        await until_seen(pilot, "most produce first · w opens cost per weight")


async def test_a_span_of_ones_own_is_typed_and_left_again(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await go_to(pilot, "returns")
        await press(pilot, "T", *"soon", "enter")
        await until_seen(pilot, "! Type two days with to between them")
        await press(pilot, *["backspace"] * 4, *"2025", "enter")
        await until_seen(pilot, "2025-01-01 to 2025-12-31 · full cost")
        await press(pilot, "t")
        await until_seen(pilot, "this year · full cost")


def test_spans_as_people_type_them():
    assert days_of("1 mar to 14 oct", TODAY) == (date(2026, 3, 1), TODAY)
    assert days_of(" 2025 ", TODAY) == (date(2025, 1, 1), date(2025, 12, 31))
    with pytest.raises(NotUnderstood, match="before it begins"):
        days_of("2026-10-01 to 2026-03-01", TODAY)
    with pytest.raises(NotUnderstood):
        days_of("soon to later", TODAY)
