"""What the migrations lay is what the table classes describe, on both databases."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, Engine, create_engine, text

from farmops.records.dialects import Sqlite
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE, metadata
from farmops.records.version import CURRENT, KNOWN
from tests.servers import Server

TABLES = sorted(metadata.tables)
CONSTRAINTS = """
    SELECT relation.relname, found.conname, pg_get_constraintdef(found.oid)
    FROM pg_constraint AS found JOIN pg_class AS relation ON relation.oid = found.conrelid
    WHERE found.connamespace = current_schema()::regnamespace AND relation.relname <> 'alembic_version'
    ORDER BY 1, 2
"""


@contextmanager
def made_from_classes(engine: Engine) -> Iterator[Connection]:
    """A connection to a database whose tables were made from the classes, without a migration."""
    with engine.begin() as connection:
        metadata.create_all(connection)
        yield connection
    engine.dispose()


def ddl(place: str) -> dict[str, list[str]]:
    """The lines of the statements that made tables and indexes, in an order of their own."""
    connection = sqlite3.connect(place)
    listing = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%'"
    found = {name: lines(statement) for name, statement in connection.execute(listing) if name != "alembic_version"}
    connection.close()
    return found


def lines(statement: str) -> list[str]:
    return sorted(line.strip().rstrip(",").replace('"', "") for line in statement.splitlines() if line.strip())


def test_nothing_is_left_for_a_migration_to_do(store: Store) -> None:
    with store.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True, "compare_server_default": True})
        assert compare_metadata(context, metadata) == []


def test_sqlite_tables_are_the_same_word_for_word(sqlite_store: Store, tmp_path: Path) -> None:
    made = Sqlite(str(tmp_path / "made.db"))
    with made_from_classes(made.engine()):
        pass
    assert ddl(sqlite_store.place) == ddl(made.place)


def test_postgres_constraints_are_the_same_word_for_word(postgres_store: Store, postgres_server: Server) -> None:
    with postgres_server.database("template1") as url, made_from_classes(create_engine(url)) as made:
        wanted = made.execute(text(CONSTRAINTS)).fetchall()
    with postgres_store.engine.connect() as connection:
        found = connection.execute(text(CONSTRAINTS)).fetchall()
    assert len(wanted) > len(TABLES)
    assert found == wanted


@pytest.mark.parametrize("table", TABLES)
def test_sqlite_keeps_types_strictly_and_never_reuses_an_id(sqlite_store: Store, table: str) -> None:
    made = ddl(sqlite_store.place)[table]
    assert "STRICT" in made
    assert any(line.endswith("INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT") for line in made)


@pytest.mark.parametrize("table", TABLES)
def test_every_constraint_has_a_name(sqlite_store: Store, table: str) -> None:
    for line in ddl(sqlite_store.place)[table]:
        if re.search("CHECK|UNIQUE|FOREIGN KEY", line):
            assert re.match(rf"CONSTRAINT (ck|uq|fk)_{table}_\w+ ", line)
    assert all(constraint.name for constraint in metadata.tables[table].constraints)


def test_every_row_says_which_operation_wrote_it() -> None:
    assert set(TABLES) == {*BY_TABLE, "journal"}
    for table in BY_TABLE:
        assert not metadata.tables[table].c.operation.nullable


def test_every_link_is_indexed_and_can_wait_for_the_end_of_an_undo() -> None:
    for table in metadata.tables.values():
        indexed = {index.columns[0].name for index in table.indexes}
        for key in table.foreign_keys:
            assert key.parent.name in indexed
            assert key.constraint is not None
            assert key.constraint.deferrable


def test_a_day_is_never_called_date_and_a_schema_is_never_named() -> None:
    for table in metadata.tables.values():
        assert table.schema is None
        assert "date" not in table.columns


def test_the_versions_known_are_the_migrations_there_are(store: Store) -> None:
    scripts = Path(__file__).parents[2] / "farmops" / "records" / "migrations" / "versions"
    assert [found.name.split("_")[0] for found in sorted(scripts.glob("*[0-9]_*.py"))] == list(KNOWN)
    with store.reading() as reader:
        assert reader.value("SELECT version_num FROM alembic_version") == CURRENT
