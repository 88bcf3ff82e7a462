"""A fault anywhere in the program: told in words, nothing half done, and a report with nothing of the farm in it."""

from __future__ import annotations

import os
import random
import re
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from inspect import CO_GENERATOR
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

import farmops
from farmops.records.store import Store
from tests.cli.hand import TODAY, Hand, build_row
from tests.faults.soundness import assert_file_sound, operations
from tests.frozen import frozen
from tests.profiles import count

OURS = str(Path(farmops.__file__).parent)
TELLING = ("main.py", "faults.py", "output.py", "text.py", "errors.py")
"""What tells of a fault has to stand while another falls."""
FAULTS = count(ci=8, full=400)
SECRETS = ("Hollow", "WREN", "CHARD", "perch", "Bright Stem", "Mill", "42.50", "mornings", "4250", "1 6", "secret")
COMMANDS = (
    ["people", "list"],
    ["harvest", "WREN-N", "CHARD", "1 6 secret", "--on", "2026-06-21"],
    ["harvest", "WREN-N", "CHARD", "1 6", "--on", "2026-06-21", "--json"],
    ["returns", "--basis", "cash"],
    ["chores", "print", "--text"],
    ["import", "costs", "secret.csv"],
    ["undo"],
)
REPORT = re.compile(
    r"farmops [\d.\w+]+, Python [\d.\w+]+, \w+\n(?:[\w.<> -]+:(?:\d+|None) [\w<>]+\n)+Sabotage\n", re.ASCII
)
"""All that a report can hold: versions, lines of files, the kind of the fault."""


class Sabotage(Exception):
    """A fault that says all it can see."""


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def farm(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Hand:
    """A hand at Hollow Lane, whose reports of faults come into its folder, and a file of costs."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "reports").mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "reports"))
    (tmp_path / "secret.csv").write_text("date,what,amount,payee\n2026-05-09,secret,42.50,Mill\n", encoding="utf-8")
    hand = Hand(tmp_path / "farm.db", capsys)
    build_row(hand)
    return hand


@contextmanager
def watched(seen: Callable[[FrameType], None]) -> Iterator[None]:
    """Look at every call of a function of ours."""

    def trace(frame: FrameType, event: str, _: Any) -> None:
        code = frame.f_code
        ours = code.co_filename.startswith(OURS) and Path(code.co_filename).name not in TELLING
        if event == "call" and ours and not code.co_flags & CO_GENERATOR:  # one that is let go could tell nobody
            seen(frame)

    before = sys.gettrace()
    sys.settrace(trace)
    try:
        yield
    finally:
        sys.settrace(before)


def calls_of(farm: Hand, command: list[str]) -> int:
    """How many calls the command makes, carried out on a copy."""
    made = 0

    def add(_: FrameType) -> None:
        nonlocal made
        made += 1

    copy = Hand(farm.place.with_name("copy.db"), farm.capsys)
    copy.become(farm.place)
    with watched(add):
        copy.types(*command)
    return made


@contextmanager
def falling_at(number: int) -> Iterator[None]:
    """The call of that number falls, with everything it was given in its message."""
    left = number

    def fall(frame: FrameType) -> None:
        nonlocal left
        left -= 1
        if left == 0:
            raise Sabotage("secret", {name: repr(value) for name, value in frame.f_locals.items()})

    with watched(fall):
        yield


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_a_fault_at_any_call_tells_nothing_of_the_farm(farm: Hand, command: list[str]) -> None:
    store, dice = Store(str(farm.place)), random.Random(20261014)
    most = calls_of(farm, command)
    booked, told = operations(store), 0
    for _ in range(FAULTS):
        with falling_at(dice.randint(1, most)):
            said = farm.types(*command)
        if "has a fault" in said.err:
            told += 1
            assert said.code == 1
            words = said.err[said.err.index("farmops has a fault") :].replace(str(farm.place.parent), "")
            assert [one for one in SECRETS if one in words] == []
            after = operations(store)
            assert after[: len(booked)] == booked
            assert len(after) <= len(booked) + 1
            booked = after
    store.close()
    reports = [*(farm.place.parent / "reports").iterdir()]
    assert told > 0
    assert len(reports) == told
    for one in reports:
        assert one.stat().st_mode & 0o077 == 0
        text = one.read_text(encoding="utf-8")
        assert REPORT.fullmatch(text), text
        assert [word for word in SECRETS if word in text] == []
    assert_file_sound(str(farm.place))


def test_what_a_report_is_held_against_would_show_a_secret() -> None:
    assert not REPORT.fullmatch("farmops 1, Python 3, linux\nfarm.py:3 farm\nSabotage: Mill\n")
    assert os.path.isdir(OURS)
