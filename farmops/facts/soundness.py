"""Whether what a store holds is whole: its pages, links and numbers, the chain, and each row against the journal."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import Any

from farmops.model.soundness import Finding, Part
from farmops.records.base import Row
from farmops.records.chain import breaks, canonical, entries
from farmops.records.reading import Reader, day, instant
from farmops.records.tables import BY_TABLE, ROWS

AT_A_TIME = 5_000
UNKNOWN = "is there, and the journal knows nothing of it."
OTHER = "is not what was booked last."
GONE = "was booked and is gone."
ONLY_ONE = "farm"
"""The table whose one row has the same number in every store."""

_Key = tuple[str, int]
_Columns = Mapping[str, tuple[type[Any], bool]]
"""The columns of a table that are not derived: the type of each, and whether it may be empty."""


def damage(reader: Reader) -> list[Finding]:
    """What of a store is not whole. Where pages are damaged that is all that is said: the rest would rest on them."""
    found = list(_of_pages(reader))
    if found:
        return found
    journal = _Journal(reader)
    parts = (_of_links(reader), journal.of_numbers(reader), journal.of_chain(), journal.of_rows(reader))
    return [one for part in parts for one in part]


def _of_pages(reader: Reader) -> Iterator[Finding]:
    """What the database itself says of its pages and indexes."""
    for words in reader.dialect.damage(reader):
        yield Finding(Part.PAGES, words)


def _of_links(reader: Reader) -> Iterator[Finding]:
    """Rows that point to a row that is not there."""
    for kind in ROWS:
        for column, target in _links(kind):
            query = (
                f"SELECT id FROM {kind.table_name()} AS one WHERE {column} IS NOT NULL "
                f"AND NOT EXISTS (SELECT 1 FROM {target} WHERE {target}.id = one.{column}) ORDER BY id"
            )
            for row in reader.rows(query):
                words = f"{_named(kind.table_name(), row['id'])} belongs to a {_plain(target)} that is not there."
                yield Finding(Part.LINKS, words, kind.table_name(), row["id"])


def _links(kind: type[Row]) -> list[tuple[str, str]]:
    return sorted((key.parent.name, key.column.table.name) for key in _table(kind).foreign_keys)


def _table(kind: type[Row]) -> Any:
    return kind.__table__  # type: ignore[attr-defined]


class _Journal:
    """The journal read once from its first entry to its last: whether its chain is whole, and what it says of rows."""

    def __init__(self, reader: Reader) -> None:
        self.last: dict[_Key, bytes | None] = {}
        self._columns = {kind.table_name(): _columns_of(kind) for kind in ROWS}
        self.broken = breaks(self._following(entries(reader)))

    def _following(self, found: Iterable[dict[str, Any]]) -> Iterator[dict[str, Any]]:
        for entry in found:
            for one in json.loads(entry["images"]):
                self._note(one["table"], one["id"], one["after"])
            yield entry

    def _note(self, table: str, id: int, after: dict[str, Any] | None) -> None:
        if table in self._columns:
            self.last[table, id] = None if after is None else _digest(after, self._columns[table])

    def of_chain(self) -> Iterator[Finding]:
        """Entries that do not continue the one before, or were altered."""
        for words in self.broken:
            yield Finding(Part.JOURNAL, f"In the journal, {words}.")

    def of_rows(self, reader: Reader) -> Iterator[Finding]:
        """Rows that are not what was booked last, that nobody booked, or that are gone."""
        for kind in ROWS:
            yield from self._of_table(reader, kind)

    def _of_table(self, reader: Reader, kind: type[Row]) -> Iterator[Finding]:
        table, columns = kind.table_name(), self._columns[kind.table_name()]
        there = set()
        for row in _rows(reader, kind):
            there.add(row["id"])
            held = self.last.get((table, row["id"]))
            if held is None:
                yield Finding(Part.ROWS, f"{_named(table, row['id'])} {UNKNOWN}", table, row["id"])
            elif held != _digest_of_any(row, columns):
                yield Finding(Part.ROWS, f"{_named(table, row['id'])} {OTHER}", table, row["id"])
        for id in sorted(id for (name, id), held in self.last.items() if name == table and held and id not in there):
            yield Finding(Part.ROWS, f"{_named(table, id)} {GONE}", table, id)

    def of_numbers(self, reader: Reader) -> Iterator[Finding]:
        """Tables that would give a number a second time."""
        given = reader.dialect.numbers_given(reader, [kind.table_name() for kind in ROWS])
        highest: dict[str, int] = {}
        for table, id in self.last:
            highest[table] = max(id, highest.get(table, 0))
        for table, id in sorted(highest.items()):
            if table in BY_TABLE and table != ONLY_ONE and given.get(table, 0) < id:
                yield Finding(Part.NUMBERS, f"The next {_plain(table)} would get a number that was given before.")


def _rows(reader: Reader, kind: type[Row]) -> Iterator[dict[str, Any]]:
    """Every row of a table in the order of ids, as the driver gives it."""
    names = ", ".join(column.name for column in _table(kind).columns)
    query = f"SELECT {names} FROM {kind.table_name()} WHERE id > :after ORDER BY id LIMIT {AT_A_TIME}"
    after = 0
    while found := list(reader.rows(query, after=after)):
        yield from found
        after = max(row["id"] for row in found)


def _digest(values: Mapping[str, Any], columns: _Columns) -> bytes:
    """What a row holds, in few bytes: the same from its image and from a driver's row.

    A column that an upgrade added after the image was made is empty, or false, or nothing.
    """
    held = [
        _same(kind, values[name] if name in values else None if empty else kind())
        for name, (kind, empty) in columns.items()
    ]
    return hashlib.blake2b(canonical(held).encode(), digest_size=12).digest()


def _digest_of_any(row: Mapping[str, Any], columns: _Columns) -> bytes | None:
    """What a row holds, or None where that is something that no farmops wrote."""
    try:
        return _digest(row, columns)
    except (ValueError, TypeError):
        return None


def _same(kind: type[Any], value: Any) -> Any:
    """A value spelled one way, whether JSON or a driver gave it."""
    if value is None:
        return None
    if issubclass(kind, datetime):
        return instant(value).isoformat(timespec="microseconds")
    return day(value).isoformat() if issubclass(kind, date) else kind(value)


def _columns_of(kind: type[Row]) -> _Columns:
    columns = (one for one in _table(kind).columns if one.name not in kind.derived)
    return {one.name: (one.type.python_type, bool(one.nullable)) for one in columns}


def _plain(table: str) -> str:
    return table.replace("_", " ")


def _named(table: str, id: int) -> str:
    return f"{_plain(table).capitalize()} {id}"
