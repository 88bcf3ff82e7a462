"""The ration: a ceiling that falls with weight, cold, heat and the limit of the unit."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.rations import (
    GROW_OUT_TABLE,
    GROWING_TABLE,
    TILAPIA_TABLE,
    FeedingBand,
    FeedingTemperatures,
    RationReason,
    band_for,
    beds_take_g,
    filter_takes_g,
    helpers_bag,
    helpers_temperatures,
    percent_in_band,
    ration,
)
from tests.labels import common_practice, from_memory

WARM_FISH = FeedingTemperatures(
    best_low_c=26, best_high_c=30, stop_below_c=18, stop_above_c=34, lethal_below_c=12, lethal_above_c=38
)
TABLES = [TILAPIA_TABLE, GROW_OUT_TABLE, GROWING_TABLE]


@pytest.mark.parametrize("table", TABLES, ids=["tilapia", "grow-out", "growing"])
def test_the_bands_of_a_table_touch_and_never_rise(table: tuple[FeedingBand, ...]) -> None:
    for lighter, heavier in pairwise(table):
        assert lighter.to_g == heavier.from_g
        assert lighter.percent_at_to == heavier.percent_at_from
    assert all(band.percent_at_from >= band.percent_at_to > 0 for band in table)
    assert table[-1].to_g == math.inf
    assert all(band.source and band.standing for band in table)


@given(mean_g=st.floats(0.02, 2000))
def test_heavier_fish_get_no_greater_share(mean_g: float) -> None:
    lighter = ration(100, mean_g, 28, temperatures=WARM_FISH)
    heavier = ration(100, mean_g * 1.1, 28, temperatures=WARM_FISH)
    assert heavier.percent_of_weight <= lighter.percent_of_weight + 1e-9


@given(mean_g=st.floats(0.02, 449.99))
def test_percent_lies_between_the_ends_and_not_above_a_straight_line(mean_g: float) -> None:
    band = band_for(mean_g, TILAPIA_TABLE)
    share = (mean_g - band.from_g) / (band.to_g - band.from_g)
    straight = band.percent_at_from + share * (band.percent_at_to - band.percent_at_from)
    assert band.percent_at_to - 1e-9 <= percent_in_band(mean_g, band) <= straight + 1e-9


@pytest.mark.parametrize(
    ("mean_g", "percent"), [(0.02, 30), (1, 10), (5, 6), (20, 4), (100, 3), (450, 1.5), (900, 1.5)]
)
def test_the_ends_of_the_bands_are_those_of_the_table(mean_g: float, percent: float) -> None:
    assert ration(10, mean_g, 28, temperatures=WARM_FISH).percent_of_weight == pytest.approx(percent)


@given(count=st.integers(0, 10_000), mean_g=st.floats(50, 2000), temperature_c=st.floats(0, 40))
def test_grams_are_fish_times_weight_times_percent_times_factor(
    count: int, mean_g: float, temperature_c: float
) -> None:
    feed = ration(count, mean_g, temperature_c, temperatures=WARM_FISH, table=GROW_OUT_TABLE)
    assert feed.grams == pytest.approx(count * mean_g * 0.02 * feed.temperature_factor)
    assert 0 <= feed.temperature_factor <= 1
    if count:
        assert feed.percent_of_weight == pytest.approx(2 * feed.temperature_factor)


@pytest.mark.parametrize(
    ("temperature_c", "factor", "reason", "words"),
    [
        (11, 0, RationReason.LETHAL_COLD, "no feed: 11 C can kill them, act on the temperature first"),
        (12, 0, RationReason.LETHAL_COLD, "no feed: 12 C can kill them, act on the temperature first"),
        (15, 0, RationReason.TOO_COLD, "no feed: at or below 18 C"),
        (18, 0, RationReason.TOO_COLD, "no feed: at or below 18 C"),
        (20, 0.25, RationReason.COOL, "25 % of the full ration: below 26 C"),
        (26, 1, RationReason.FULL, "full ration"),
        (30, 1, RationReason.FULL, "full ration"),
        (33, 0.25, RationReason.WARM, "25 % of the full ration: above 30 C"),
        (34, 0, RationReason.TOO_WARM, "no feed: at or above 34 C"),
        (38, 0, RationReason.LETHAL_HEAT, "no feed: 38 C can kill them, act on the temperature first"),
    ],
)
def test_feed_follows_the_temperature(temperature_c: float, factor: float, reason: RationReason, words: str) -> None:
    feed = ration(50, 200, temperature_c, temperatures=WARM_FISH)
    assert feed.temperature_factor == pytest.approx(factor)
    assert feed.reason is reason
    assert feed.words == words
    assert (feed.grams == 0) == (factor == 0)


def test_without_known_lethal_temperatures_it_is_merely_too_cold_or_warm() -> None:
    unknown = replace(WARM_FISH, lethal_below_c=None, lethal_above_c=None)
    assert ration(50, 200, 2, temperatures=unknown).reason is RationReason.TOO_COLD
    assert ration(50, 200, 44, temperatures=unknown).reason is RationReason.TOO_WARM


def test_a_species_without_a_ramp_stops_at_once() -> None:
    sharp = FeedingTemperatures(best_low_c=10, best_high_c=20, stop_below_c=10, stop_above_c=20)
    assert ration(50, 200, 10, temperatures=sharp).grams == 0
    assert ration(50, 200, 10.1, temperatures=sharp).reason is RationReason.FULL
    assert ration(50, 200, 20, temperatures=sharp).grams == 0


@given(limit_g=st.floats(0, 500))
def test_the_unit_takes_no_more_than_its_limit(limit_g: float) -> None:
    free = ration(50, 200, 28, temperatures=WARM_FISH)
    held = ration(50, 200, 28, temperatures=WARM_FISH, unit_limit_g=limit_g)
    assert held.grams == min(free.grams, limit_g)
    assert (held.reason is RationReason.UNIT_LIMIT) == (limit_g < free.grams)


def test_a_limit_far_away_leaves_the_reason_alone() -> None:
    cool = ration(50, 200, 20, temperatures=WARM_FISH, unit_limit_g=10_000)
    assert cool.reason is RationReason.COOL


def test_no_fish_no_feed() -> None:
    nothing = ration(0, 200, 28, temperatures=WARM_FISH)
    assert nothing.grams == 0
    assert nothing.percent_of_weight == 0


def test_the_answer_names_the_row_and_its_standing() -> None:
    assert "from memory" in ration(1, 50, 28, temperatures=WARM_FISH).band.standing
    assert ration(1, 50, 28, temperatures=WARM_FISH, table=GROW_OUT_TABLE).band.standing.startswith("verified")


@pytest.mark.parametrize(
    ("count", "mean_g", "temperature_c", "words"),
    [
        (-1, 100, 28, "number of fish -1"),
        (1, 0, 28, "mean weight 0 g is not above 0"),
        (1, 0.01, 28, "mean weight 0.01 g is outside the feeding table, which covers 0.02 g and more"),
        (1, 100, 46, "temperature 46 C is outside -1 to 45 C"),
        (1, 100, math.nan, r"temperature \(not a number\)"),
    ],
)
def test_what_the_table_does_not_reach_is_refused(count: int, mean_g: float, temperature_c: float, words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        ration(count, mean_g, temperature_c, temperatures=WARM_FISH)


def test_an_empty_table_and_a_negative_limit_are_refused() -> None:
    with pytest.raises(OutOfRange, match="covers no weights at all"):
        ration(1, 100, 28, temperatures=WARM_FISH, table=())
    with pytest.raises(OutOfRange, match=r"which covers 0\.02 to 1 g"):
        ration(1, 2, 28, temperatures=WARM_FISH, table=TILAPIA_TABLE[:1])
    with pytest.raises(OutOfRange, match="unit limit -1 g"):
        ration(1, 100, 28, temperatures=WARM_FISH, unit_limit_g=-1)


@pytest.mark.parametrize(
    "change",
    [
        {"stop_below_c": 27.0},
        {"stop_above_c": 29.0},
        {"lethal_below_c": 19.0},
        {"lethal_above_c": 33.0},
        {"best_low_c": math.nan},
    ],
)
def test_temperatures_out_of_order_are_refused(change: dict[str, float]) -> None:
    with pytest.raises(OutOfRange, match="temperatures must rise from lethal cold to lethal heat"):
        replace(WARM_FISH, **change)


@common_practice("a helper stops feeding well before the fish are in danger: half way from best to lethal")
@pytest.mark.parametrize(
    ("best", "lethal", "stop"),
    [((14, 16), (10, 18), (12, 17)), ((27, 30), (14, 36), (20.5, 33)), ((24, 30), (5, 34), (14.5, 32))],
)
def test_a_helper_stops_half_way_between_best_and_lethal(
    best: tuple[float, float], lethal: tuple[float, float], stop: tuple[float, float]
) -> None:
    found = helpers_temperatures(
        best_low_c=best[0], best_high_c=best[1], lethal_low_c=lethal[0], lethal_high_c=lethal[1]
    )
    assert (found.stop_below_c, found.stop_above_c) == stop
    assert (found.lethal_below_c, found.lethal_above_c) == lethal


def test_a_helper_gets_no_temperatures_out_of_order() -> None:
    with pytest.raises(OutOfRange):
        helpers_temperatures(best_low_c=20, best_high_c=24, lethal_low_c=22, lethal_high_c=30)


@common_practice("a helper's bag is on the short side: four fifths of the ration")
@pytest.mark.parametrize(("ration_g", "grams"), [(0, 0), (1, 0), (10, 8), (47.5, 38), (48.7, 38), (100, 80)])
def test_a_helpers_bag_is_short_and_whole(ration_g: float, grams: int) -> None:
    assert helpers_bag(ration_g) == grams


@pytest.mark.parametrize("ration_g", [-1, math.nan, math.inf])
def test_a_bag_of_less_than_nothing_is_refused(ration_g: float) -> None:
    with pytest.raises(OutOfRange):
        helpers_bag(ration_g)


@from_memory(
    "FAO 589, s.2.1.4: up to 80 g of feed a day per m2 of fruiting plants; SRAC 454: up to 100 g per m2 of raft"
)
def test_beds_take_so_much_feed() -> None:
    assert beds_take_g(raft_m2=2, other_m2=3) == 2 * 100 + 3 * 80
    assert beds_take_g(raft_m2=0, other_m2=0) == 0


@from_memory(
    "FAO 589, Appendix 4: 200 g of feed of 32 % protein leave 7.5 g of ammonia, for 13.1 m2, tripled for safety"
)
def test_the_medium_takes_the_ammonia_of_so_much_feed() -> None:
    surface_m2 = 3 * 200 * 0.32 * 0.16 * 0.61 * 1.2 / 0.57
    assert filter_takes_g(surface_m2 / 150 * 1000) == pytest.approx(200)
    with pytest.raises(OutOfRange):
        filter_takes_g(-1)
