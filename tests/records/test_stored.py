"""A store of every earlier schema opens, is copied aside and upgraded, and still says what it said."""

from __future__ import annotations

import shutil
import signal
import sqlite3
from datetime import date
from pathlib import Path
from typing import NamedTuple

import pytest
from sqlalchemy import Connection, inspect

from farmops.exchange.backups import restore
from farmops.facts import chores, fish, harvests, journal, units
from farmops.farm.soundness import repair
from farmops.farm.undo import undo
from farmops.model.backups import Made
from farmops.model.errors import Refused
from farmops.model.journal import Which
from farmops.model.soundness import Finding, Part, Repair
from farmops.records import copies, migrate
from farmops.records.dialects import Sqlite
from farmops.records.store import Store
from farmops.records.version import CURRENT, KNOWN
from farmops.reports.soundness import look_through
from tests.faults.children import start, upgrade_and_die
from tests.records.examples import VALID

STORED = Path(__file__).parent / "stored"
RELEASED = ("0001", "0004", "0005")
"""The newest schema of every release: of each one a farm is kept (`python -m tests.records.keep`)."""
BETWEEN = ("0002", "0003")
"""Schemas that only programs between two releases wrote."""
OLDER = [version for version in RELEASED if version != CURRENT]
PATIENCE_S = 60


class Said(NamedTuple):
    """What a farm answers: units, lots, weighings in mg, how many chores and operations."""

    units: list[str]
    lots: list[str]
    weighings: list[int]
    chores: int
    operations: int


SAID = {
    "0001": Said(["FINCH"], ["PERCH-26"], [620_000], 30, 12),
    "0004": Said(
        ["WREN", "TERN", "FINCH"],
        ["PERCH-24", "TROUT-1", "PERCH-S"],
        [623_690, 850_486, 113_398, 85_049, 272_155, 907_185, 907_185, 680_389],
        51,
        125,
    ),
    "0005": Said(
        ["WREN", "TERN", "FINCH"],
        ["PERCH-24", "TROUT-1", "PERCH-S"],
        [623_690, 850_486, 113_398, 85_049, 272_155, 907_185, 907_185, 680_389],
        64,
        191,
    ),
}


Tables = dict[str, list[dict[str, object]]]


def rows(place: Path) -> Tables:
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


@pytest.fixture(params=BETWEEN)
def between(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """The oldest file brought up to a schema between two releases, with a row in every table of it."""
    place = Path(shutil.copy(STORED / "0001.db", tmp_path / "farm.db"))
    engine = Store(str(place)).dialect.engine()
    with engine.connect() as connection:
        connection.connection.driver_connection.execute("PRAGMA foreign_keys = OFF")  # type: ignore[union-attr]
        with connection.begin():
            migrate.run(connection, to=request.param)
            fill(connection)
    engine.dispose()
    return place


def fill(connection: Connection) -> None:
    """A row in every table that has none, as far as the table knows its columns by now."""
    for table in inspect(connection).get_table_names():
        if table in VALID and not connection.exec_driver_sql(f"SELECT COUNT(*) FROM {table}").scalar():
            known = {column["name"] for column in inspect(connection).get_columns(table)}
            values = {"operation": "x"} | {name: one for name, one in VALID[table].items() if name in known}
            row = {name: Sqlite("").value(one) for name, one in values.items()}
            names = ", ".join(row)
            connection.exec_driver_sql(
                f"INSERT INTO {table} ({names}) VALUES ({', '.join('?' * len(row))})", tuple(row.values())
            )


def test_a_file_of_every_release_is_kept_and_one_of_the_schema_of_now() -> None:
    assert sorted(found.stem for found in STORED.glob("*.db")) == list(RELEASED)
    assert set(KNOWN) == {*RELEASED, *BETWEEN}


def test_a_store_of_a_schema_between_releases_is_upgraded_with_every_row(between: Path) -> None:
    before = rows(between)
    assert [table for table, found in before.items() if not found] == []
    assert raw_version(between) in BETWEEN
    with Store(str(between)).reading() as reader:
        assert [unit.code for unit in units.units(reader)] == ["FINCH"]
    assert_kept(before, rows(between))


def test_an_upgrade_keeps_every_row_and_every_id_that_was_given(old: Path) -> None:
    before = rows(old)
    with Store(str(old)).reading() as reader:
        assert units.units(reader)
    after = rows(old)
    assert_kept(before, after)
    given = {row["name"]: row["seq"] for row in after["sqlite_sequence"]}
    assert {row["name"]: given[row["name"]] for row in before["sqlite_sequence"]} == {
        row["name"]: row["seq"] for row in before["sqlite_sequence"]
    }
    assert after["alembic_version"] == [{"version_num": CURRENT}]
    (kept,) = copies.backups(str(old))
    assert (kept.made, kept.file.stat().st_mode & 0o777) == (Made.UPGRADE, 0o600)
    assert rows(kept.file) == before


def assert_kept(before: Tables, after: Tables) -> None:
    """Every row has every value that it had; tables may have more columns."""
    for table, kept in before.items():
        if table not in ("alembic_version", "sqlite_sequence"):
            assert [dict(row.items() & one.items()) for row, one in zip(after[table], kept, strict=True)] == kept


@pytest.mark.parametrize("version", sorted(SAID))
def test_an_upgraded_store_answers_as_before(version: str, tmp_path: Path) -> None:
    store = Store(str(shutil.copy(STORED / f"{version}.db", tmp_path / "farm.db")))
    with store.reading() as reader:
        said = Said(
            [unit.code for unit in units.units(reader)],
            [lot.code for lot in fish.lots(reader)],
            [one.mass_mg for one in harvests.harvests(reader, date(2026, 1, 1), date(2026, 12, 31))],
            len(chores.chores(reader)),
            len(journal.lines(reader)),
        )
    store.close()
    assert said == SAID[version]


def test_an_upgraded_store_is_whole_but_for_due_days_that_are_put_right(old: Path) -> None:
    store = Store(str(old))
    assert not wrong_in(store)
    store.close()


def wrong_in(store: Store) -> list[Finding]:
    """What is found and is no unlikely entry, once due days are by the rules of this program."""
    if look_through(store).can_be_mended:
        repair(store, Repair(), by="Ada")
    return [one for one in look_through(store).findings if one.part is not Part.ENTRIES]


def test_undoing_stops_where_the_schema_changed(old: Path) -> None:
    store = Store(str(old))
    with pytest.raises(Refused, match="before an upgrade; undoing stops there"):
        undo(store, Which(), by="Ada")
    store.close()


@pytest.mark.parametrize("version", RELEASED[1:])
def test_a_stored_farm_has_rows_in_every_table_of_its_time(version: str) -> None:
    before = rows(STORED / f"{version}.db")
    assert before["alembic_version"] == [{"version_num": version}]
    assert [table for table, found in before.items() if not found] == []


def test_the_stored_farm_of_the_schema_of_now_is_whole_and_can_be_undone(tmp_path: Path) -> None:
    store = Store(str(shutil.copy(STORED / f"{CURRENT}.db", tmp_path / "farm.db")))
    assert not wrong_in(store)
    undo(store, Which(), by="Ada")
    store.close()
    assert copies.backups(store.place) == []


def test_the_backup_of_an_older_store_is_put_back_and_upgraded(old: Path, tmp_path: Path) -> None:
    backup = shutil.copy(old, tmp_path / "from-long-ago.db")
    store = Store(str(tmp_path / "elsewhere" / "farm.db"))
    found = restore(store, str(backup))
    assert (found.upgraded, found.schema, found.lost) == (True, raw_version(old), ())
    assert rows(Path(store.place))["alembic_version"] == [{"version_num": CURRENT}]
    assert rows(Path(backup)) == rows(old)
    store.close()


def raw_version(place: Path) -> str:
    return str(rows(place)["alembic_version"][0]["version_num"])


def test_a_kill_in_the_middle_of_an_upgrade_leaves_the_old_file_whole(old: Path) -> None:
    before = rows(old)
    child = start(upgrade_and_die, str(old))
    child.join(PATIENCE_S)
    assert child.exitcode == -signal.SIGKILL
    assert rows(old) == before
    (kept,) = copies.backups(str(old))
    assert rows(kept.file) == before
    with Store(str(old)).reading() as reader:
        assert units.units(reader)
    assert raw_version(old) == CURRENT
