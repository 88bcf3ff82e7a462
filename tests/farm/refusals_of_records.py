"""Weighings, plantings and fish that the farm does not book: who refuses, in which words, and what was entered."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from farmops.farm import fish, harvests, plantings
from farmops.model.errors import FarmopsError, NotFound, NotUnderstood, OutOfRange, Refused
from farmops.model.fish import FishLotChange, NewFishLot
from farmops.model.harvests import HarvestChange, NewHarvest
from farmops.model.plantings import NewPlanting, PlantingChange
from farmops.model.values import Measured
from tests.farmhand import mass, on
from tests.land import Land

NEXT_YEAR, LONG_AGO = date(2027, 10, 16), date(1899, 12, 31)
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
        "55 fish would have gone from PERCH-24 by 2026-09-09, more than the 50 there were",
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
        "4 fish would have gone from PERCH-24 by 2026-08-20, more than the 3 there were",
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
