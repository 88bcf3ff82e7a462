"""Oxygen: saturation, pressure, what fish breathe and how long it lasts without power."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.oxygen import (
    LEAVES_OUT,
    PowerCut,
    minutes_without_power,
    oxygen_demand,
    oxygen_saturation,
    percent_saturation,
    pressure_at_altitude,
)


@given(temperature_c=st.floats(0, 39.9), altitude_m=st.floats(-430, 5000))
def test_warm_water_holds_less(temperature_c: float, altitude_m: float) -> None:
    cool = oxygen_saturation(temperature_c, altitude_m=altitude_m)
    assert oxygen_saturation(temperature_c + 0.1, altitude_m=altitude_m) < cool


@given(temperature_c=st.floats(0, 40), altitude_m=st.floats(-430, 4990))
def test_high_ground_holds_less(temperature_c: float, altitude_m: float) -> None:
    low = oxygen_saturation(temperature_c, altitude_m=altitude_m)
    assert oxygen_saturation(temperature_c, altitude_m=altitude_m + 10) < low


@given(temperature_c=st.floats(0, 40), altitude_m=st.floats(-430, 5000))
def test_altitude_counts_through_pressure_alone(temperature_c: float, altitude_m: float) -> None:
    pressure = pressure_at_altitude(altitude_m)
    assert oxygen_saturation(temperature_c, station_pressure_hpa=pressure) == oxygen_saturation(
        temperature_c, altitude_m=altitude_m
    )


def test_a_given_pressure_stands_before_the_altitude() -> None:
    assert oxygen_saturation(20, altitude_m=3000, station_pressure_hpa=1013.25) == oxygen_saturation(20)


@given(temperature_c=st.floats(0, 40), altitude_m=st.floats(-430, 5000), share=st.floats(0, 1.5))
def test_percent_saturation_undoes_saturation(temperature_c: float, altitude_m: float, share: float) -> None:
    measured = share * oxygen_saturation(temperature_c, altitude_m=altitude_m)
    assert percent_saturation(measured, temperature_c, altitude_m=altitude_m) == pytest.approx(100 * share)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({"temperature_c": 41}, "temperature 41 C is outside 0 to 40 C"),
        ({"temperature_c": 20, "altitude_m": 6000}, "altitude 6000 m is outside -430 to 5000 m"),
        (
            {"temperature_c": 20, "station_pressure_hpa": 29.92},
            "station pressure 29.92 hPa is outside 500 to 1100",
        ),
    ],
)
def test_saturation_is_refused_outside_its_range(arguments: dict[str, float], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        oxygen_saturation(**arguments)


def test_measured_oxygen_that_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="oxygen 85 mg/L"):
        percent_saturation(85, 20)


@given(mean_g=st.floats(0.02, 4900), temperature_c=st.floats(0, 35.9), fed=st.booleans())
def test_small_warm_and_fed_fish_breathe_more_per_weight(mean_g: float, temperature_c: float, fed: bool) -> None:
    demand = oxygen_demand(mean_g, temperature_c, fed=fed)
    assert oxygen_demand(mean_g * 1.01, temperature_c, fed=fed) < demand
    assert oxygen_demand(mean_g, temperature_c + 0.1, fed=fed) > demand
    assert oxygen_demand(mean_g, temperature_c, fed=True) >= demand


def test_ten_degrees_double_it_and_a_feed_makes_it_two_and_a_half_times() -> None:
    resting = oxygen_demand(100, 20, fed=False)
    assert resting == pytest.approx(1000 * 0.3 * 1.429 * 100**0.8 / 100)
    assert oxygen_demand(100, 30, fed=False) == pytest.approx(2 * resting)
    assert oxygen_demand(100, 20, fed=True) == pytest.approx(2.5 * resting)


@pytest.mark.parametrize(("mean_g", "temperature_c"), [(0.01, 20), (6000, 20), (100, 37), (100, math.nan)])
def test_demand_is_refused_outside_its_range(mean_g: float, temperature_c: float) -> None:
    with pytest.raises(OutOfRange):
        oxygen_demand(mean_g, temperature_c, fed=False)


TANK: dict[str, Any] = {
    "volume_l": 800.0,
    "biomass_kg": 10.0,
    "mean_g": 250.0,
    "temperature_c": 24.0,
    "limit_mg_per_l": 3.0,
}


def cut(**changes: Any) -> PowerCut:
    return minutes_without_power(**(TANK | changes))


def test_the_oxygen_used_in_the_minutes_is_what_was_there_above_the_limit() -> None:
    answer = cut(measured_mg_per_l=7.0)
    used_g = (answer.fish_demand_g_per_h + answer.other_demand_g_per_h) * answer.minutes / 60
    assert used_g == pytest.approx(800 * (7.0 - 3.0) / 1000)
    assert answer.fish_demand_g_per_h == pytest.approx(oxygen_demand(250, 24, fed=True) * 10 / 1000)
    assert answer.start_measured


def test_without_a_measurement_the_start_is_four_fifths_of_saturation() -> None:
    answer = cut(altitude_m=500)
    assert answer.start_mg_per_l == pytest.approx(0.8 * oxygen_saturation(24, altitude_m=500))
    assert not answer.start_measured
    assert cut() == cut(altitude_m=0)


def test_oxygen_above_saturation_buys_no_time() -> None:
    assert cut(measured_mg_per_l=14).minutes == cut(measured_mg_per_l=oxygen_saturation(24)).minutes


def test_nothing_is_left_once_the_limit_is_reached() -> None:
    assert cut(measured_mg_per_l=3.0).minutes == 0
    assert cut(measured_mg_per_l=2.0).minutes == 0


@given(
    volume_l=st.floats(50, 5000),
    biomass_kg=st.floats(0.1, 100),
    measured_mg_per_l=st.floats(3.1, 20),
    temperature_c=st.floats(0, 34),
)
def test_time_grows_with_water_and_shrinks_with_fish_feed_and_warmth(**drawn: float) -> None:
    minutes = cut(**drawn).minutes
    assert cut(**drawn | {"volume_l": 2 * drawn["volume_l"]}).minutes == pytest.approx(2 * minutes)
    assert cut(**drawn | {"biomass_kg": 2 * drawn["biomass_kg"]}).minutes == pytest.approx(minutes / 2)
    assert cut(**drawn, fed=False).minutes > minutes
    assert cut(**drawn, other_share=0.6).minutes < minutes
    assert cut(**drawn | {"temperature_c": drawn["temperature_c"] + 2}).minutes < minutes


def test_the_answer_says_what_it_leaves_out_and_that_respiration_is_from_memory() -> None:
    answer = cut()
    assert answer.leaves_out == LEAVES_OUT
    assert "from memory" in answer.standing


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"volume_l": 0}, "volume 0 L is not above 0"),
        ({"biomass_kg": -1}, "biomass -1 kg is not above 0"),
        ({"limit_mg_per_l": 16}, "limit 16 mg/L is outside 0 to 15 mg/L"),
        ({"measured_mg_per_l": 70}, "oxygen 70 mg/L is outside 0 to 40 mg/L"),
        ({"other_share": -0.1}, "other share -0.1 is outside 0 to 5"),
    ],
)
def test_a_tank_that_cannot_be_is_refused(change: dict[str, float], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        cut(**change)
