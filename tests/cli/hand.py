"""A hand at the keyboard: types commands, reads what they say, and knows when nothing was changed."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from farmops.main import run

TODAY = "2026-10-14"
NOT_WORDS = ("Traceback", "has a fault", "constraint", "Error", "sqlite")


@dataclass(frozen=True)
class Said:
    """What a command answered."""

    code: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        """The one JSON object on stdout, checked to be that and to name its schema."""
        (line,) = self.out.splitlines()
        found = json.loads(line)
        assert found["schema"] == 1
        return found

    @property
    def lines(self) -> list[str]:
        """The lines on stdout, runs of blanks folded."""
        return [" ".join(line.split()) for line in self.out.splitlines()]


class Hand:
    """Types commands for the farm of one file."""

    def __init__(self, place: Path, capsys: pytest.CaptureFixture[str], by: str = "Ada") -> None:
        self.place = place
        self.url: str | None = None
        """Where the farm is instead, when it lies in no file."""
        self.capsys = capsys
        self.by = by

    @property
    def farm(self) -> str:
        """How the farm is named to the program."""
        return self.url or str(self.place)

    def types(self, *words: str) -> Said:
        """What a command answers, whatever it is."""
        self.capsys.readouterr()
        code = run(["--farm", self.farm, "--by", self.by, *words])
        out, err = self.capsys.readouterr()
        return Said(code, out, err)

    def __call__(self, *words: str) -> Said:
        """What a command answers that must succeed."""
        said = self.types(*words)
        assert said.code == 0, said.err
        return said

    def refused(self, *words: str, code: int = 1) -> str:
        """The words of a refusal, by which nothing was changed."""
        before = self.stored()
        said = self.types(*words)
        assert said.code == code, f"exit {said.code}: {said.out}{said.err}"
        assert said.out == ""
        assert said.err.strip()
        assert not any(sign in said.err.replace("Error: ", "") for sign in NOT_WORDS), said.err
        assert self.stored() == before
        return said.err

    def become(self, place: Path) -> None:
        """Make the farm of this hand a copy of another file, with what lies in its log."""
        with closing(sqlite3.connect(place)) as kept, closing(sqlite3.connect(self.place)) as copy:
            kept.backup(copy)

    def stored(self) -> list[str]:
        """Everything in the store, as SQL."""
        if not self.place.exists():
            return []
        with closing(sqlite3.connect(self.place)) as connection:
            return list(connection.iterdump())


def build_row(hand: Hand) -> None:
    """Hollow Lane: two units, two beds, chard and perch growing, a weighing, costs and a price."""
    for command in (
        ["farm", "open", "Hollow Lane", "--zone", "America/New_York"],
        ["units", "add", "WREN", "--state", "running", "--tank", "250 gal", "--on", "2026-03-01"],
        ["units", "add", "SWIFT", "--state", "building", "--on", "2026-03-01"],
        ["beds", "add", "WREN", "N", "24 sq ft", "--depth", "12 in", "--on", "2026-03-01"],
        ["beds", "add", "WREN", "S", "--kind", "raft", "--on", "2026-03-01"],
        ["crops", "add", "CHARD"],
        ["crops", "add", "SEA KALE"],
        ["plantings", "add", "WREN-N", "CHARD", "--plants", "30", "--variety", "Bright Stem", "--on", "2026-05-01"],
        ["fish", "add", "P1", "yellow perch", "WREN", "60", "0.5 oz", "--on", "2026-05-02"],
        ["harvest", "WREN-N", "CHARD", "1 6", "--use", "sold", "--on", "2026-06-20"],
        ["costs", "add", "fish feed", "42.50", "--category", "feed", "--from-whom", "Mill", "--on", "2026-05-03"],
        [
            "costs",
            "add",
            "pump",
            "$120",
            "--unit",
            "WREN",
            "--life",
            "8 years",
            "--salvage",
            "10",
            "--on",
            "2026-03-02",
        ],
        ["prices", "add", "CHARD", "3.50/lb", "--on", "2026-01-01"],
        ["people", "add", "Ada", "--note", "mornings"],
    ):
        hand(*command)
