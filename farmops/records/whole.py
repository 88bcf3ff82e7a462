"""The whole of a store, table by table: out in the types of its columns, and in again with every number it gave."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from itertools import islice
from typing import Any

from sqlalchemy import Table

from farmops.records.journal import JournalRow
from farmops.records.reading import Reader, day, instant
from farmops.records.tables import ROWS
from farmops.records.transaction import Transaction

AT_A_TIME = 1_000
TABLES: dict[str, Table] = {kind.table_name(): kind.__table__ for kind in ROWS}  # type: ignore[attr-defined]
TABLES["journal"] = JournalRow.__table__  # type: ignore[attr-defined]
"""Every table by its name, the journal at the end."""


def kinds(table: Table) -> dict[str, type[Any]]:
    """The columns of a table, and what their values are in Python."""
    return {column.name: column.type.python_type for column in table.columns}


def rows(reader: Reader, table: Table) -> Iterator[dict[str, Any]]:
    """Every row of a table in the order of its key."""
    (key,) = table.primary_key.columns.keys()
    columns = kinds(table)
    query = f"SELECT {', '.join(columns)} FROM {table.name} WHERE {key} > :after ORDER BY {key} LIMIT {AT_A_TIME}"  # noqa: S608
    after = 0
    while found := list(reader.rows(query, after=after)):
        for row in found:
            yield {name: typed(columns[name], value) for name, value in row.items()}
        after = found[-1][key]


def typed(kind: type[Any], value: Any) -> Any:
    """A driver's value in the type of its column."""
    if value is None:
        return None
    if issubclass(kind, datetime):
        return instant(value)
    return day(value) if issubclass(kind, date) else kind(value)


def lay(transaction: Transaction, tables: Mapping[str, Iterable[Mapping[str, Any]]], given: Mapping[str, int]) -> int:
    """Write whole tables into a store that is empty, with the ids they had; returns how many rows.

    `given` is the highest id that each table has given out, so that none is given a second time.
    """
    transaction.defer_links()
    count = 0
    for name, found in tables.items():
        left = iter(found)
        while batch := [dict(row) for row in islice(left, AT_A_TIME)]:
            transaction.connection.execute(TABLES[name].insert(), batch)
            count += len(batch)
    transaction.dialect.give_after(transaction.connection, given)
    return count
