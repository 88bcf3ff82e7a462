"""What a reading command answers goes into a file of each kind, from the invented farm and from an empty one."""

from __future__ import annotations

import csv
import json
from pathlib import Path
from xml.etree import ElementTree

import pytest
from openpyxl import load_workbook

from tests.cli.hand import NOT_WORDS, Hand
from tests.cli.tree import Leaf, walk
from tests.json_page import FOUND_PROBLEMS, changed_nothing
from tests.profiles import count

READING = [one for one in walk() if any(given.name == "out" for given in one.command.params)]
ENDINGS = (".csv", ".xlsx", ".json")
OWNER_ALONE = 0o600
OTHERWISE = ("chores print", "chores calendar", "away sheet", "incident card", "report", "export", "backup", "restore")
"""They write a file of their own."""
WRITES_AS_A_RULE = {"prices edit", "instruments edit-check"}
"""They change something, though not each time they are called there."""
WORDS = {
    "chores template show": ["site-check"],
    "chores preview": ["--every", "day", "--from", "2026-10-14"],
    "fish losses": ["PERCH-24"],
    "water sources show": ["Mains"],
    "people show": ["Maren"],
    "units show": ["WREN"],
    "crops show": ["CHARD"],
    "fish show": ["PERCH-24"],
    "fish grow": ["PERCH-24"],
    "fish book": ["PERCH-24"],
    "trace": ["PERCH-24"],
    "compare": ["WREN", "ROOK"],
    "water cycling": ["SISKIN"],
    "instruments checks": ["Drop kit"],
    "doses suggest": ["WREN", "potassium bicarbonate", "--to", "120"],
    "supplies show": ["Perch feed"],
    "why": ["cost", "--unit", "WREN"],
}
"""What is named on the invented farm, where it is not what fits elsewhere."""
NEEDS_MORE = {"costs labels totals": "No labels are loaded."}
"""What is refused on a farm where what it tells of was never entered."""


def named(one: Leaf) -> str:
    """The test's id."""
    return one.name


def typed(one: Leaf) -> list[str]:
    """The command with what it must be given: of a sum its own example, else what is on the invented farm."""
    if one.path[0] == "calc":
        return one.examples[0]
    return [*one.path, *WORDS.get(one.name, one.with_words({}))]


def endings_for(command: Leaf) -> tuple[str, ...]:
    """Each kind of file, by turns over the commands; every one for every command in profile full."""
    at = READING.index(command)
    return tuple(ENDINGS[(at + turn) % len(ENDINGS)] for turn in range(count(ci=1, full=len(ENDINGS))))


def test_every_command_that_answers_without_changing_anything_has_it() -> None:
    lacking = changed_nothing() - {one.name for one in READING}
    writers = {one.name for one in walk() if one.path[-1:] and one.path[0] == "import"} | set(OTHERWISE)
    assert len(READING) > 70
    assert sorted(lacking - writers - WRITES_AS_A_RULE) == []


@pytest.mark.parametrize("command", READING, ids=named)
def test_it_answers_into_each_kind_of_file(
    command: Leaf, invented_place: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    hand = Hand(invented_place, capsys)
    endings = endings_for(command)
    for ending in endings:
        file = tmp_path / f"answer{ending}"
        said = hand.types(*typed(command), "--out", str(file))
        if command.name in NEEDS_MORE:
            assert (said.code, said.err.startswith(NEEDS_MORE[command.name])) == (1, True)
            return
        assert said.code in (0, FOUND_PROBLEMS), said.err
        assert (said.out, said.err.startswith(f"Written: {file}")) == ("", True), said.err
        assert file.stat().st_mode & 0o777 == OWNER_ALONE
    for ending in endings:
        READS[ending](tmp_path / f"answer{ending}", hand, command)


def _reads_as_printed(file: Path, hand: Hand, command: Leaf) -> None:
    assert json.loads(file.read_text(encoding="utf-8")) == hand.types(*typed(command), "--json").data


def _reads_as_a_table(file: Path, hand: Hand, command: Leaf) -> None:
    rows = list(csv.reader(file.read_text(encoding="utf-8").splitlines()))
    assert all(len(row) == len(rows[0]) for row in rows)


def _reads_as_a_workbook(file: Path, hand: Hand, command: Leaf) -> None:
    assert load_workbook(file).sheetnames


READS = {".csv": _reads_as_a_table, ".xlsx": _reads_as_a_workbook, ".json": _reads_as_printed}


@pytest.mark.parametrize("command", READING, ids=named)
def test_on_an_empty_farm_it_writes_a_file_or_says_why_not(command: Leaf, bare: Hand, tmp_path: Path) -> None:
    for ending in endings_for(command):
        file = tmp_path / f"answer{ending}"
        said = bare.types(*typed(command), "--out", str(file))
        assert said.code in (0, 1, FOUND_PROBLEMS), said.err
        assert not any(sign in said.err for sign in NOT_WORDS)
        assert file.exists() == (said.code != 1)
        assert said.out == ""


DRAWN = (
    ("returns",),
    ("returns", "--by", "bed"),
    ("returns", "--by", "month"),
    ("water", "list", "--unit", "TEAL", "--measure", "temperature"),
    ("water", "cycling", "SISKIN"),
    ("fish", "grow", "PERCH-25"),
    ("chores", "load"),
)


@pytest.mark.parametrize("words", DRAWN, ids=" ".join)
def test_what_has_a_curve_is_drawn(
    words: tuple[str, ...], invented_place: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "chart.svg"
    said = Hand(invented_place, capsys)(*words, "--out", str(file))
    assert said.err == f"Written: {file}, a chart.\n"
    assert ElementTree.parse(file).getroot().tag.endswith("svg")  # noqa: S314 - written just now
    assert file.stat().st_mode & 0o777 == OWNER_ALONE


def test_a_chart_is_of_one_measure_of_one_unit_and_of_something(farm: Hand, tmp_path: Path) -> None:
    file = str(tmp_path / "chart.svg")
    assert farm.refused("water", "list", "--out", file) == "There is nothing to draw here yet.\n"
    farm("water", "add", "WREN", "pH", "7.2", "nitrite", "0")
    assert "name them with --unit and --measure" in farm.refused("water", "list", "--out", file)
    assert "Understood: .csv, .json, .xlsx." in farm.refused("units", "list", "--out", file)


def test_the_file_is_refused_before_anything_is_asked(farm: Hand, tmp_path: Path) -> None:
    there = tmp_path / "units.csv"
    there.write_text("mine", encoding="utf-8")
    assert "is there already" in farm.refused("units", "list", "--out", str(there))
    assert "Understood: .csv, .json, .xlsx" in farm.refused("units", "list", "--out", "units.pdf")
    assert "There is no folder" in farm.refused("units", "list", "--out", str(tmp_path / "none" / "units.csv"))
    assert there.read_text(encoding="utf-8") == "mine"
    farm("units", "list", "--out", str(there), "--replace")
    assert there.read_text(encoding="utf-8") != "mine"
