"""A store of every earlier schema opens, is copied aside and upgraded, and still says what it said."""

from __future__ import annotations

import shutil
import sqlite3
from datetime import date
from pathlib import Path

import pytest

from farmops.facts import chores, fish, harvests, journal, units
from farmops.records.store import Store
from farmops.records.version import CURRENT

STORED = Path(__file__).parent / "stored"
RELEASED = ("0001",)
"""The newest schema of every release before this one."""
OLDER = [version for version in RELEASED if version != CURRENT]


def rows(place: Path) -> dict[str, list[dict[str, object]]]:
    """Every row of every table by column, as the file keeps them."""
    connection = sqlite3.connect(place)
    connection.row_factory = sqlite3.Row
    tables = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
    found = {table: [dict(row) for row in connection.execute(f"SELECT * FROM {table} ORDER BY 1")] for table in tables}
    connection.close()
    return found


@pytest.fixture(params=OLDER)
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A copy of the file that a program of an earlier schema wrote."""
    return Path(shutil.copy(STORED / f"{request.param}.db", tmp_path / "farm.db"))


def test_there_is_a_file_of_every_earlier_release() -> None:
    assert sorted(found.stem for found in STORED.glob("*.db")) == OLDER


def test_an_upgrade_keeps_every_row_and_every_id_that_was_given(old: Path) -> None:
    before = rows(old)
    with Store(str(old)).reading() as reader:
        assert units.units(reader)
    after = rows(old)
    for table, kept in before.items():
        if table in ("alembic_version", "sqlite_sequence"):
            continue
        assert [dict(row.items() & one.items()) for row, one in zip(after[table], kept, strict=True)] == kept
    given = {row["name"]: row["seq"] for row in after["sqlite_sequence"]}
    assert {row["name"]: given[row["name"]] for row in before["sqlite_sequence"]} == {
        row["name"]: row["seq"] for row in before["sqlite_sequence"]
    }
    assert after["alembic_version"] == [{"version_num": CURRENT}]
    assert next(old.parent.glob("farm-before-upgrade-*.db"))


def test_an_upgraded_store_answers_as_before(old: Path) -> None:
    store = Store(str(old))
    with store.reading() as reader:
        assert [unit.code for unit in units.units(reader)] == ["FINCH"]
        assert [lot.code for lot in fish.lots(reader)] == ["PERCH-26"]
        assert [one.mass_mg for one in harvests.harvests(reader, date(2026, 1, 1), date(2026, 12, 31))] == [620_000]
        assert len(chores.chores(reader)) > 20
        assert journal.lines(reader)
    store.close()
