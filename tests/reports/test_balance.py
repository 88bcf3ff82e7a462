"""The balance of a unit: sums that can be done by hand, ranges as published, and the record that is missing."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from farmops.farm.fish_events import record_feeding
from farmops.model.beds import Bed, BedKind
from farmops.model.errors import NotFound
from farmops.model.fish import FishLot
from farmops.model.fish_events import NewFeeding
from farmops.model.units import Unit
from farmops.records.store import Store
from farmops.reports.balance import NAMES, balance_of
from farmops.reports.balance_words import range_words, verdict_words
from farmops.science.balance import Place
from tests.farmhand import ADA, a_bed, a_crop, a_unit, mass, on, plant, read, stock, volume, weigh
from tests.frozen import frozen


@pytest.fixture(autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen("2026-10-14"):
        yield


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    """A tank of 1000 L."""
    return a_unit(farm_store, tank=volume("1000 L"))


@pytest.fixture
def bed(farm_store: Store, wren: Unit) -> Bed:
    """A bed of 2 square metres."""
    return a_bed(farm_store, wren, "N", "2 m2")


@pytest.fixture
def perch(farm_store: Store, wren: Unit) -> FishLot:
    """A hundred fish of 150 g."""
    return stock(farm_store, wren, number=100, mean="150 g")


def feed(store: Store, lot: FishLot, weight: str, *days: int) -> None:
    for day in days:
        record_feeding(store, NewFeeding(lot.id, on(10, day), mass(weight)), by=ADA)


def test_feed_goes_by_the_beds_and_the_28_days(farm_store: Store, bed: Bed, perch: FishLot):
    feed(farm_store, perch, "280 g", *range(1, 10))
    found = balance_of(farm_store, "wren").line("feed")
    assert float(found.figure.value or 0) * 1000 == pytest.approx(280 * 9 / 28 / 2)
    assert (found.place, found.low, found.high) == (Place.WITHIN, 0.04, 0.05)
    feed(farm_store, perch, "280 g", 10, 11)
    above = balance_of(farm_store, "WREN").line("feed")
    assert above.place is Place.ABOVE
    assert above.advice.startswith("More than the beds use")
    assert found.figure.parts[0].parts[0].note == "booked on 9 of 28 days"


def test_what_was_fed_before_the_four_weeks_or_elsewhere_is_left_out(farm_store: Store, bed: Bed, perch: FishLot):
    other = stock(farm_store, a_unit(farm_store, "ROOK"), "P-2")
    record_feeding(farm_store, NewFeeding(perch.id, on(9, 16), mass("1 kg")), by=ADA)
    feed(farm_store, other, "1 kg", 3)
    assert "no feed is booked" in (balance_of(farm_store, "WREN").line("feed").figure.reason or "")


def test_rafts_are_held_against_the_range_of_rafts(farm_store: Store, wren: Unit, perch: FishLot):
    a_bed(farm_store, wren, "R", "2 m2", kind=BedKind.RAFT)
    feed(farm_store, perch, "280 g", *range(1, 10))
    found = balance_of(farm_store, "WREN").line("feed")
    assert (found.place, found.low) == (Place.BELOW, 0.06)


def test_nitrogen_comes_with_the_feed_and_goes_with_the_leaves(farm_store: Store, bed: Bed, perch: FishLot):
    feed(farm_store, perch, "280 g", *range(1, 11))
    weigh(farm_store, plant(farm_store, bed, a_crop(farm_store), on(8, 1)), "2.8 kg", on(10, 5))
    read(farm_store, _unit(farm_store), on(10, 1), nitrate="20 N")
    read(farm_store, _unit(farm_store), on(10, 8), nitrate="22 N")
    found = {one.name: float(one.figure.value or 0) for one in balance_of(farm_store, "WREN").lines}
    came = 100 * 0.32 * 0.16 * 0.61
    assert found["nitrogen-in"] == pytest.approx(came * 1000)
    assert found["nitrogen-out"] == pytest.approx(100 * 0.003 * 1000)
    assert found["nitrate"] == pytest.approx(2)
    assert found["nitrogen-else"] == pytest.approx((came - 0.3 - 2 * 1000 / 7 / 1000) * 1000)
    assert found["alkalinity"] == pytest.approx(came * 7.14 * 7)


def _unit(store: Store) -> Unit:
    return balance_of(store, "WREN").unit


def test_fish_and_flow_go_by_the_tank(farm_store: Store, wren: Unit, perch: FishLot):
    read(farm_store, wren, on(10, 1), flow="900 L/h")
    found = balance_of(farm_store, "WREN")
    assert (found.line("density").figure.value, found.line("density").place) == (15, Place.WITHIN)
    assert (float(found.line("turnover").figure.value or 0), found.line("turnover").place) == (0.9, Place.BELOW)
    assert verdict_words(found).startswith("Out of range: turnover. ")
    assert range_words(found.line("turnover"), found.farm.measures).startswith("too little: 1.00 to 2.00 times an hour")


def test_every_number_adds_up_down_to_the_records(farm_store: Store, bed: Bed, perch: FishLot):
    feed(farm_store, perch, "280 g", *range(1, 11))
    weigh(farm_store, plant(farm_store, bed, a_crop(farm_store), on(8, 1)), "2.8 kg", on(10, 5))
    for day, value in ((1, "20 N"), (8, "22 N")):
        read(farm_store, _unit(farm_store), on(10, day), nitrate=value, flow="900 L/h")
    found = balance_of(farm_store, "WREN")
    assert tuple(one.name for one in found.lines) == NAMES
    assert found.untold == ()
    assert all(figure.adds_up() for one in found.lines for figure in one.figure.walk())


def test_what_cannot_be_told_says_which_record_is_missing(farm_store: Store):
    a_unit(farm_store, "TEAL")
    reasons = {one.name: one.figure.reason or "" for one in balance_of(farm_store, "TEAL").lines}
    assert "farmops fish fed" in reasons["feed"]
    assert "farmops harvest" in reasons["nitrogen-out"]
    assert "never read in these weeks: farmops water add TEAL nitrate" in reasons["nitrate"]
    assert "no live fish" in reasons["density"]
    assert "flow" in reasons["turnover"]
    with pytest.raises(NotFound, match="no unit FINCH"):
        balance_of(farm_store, "finch")


def test_a_bed_without_a_size_and_a_tank_without_a_volume_are_named(farm_store: Store):
    unit = a_unit(farm_store, "TEAL")
    a_bed(farm_store, unit, "S", None)
    lot = stock(farm_store, unit)
    feed(farm_store, lot, "20 g", 1)
    found = balance_of(farm_store, "TEAL")
    assert "the size of TEAL-S is not booked" in (found.line("feed").figure.reason or "")
    assert "the volume of the tank is not booked" in (found.line("density").figure.reason or "")
