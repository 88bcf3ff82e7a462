"""From a fresh machine to a look at a farm: the one command that the README begins with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.profiles import count

UNITS = ("WREN", "ROOK", "TEAL", "PLOVER", "SISKIN", "DIPPER")


def farmops(folder: Path, *words: str, columns: int = 80) -> subprocess.CompletedProcess[str]:
    """The public command in a home of its own, with a folder of its own for what is temporary."""
    temporary, home = folder / "tmp", folder / "home"
    temporary.mkdir(exist_ok=True)
    home.mkdir(exist_ok=True)
    own = {"TMPDIR": str(temporary), "HOME": str(home), "XDG_DATA_HOME": str(home), "COLUMNS": str(columns)}
    environment = {key: value for key, value in os.environ.items() if not key.startswith("FARMOPS_")} | own
    command = [sys.executable, "-c", "from farmops.main import main; main()", *words]
    return subprocess.run(command, capture_output=True, text=True, env=environment, cwd=Path(__file__).parents[2])


@pytest.mark.parametrize("columns", (80, 120)[: count(ci=1, full=2)])
def test_the_demo_prints_its_round_and_its_returns_and_leaves_nothing_behind(tmp_path: Path, columns: int) -> None:
    done = farmops(tmp_path, "demo", "--print", columns=columns)
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stdout + done.stderr
    assert done.stdout.startswith("Quillet Bank, Wednesday 14 October 2026: 19 to do, 2 late")
    late = done.stdout.partition("Late\n")[2].partition("Morning\n")[0]
    assert all(words in late for words in ("TEAL", "Clear the pump intake", "2 days late", "ROOK", "4 days late"))
    table = done.stdout.partition("2026-03-01 to 2026-10-14, full cost")[2]
    assert [line.split()[0] for line in table.splitlines() if line.startswith(UNITS)] == [*UNITS, *UNITS]
    assert done.stdout.splitlines()[-1].startswith("Quillet Bank is invented. Your own farm: farmops farm open")
    assert max(len(line) for line in done.stdout.splitlines()) <= columns
    assert list((tmp_path / "tmp").iterdir()) == []
    assert list((tmp_path / "home").iterdir()) == []


def test_without_a_terminal_the_demo_tells_its_round_and_leaves_nothing_behind(tmp_path: Path) -> None:
    done = farmops(tmp_path, "demo")
    assert done.returncode == 0, done.stderr
    making, why = done.stderr.splitlines()[:2]
    assert making == "Making the invented farm ..."
    assert why.startswith("No screens ")
    assert done.stdout.startswith("Quillet Bank, Wednesday 14 October 2026: 19 to do, 2 late")
    assert list((tmp_path / "tmp").iterdir()) == []


def test_a_kept_copy_is_worked_on_like_any_farm_and_never_overwritten(tmp_path: Path) -> None:
    place = str(tmp_path / "quillet.db")
    kept = farmops(tmp_path, "demo", "--keep", place)
    assert (kept.returncode, kept.stdout) == (0, "")
    assert kept.stderr.rstrip().endswith(f"farmops --farm {place}")
    settled = farmops(tmp_path, "--farm", place, "--by", "Tobit", "harvest", "WREN-N", "CHARD", "1 6")
    assert settled.returncode == 0, settled.stderr
    again = farmops(tmp_path, "demo", "--keep", place)
    assert again.returncode == 1
    assert "exists already" in again.stderr
    listed = farmops(tmp_path, "--farm", place, "harvests", "list", "--from", "2026-10-14", "--unit", "WREN")
    assert "1 lb 6 oz" in listed.stdout
