"""Ranges and the design chain against FAO Technical Paper 589."""

from __future__ import annotations

import pytest

from farmops.science.balance import (
    FILTER_MEDIA,
    FRUITING,
    GROW_OUT_FEEDING,
    LEAFY,
    LEAFY_DENSITY,
    AmmoniaMethod,
    Place,
    PublishedRange,
    ammonia_from_feed,
    area_fed,
    feed_from_fish,
    filter_surface,
    judge_stocking,
    judge_turnover,
    media_volume,
)
from tests.labels import from_memory, published, rows

RANGES = {r.purpose: r for r in (LEAFY, FRUITING, LEAFY_DENSITY, GROW_OUT_FEEDING)}


@published("FAO 589, quick-reference section and s.7.3")
@pytest.mark.parametrize(("quantity", "low", "high", "unit"), rows("fao589_ranges.csv"))
def test_ranges_are_as_printed(quantity: str, low: str, high: str, unit: str) -> None:
    ours: PublishedRange = RANGES[quantity]
    assert (ours.low, ours.high, ours.unit, ours.verified) == (float(low), float(high), unit, True)


@published("FAO 589, s.7.2 and 7.3: a fish of 100 g eats 1 to 2 g a day")
def test_a_fish_of_100_g_eats_1_to_2_g() -> None:
    eats = [feed_from_fish(0.1, rate) for rate in (GROW_OUT_FEEDING.low, GROW_OUT_FEEDING.high)]
    assert eats == pytest.approx([1, 2])


@from_memory("FAO 589, Appendix 4")
def test_feed_to_filter_volume_chain() -> None:
    load = ammonia_from_feed(200, 0.32, AmmoniaMethod.FAO_589)
    surface = filter_surface(load.nh3_g_per_day)
    assert load.nh3_g_per_day == pytest.approx(7.5, abs=0.01)
    assert surface == pytest.approx(13.2, abs=0.1)
    assert media_volume(surface, 300) == pytest.approx(44, abs=1)
    assert media_volume(surface, 600) == pytest.approx(22, abs=1)


@from_memory("Timmons and Ebeling, Recirculating Aquaculture")
def test_the_second_chain_with_its_own_constant() -> None:
    load = ammonia_from_feed(200, 0.32, AmmoniaMethod.TIMMONS_EBELING)
    assert load.nitrogen_g_per_day == pytest.approx(5.89, abs=0.01)


@from_memory("FAO 589, Table 4.1 and Appendix 4")
def test_filter_media_are_as_remembered() -> None:
    ours = [(m.name, m.surface_low, m.surface_high) for m in FILTER_MEDIA]
    assert ours == [(name, float(low), float(high)) for name, low, high in rows("fao589_filter_media.csv")]


@from_memory("FAO 589, Table 8.1")
def test_the_sizing_table_holds_together() -> None:
    for tank, fish, feed, pump, leafy in (map(float, row) for row in rows("fao589_sizing_table.csv")):
        assert feed_from_fish(fish, 1) == pytest.approx(feed)
        assert area_fed(feed, 50) == pytest.approx(leafy)
        if tank >= 500:
            assert judge_stocking(fish, tank).place is Place.WITHIN
            assert judge_turnover(pump, tank).off < 0.5
