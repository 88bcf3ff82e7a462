"""What the farm refuses, in which words, and that nothing is changed by it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from farmops.farm import beds, chores, costs, farm, fish, harvests, plantings, removal, units
from farmops.model.beds import BedChange, NewBed, NewBedSize
from farmops.model.chores import ChoreChange, ChoreClass, NewChore, NewPause, Resuming, SettledAs, Settling
from farmops.model.costs import CostChange, CostKind, NewCost, NewPrice
from farmops.model.errors import FarmopsError, NotFound, NotUnderstood, OutOfRange, Refused
from farmops.model.farm import FarmChange, NewPerson, PersonChange
from farmops.model.fish import FishLotChange, NewFishLot
from farmops.model.harvests import HarvestChange, NewHarvest
from farmops.model.journal import Removal
from farmops.model.plantings import CropChange, NewCrop, NewPlanting, PlantingChange
from farmops.model.units import NewState, NewUnit, UnitChange, UnitState
from farmops.model.values import Measured
from farmops.quantities import METRIC
from farmops.records.store import Store
from tests.farmhand import ADA, a_chore, area, counted, enters, everything_stored, mass, money, on, settle, stock
from tests.land import Land

NEXT_YEAR, LONG_AGO = date(2027, 10, 16), date(1899, 12, 31)
FLOW = "flow seen"


def refuses(land: Land, kind: type[FarmopsError], words: str, function: Any, entry: Any) -> None:
    """The operation is refused in these words; rows and journal stay as they were."""
    before = everything_stored(land.store), counted(land.store)
    with pytest.raises(kind) as told:
        function(land.store, entry, by=ADA)
    assert type(told.value) is kind
    assert words in str(told.value)
    assert (everything_stored(land.store), counted(land.store)) == before


Refusal = tuple[str, type[FarmopsError], str, Any, Callable[[Land], Any]]


def _weigh(weight: int = 1000, day: date = date(2026, 9, 9), **more: Any) -> Callable[[Land], NewHarvest]:
    return lambda land: NewHarvest(day, Measured(weight, "typed"), **(more or {"planting_id": land.kale_north.id}))


WEIGHINGS: list[Refusal] = [
    (
        "before the planting started",
        Refused,
        "KALE in WREN-N started on 2026-08-05, after 2026-08-04",
        harvests.record_harvest,
        _weigh(day=on(8, 4)),
    ),
    (
        "after it was cleared",
        Refused,
        "CHARD in WREN-N was cleared on 2026-08-01. Start a new planting, or change the date.",
        harvests.record_harvest,
        lambda land: NewHarvest(on(8, 2), mass("1 lb"), land.old_chard.id),
    ),
    (
        "before the fish came",
        Refused,
        "PERCH-24 was stocked on 2026-04-15, after 2026-04-14",
        harvests.record_harvest,
        lambda land: NewHarvest(on(4, 14), mass("1 lb"), fish_lot_id=land.perch.id),
    ),
    (
        "after the fish were gone",
        Refused,
        "TROUT-1 was closed on 2026-09-15; no fish were left after that",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 16), mass("1 lb"), fish_lot_id=land.trout.id),
    ),
    (
        "more fish than were stocked",
        Refused,
        "51 fish would be harvested from PERCH-24, more than the 50 stocked",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("9 lb"), fish_lot_id=land.perch.id, number=47),
    ),
    ("nothing", OutOfRange, "one weighing is more than nothing", harvests.record_harvest, _weigh(0)),
    ("less than nothing", OutOfRange, "one weighing is more than nothing", harvests.record_harvest, _weigh(-5)),
    ("a truckload", OutOfRange, "at most 2204 lb 10 oz", harvests.record_harvest, _weigh(1_000_000_001)),
    (
        "a tare below nothing",
        OutOfRange,
        "a tare is nothing or more",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("1 lb"), land.kale_north.id, tare=Measured(-1, "-1")),
    ),
    (
        "no pieces",
        OutOfRange,
        "0 is no count. Understood: 1 to 1,000,000.",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("1 lb"), land.kale_north.id, number=0),
    ),
    (
        "from two sources",
        Refused,
        "comes from one planting or from one fish lot",
        harvests.record_harvest,
        lambda land: NewHarvest(on(9, 9), mass("1 lb"), land.kale_north.id, land.perch.id),
    ),
    ("from nowhere", Refused, "comes from one planting", harvests.record_harvest, _weigh(planting_id=None)),
    ("from an unknown one", NotFound, "no planting 99", harvests.record_harvest, _weigh(planting_id=99)),
    ("from an unknown lot", NotFound, "no fish lot 99", harvests.record_harvest, _weigh(fish_lot_id=99)),
    ("long ago", OutOfRange, "before 1900 or more than a year ahead", harvests.record_harvest, _weigh(day=LONG_AGO)),
    ("far ahead", OutOfRange, "2027-10-16 is not a day to book on", harvests.record_harvest, _weigh(day=NEXT_YEAR)),
    (
        "corrected to far ahead",
        OutOfRange,
        "2027-10-16 is not a day to book on",
        harvests.change_harvest,
        lambda land: HarvestChange(land.weighing.id, day=NEXT_YEAR),
    ),
    (
        "corrected to nothing",
        OutOfRange,
        "one weighing is more than nothing",
        harvests.change_harvest,
        lambda land: HarvestChange(land.weighing.id, mass=Measured(0, "0")),
    ),
    (
        "corrected into another life",
        Refused,
        "KALE in WREN-N started on 2026-08-05, after 2026-05-20",
        harvests.change_harvest,
        lambda land: HarvestChange(land.weighing.id, planting_id=land.kale_north.id),
    ),
    (
        "one bad of several",
        Refused,
        "was cleared on 2026-08-01",
        harvests.record_harvests,
        lambda land: harvests.Batch((_weigh()(land), NewHarvest(on(8, 2), mass("1 lb"), land.old_chard.id))),
    ),
]
LIVES: list[Refusal] = [
    (
        "a planting after its weighings",
        Refused,
        "a weighing from it on 2026-05-20, before 2026-05-21",
        plantings.change_planting,
        lambda land: PlantingChange(land.old_chard.id, started_day=on(5, 21)),
    ),
    (
        "cleared before its weighings",
        Refused,
        "a weighing from it on 2026-06-20, after 2026-06-19",
        plantings.change_planting,
        lambda land: PlantingChange(land.old_chard.id, cleared_day=on(6, 19)),
    ),
    (
        "cleared before it started",
        Refused,
        "it would be cleared on 2026-08-04, before it started on 2026-08-05",
        plantings.change_planting,
        lambda land: PlantingChange(land.kale_north.id, cleared_day=on(8, 4)),
    ),
    (
        "a planting long ago",
        OutOfRange,
        "1899-12-31 is not a day",
        plantings.change_planting,
        lambda land: PlantingChange(land.kale_north.id, started_day=LONG_AGO),
    ),
    (
        "cleared far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        plantings.change_planting,
        lambda land: PlantingChange(land.kale_north.id, cleared_day=NEXT_YEAR),
    ),
    (
        "planted far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        plantings.plant,
        lambda land: NewPlanting(land.north.id, land.kale.id, NEXT_YEAR),
    ),
    (
        "no plants",
        OutOfRange,
        "0 is no number of plants. Understood: 1 to 1,000,000.",
        plantings.plant,
        lambda land: NewPlanting(land.north.id, land.kale.id, on(9, 1), plants=0),
    ),
    (
        "planted nowhere",
        NotFound,
        "no bed 99",
        plantings.plant,
        lambda land: NewPlanting(99, land.kale.id, on(9, 1)),
    ),
    (
        "fish after their weighings",
        Refused,
        "there are weighings from PERCH-24 between 2026-09-01 and 2026-09-01",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, stocked_day=on(9, 2)),
    ),
    (
        "fish gone before their weighings",
        Refused,
        "there are weighings from PERCH-24",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, closed_day=on(8, 31)),
    ),
    (
        "fish gone before they came",
        Refused,
        "would be closed on 2026-04-14, before stocking on 2026-04-15",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, closed_day=on(4, 14)),
    ),
    (
        "fish gone far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, closed_day=NEXT_YEAR),
    ),
    (
        "fewer fish than were taken",
        Refused,
        "4 fish were harvested from PERCH-24, more than 3 stocked",
        fish.change_lot,
        lambda land: FishLotChange(land.perch.id, number=3),
    ),
    (
        "no fish",
        OutOfRange,
        "0 is no number of fish. Understood: 1 to 1,000,000.",
        fish.stock,
        lambda land: NewFishLot("B-1", "bluegill", land.wren.id, on(9, 1), 0, mass("9 g")),
    ),
    (
        "fish without a species",
        NotUnderstood,
        "The species is empty",
        fish.stock,
        lambda land: NewFishLot("B-1", "  ", land.wren.id, on(9, 1), 3, mass("9 g")),
    ),
]
MONEY: list[Refusal] = [
    (
        "a thing without a life",
        Refused,
        "say how long it lasts",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL),
    ),
    (
        "feed with a life",
        Refused,
        "only what is bought to last has a life",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "feed", money("80"), life_months=3),
    ),
    (
        "worth more at the end",
        Refused,
        "lies between nothing and what was paid",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL, life_months=3, salvage_minor=8001),
    ),
    (
        "worth less than nothing at the end",
        Refused,
        "lies between nothing and what was paid",
        costs.change_cost,
        lambda land: CostChange(land.tank.id, salvage_minor=-1),
    ),
    (
        "made cheaper than its end",
        Refused,
        "lies between nothing and what was paid",
        costs.change_cost,
        lambda land: CostChange(land.tank.id, amount=money("39.99")),
    ),
    (
        "a life of no months",
        OutOfRange,
        "0 months is no life of a thing. Understood: 1 month to 100 years.",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", money("80"), kind=CostKind.CAPITAL, life_months=0),
    ),
    (
        "nothing paid",
        OutOfRange,
        "a cost is more than nothing",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), "pump", Measured(0, "0")),
    ),
    (
        "paid for nobody's unit",
        NotFound,
        "no unit 99",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, unit_id=99),
    ),
    (
        "paid far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        costs.change_cost,
        lambda land: CostChange(land.feed.id, day=NEXT_YEAR),
    ),
    (
        "paid for nothing named",
        NotUnderstood,
        "The name of what was paid for is empty",
        costs.record_cost,
        lambda _: NewCost(on(5, 1), " ", money("8")),
    ),
    (
        "a price of two products",
        Refused,
        "a price is for one crop or for one species",
        costs.set_price,
        lambda land: NewPrice(on(5, 1), 100, 100, "1", land.kale.id, "yellow perch"),
    ),
    (
        "another currency under booked money",
        Refused,
        "are booked in USD",
        farm.change_farm,
        lambda _: FarmChange(measures=replace(METRIC, currency="EUR")),
    ),
]
NAMES: list[Refusal] = [
    ("a unit's code twice", Refused, "already a unit WREN", units.add_unit, lambda _: NewUnit(" wren", on(9, 1))),
    (
        "a unit's code of another",
        Refused,
        "There is already a unit WREN",
        units.change_unit,
        lambda land: UnitChange(land.finch.id, "wren"),
    ),
    (
        "a unit's code with a dash",
        Refused,
        "WREN-2 holds a dash, which parts a unit from its bed",
        units.add_unit,
        lambda _: NewUnit("wren-2", on(9, 1)),
    ),
    (
        "a unit's code with a blank",
        NotUnderstood,
        "is no code of a unit. Understood: letters, digits and dashes",
        units.add_unit,
        lambda _: NewUnit("w ren", on(9, 1)),
    ),
    (
        "a state it is in",
        Refused,
        "WREN has been running since 2026-04-10",
        units.enter_state,
        lambda land: NewState(land.wren.id, UnitState.RUNNING, on(9, 1)),
    ),
    (
        "a state far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        units.enter_state,
        lambda land: NewState(land.wren.id, UnitState.RETIRED, NEXT_YEAR),
    ),
    ("a bed twice", Refused, "already a bed WREN-N", beds.add_bed, lambda land: NewBed(land.wren.id, "n", on(9, 1))),
    (
        "a bed of another's name",
        Refused,
        "There is already a bed WREN-S2",
        beds.change_bed,
        lambda land: BedChange(land.north.id, "s2"),
    ),
    (
        "a size long ago",
        OutOfRange,
        "1899-12-31 is not a day",
        beds.size_bed,
        lambda land: NewBedSize(land.north.id, LONG_AGO, area("9 sq ft")),
    ),
    ("a crop twice", Refused, "already a crop CHARD", plantings.add_crop, lambda _: NewCrop(" Chard ")),
    (
        "a crop of another's name",
        Refused,
        "There is already a crop CHARD",
        plantings.change_crop,
        lambda land: CropChange(land.kale.id, "chard"),
    ),
    ("a person twice", Refused, "already somebody called Ada", farm.add_person, lambda _: NewPerson("ADA")),
    (
        "a person of another's name",
        Refused,
        "There is already somebody called Ada",
        farm.change_person,
        lambda land: PersonChange(land.bob.id, "ada"),
    ),
    (
        "a lot twice",
        Refused,
        "There is already a fish lot PERCH-24",
        fish.stock,
        lambda land: NewFishLot("perch-24", "yellow perch", land.wren.id, on(9, 1), 3, mass("9 g")),
    ),
    ("no time zone", NotUnderstood, "is no time zone", farm.change_farm, lambda _: FarmChange(time_zone="Mars")),
    ("an unknown kind", NotFound, "nothing called ducks", removal.remove_record, lambda _: Removal("ducks", 1)),
    ("an unknown record", NotFound, "no crop 99", removal.remove_record, lambda _: Removal("crops", 99)),
    (
        "a crop that was planted",
        Refused,
        "belong to it (planting, price)",
        removal.remove_record,
        lambda land: Removal("crops", land.kale.id),
    ),
    (
        "a unit with beds",
        Refused,
        "belong to it (bed, cost, lot place)",
        removal.remove_record,
        lambda land: Removal("units", land.wren.id),
    ),
]
CHORES: list[Refusal] = [
    (
        "skipped without a reason",
        Refused,
        "say why Sweep the barn is left out this time",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.SKIPPED, on(10, 1), reason=" "),
    ),
    (
        "deferred without a day",
        Refused,
        "say until when Sweep the barn is put off",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1)),
    ),
    (
        "deferred backwards",
        Refused,
        "2026-09-30 lies before 2026-10-01",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1), until=on(9, 30)),
    ),
    (
        "deferred far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DEFERRED, on(10, 1), until=NEXT_YEAR),
    ),
    (
        "done with a day until when",
        Refused,
        "only a deferred chore has a day until when",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DONE, on(10, 1), until=on(10, 2)),
    ),
    (
        "done far ahead",
        OutOfRange,
        "2027-10-16 is not a day",
        chores.settle,
        lambda land: Settling(land.sweep.id, SettledAs.DONE, NEXT_YEAR),
    ),
    (
        "one of two not done",
        Refused,
        "only a deferred chore has a day until when",
        chores.settle_many,
        lambda land: chores.SettlingMany(
            (
                Settling(land.permit.id, SettledAs.DONE, on(10, 1)),
                Settling(land.sweep.id, SettledAs.DONE, on(10, 1), until=on(10, 2)),
            )
        ),
    ),
    ("a chore unknown", NotFound, "no chore 999", chores.settle, lambda _: Settling(999, SettledAs.DONE, on(10, 1))),
    (
        "a rest within a rest",
        Refused,
        "Sweep the barn rests already from 2026-07-01",
        chores.pause,
        lambda land: NewPause(land.sweep.id, on(7, 31)),
    ),
    (
        "a rest backwards",
        Refused,
        "2026-08-31 lies before 2026-09-01",
        chores.pause,
        lambda land: NewPause(land.sweep.id, on(9, 1), on(8, 31)),
    ),
    (
        "no rest to end",
        Refused,
        "the chore does not rest on 2026-08-01",
        chores.resume,
        lambda land: Resuming(land.sweep.id, on(8, 1)),
    ),
    (
        "a chore of two places",
        Refused,
        "to one unit, bed or fish lot",
        chores.add_chore,
        lambda land: NewChore("Both", "day", on(9, 1), unit_id=land.wren.id, bed_id=land.north.id),
    ),
    (
        "a chore of an unknown unit",
        NotFound,
        "no unit 99",
        chores.add_chore,
        lambda _: NewChore("Nowhere", "day", on(9, 1), unit_id=99),
    ),
    (
        "a chore in the 13th month",
        OutOfRange,
        "Months are numbers from 1 to 12",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, months=(13,)),
    ),
    (
        "a chore of two days' length",
        OutOfRange,
        "2880 minutes is no length of a chore",
        chores.change_chore,
        lambda land: ChoreChange(land.sweep.id, minutes=2880),
    ),
]


@pytest.mark.parametrize(
    ("kind", "words", "function", "entry"),
    [pytest.param(*refusal, id=name) for name, *refusal in (*WEIGHINGS, *LIVES, *MONEY, *NAMES, *CHORES)],
)
def test_the_farm_refuses(
    laid: Land, kind: type[FarmopsError], words: str, function: Any, entry: Callable[[Land], Any]
):
    refuses(laid, kind, words, function, entry(laid))


def test_life_support_is_not_put_off_past_the_day(land: Land):
    look = a_chore(land.store, "Look", "day", grade=ChoreClass.LIFE_SUPPORT)
    later = Settling(look.id, SettledAs.DEFERRED, on(10, 1), until=on(10, 2))
    refuses(land, Refused, "Look is life support and can only wait within the day", chores.settle, later)
    settle(land.store, look, on(10, 1), SettledAs.DEFERRED, until=on(10, 1))


def test_a_chore_is_not_done_without_the_confirmation_it_insists_on(land: Land):
    rinse = a_chore(land.store, "Rinse", "day", confirmation=FLOW)
    unseen = Settling(rinse.id, SettledAs.DONE, on(10, 1))
    refuses(land, Refused, "Rinse asks for a confirmation: flow seen", chores.settle, unseen)
    refuses(land, Refused, "asks for a confirmation", chores.settle, replace(unseen, confirmed="  "))
    settle(land.store, rinse, on(10, 1), confirmed=FLOW)


def test_a_chore_due_once_is_settled_once(land: Land):
    settle(land.store, land.permit, on(10, 1))
    again = Settling(land.permit.id, SettledAs.DONE, on(10, 2))
    refuses(land, Refused, "Renew the permit is settled for good", chores.settle, again)


def test_no_fish_go_into_a_retired_unit(land: Land):
    enters(land.store, land.finch, UnitState.RETIRED, on(10, 1))
    late = NewFishLot("B-1", "bluegill", land.finch.id, on(10, 1), 3, mass("9 g"))
    refuses(land, Refused, "FINCH is retired since 2026-10-01", fish.stock, late)
    stock(land.store, land.finch, "B-2", on(9, 30))


def test_a_settled_chore_keeps_its_history(land: Land):
    refuses(land, Refused, "belong to it (settlement)", removal.remove_record, Removal("chores", land.filter_pad.id))


def test_exactly_a_year_ahead_is_still_a_day_to_book_on(farm_store: Store):
    units.add_unit(farm_store, NewUnit("WREN", date(2027, 10, 15), chores=False), by=ADA)
    units.add_unit(farm_store, NewUnit("FINCH", date(1900, 1, 1), chores=False), by=ADA)
