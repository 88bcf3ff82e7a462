"""What the tables say of the journal."""

from __future__ import annotations

import json
from collections.abc import Iterator

from farmops.facts import journal
from farmops.model.journal import Image, JournalLine, Through
from farmops.records.journal import JournalRow
from tests.facts.tables import Answer, Tables, columns, says


def _line(rows: Tables, row: JournalRow) -> JournalLine:
    names = ("seq", "operation", "at", "name", "undoes", "redoes", "schema_version")
    undoings = [other.seq for other in rows[JournalRow] if other.undoes == row.operation]
    redoings = [other.seq for other in rows[JournalRow] if other.redoes == row.operation]
    undone = bool(undoings) and max(undoings) > max(redoings, default=0)
    return JournalLine(**columns(row, *names), by=row.actor, through=Through(row.through), undone=undone)


def _newest_first(rows: Tables) -> list[JournalLine]:
    return [_line(rows, row) for row in reversed(rows[JournalRow])]


@says(journal.lines)
def the_journal(rows: Tables) -> Iterator[Answer]:
    yield (), _newest_first(rows)
    yield (3,), _newest_first(rows)[:3]


@says(journal.line)
def each_entry(rows: Tables) -> Iterator[Answer]:
    yield ("no such",), None
    for row in rows[JournalRow]:
        yield (row.operation,), _line(rows, row)
        alike = [other for other in rows[JournalRow] if other.operation.startswith(row.operation[:24])]
        yield (row.operation[:24],), _line(rows, row) if len(alike) == 1 else None


@says(journal.actors)
def who_did_each(rows: Tables) -> Iterator[Answer]:
    every = {row.operation: row.actor for row in rows[JournalRow]}
    yield (tuple(every),), every
    yield ((),), {}
    yield (("no such", *list(every)[:2]),), dict(list(every.items())[:2])


@says(journal.opening)
def what_opened_the_farm(rows: Tables) -> Iterator[Answer]:
    yield (), rows[JournalRow][0].operation if rows[JournalRow] else None


def _people(rows: Tables) -> set[str]:
    return {row.actor for row in rows[JournalRow]} | {"nobody"}


@says(journal.last_standing)
def last_that_stands(rows: Tables) -> Iterator[Answer]:
    for by in _people(rows):
        own = [line for line in _newest_first(rows) if line.by == by and not (line.undoes or line.redoes)]
        yield (by,), next((line for line in own if not line.undone), None)


@says(journal.last_undoing)
def last_that_undoes(rows: Tables) -> Iterator[Answer]:
    newest: dict[str, JournalLine] = {}
    for line in reversed(_newest_first(rows)):
        about = line.undoes or line.redoes
        if about:
            newest[about] = line
    for by in _people(rows):
        own = [line for line in newest.values() if line.by == by and line.undoes]
        yield (by,), max(own, key=lambda line: line.seq, default=None)


@says(journal.written)
def what_was_written(rows: Tables) -> Iterator[Answer]:
    yield ("no such",), None
    for row in rows[JournalRow]:
        images = [Image(**one) for one in json.loads(row.images)]
        yield (row.operation,), journal.Written(images, json.loads(row.result))


@says(journal.chain)
def every_entry_as_it_was_sealed(rows: Tables) -> Iterator[Answer]:
    names = ("seq", "operation", "at", "actor", "through", "name", "undoes", "redoes", "schema_version", "images")
    ordered = sorted(rows[JournalRow], key=lambda row: row.seq)
    yield (), [columns(row, *names, "result", "previous", "hash") for row in ordered]


@says(journal.chain)
def the_chain(rows: Tables) -> Iterator[Answer]:
    yield (), [row.model_dump() for row in rows[JournalRow]]


@says(journal.last_seq)
def newest_number(rows: Tables) -> Iterator[Answer]:
    yield (), max((row.seq for row in rows[JournalRow]), default=0)


@says(journal.seal_before)
def newest_seal(rows: Tables) -> Iterator[Answer]:
    last = max(rows[JournalRow], key=lambda row: row.seq, default=None)
    yield (), (last.seq, last.hash) if last else None
