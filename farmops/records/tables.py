"""All tables at once, for whoever needs the whole schema: a store, a migration, a look through everything."""

from __future__ import annotations

from farmops.records.base import metadata
from farmops.records.journal import JournalRow
from farmops.records.rows import HOMES, row_of

BY_TABLE = {table: row_of(table) for table in HOMES}
ROWS = tuple(BY_TABLE.values())

__all__ = ["BY_TABLE", "ROWS", "JournalRow", "metadata"]
