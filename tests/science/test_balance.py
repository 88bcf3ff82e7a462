"""Whether feed, fish, plants and filter fit each other."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.balance import (
    FEED_RANGES,
    FILTER_MEDIA,
    LEAFY,
    RAFT,
    AmmoniaMethod,
    Place,
    Verdict,
    ammonia_from_feed,
    area_fed,
    feed_for_area,
    feed_from_fish,
    feed_per_area,
    filter_surface,
    fish_for_feed,
    judge,
    judge_feed,
    judge_stocking,
    judge_turnover,
    media_volume,
    plan_crop,
    stocking_density,
    stocking_range,
)

AMOUNTS = st.floats(0.1, 10_000)
RATES = st.floats(0.1, 100)


def test_lettuce_plan() -> None:
    plan = plan_crop(plants_per_week=25, weeks_in_bed=4, plants_per_m2=25, rate_g_per_m2_day=50)
    assert plan.plants == 100
    assert (plan.area_m2, plan.feed_g_per_day) == pytest.approx((4, 200))
    assert (plan.fish_kg_low, plan.fish_kg_high) == pytest.approx((10, 20))


def test_a_thinner_stand_takes_more_bed() -> None:
    assert plan_crop(25, 4, 20, 50).area_m2 == pytest.approx(5)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (39, Verdict(Place.BELOW, 1)),
        (40, Verdict(Place.WITHIN, 0)),
        (50, Verdict(Place.WITHIN, 0)),
        (53, Verdict(Place.ABOVE, 3)),
    ],
)
def test_a_verdict_says_how_far(value: float, verdict: Verdict) -> None:
    assert judge(value, 40, 50) == verdict


@given(st.floats(-1e6, 1e6), st.floats(-1e3, 1e3), st.floats(0, 1e3))
def test_taking_off_what_is_off_ends_at_the_nearer_limit(value: float, low: float, width: float) -> None:
    high = low + width
    verdict = judge(value, low, high)
    if verdict.place is Place.WITHIN:
        assert low <= value <= high
        assert verdict.off == 0
    else:
        nearer = low if verdict.place is Place.BELOW else high
        assert abs(value - nearer) == pytest.approx(verdict.off)
        assert verdict.off > 0


def test_a_backward_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match="runs backwards"):
        judge(1, 3, 2)


def test_feed_on_beds_is_judged_against_the_range_named() -> None:
    assert judge_feed(220, 4, LEAFY) == Verdict(Place.ABOVE, pytest.approx(5))
    assert judge_feed(220, 4, RAFT) == Verdict(Place.BELOW, pytest.approx(5))


def test_what_is_from_memory_says_so() -> None:
    assert [r.verified for r in FEED_RANGES] == [True, True, False]
    assert not any(medium.verified for medium in FILTER_MEDIA)
    assert all(0 < medium.surface_low < medium.surface_high for medium in FILTER_MEDIA)


@given(AMOUNTS, RATES)
def test_feed_and_area_round_trip(feed: float, rate: float) -> None:
    area = area_fed(feed, rate)
    assert feed_for_area(area, rate) == pytest.approx(feed)
    assert feed_per_area(feed, area) == pytest.approx(rate)


@given(AMOUNTS, RATES)
def test_feed_and_fish_round_trip(fish: float, rate: float) -> None:
    assert fish_for_feed(feed_from_fish(fish, rate), rate) == pytest.approx(fish)


def test_each_chain_has_its_own_constants() -> None:
    fao = ammonia_from_feed(200, 0.32, AmmoniaMethod.FAO_589)
    other = ammonia_from_feed(200, 0.32, AmmoniaMethod.TIMMONS_EBELING)
    assert fao.nitrogen_g_per_day == pytest.approx(6.2464)
    assert fao.nh3_g_per_day == pytest.approx(7.49568)
    assert other.nitrogen_g_per_day == pytest.approx(5.888)
    assert other.nh3_g_per_day == pytest.approx(7.1592, abs=1e-4)
    assert (fao.method, other.method) == tuple(AmmoniaMethod)


@given(AMOUNTS, AMOUNTS, st.floats(0.1, 0.6), st.sampled_from(list(AmmoniaMethod)))
def test_ammonia_adds_up_over_feeds(one: float, other: float, protein: float, method: AmmoniaMethod) -> None:
    parts = sum(ammonia_from_feed(feed, protein, method).nh3_g_per_day for feed in (one, other))
    assert ammonia_from_feed(one + other, protein, method).nh3_g_per_day == pytest.approx(parts)
    assert ammonia_from_feed(one, protein, method).nitrogen_g_per_day < one * protein * 0.16


@pytest.mark.parametrize("removal", [0.2, 2])
def test_filter_surface_takes_the_whole_stated_range(removal: float) -> None:
    assert filter_surface(0.5, removal) == pytest.approx(0.5 / removal)


def test_filter_volume() -> None:
    surface = filter_surface(7.5)
    assert surface == pytest.approx(13.158, abs=0.001)
    assert media_volume(surface, 300) == pytest.approx(43.86, abs=0.01)
    assert media_volume(surface, 300, oversize=3) == pytest.approx(3 * 43.86, abs=0.03)


@pytest.mark.parametrize(("tank", "expected"), [(1000, (10, 20)), (500, (10, 20)), (499, (5, 10)), (100, (5, 10))])
def test_small_tanks_take_half(tank: float, expected: tuple[float, float]) -> None:
    assert stocking_range(tank) == expected


def test_stocking_is_judged_per_1000_l() -> None:
    assert stocking_density(12, 800) == pytest.approx(15)
    assert judge_stocking(12, 800).place is Place.WITHIN
    assert judge_stocking(5, 200) == Verdict(Place.ABOVE, pytest.approx(15))
    assert judge_stocking(0, 1000) == Verdict(Place.BELOW, 10)


def test_turnover_is_judged_per_hour() -> None:
    assert judge_turnover(2000, 1000) == Verdict(Place.WITHIN, 0)
    assert judge_turnover(600, 1000) == Verdict(Place.BELOW, pytest.approx(0.4))


@pytest.mark.parametrize(
    "call",
    [
        lambda: feed_per_area(-1, 4),
        lambda: feed_per_area(100, 0),
        lambda: area_fed(math.nan, 50),
        lambda: feed_from_fish(10, 101),
        lambda: fish_for_feed(200, 0),
        lambda: fish_for_feed(200, 150),
        lambda: ammonia_from_feed(200, 32, AmmoniaMethod.FAO_589),
        lambda: filter_surface(7.5, 0.1),
        lambda: filter_surface(7.5, 2.5),
        lambda: media_volume(13, 300, 0.5),
        lambda: stocking_density(10, 0),
        lambda: stocking_density(-1, 1000),
        lambda: feed_for_area(4, 0),
        lambda: area_fed(100, -50),
        lambda: ammonia_from_feed(-1, 0.32, AmmoniaMethod.FAO_589),
        lambda: ammonia_from_feed(200, 0.75, AmmoniaMethod.FAO_589),
        lambda: media_volume(13, 0),
        lambda: judge(math.nan, 0, 1),
    ],
)
def test_outside_the_range_is_refused(call: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        call()
