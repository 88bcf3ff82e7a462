"""Bringing a store to the current schema with Alembic, in one transaction."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection

from farmops.model.errors import StoreUnavailable
from farmops.records.dialects import Sqlite

if TYPE_CHECKING:
    from farmops.records.store import Store

MIGRATIONS = Path(__file__).parent / "migrations"


def upgrade(store: Store) -> None:
    """Run every migration that is missing. Links are not checked while tables are rebuilt, but before the end."""
    engine = store.dialect.engine()
    sqlite = isinstance(store.dialect, Sqlite)
    try:
        with engine.connect() as connection:
            if sqlite:
                driver = connection.connection.driver_connection
                driver.execute("PRAGMA foreign_keys = OFF")  # type: ignore[union-attr]
            with connection.begin():
                run(connection)
                if sqlite:
                    _check_links(connection)
            if sqlite:
                driver.execute("PRAGMA foreign_keys = ON")  # type: ignore[union-attr]
    finally:
        engine.dispose()


def run(connection: Connection) -> None:
    """Migrate to the newest version on a connection that is in a transaction."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def _check_links(connection: Connection) -> None:
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if broken:
        raise StoreUnavailable(
            f"After the upgrade {len(broken)} links would lead nowhere; the store was left as it was."
        )


def back_up_and_upgrade(store: Store) -> None:
    """Copy a file's store beside itself, then upgrade it."""
    if isinstance(store.dialect, Sqlite):
        copy_beside(Path(store.place))
    upgrade(store)


def copy_beside(place: Path) -> Path:
    """A consistent copy of a SQLite file next to it, named by the instant; returns where it lies."""
    stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%SZ")
    target = place.with_name(f"{place.stem}-before-upgrade-{stamp}{place.suffix}")
    with sqlite3.connect(place) as source, sqlite3.connect(target) as copy:
        source.backup(copy)
    source.close()
    copy.close()
    return target
