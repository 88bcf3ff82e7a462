"""Fish weighed, counted and grown."""

from __future__ import annotations

import math
import re
import statistics
from collections.abc import Callable

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.fish import (
    MeanWeight,
    Projection,
    TgcScale,
    biological_feed_conversion,
    biomass_gain,
    biomass_kg,
    condition_factor,
    daily_growth_percent,
    degree_days,
    feed_conversion,
    mean_weight,
    mean_weight_in_bulk,
    project_by_sgr,
    project_by_tgc,
    specific_growth_rate,
    survival_percent,
    thermal_growth_coefficient,
)

WEIGHT = st.floats(0.1, 5000)
MASS = st.floats(0, 1e6)


@given(st.lists(WEIGHT, min_size=2, max_size=60))
def test_mean_and_spread_are_those_of_statistics(weights_g: list[float]) -> None:
    sample = mean_weight(weights_g)
    assert sample.mean_g == pytest.approx(statistics.fmean(weights_g))
    assert sample.sd_g == pytest.approx(statistics.stdev(weights_g), rel=1e-6, abs=1e-9)
    assert sample.se_g == pytest.approx(statistics.stdev(weights_g) / len(weights_g) ** 0.5, rel=1e-6, abs=1e-9)


@given(st.lists(WEIGHT, min_size=2, max_size=60))
def test_the_band_lies_around_the_mean_and_never_below_zero(weights_g: list[float]) -> None:
    sample = mean_weight(weights_g)
    assert sample.band_g is not None
    low, high = sample.band_g
    assert 0 <= low <= sample.mean_g <= high


def test_few_fish_make_a_wide_band() -> None:
    two = MeanWeight(100, 2, sd_g=1.0, se_g=1.0)
    many = MeanWeight(100, 500, sd_g=1.0, se_g=1.0)
    assert two.band_g == pytest.approx((100 - 12.706, 100 + 12.706))
    assert many.band_g == pytest.approx((100 - 2.042, 100 + 2.042))


def test_one_fish_or_fish_in_bulk_have_no_band() -> None:
    assert mean_weight([120.0]) == MeanWeight(120.0, 1)
    assert mean_weight_in_bulk(1250, 10) == MeanWeight(125.0, 10)
    assert mean_weight([120.0]).band_g is None
    assert mean_weight_in_bulk(1250, 10).band_g is None


@given(weights_g=st.lists(WEIGHT, min_size=1, max_size=30))
def test_in_bulk_or_one_by_one_the_mean_is_the_same(weights_g: list[float]) -> None:
    bulk = mean_weight_in_bulk(math.fsum(weights_g), len(weights_g))
    assert bulk.mean_g == pytest.approx(mean_weight(weights_g).mean_g)


def test_biomass_and_survival() -> None:
    assert biomass_kg(125, 40) == 5.0
    assert biomass_kg(125, 0) == 0
    assert survival_percent(40, 42) == pytest.approx(95.238, abs=0.001)
    assert survival_percent(0, 42) == 0


def test_gain_counts_what_came_in_and_what_was_taken_out() -> None:
    assert biomass_gain(10, 14, stocked=2, taken_out=5) == 7
    assert biomass_gain(10, 8) == -2


@given(start=MASS, end=MASS, moved=MASS)
def test_moving_fish_in_or_out_is_no_growth(start: float, end: float, moved: float) -> None:
    plain = biomass_gain(start, end)
    assert biomass_gain(start, end + moved, stocked=moved) == pytest.approx(plain, abs=1e-6)
    assert biomass_gain(start + moved, end, taken_out=moved) == pytest.approx(plain, abs=1e-6)


@given(feed=MASS, gain=st.floats(0.001, 1e6), dead=MASS)
def test_feed_conversion_times_gain_is_the_feed(feed: float, gain: float, dead: float) -> None:
    assert feed_conversion(feed, gain) * gain == pytest.approx(feed)
    assert biological_feed_conversion(feed, gain, dead) * (gain + dead) == pytest.approx(feed)
    assert biological_feed_conversion(feed, gain, 0) == feed_conversion(feed, gain)
    assert biological_feed_conversion(feed, gain, dead) <= feed_conversion(feed, gain)


def test_a_lot_that_lost_weight_by_deaths_still_has_a_biological_conversion() -> None:
    assert biological_feed_conversion(20, -1, 6) == pytest.approx(4.0)
    with pytest.raises(OutOfRange, match="gain -1 is not above 0"):
        feed_conversion(20, -1)
    with pytest.raises(OutOfRange, match="is not above 0"):
        biological_feed_conversion(20, -6, 6)


@given(start_g=WEIGHT, days=st.floats(1, 120), rate=st.floats(-5, 5))
def test_sgr_is_undone_by_its_projection(start_g: float, days: float, rate: float) -> None:
    end_g = project_by_sgr(MeanWeight(start_g, 1), rate, days).mean_g
    assert specific_growth_rate(start_g, end_g, days) == pytest.approx(rate, abs=1e-6)


@given(rate=st.floats(-20, 20))
def test_daily_growth_is_one_day_of_sgr(rate: float) -> None:
    tomorrow = project_by_sgr(MeanWeight(100, 1), rate, 1).mean_g
    assert daily_growth_percent(rate) == pytest.approx(tomorrow - 100, abs=1e-9)


@given(
    start_g=WEIGHT,
    tgc=st.floats(-0.5, 4),
    temperatures_c=st.lists(st.floats(0, 35), min_size=1, max_size=200),
    scale=st.sampled_from(TgcScale),
)
def test_tgc_is_undone_by_its_projection_in_either_scale(
    start_g: float, tgc: float, temperatures_c: list[float], scale: TgcScale
) -> None:
    assume(sum(temperatures_c) > 1)
    assume(math.cbrt(start_g) + tgc / 1000 * sum(temperatures_c) > 0.01)
    written = tgc * scale / 1000
    end_g = project_by_tgc(MeanWeight(start_g, 1), written, temperatures_c, scale=scale).mean_g
    again = thermal_growth_coefficient(start_g, end_g, degree_days(temperatures_c), scale)
    assert again == pytest.approx(written, rel=1e-6, abs=1e-8)


@given(start_g=WEIGHT, end_g=WEIGHT, degree_days_c=st.floats(1, 1e4))
def test_the_two_scales_differ_by_ten(start_g: float, end_g: float, degree_days_c: float) -> None:
    by_hundred = thermal_growth_coefficient(start_g, end_g, degree_days_c, TgcScale.TIMES_100)
    assert thermal_growth_coefficient(start_g, end_g, degree_days_c) == pytest.approx(10 * by_hundred)


SAMPLE = mean_weight([110, 118, 121, 125, 126, 130, 132, 140])


@pytest.mark.parametrize(
    "project",
    [
        lambda start: project_by_sgr(start, 1.5, 60),
        lambda start: project_by_tgc(start, 1.5, [27.0] * 60),
    ],
    ids=["sgr", "tgc"],
)
def test_the_band_is_projected_end_by_end(project: Callable[[MeanWeight], Projection]) -> None:
    grown = project(SAMPLE)
    assert grown.band_g is not None
    assert SAMPLE.band_g is not None
    ends = [project(MeanWeight(end, 1)) for end in SAMPLE.band_g]
    assert [end.mean_g for end in ends] == pytest.approx(list(grown.band_g))
    assert grown.band_g[0] < grown.mean_g < grown.band_g[1]


def test_without_a_standard_error_there_is_no_band() -> None:
    assert project_by_sgr(MeanWeight(100, 20), 1, 10).band_g is None


def test_a_band_that_starts_at_nothing_stays_at_nothing() -> None:
    wild = MeanWeight(10, 2, sd_g=20, se_g=14)
    shrinking = project_by_tgc(wild, -0.1, [20.0] * 30)
    assert shrinking.band_g is not None
    assert shrinking.band_g[0] == 0


def test_days_above_the_best_range_are_warned_of() -> None:
    warm = project_by_tgc(SAMPLE, 1.5, [28.0, 31.0, 32.0], best_high_c=30)
    assert warm.warning == "too high a forecast: 2 days are warmer than 30 C, where growth slows"
    one = project_by_tgc(SAMPLE, 1.5, [28.0, 31.0], best_high_c=30)
    assert one.warning == "too high a forecast: 1 day is warmer than 30 C, where growth slows"
    assert project_by_tgc(SAMPLE, 1.5, [28.0, 30.0], best_high_c=30).warning is None
    assert project_by_tgc(SAMPLE, 1.5, [39.0]).warning is None


@given(weight_g=WEIGHT, length_cm=st.floats(1, 100))
def test_condition_is_that_of_the_cube_of_length(weight_g: float, length_cm: float) -> None:
    assert condition_factor(8 * weight_g, 2 * length_cm) == pytest.approx(condition_factor(weight_g, length_cm))


REFUSALS: list[tuple[Callable[[], object], str]] = [
    (lambda: mean_weight([]), "number of weights 0 is not above 0"),
    (lambda: mean_weight([100, 0]), "weight 0 g is not above 0"),
    (lambda: mean_weight([100, math.nan]), "weight (not a number) is not above 0"),
    (lambda: mean_weight_in_bulk(1000, 0), "count 0 is not above 0"),
    (lambda: biomass_kg(-1, 10), "mean weight -1 g"),
    (lambda: biomass_kg(1, -10), "number alive -10"),
    (lambda: survival_percent(1, 0), "number stocked 0 is not above 0"),
    (lambda: survival_percent(43, 42), "number alive 43 is outside 0 to 42"),
    (lambda: biomass_gain(1, -2), "biomass end -2"),
    (lambda: biomass_gain(1, 2, taken_out=-3), "biomass taken out -3"),
    (lambda: feed_conversion(-1, 2), "feed -1"),
    (lambda: biological_feed_conversion(1, 2, -1), "weight of dead -1"),
    (lambda: specific_growth_rate(0, 10, 10), "first weight 0 g is not above 0"),
    (lambda: specific_growth_rate(10, 20, 0), "days 0 is not above 0"),
    (lambda: daily_growth_percent(60), "growth rate 60 %"),
    (lambda: degree_days([20, 41]), "temperature 41 C is outside 0 to 40 C"),
    (lambda: thermal_growth_coefficient(10, 20, 0), "degree day sum 0 is not above 0"),
    (lambda: project_by_sgr(MeanWeight(10, 1), 1, 121), "days 121 is outside 0 to 120"),
    (lambda: project_by_sgr(MeanWeight(0, 1), 1, 12), "weight 0 g is not above 0"),
    (lambda: project_by_tgc(MeanWeight(10, 1), 11, [20]), "TGC times 1000 11"),
    (
        lambda: project_by_tgc(MeanWeight(10, 1), 2.2, [20], scale=TgcScale.TIMES_100),
        "TGC times 1000 22 is outside -10 to 10",
    ),
    (lambda: project_by_tgc(MeanWeight(1, 1), -5, [20] * 20), "a fish cannot shrink to nothing"),
    (lambda: condition_factor(100, 0), "length 0 cm is not above 0"),
]


@pytest.mark.parametrize(("attempt", "words"), REFUSALS, ids=[words for _, words in REFUSALS])
def test_what_cannot_be_is_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(words)):
        attempt()
