"""What happened bears a day that has come on the farm, by its own zone; money may be paid ahead, and is asked about."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from farmops.farm import (
    chores,
    costs,
    doses,
    fish_corrections,
    fish_events,
    harvests,
    instruments,
    power,
    readings,
    sales,
    sources,
    supplies,
    transfers,
    usage,
)
from farmops.farm.plantings import plant
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import OutOfRange, Unlikely
from farmops.model.harvests import NewHarvest
from farmops.model.plantings import NewPlanting
from farmops.records.store import Store
from tests.farm.cases import CASES, Case
from tests.farm.test_rules import refuses
from tests.farmhand import ADA, a_bed, a_crop, a_unit, mass, on, open_farm
from tests.frozen import frozen
from tests.land import Land

TOMORROW = on(10, 15)
HAPPENED: tuple[Any, ...] = (
    harvests.record_harvest,
    harvests.change_harvest,
    readings.record_readings,
    readings.change_reading,
    instruments.check_instrument,
    instruments.change_check,
    doses.record_dose,
    doses.change_dose,
    sources.record_top_up,
    sources.change_top_up,
    usage.record_usage,
    usage.change_usage,
    power.read_meter,
    fish_events.weigh_sample,
    fish_events.record_loss,
    fish_events.record_feeding,
    fish_corrections.change_sample,
    fish_corrections.change_loss,
    fish_corrections.change_feeding,
    fish_corrections.change_transfer,
    transfers.transfer,
    transfers.split,
    supplies.buy_supply,
    supplies.change_bought,
    supplies.use_supply,
    supplies.change_use,
    sales.record_sale,
    sales.change_sale,
)


@pytest.mark.parametrize("case", [pytest.param(one, id=one.words) for one in CASES if one.function in HAPPENED])
def test_what_happened_cannot_bear_a_day_to_come(laid: Land, case: Case) -> None:
    words = "2026-10-15 is still to come; on the farm (America/New_York) it is 2026-10-14. Book it on its day"
    refuses(laid, OutOfRange, words, case.function, replace(case.entry(laid), day=TOMORROW))


def test_each_of_them_has_a_case_here() -> None:
    assert {one.function for one in CASES} >= set(HAPPENED)


def test_a_chore_is_not_done_before_its_day_but_left_out_ahead(land: Land) -> None:
    ahead = Settling(land.sweep.id, SettledAs.DONE, TOMORROW)
    refuses(land, OutOfRange, "2026-10-15 is still to come", chores.settle, ahead)
    chores.settle(land.store, replace(ahead, kind=SettledAs.SKIPPED, reason="away"), by=ADA)


def test_money_dated_ahead_is_asked_about_once(land: Land) -> None:
    case = next(one for one in CASES if one.function is costs.record_cost)
    ahead = replace(case.entry(land), day=TOMORROW, again=False)
    words = "Not booked yet: 2026-10-15 is still to come. Is it paid for that day already?"
    refuses(land, Unlikely, words, costs.record_cost, ahead)
    assert costs.record_cost(land.store, replace(ahead, again=True), by=ADA).day == TOMORROW


def test_what_is_planned_may_bear_a_day_to_come(land: Land) -> None:
    assert plant(land.store, NewPlanting(land.south.id, land.chard.id, TOMORROW), by=ADA).started_day == TOMORROW


@pytest.mark.parametrize(("zone", "today"), [("Pacific/Auckland", on(10, 15)), ("Pacific/Honolulu", on(10, 14))])
def test_the_day_is_that_of_the_farm_wherever_the_machine_stands(store: Store, zone: str, today: date) -> None:
    open_farm(store, zone=zone)
    bed = a_bed(store, a_unit(store))
    chard = plant(store, NewPlanting(bed.id, a_crop(store).id, on(9, 1)), by=ADA)
    with frozen("2026-10-14", at="20:00"):
        harvests.record_harvest(store, NewHarvest(today, mass("1 lb"), chard.id), by=ADA)
        late = NewHarvest(today.replace(day=today.day + 1), mass("1 lb"), chard.id)
        with pytest.raises(OutOfRange, match=f"still to come; on the farm .{zone}. it is {today}"):
            harvests.record_harvest(store, late, by=ADA)
