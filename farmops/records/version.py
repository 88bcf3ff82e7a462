"""Which schema a store has and which ones this program knows, read without loading Alembic."""

from __future__ import annotations

from farmops.model.errors import NoFarm, StoreUnavailable
from farmops.records.dialects import FIRST_STEP, Sqlite
from farmops.records.reading import Reader

KNOWN = ("0001", "0002", "0003", "0004", "0005")
CURRENT = KNOWN[-1]
NEEDED = ("farm", "journal")
"""Tables that every version has."""
NOT_OURS = "SELECT name FROM sqlite_master WHERE type IN ('view', 'trigger') LIMIT 1"


def version_of(reader: Reader) -> str | None:
    """The schema version of a store, or None when it is empty. Raises StoreUnavailable for a foreign database."""
    tables = _tables(reader)
    if "alembic_version" in tables:
        version = str(reader.value("SELECT version_num FROM alembic_version"))
        if version in KNOWN:
            _refuse_impostor(reader, tables)
        return version
    if tables:
        raise StoreUnavailable(f"{reader.dialect.place} is a database, but not a farm's store.")
    return None


def _refuse_impostor(reader: Reader, tables: set[str]) -> None:
    """A view stands in for a table and a trigger writes unseen: a file with them was made by someone else."""
    lacking = [name for name in NEEDED if name not in tables]
    foreign = isinstance(reader.dialect, Sqlite) and reader.value(NOT_OURS)
    if lacking or foreign:
        why = f"lacks the table {lacking[0]}" if lacking else "holds a view or a trigger, which no store of ours has"
        raise StoreUnavailable(
            f"{reader.dialect.place} is not a sound farm's store: it {why}. Put a backup back: farmops restore FILE"
        )


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
