"""What a fresh interpreter loads: a command imports what it needs, and reading never loads what only writing needs."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.hand import TODAY, Hand

HEAVY = {
    *("sqlalchemy", "sqlmodel", "alembic", "pandas", "numpy", "scipy", "textual", "dateutil", "matplotlib"),
    *("reportlab", "PIL", "icalendar"),
}
NOT_OF_THE_ROUND = {
    "farmops.reports.lists",
    *(f"farmops.facts.{name}" for name in ("costs", "harvests", "journal", "plantings")),
}
SHOW_MODULES = """
import json, sys
from farmops.main import run
for words in json.loads(sys.argv[1]):
    code = run(words)
    print("\\n" + json.dumps(sorted({name.partition(".")[0] for name in sys.modules} | set(sys.modules))))
    if code:
        sys.exit(code)
"""
CALENDAR = ["chores", "add", "Oil the door", "--every", "month on the 31st", "--from"]
HELP = ["--version", "--help", "chores --help", "beds add --help", "calc --help", "-h"]
READING = [
    "farm show",
    "chores",
    "chores --days 7 --json",
    "chores print --text",
    "chores list",
    "chores show 1",
    "chores history 1",
    "units list",
    "units show WREN",
    "beds list",
    "beds show WREN-N",
    "crops list",
    "crops show CHARD",
    "plantings list",
    "plantings show 1",
    "fish list",
    "fish show P1",
    "water list",
    "water show WREN",
    "costs list",
    "costs show 1",
    "prices list",
    "people list",
    "people show Ada",
    "harvests list",
    "journal",
    "returns",
]


def split(commands: list[str]) -> list[list[str]]:
    """Each command as its words."""
    return [words.split() for words in commands]


def loaded_one_by_one(place: Path, commands: list[list[str]], **environment: str) -> list[set[str]]:
    """The modules a fresh interpreter holds after each of some commands that succeed."""
    known = {name: value for name, value in os.environ.items() if not name.startswith(("FARMOPS_", "_FARMOPS"))}
    done = subprocess.run(
        [sys.executable, "-c", SHOW_MODULES, json.dumps(commands)],
        env={**known, "FARMOPS_FARM": str(place), **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return [set(json.loads(line)) for line in done.stdout.splitlines() if line.startswith('["')]


def loaded(place: Path, *words: str, **environment: str) -> set[str]:
    """The modules a fresh interpreter holds after a command that succeeds."""
    (found,) = loaded_one_by_one(place, [list(words)], **environment)
    return found


@pytest.fixture
def quiet(farm: Hand) -> Hand:
    """The row, with every chore settled or to come, so that nothing is late on a calendar rule."""
    for chore in farm("chores", "list", "--json").data["chores"]:
        farm("chores", "remove", str(chore["id"]))
    farm(*CALENDAR, TODAY)
    return farm


def test_versions_and_help_load_nothing_heavy(tmp_path: Path) -> None:
    for words, found in zip(HELP, loaded_one_by_one(tmp_path / "none.db", split(HELP)), strict=True):
        assert "click" in found
        assert not found & HEAVY, words


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
@pytest.mark.parametrize("half", ["", "beds ", "chores "])
def test_completion_loads_nothing_heavy(tmp_path: Path, shell: str, half: str) -> None:
    words = {"COMP_WORDS": f"farmops {half}", "COMP_CWORD": str(len(half.split()) + 1)}
    found = loaded(tmp_path / "none.db", _FARMOPS_COMPLETE=f"{shell}_complete", **words)
    assert "click" in found
    assert not found & HEAVY


def test_reading_loads_nothing_that_only_writing_needs(farm: Hand) -> None:
    for words, found in zip(READING, loaded_one_by_one(farm.place, split(READING)), strict=True):
        assert "sqlite3" in found
        assert not found & (HEAVY - {"dateutil"}), words


def test_chores_leave_dateutil_alone_unless_something_is_late_on_a_calendar_rule(quiet: Hand, tmp_path: Path) -> None:
    assert "dateutil" not in loaded(quiet.place, "chores", "--on", TODAY)
    assert "dateutil" in loaded(quiet.place, "chores", "--on", "2026-12-01")


def test_the_round_loads_no_books_and_no_harvests(farm: Hand) -> None:
    assert not loaded(farm.place, "chores") & NOT_OF_THE_ROUND


def test_the_check_itself_sees_what_a_write_loads(farm: Hand) -> None:
    assert {"sqlalchemy", "sqlmodel"} <= loaded(farm.place, "people", "add", "Bo")


def test_the_installed_command_answers(tmp_path: Path) -> None:
    command = shutil.which("farmops", path=str(Path(sys.executable).parent))
    program = [command] if command else [sys.executable, "-m", "farmops"]
    done = subprocess.run([*program, "--version"], capture_output=True, text=True, check=True, cwd=Path.cwd())
    assert done.stdout.startswith("farmops, version ")
