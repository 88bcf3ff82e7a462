"""An older store is copied aside, then upgraded whole; an upgrade that fails leaves it as it was."""

from __future__ import annotations

import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest

from farmops.facts.farm import farm
from farmops.farm.farm import add_person
from farmops.model.backups import Made
from farmops.model.errors import Refused, StoreUnavailable
from farmops.model.farm import NewPerson
from farmops.records import copies, migrate, version
from farmops.records.store import Store

NEXT = "9000"
HEAD = f"""
import sqlalchemy as sa
from alembic import op
revision = "{NEXT}"
down_revision = "{version.CURRENT}"
def upgrade():
"""
ADD_A_COLUMN = HEAD + '    op.add_column("person", sa.Column("phone", sa.Text()))\n'
FAIL_HALFWAY = ADD_A_COLUMN + '    raise RuntimeError("halfway")\n'
ORPHAN_ROWS = (
    HEAD
    + """
    op.execute("INSERT INTO unit_state (operation, unit_id, state, from_day) VALUES ('x', 99, 'running', '2026-05-03')")
"""
)


@pytest.fixture
def newer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program that knows one schema more; returns the file its migration is to be written to."""
    migrations = tmp_path / "program" / "migrations"
    shutil.copytree(migrate.MIGRATIONS, migrations, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(migrate, "MIGRATIONS", migrations)
    monkeypatch.setattr(version, "KNOWN", (*version.KNOWN, NEXT))
    monkeypatch.setattr(version, "CURRENT", NEXT)
    return migrations / "versions" / f"{NEXT}_next.py"


def backups(store: Store) -> list[Path]:
    return [one.file for one in copies.backups(store.place) if one.made is Made.UPGRADE]


def person_columns(store: Store) -> int:
    with store.reading() as reader:
        return len(next(reader.rows("SELECT * FROM person")))


def raw_version(store: Store) -> str:
    with store.engine.connect() as connection:
        return str(connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar())


def test_an_older_store_is_upgraded_when_it_is_first_read(farm_store: Store, newer: Path) -> None:
    add_person(farm_store, NewPerson("Bea"), by="Ada")
    newer.write_text(ADD_A_COLUMN)
    with farm_store.reading() as reader:
        assert version.version_of(reader) == NEXT
        assert farm(reader).name == "Hollow Lane Holding"
        assert next(reader.rows("SELECT name, phone FROM person")) == {"name": "Bea", "phone": None}


def test_an_older_store_is_upgraded_when_it_is_first_written(farm_store: Store, newer: Path) -> None:
    newer.write_text(ADD_A_COLUMN)
    add_person(farm_store, NewPerson("Bea"), by="Ada")
    assert raw_version(farm_store) == NEXT


def test_the_copy_made_before_is_the_store_as_it_was(
    sqlite_store: Store, newer: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _with_a_person(sqlite_store)
    newer.write_text(ADD_A_COLUMN)
    columns = person_columns(sqlite_store)
    (backup,) = backups(sqlite_store)
    monkeypatch.undo()
    copy = Store(str(backup))
    assert raw_version(copy) == version.CURRENT
    assert person_columns(copy) == columns - 1
    copy.close()


def test_upgrading_happens_once(sqlite_store: Store, newer: Path) -> None:
    _with_a_person(sqlite_store)
    newer.write_text(ADD_A_COLUMN)
    for _ in range(3):
        person_columns(sqlite_store)
    assert len(backups(sqlite_store)) == 1


def test_of_many_that_find_an_older_store_one_upgrades_it(sqlite_store: Store, newer: Path) -> None:
    _with_a_person(sqlite_store)
    before = raw_version(sqlite_store)
    newer.write_text(ADD_A_COLUMN)
    crowd = 4
    barrier = Barrier(crowd)

    def look(_: int) -> int:
        barrier.wait(60)
        return person_columns(Store(sqlite_store.place))

    with ThreadPoolExecutor(crowd) as pool:
        assert len(set(pool.map(look, range(crowd)))) == 1
    (backup,) = backups(sqlite_store)
    copy = Store(str(backup))
    assert raw_version(copy) == before
    copy.close()


def test_links_are_checked_again_after_an_upgrade(sqlite_store: Store, newer: Path) -> None:
    newer.write_text(ADD_A_COLUMN)
    sqlite_store.upgrade()
    with sqlite_store.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


def test_an_upgrade_that_fails_halfway_leaves_the_store_as_it_was(farm_store: Store, newer: Path) -> None:
    newer.write_text(FAIL_HALFWAY)
    with pytest.raises(RuntimeError, match="halfway"):
        farm_store.upgrade()
    assert backups(farm_store) == []
    assert raw_version(farm_store) == version.KNOWN[-2]
    with farm_store.engine.connect() as connection:
        assert "phone" not in set(connection.exec_driver_sql("SELECT * FROM person").keys())


def test_an_upgrade_that_would_orphan_rows_leaves_the_store_as_it_was(sqlite_store: Store, newer: Path) -> None:
    newer.write_text(ORPHAN_ROWS)
    with pytest.raises(StoreUnavailable, match="1 links would lead nowhere; the store was left as it was"):
        sqlite_store.upgrade()
    assert raw_version(sqlite_store) == version.KNOWN[-2]
    with sqlite_store.engine.connect() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM unit_state").scalar() == 0


def test_an_upgrade_that_would_orphan_rows_is_refused_by_postgres(postgres_store: Store, newer: Path) -> None:
    newer.write_text(ORPHAN_ROWS)
    with pytest.raises(Refused, match="foreign key"):
        postgres_store.upgrade()
    assert raw_version(postgres_store) == version.KNOWN[-2]


def _with_a_person(store: Store) -> None:
    with store.engine.begin() as connection:
        connection.exec_driver_sql("INSERT INTO person (operation, name) VALUES ('x', 'Ada')")
