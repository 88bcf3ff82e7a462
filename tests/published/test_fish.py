"""Fish against published figures, definitions worked apart from this code, and statistical tables."""

from __future__ import annotations

import pytest
from scipy.stats import t

from farmops.science.fish import (
    STUDENT_T_95,
    MeanWeight,
    TgcScale,
    biological_feed_conversion,
    biomass_kg,
    condition_factor,
    daily_growth_percent,
    feed_conversion,
    mean_weight,
    mean_weight_in_bulk,
    project_by_tgc,
    specific_growth_rate,
    survival_percent,
    thermal_growth_coefficient,
)
from farmops.science.rations import GROW_OUT_TABLE, FeedingTemperatures, ration
from tests.labels import common_practice, published

RAKOCY = "Rakocy, Bailey, Shultz, Thoman 2004, Update on Tilapia and Vegetable Production (UVI)"


@published(RAKOCY, note="mean of many harvests, so the product of means is only near the mean of products")
@pytest.mark.parametrize(
    ("stocked", "alive", "mean_g", "kg_per_m3", "near"),
    [(77_000, 75_691, 813.8, 61.5, 0.3), (154_000, 138_446, 512.5, 70.7, 0.4)],
    ids=["Nile", "red"],
)
def test_harvest_density_of_1000_cubic_metres(
    stocked: int, alive: int, mean_g: float, kg_per_m3: float, near: float
) -> None:
    assert survival_percent(alive, stocked) == pytest.approx({813.8: 98.3, 512.5: 89.9}[mean_g])
    assert biomass_kg(mean_g, alive) / 1000 == pytest.approx(kg_per_m3, abs=near)


def test_growth_rate_from_50_to_900_g_worked_apart_from_this_code() -> None:
    sgr = specific_growth_rate(50, 900, 24 * 7)
    assert sgr == pytest.approx(1.720, abs=0.001)
    assert daily_growth_percent(sgr) == pytest.approx(1.735, abs=0.001)


@published("hatchery guidance with the equation of Iwama and Tautz 1981, 10 g to 350 g at 11 C in 200 days")
def test_thermal_growth_coefficient_in_both_scales() -> None:
    assert thermal_growth_coefficient(10, 350, 11 * 200, TgcScale.TIMES_100) == pytest.approx(0.222, abs=0.001)
    assert thermal_growth_coefficient(10, 350, 11 * 200) == pytest.approx(2.224, abs=0.001)


def test_forecast_worked_apart_from_this_code() -> None:
    assert project_by_tgc(MeanWeight(50, 1), 1.5, [27.0] * 60).mean_g == pytest.approx(228.6, abs=0.1)


def test_weights_worked_apart_from_this_code() -> None:
    sample = mean_weight([110, 118, 121, 125, 126, 130, 132, 140])
    assert sample.mean_g == pytest.approx(125.25)
    assert sample.sd_g == pytest.approx(9.177, abs=0.001)
    assert sample.se_g == pytest.approx(3.245, abs=0.001)


@published("Student's t distribution, as worked by scipy.stats.t")
@pytest.mark.parametrize("freedom", range(1, 31))
def test_student_t_matches_its_distribution(freedom: int) -> None:
    assert STUDENT_T_95[freedom - 1] == pytest.approx(t.ppf(0.975, freedom), abs=0.0005)


@published("Somerville et al. 2014, FAO Fish. Aquac. Tech. Paper 589, section 7.2: a 100 g fish eats 1 to 2 g a day")
def test_the_ration_of_growing_out_is_the_upper_end_of_what_is_published() -> None:
    best = FeedingTemperatures(best_low_c=27, best_high_c=30, stop_below_c=18, stop_above_c=34)
    assert ration(1, 100, 28, temperatures=best, table=GROW_OUT_TABLE).grams == pytest.approx(2.0)
    sample = mean_weight_in_bulk(1250, 10)
    forty = ration(40, sample.mean_g, 28, temperatures=best, table=GROW_OUT_TABLE)
    assert forty.grams == pytest.approx(100)


def test_metrics_worked_apart_from_this_code() -> None:
    assert condition_factor(500, 30) == pytest.approx(1.852, abs=0.001)
    assert survival_percent(40, 42) == pytest.approx(95.24, abs=0.01)
    assert feed_conversion(17.0, 10.0) == pytest.approx(1.70)


@common_practice("dead fish are added back to tell what the fish made of the feed")
def test_biological_feed_conversion() -> None:
    assert feed_conversion(20, 10) == pytest.approx(2.0)
    assert biological_feed_conversion(20, 10, 1) == pytest.approx(1.818, abs=0.001)
