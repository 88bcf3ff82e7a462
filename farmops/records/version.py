"""Which schema a store has and which ones this program knows, read without loading Alembic."""

from __future__ import annotations

from farmops.model.errors import NoFarm, StoreUnavailable
from farmops.records.dialects import FIRST_STEP
from farmops.records.reading import Reader

KNOWN = ("0001", "0002", "0003", "0004", "0005")
CURRENT = KNOWN[-1]
VERSION, NEEDED = "alembic_version", ("farm", "journal")
"""The table that names the version, and those that every version has."""
LISTED = {
    "sqlite": "SELECT name, type FROM sqlite_master WHERE type <> 'index'",
    "postgresql": "SELECT tablename AS name, 'table' AS type FROM pg_tables WHERE schemaname = current_schema()",
}
"""All tables; of a file its views and triggers too."""
TELLING = "SELECT name, type FROM ({listed}) AS listed WHERE type <> 'table' OR name IN {names}"
ANY_TABLE = "SELECT name FROM ({listed}) AS listed WHERE type = 'table' LIMIT 1"


def version_of(reader: Reader) -> str | None:
    """The schema version of a store, or None when it is empty. Raises StoreUnavailable for a foreign database."""
    listed = LISTED[reader.dialect.name]
    telling = TELLING.format(listed=listed, names=(VERSION, *NEEDED))
    found = {(row["type"], row["name"]) for row in reader.rows(telling)}
    if ("table", VERSION) in found:
        version = str(reader.value("SELECT version_num FROM alembic_version"))
        if version in KNOWN:
            _refuse_impostor(reader, found)
        return version
    if reader.value(ANY_TABLE.format(listed=listed)):
        raise StoreUnavailable(f"{reader.dialect.place} is a database, but not a farm's store.")
    return None


def _refuse_impostor(reader: Reader, found: set[tuple[str, str]]) -> None:
    """A view stands in for a table and a trigger writes unseen: a file with them was made by someone else."""
    lacking = [name for name in NEEDED if ("table", name) not in found]
    if lacking or any(kind != "table" for kind, _ in found):
        why = f"lacks the table {lacking[0]}" if lacking else "holds a view or a trigger, which no store of ours has"
        raise StoreUnavailable(
            f"{reader.dialect.place} is not a sound farm's store: it {why}. Put a backup back: farmops restore FILE"
        )


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
