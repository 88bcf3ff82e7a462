"""The card on the wall: minutes at three temperatures, from what is known on the day it is printed."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from farmops.model.units import Unit, UnitKind
from farmops.records.store import Store
from farmops.reports.wall_card import USUAL_C, wall_card
from farmops.science.oxygen import minutes_without_power
from tests.farmhand import TODAY, a_unit, on, stock, volume
from tests.frozen import frozen


@pytest.fixture(autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    return a_unit(farm_store, tank=volume("250 gal"))


def minutes(temperature_c: float, floor: float, biomass_kg: float = 1.0, mean_g: float = 20.0) -> float:
    return minutes_without_power(
        volume_l=946.353, biomass_kg=biomass_kg, mean_g=mean_g, temperature_c=temperature_c, limit_mg_per_l=floor
    ).minutes


@pytest.mark.parametrize(
    ("species", "temperatures", "floor"),
    [("rainbow trout", (14, 16, 18), 6), ("nile tilapia", (27, 30, 36), 4), ("yellow perch", USUAL_C, 4)],
)
def test_minutes_are_those_of_three_temperatures_that_matter_to_the_fish(
    farm_store: Store, wren: Unit, species: str, temperatures: tuple[float, ...], floor: float
):
    stock(farm_store, wren, "F-1", on(10, 1), species=species)
    card = wall_card(farm_store, wren)
    assert tuple(one.temperature_c for one in card.times) == temperatures
    assert [one.minutes for one in card.times] == [pytest.approx(minutes(c, floor)) for c in temperatures]
    assert (card.missing, card.printed_on) == ("", TODAY)
    assert card.basis is not None
    assert (card.basis.number, card.basis.weighed_day) == (50, on(10, 1))


def test_the_card_needs_no_reading_of_today(farm_store: Store, wren: Unit):
    stock(farm_store, wren, since=on(10, 1))
    assert all(one.minutes for one in wall_card(farm_store, wren).times)


def test_what_is_missing_is_said(farm_store: Store, wren: Unit):
    rook = a_unit(farm_store, "ROOK")
    stock(farm_store, rook, since=on(10, 1))
    assert wall_card(farm_store, rook).missing == "how much water the tank holds is not written down"
    assert wall_card(farm_store, wren).missing == "no live fish are booked in this unit"
    assert (wall_card(farm_store, wren).times, wall_card(farm_store, wren).basis) == ((), None)


def test_steps_and_checks_are_those_of_the_unit(farm_store: Store, wren: Unit):
    teal = a_unit(farm_store, "TEAL", kind=UnitKind.HYDROPONIC)
    stock(farm_store, wren, since=on(10, 1))
    wet, dry = wall_card(farm_store, wren), wall_card(farm_store, teal)
    assert [one.key for one in wet.steps][:2] == ["air", "feed-off"]
    assert dry.steps[0].key == "feed-off"
    assert {one.key for one in wet.checks} - {one.key for one in dry.checks} == {"bubbles", "heater"}
