"""A fish lot on a day: every number in figures that add up, down to what happened; growth and what is ahead."""

from __future__ import annotations

from datetime import date, timedelta
from math import exp, log

import pytest

from farmops.farm.fish_events import record_feeding, record_loss, weigh_sample
from farmops.farm.harvests import record_harvest
from farmops.model.errors import NotFound
from farmops.model.fish import FishLot
from farmops.model.fish_events import NewFeeding, NewLoss, NewSample
from farmops.model.harvests import NewHarvest
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.fish import LotOnDay, lot_on_day
from farmops.reports.growth import daily_temperatures
from tests.farmhand import ADA, a_unit, mass, on, read, stock, volume
from tests.land import Land


def values(found: LotOnDay) -> dict[str, float | None]:
    """The value of every figure."""
    return {name: None if one.value is None else float(one.value) for name, one in found.figures.items()}


@pytest.fixture
def grown(farm_store: Store) -> tuple[Store, FishLot]:
    """Fifty perch of 20 g since 15 April in 1000 L; 30 g on 25 May and 60 g on 4 July, fed 900 g and then 400 g."""
    unit = a_unit(farm_store, tank=volume("1000 L"))
    lot = stock(farm_store, unit)
    weigh_sample(farm_store, NewSample(lot.id, on(5, 25), 10, mass("300 g")), by=ADA)
    record_loss(farm_store, NewLoss(lot.id, on(6, 1), 2), by=ADA)
    each = tuple(mass(text) for text in ("50 g", "60 g", "70 g"))
    weigh_sample(farm_store, NewSample(lot.id, on(7, 4), each=each), by=ADA)
    for day, fed in ((on(4, 20), "900 g"), (on(6, 20), "400 g"), (on(7, 4), "25 g")):
        record_feeding(farm_store, NewFeeding(lot.id, day, mass(fed)), by=ADA)
    read(farm_store, unit, on(5, 25), temperature="18 C")
    read(farm_store, unit, on(7, 4), temperature="22 C")
    return farm_store, lot


def test_a_lot_on_the_day_it_was_last_weighed(grown: tuple[Store, FishLot]) -> None:
    store, lot = grown
    found = values(lot_on_day(store, lot.id, on(7, 4)))
    assert found["number"] == 48
    assert found["weight"] == found["weight-today"] == 60_000
    assert found["weight-error"] == round(10_000 / 3**0.5)
    assert found["biomass"] == 48 * 60_000
    assert found["density"] == pytest.approx(2.88)
    assert found["survival"] == pytest.approx(48 / 50)
    assert found["feed"] == 1_300_000
    assert found["gain"] == 48 * 60_000 - 50 * 20_000
    assert found["feed-conversion"] == pytest.approx(1_300 / 1_880)
    assert found["sgr"] == pytest.approx(100 * log(2) / 40)
    degree_days = sum(18 + 4 * n / 40 for n in range(1, 41))
    assert found["tgc"] == pytest.approx(1000 * (60 ** (1 / 3) - 30 ** (1 / 3)) / degree_days)


def test_fish_taken_out_count_as_they_were_on_the_scale(grown: tuple[Store, FishLot]) -> None:
    store, lot = grown
    record_harvest(store, NewHarvest(on(8, 1), mass("4000 g"), fish_lot_id=lot.id, number=48), by=ADA)
    found = values(lot_on_day(store, lot.id, on(8, 1)))
    assert (found["number"], found["biomass"], found["weight"]) == (0, 0, None)
    assert found["gain"] == 4_000_000 - 1_000_000
    assert found["feed"] == 1_325_000
    assert found["survival"] == pytest.approx(48 / 50)


def test_what_is_ahead_goes_on_as_it_went(grown: tuple[Store, FishLot]) -> None:
    store, lot = grown
    found = lot_on_day(store, lot.id, on(7, 4), 120_000)
    rate = log(2) / 40
    assert [one.day for one in found.ahead[:3]] == [on(7, 4), on(7, 11), on(7, 18)]
    assert found.ahead[-1].day <= on(7, 4) + timedelta(days=120)
    for one in found.ahead:
        assert one.mean_mg == pytest.approx(60_000 * exp(rate * (one.day - on(7, 4)).days), abs=1)
        assert one.low_mg is not None
        assert one.high_mg is not None
        assert one.low_mg < one.mean_mg < one.high_mg
    goal = found.reached
    assert goal is not None
    assert (goal.day, goal.reason) == (on(7, 4) + timedelta(days=40), None)
    assert goal.first is not None
    assert goal.first < on(8, 13)
    far = lot_on_day(store, lot.id, on(7, 4), 10_000_000).reached
    assert far is not None
    assert (far.day, "not within 120 days" in (far.reason or "")) == (None, True)


def test_what_is_not_known_says_why(farm_store: Store) -> None:
    lot = stock(farm_store, a_unit(farm_store))
    found = lot_on_day(farm_store, lot.id, on(5, 1), 100_000)
    reasons = {name: one.reason for name, one in found.figures.items() if one.value is None}
    assert reasons["sgr"] == "weighed on one day alone: weigh a sample on another"
    assert reasons["feed-conversion"] == "not weighed since stocking"
    assert reasons["density"] == "the tank of WREN has no volume yet"
    assert found.reached is not None
    assert found.reached.day is None
    with pytest.raises(NotFound, match="stocked on 2026-04-15: nothing is known"):
        lot_on_day(farm_store, lot.id, on(4, 14))


def test_a_harvest_that_was_not_counted_is_told(farm_store: Store) -> None:
    lot = stock(farm_store, a_unit(farm_store))
    record_harvest(farm_store, NewHarvest(on(8, 1), mass("400 g"), fish_lot_id=lot.id), by=ADA)
    gone = lot_on_day(farm_store, lot.id, on(8, 1)).figure("number").parts[1]
    assert gone.note is not None
    assert "1 weighings of fish were not counted" in gone.note


def test_every_number_of_every_lot_adds_up_on_every_day(land: Land) -> None:
    for lot in lists.fish_lots(land.store):
        for day in (lot.stocked_day, on(8, 1), on(9, 1), on(9, 14), on(10, 14)):
            if day < lot.stocked_day:
                continue
            for figure in lot_on_day(land.store, lot.id, day, 100_000).figures.values():
                for one in figure.walk():
                    assert one.adds_up(), (lot.code, day, one.name)


def test_temperatures_between_readings_lie_on_a_line(land: Land) -> None:
    with land.store.reading() as reader:
        from farmops.facts.readings import readings
        from farmops.model.readings import Measure

        known = readings(reader, date.min, date.max, land.wren.id, Measure.TEMPERATURE)
    first, last = known[0], known[-1]
    found = daily_temperatures(known[:1] + known[-1:], first.day, last.day)
    assert len(found) == (last.day - first.day).days
    assert found[-1] == pytest.approx(last.value)
    assert found == sorted(found, reverse=first.value > last.value)
