"""Power, energy and the weight of a full unit."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.energy import (
    WEIGHT_CAUTIONS,
    electric_power,
    energy,
    energy_per_day,
    floor_load,
    hydraulic_power,
    overall_efficiency,
    wet_weight,
)
from tests.labels import common_practice

POWERS = st.floats(0, 5000)


def test_power_by_hand() -> None:
    assert hydraulic_power(2000, 1.5) == pytest.approx(8.16, abs=0.01)
    assert electric_power(8.16, 0.34) == pytest.approx(24)


def test_energy_by_hand() -> None:
    assert energy(24, 24 * 30) == pytest.approx(17.28)
    assert energy_per_day(24) == pytest.approx(0.576)
    assert energy_per_day(24, 12) == pytest.approx(0.288)


@given(st.floats(0.1, 5000), st.floats(0.01, 1))
def test_efficiency_round_trips(hydraulic: float, efficiency: float) -> None:
    assert overall_efficiency(hydraulic, electric_power(hydraulic, efficiency)) == pytest.approx(efficiency)


@given(POWERS, st.integers(1, 366))
def test_days_add_up(power: float, days: int) -> None:
    assert energy_per_day(power) * days == pytest.approx(energy(power, 24 * days))


@given(st.floats(0, 5000), st.floats(0, 3), st.floats(0, 3))
def test_a_higher_lift_never_takes_less(flow: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert hydraulic_power(flow, low) <= hydraulic_power(flow, high)


@given(*[st.floats(0, 5000)] * 3, st.floats(0, 3), st.floats(0, 500))
def test_parts_add_up_to_the_whole(tank: float, bed: float, media: float, per_l: float, frame: float) -> None:
    weight = wet_weight(tank, bed, media, per_l, frame)
    assert weight.total_kg == pytest.approx(tank + bed + media * per_l + frame)


@common_practice("a bulk container of 275 US gallons weighs about a tonne when full")
def test_a_full_container_weighs_about_a_tonne() -> None:
    assert wet_weight(275 * 3.785411784).total_kg == pytest.approx(1041, abs=1)
    assert any("about a tonne" in caution for caution in WEIGHT_CAUTIONS)


def test_what_is_not_named_weighs_nothing() -> None:
    assert wet_weight(0).total_kg == 0
    assert wet_weight(0, media_l=100).total_kg == 0


def test_floor_load_by_hand() -> None:
    assert floor_load(1320, 1.2) == pytest.approx(1100)


@pytest.mark.parametrize(
    "call",
    [
        lambda: hydraulic_power(-1, 1),
        lambda: hydraulic_power(1000, 1, temperature_c=60),
        lambda: electric_power(8, 0),
        lambda: electric_power(8, 1.1),
        lambda: overall_efficiency(30, 24),
        lambda: overall_efficiency(30, 0),
        lambda: energy(math.inf, 1),
        lambda: energy_per_day(24, 25),
        lambda: wet_weight(-1),
        lambda: wet_weight(800, bed_water_l=-1),
        lambda: wet_weight(800, media_l=-1),
        lambda: wet_weight(800, media_l=100, media_kg_per_l=8.5),
        lambda: wet_weight(800, frame_kg=-1),
        lambda: energy(-1, 1),
        lambda: floor_load(-1, 1),
        lambda: floor_load(1000, 0),
    ],
)
def test_outside_the_range_is_refused(call: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        call()
