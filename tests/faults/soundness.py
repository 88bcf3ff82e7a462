"""Whether a store is sound: a whole chain, and rows that are exactly what the journal says they are."""

from __future__ import annotations

import sqlite3
from typing import Any

from sqlmodel import select

from farmops.facts import journal as journal_facts
from farmops.model.journal import Image
from farmops.model.soundness import Part
from farmops.records.chain import breaks
from farmops.records.reading import Reader
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE
from farmops.records.transaction import image
from farmops.reports.soundness import look_through

Rows = dict[tuple[str, int], dict[str, Any] | None]


def operations(store: Store) -> list[str]:
    """The ids of the operations in the journal, in order."""
    with store.reading() as reader:
        return [str(row["operation"]) for row in reader.rows("SELECT operation FROM journal ORDER BY seq")]


def assert_sound(store: Store) -> None:
    """Every entry continues the one before; replaying the images gives the rows that are there, and no others."""
    with store.reading() as reader:
        assert breaks(journal_facts.chain(reader)) == []
        told = told_by_journal(reader)
    assert rows_of(store) == {key: row for key, row in told.items() if row is not None}
    if store.dialect.name == "sqlite":
        assert_file_sound(store.place)


def assert_whole(store: Store) -> None:
    """Sound, and the look through the farm finds nothing but entries that look unlikely."""
    assert_sound(store)
    found = look_through(store)
    assert [one for one in found.findings if one.part is not Part.ENTRIES] == []
    assert found.parts[-1] is Part.ENTRIES


def told_by_journal(reader: Reader) -> Rows:
    """Every row as the last image has it; each image begins where the one before ended."""
    told: Rows = {}
    for line in reversed(journal_facts.lines(reader)):
        written = journal_facts.written(reader, line.operation)
        assert written is not None
        for one in written.images:
            assert one.before == told.get((one.table, one.id)), line
            told[one.table, one.id] = _bears(one, line.operation)
    return told


def _bears(one: Image, operation: str) -> dict[str, Any] | None:
    assert one.after is None or one.after["operation"] == operation
    return one.after


def rows_of(store: Store) -> Rows:
    """Every row there is, as its image."""
    found: Rows = {}
    with store.writing("look") as transaction:
        for table, kind in BY_TABLE.items():
            found |= {(table, row.id): image(row) for row in transaction.session.exec(select(kind))}
    return found


def assert_file_sound(place: str) -> None:
    connection = sqlite3.connect(place)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    connection.close()
