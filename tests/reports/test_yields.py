"""Yield by bed and by crop, held against sums done by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings

from farmops.model.costs import Category
from farmops.model.harvests import Use
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.returns import Asked, returns
from farmops.reports.worth import no_price
from farmops.reports.yields import By, YieldLine, yields
from tests.farmhand import (
    TODAY,
    a_bed,
    a_crop,
    a_unit,
    area,
    clear,
    emptied,
    everything_stored,
    on,
    pay,
    plant,
    price,
    stock,
    weigh,
)
from tests.farms import FIRST, LAST, Script, carry_out, scripts
from tests.profiles import count

POUND, SQ_FT = 453_592, 92_903.04


@pytest.fixture
def summer(farm_store: Store) -> Store:
    """Chard in two beds of 25 and 10 sq ft and, on 5 of them, kale."""
    unit = a_unit(farm_store)
    north, south = a_bed(farm_store, unit, "N"), a_bed(farm_store, unit, "S", "10 sq ft")
    a_bed(farm_store, unit, "W", None)
    chard, kale = a_crop(farm_store, "CHARD"), a_crop(farm_store, "KALE")
    a_crop(farm_store, "SORREL")
    here = clear(farm_store, plant(farm_store, north, chard), on(6, 30))
    there = plant(farm_store, south, chard, on(5, 1))
    leaves = plant(farm_store, south, kale, on(5, 1), area=area("5 sq ft"))
    price(farm_store, chard, "3/lb")
    weigh(farm_store, here, "1 lb", on(5, 20), Use.SOLD)
    weigh(farm_store, here, "1 lb", on(5, 21), Use.FEED)
    weigh(farm_store, there, "1 lb", on(6, 20))
    weigh(farm_store, leaves, "1 lb", on(6, 20))
    return farm_store


def lines(store: Store, by: By, first=on(5, 1), last=on(6, 30)) -> dict[str, YieldLine]:  # noqa: B008
    return {line.name: line for line in yields(store, Asked(TODAY, first, last), by).lines}


def test_yield_by_bed(summer: Store):
    found = lines(summer, By.BED)
    assert list(found) == ["WREN-N", "WREN-S", "WREN-W"]
    north, south, west = found.values()
    assert (north.harvest.value, north.marketable.value, north.area.value) == (2 * POUND, POUND, 2_322_576)
    assert north.yield_per_area.value == Fraction(POUND, 2_322_576)
    assert (north.value.value, south.value.value) == (300, None)
    assert south.value.reason == no_price("KALE")
    assert south.marketable.value == 2 * POUND
    assert west.area.reason == "no size is booked for WREN-W on 2026-06-30"
    assert west.yield_per_area.reason == "no harvest"


def test_yield_by_crop_over_the_area_of_its_plantings(summer: Store):
    found = lines(summer, By.CROP)
    assert list(found) == ["CHARD", "KALE"]
    assert found["CHARD"].marketable.value == 2 * POUND
    assert found["CHARD"].area.value == pytest.approx(35 * SQ_FT, abs=1)
    assert found["KALE"].area.value == pytest.approx(5 * SQ_FT, abs=1)


def test_what_a_unit_cost_is_shared_by_what_it_brought(summer: Store):
    """40 dollars for 2 lb of chard and 1 of kale that count, 10 of seed for a unit that brought nothing."""
    unit = lists.units(summer)[0].unit
    pay(summer, "40", on(6, 1), "feed", unit)
    pay(summer, "10", on(6, 1), "seed", a_unit(summer, "FINCH"))
    north, south, west = lines(summer, By.BED).values()
    assert (north.cost.value, south.cost.value) == (1334, 2666)
    assert west.cost.reason == "nothing that counts was weighed"
    assert north.net.value == 300 - 1334
    crops = lines(summer, By.CROP)
    assert (crops["CHARD"].cost.value, crops["KALE"].cost.value) == (2667, 1333)
    assert float(crops["KALE"].cost_per_mass.value * POUND) == pytest.approx(1333)


def test_lots_share_what_the_fish_of_their_unit_cost(summer: Store):
    """30 dollars for fish alone, by 2 lb of one lot, over two prices, and 1 lb of another."""
    unit = lists.units(summer)[0].unit
    first, second = stock(summer, unit), stock(summer, unit, "PERCH-25")
    price(summer, "yellow perch", "8/lb")
    price(summer, "yellow perch", "9/lb", on(6, 15))
    for lot, day in ((first, 1), (first, 20), (second, 20)):
        weigh(summer, lot, "1 lb", on(6, day), number=2)
    pay(summer, "30", on(6, 1), "fingerlings", unit, category=Category.FISH)
    older, younger = lines(summer, By.LOT).values()
    assert (older.name, older.marketable.value, older.value.value) == ("PERCH-24", 2 * POUND, 1700)
    assert (older.cost.value, younger.cost.value) == (2000, 1000)
    assert younger.yield_per_area.reason == "fish have no bed"
    assert [one.amount for one in older.marketable.records.lines()] == [POUND, POUND]


def test_without_costs_no_crop_has_one(summer: Store):
    assert lines(summer, By.CROP)["CHARD"].cost.reason == "no costs are booked for it in this span"


def test_only_what_stood_in_the_span_counts(summer: Store):
    found = lines(summer, By.CROP, on(7, 1), on(7, 31))
    assert found["CHARD"].area.value == pytest.approx(10 * SQ_FT, abs=1)
    assert found["CHARD"].yield_per_area.reason == "no harvest"
    assert list(lines(summer, By.CROP, on(1, 1), on(1, 31))) == []


@settings(
    max_examples=count(ci=8, full=300),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts())
def test_beds_and_crops_add_up_to_the_same_produce(store: Store, script: Script):
    carry_out(emptied(store), script)
    weighed = sum(row["mass_mg"] for row in everything_stored(store)["harvest"] if row["planting_id"])
    fish = sum(row["mass_mg"] for row in everything_stored(store)["harvest"] if row["fish_lot_id"])
    for by in By:
        found = yields(store, Asked(LAST, FIRST, LAST), by).lines
        assert sum(line.harvest.value or 0 for line in found) == (fish if by is By.LOT else weighed)
        named = ("harvest", "marketable", "area", "yield_per_area", "value", "cost", "cost_per_mass", "net")
        assert all(f.adds_up() for line in found for name in named for f in getattr(line, name).walk())
        units = returns(store, Asked(LAST, FIRST, LAST)).units
        costs = [one.cost_of_produce for one in units if one.marketable.value]
        if by is By.LOT:
            costs = [one.cost_of_fish for one in units if one.fish.value]
        if all(one.value is not None for one in costs):
            assert sum(line.cost.value or 0 for line in found) == sum(one.value for one in costs)
