"""Bringing a store to the current schema with Alembic, in one transaction."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, create_engine

from farmops.model.backups import Made
from farmops.model.errors import StoreUnavailable
from farmops.records import version
from farmops.records.copies import copy_beside
from farmops.records.dialects import Sqlite
from farmops.records.reading import Reader

if TYPE_CHECKING:
    from farmops.records.store import Store

MIGRATIONS = Path(__file__).parent / "migrations"
TABLES = "FROM sqlite_master AS t JOIN"
LAYOUT = f"""
SELECT t.name AS name, c.name || ' ' || c.type || ' ' || c."notnull" || ' ' || c.pk AS part
    {TABLES} pragma_table_xinfo(t.name) AS c WHERE t.type = 'table'
UNION SELECT t.name, f."from" || ' to ' || f."table" {TABLES} pragma_foreign_key_list(t.name) AS f
UNION SELECT t.name, i.name || ' ' || i."unique" || ' ' || coalesce(x.name, '')
    {TABLES} pragma_index_list(t.name) AS i JOIN pragma_index_info(i.name) AS x
"""
"""How a file is laid, as the database understands it: the columns, links and indexes of each table."""


def upgrade(store: Store) -> None:
    """Run every migration that is missing; a file that has an older schema is copied beside itself first.

    All of it happens while nobody else can write, so of two programs that find an older store one upgrades it.
    Links are not checked while tables are rebuilt, but before the end.
    """
    copies: list[Path] = []
    engine = store.dialect.engine()
    try:
        with engine.connect() as connection:
            if isinstance(store.dialect, Sqlite):
                _driver(connection).execute("PRAGMA foreign_keys = OFF")
            with connection.begin():
                _bring_up(connection, store, copies)
    except BaseException:
        for copy in copies:
            copy.unlink()
        raise
    finally:
        engine.dispose()


def _bring_up(connection: Connection, store: Store, copies: list[Path]) -> None:
    """Copy a file of an older schema, and note the copy; then migrate."""
    found = version.version_of(Reader(_driver(connection), store.dialect))
    if not isinstance(store.dialect, Sqlite):
        return run(connection)
    if found not in (None, version.CURRENT):
        copies.append(copy_beside(store.place, Made.UPGRADE, chain=False))
    run(connection)
    _check_links(connection)
    return None


def _driver(connection: Connection) -> Any:
    return connection.connection.driver_connection


def run(connection: Connection, to: str = "head") -> None:
    """Migrate to the newest version, or to an earlier one, on a connection that is in a transaction."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, to)


@cache
def layout() -> frozenset[tuple[str, str]]:
    """How a file of the newest version is laid, part by part, each with its table."""
    engine = create_engine("sqlite://")
    try:
        with engine.begin() as connection:
            run(connection)
            return frozenset((table, part) for table, part in connection.exec_driver_sql(LAYOUT))
    finally:
        engine.dispose()


def _check_links(connection: Connection) -> None:
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if broken:
        raise StoreUnavailable(
            f"After the upgrade {len(broken)} links would lead nowhere; the store was left as it was."
        )
