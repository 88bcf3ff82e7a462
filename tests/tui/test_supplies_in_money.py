"""Supplies and power in Money: lines that say what is held and used, and one key for each thing done with them."""

from __future__ import annotations

from farmops.farm.costs import record_cost
from farmops.farm.power import add_device, set_power_price
from farmops.farm.supplies import add_supply, buy_supply
from farmops.model.costs import Category, NewCost
from farmops.model.power import NewDevice, NewPowerPrice
from farmops.model.supplies import Movement, NewSupply, NewSupplyLot
from farmops.model.values import Measured
from farmops.records.store import Store
from farmops.reports.supplies_held import supplies_held, taken
from farmops.tui.forms import edit_form, load_context
from tests.farmhand import mass, money, on
from tests.tui.demo import go_to, listing_of, press, running, until, until_seen
from tests.tui.stage import TODAY, Stage, screen_text, settle_down


def stocked(store: Store) -> None:
    """Crumbs that run low and are past their date, and a lamp that all units share."""
    feed = add_supply(store, NewSupply("crumbs", category=Category.FEED, reorder=mass("30 lb")), by="Ada")
    bag = NewSupplyLot(feed.id, on(9, 20), mass("20 lb"), money("24"), expires_day=on(10, 1))
    buy_supply(store, bag, by="Ada")
    set_power_price(store, NewPowerPrice(on(1, 1), 20, 1000, "0.20"), by="Ada")
    add_device(store, NewDevice("lamp", Measured(50_000, "50 W"), on(1, 1)), by="Ada")


async def test_supplies_are_used_and_counted_from_their_line(demo_place: str, demo_store: Store) -> None:
    stocked(demo_store)
    async with running(demo_place, size=(120, 60)) as pilot:
        await go_to(pilot, "money")
        await press(pilot, "minus")
        await until_seen(pilot, "Stand on the line of a supply for that. S enters a new one.")
        await press(pilot, "/", *"crumbs: 20", "enter")
        await until_seen(pilot, "crumbs: 20 lb", "$24.00", "past its date, reorder")
        assert "crumbs: 20 lb" in str(listing_of(pilot.app).current)
        await press(pilot, "minus", *"8 lb", "f2")
        await until_seen(pilot, "8 lb of crumbs used")
        await press(pilot, "equals_sign", *"11 lb", "f2")
        await until_seen(pilot, "11 lb of crumbs counted")
        await press(pilot, "plus")
        await until_seen(pilot, "crumbs bought", "the number on the bag")
        await press(pilot, "escape")
    assert [one.kind for one in taken(demo_store) if one.supply == "crumbs"] == [Movement.COUNTED, Movement.USED]
    assert next(one for one in supplies_held(demo_store) if one.supply.name == "crumbs").held == mass("11 lb").exact


async def test_power_of_the_last_days_stands_in_money_and_opens_the_meter(demo_place: str, demo_store: Store) -> None:
    stocked(demo_store)
    async with running(demo_place, size=(120, 60)) as pilot:
        await go_to(pilot, "money")
        await press(pilot, "/", *"kwh", "enter")
        await until_seen(pilot, "36.0 kWh by rated watts", "$7.20")
        await press(pilot, "e")
        await until_seen(pilot, "Meter of power of the farm", "kilowatt-hours, such as 1234.5")
        await press(pilot, "escape")
        await until(pilot, lambda: "kWh" in str(listing_of(pilot.app).current))


async def test_a_bag_among_the_costs_already_is_asked_about_once(stage_store: Store) -> None:
    crumbs = add_supply(stage_store, NewSupply("crumbs", category=Category.FEED), by="Ada")
    record_cost(stage_store, NewCost(TODAY, "crumbs 20 lb", money("31.40")), by="Ada")
    stage = Stage(stage_store, edit_form("buy", crumbs, load_context(stage_store)))
    async with stage.run_test(size=(120, 40)) as pilot:
        stage.form.box("amount").text = "20 lb"
        stage.form.box("paid").text = "31.40"
        stage.form.action_book()
        await settle_down(pilot)
        assert "for crumbs 20 lb is booked for 2026-10-14" in " ".join(" ".join(screen_text(pilot.app)).split())
        assert stage.said == []
        stage.form.action_book()
        await settle_down(pilot)
    assert stage.said == ["20 lb of crumbs bought."]
