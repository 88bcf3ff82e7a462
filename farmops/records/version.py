"""Which schema a store has and which ones this program knows, read without loading Alembic."""

from __future__ import annotations

from farmops.model.errors import NoFarm, StoreUnavailable
from farmops.records.dialects import FIRST_STEP, Sqlite
from farmops.records.reading import Reader

KNOWN = ("0001", "0002", "0003", "0004", "0005")
CURRENT = KNOWN[-1]


def version_of(reader: Reader) -> str | None:
    """The schema version of a store, or None when it is empty. Raises StoreUnavailable for a foreign database."""
    tables = _tables(reader)
    if "alembic_version" in tables:
        return str(reader.value("SELECT version_num FROM alembic_version"))
    if tables:
        raise StoreUnavailable(f"{reader.dialect.place} is a database, but not a farm's store.")
    return None


def _tables(reader: Reader) -> set[str]:
    if isinstance(reader.dialect, Sqlite):
        listing = "SELECT name FROM sqlite_master WHERE type = 'table'"
    else:
        listing = "SELECT tablename AS name FROM pg_tables WHERE schemaname = current_schema()"
    return {row["name"] for row in reader.rows(listing)}


def is_current(reader: Reader) -> bool:
    """Whether the store has this program's schema; False when it is older and can be upgraded.

    Raises NoFarm for an empty store and StoreUnavailable for one that a newer program has written.
    """
    version = version_of(reader)
    if version is None:
        raise NoFarm(FIRST_STEP)
    if version not in KNOWN:
        raise StoreUnavailable(
            f"{reader.dialect.place} was written by a newer farmops (schema {version}; this one knows {CURRENT}). "
            "Update farmops; nothing was changed."
        )
    return version == CURRENT
