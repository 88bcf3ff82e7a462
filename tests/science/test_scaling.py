"""Twice the bed, the water or the fish is twice the answer; a ratio does not depend on the unit of either."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.science.balance import (
    AmmoniaMethod,
    ammonia_from_feed,
    filter_surface,
    media_volume,
    stocking_density,
)
from farmops.science.doses import Base, alkalinity_dose
from farmops.science.energy import energy, hydraulic_power, wet_weight
from farmops.science.fish import (
    biomass_kg,
    condition_factor,
    feed_conversion,
    specific_growth_rate,
    thermal_growth_coefficient,
)
from farmops.science.flow import drainable_volume, level_fall, siphon_cycle, turnover_per_hour
from farmops.science.oxygen import minutes_without_power
from farmops.science.water import AmmoniaAs, unionized_ammonia

TIMES = st.floats(0.01, 100)
AMOUNT = st.floats(1, 1000)
POUND_G, GALLON_L = 453.59237, 3.785411784


@given(AMOUNT, AMOUNT, TIMES)
def test_a_conversion_ratio_is_the_same_in_pounds(feed: float, gain: float, times: float) -> None:
    assert feed_conversion(times * feed, times * gain) == pytest.approx(feed_conversion(feed, gain))


@given(AMOUNT, AMOUNT, st.floats(1, 300))
def test_growth_rates_are_the_same_in_pounds_and_per_week_times_seven(start: float, end: float, days: float) -> None:
    rate = specific_growth_rate(start, end, days)
    assert specific_growth_rate(start / POUND_G, end / POUND_G, days) == pytest.approx(rate, abs=1e-9)
    assert 7 * specific_growth_rate(start, end, days * 7) == pytest.approx(rate)
    by_cube_root = thermal_growth_coefficient(8 * start, 8 * end, days) / 2
    assert by_cube_root == pytest.approx(thermal_growth_coefficient(start, end, days), abs=1e-9)


@given(st.floats(1, 5000), st.floats(5, 80), st.floats(0.5, 2))
def test_a_fish_twice_as_long_and_eight_times_as_heavy_is_as_stout(weight: float, length: float, times: float) -> None:
    assert condition_factor(weight * times**3, length * times) == pytest.approx(condition_factor(weight, length))


@given(st.floats(0.1, 10), st.floats(0.05, 0.5), st.floats(0.2, 1), TIMES)
def test_so_much_more_bed_holds_so_much_more(area: float, depth: float, void: float, times: float) -> None:
    volume = drainable_volume(area, depth, void)
    assert drainable_volume(times * area, depth, void) == pytest.approx(times * volume)
    assert level_fall(times * volume, times * area) == pytest.approx(level_fall(volume, area))
    cycle = siphon_cycle(volume, 500, 1500).cycle_minutes
    assert siphon_cycle(times * volume, times * 500, times * 1500).cycle_minutes == pytest.approx(cycle)


@given(AMOUNT, AMOUNT)
def test_turnover_and_stocking_are_the_same_in_gallons(flow: float, tank: float) -> None:
    assert turnover_per_hour(flow * GALLON_L, tank * GALLON_L) == pytest.approx(turnover_per_hour(flow, tank))
    assert stocking_density(2 * flow, 2 * tank) == pytest.approx(stocking_density(flow, tank))


@given(st.floats(10, 1000), st.floats(0.1, 0.6), st.sampled_from(AmmoniaMethod), TIMES)
def test_so_much_more_feed_needs_so_much_more_filter(
    feed: float, protein: float, method: AmmoniaMethod, times: float
) -> None:
    def litres(daily: float) -> float:
        return media_volume(filter_surface(ammonia_from_feed(daily, protein, method).nh3_g_per_day), 250)

    assert litres(times * feed) == pytest.approx(times * litres(feed))


@given(st.floats(0.1, 10), st.floats(5.5, 9.5), st.floats(0, 40), st.floats(0.1, 10), st.sampled_from(AmmoniaAs))
def test_so_much_more_ammonia_is_so_much_more_toxic(
    total: float, ph: float, warmth: float, times: float, form: AmmoniaAs
) -> None:
    one = unionized_ammonia(total, ph=ph, temperature_c=warmth, reported=form)
    more = unionized_ammonia(times * total, ph=ph, temperature_c=warmth, reported=form)
    assert more.as_n_mg_per_l == pytest.approx(times * one.as_n_mg_per_l)
    assert more.fraction == one.fraction


@given(st.floats(50, 5000), st.floats(1, 100), st.sampled_from(Base), TIMES)
def test_so_much_more_water_takes_so_much_more_of_a_base(volume: float, rise: float, base: Base, times: float) -> None:
    grams = alkalinity_dose(volume_l=volume, rise_mg_per_l=rise, base=base).grams
    assert alkalinity_dose(volume_l=times * volume, rise_mg_per_l=rise, base=base).grams == pytest.approx(times * grams)


@given(st.floats(100, 5000), st.floats(1, 100), TIMES)
def test_fish_and_water_in_step_have_as_long_without_power(volume: float, fish: float, times: float) -> None:
    def minutes(volume_l: float, biomass: float) -> float:
        cut = minutes_without_power(
            volume_l=volume_l, biomass_kg=biomass, mean_g=200, temperature_c=24, limit_mg_per_l=3
        )
        return cut.minutes

    assert minutes(times * volume, times * fish) == pytest.approx(minutes(volume, fish))


@given(AMOUNT, st.integers(1, 500), TIMES, st.floats(0.1, 3))
def test_weights_and_powers_grow_in_step(mean: float, alive: int, times: float, head: float) -> None:
    assert biomass_kg(times * mean, alive) == pytest.approx(times * biomass_kg(mean, alive))
    assert wet_weight(times * mean, times * mean).total_kg == pytest.approx(times * wet_weight(mean, mean).total_kg)
    assert hydraulic_power(times * mean, head) == pytest.approx(times * hydraulic_power(mean, head))
    assert energy(times * mean, 24) == pytest.approx(times * energy(mean, 24))
