"""Farms to type commands for, on a day that stands still."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.hand import TODAY, Hand, build_row
from tests.frozen import frozen


@pytest.fixture(scope="package", autouse=True)
def _stands_still() -> Iterator[None]:
    """It is 14 October 2026 here, a Wednesday."""
    with frozen(TODAY):
        yield


@pytest.fixture
def nowhere(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at a place where no farm was opened."""
    return Hand(tmp_path / "farm.db", capsys)


@pytest.fixture
def bare(nowhere: Hand) -> Hand:
    """A hand at a farm that was just opened."""
    nowhere("farm", "open", "Hollow Lane", "--zone", "America/New_York")
    return nowhere


@pytest.fixture(scope="session")
def _row_place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("row") / "farm.db"


@pytest.fixture
def farm(_row_place: Path, nowhere: Hand, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at Hollow Lane, where things grow."""
    if not _row_place.exists():
        build_row(Hand(_row_place, capsys))
    nowhere.become(_row_place)
    return nowhere
