"""Taking an operation back and doing it again, row by row from the journal's images."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from farmops.facts import journal as journal_facts
from farmops.farm.operation import Operation, operation
from farmops.farm.undo_words import about
from farmops.model.errors import FarmopsError, NotFound, Refused
from farmops.model.journal import Image, JournalLine, Through, Undone, Which
from farmops.records.store import Store
from farmops.records.version import CURRENT


@operation("undo")
def undo(op: Operation, entry: Which) -> Undone:
    """Bring the rows of an operation back to what they were before it."""
    line = _to_undo(op, entry)
    op.undoes = line.operation
    images = [Image(one.table, one.id, one.after, one.before) for one in reversed(_images(op, line))]
    words = about(op, images[::-1])
    return replace(_apply(op, line, images, "undone"), about=words)


@operation("redo")
def redo(op: Operation, entry: Which) -> Undone:
    """Do an undone operation again."""
    line = _to_redo(op, entry)
    op.redoes = line.operation
    images = _images(op, line)
    done = _apply(op, line, images, "done again")
    return replace(done, about=about(op, images))


def from_elsewhere(store: Store, by: str, through: Through) -> Undone | None:
    """What a person would take back where it was booked another way than `through`; nothing of it is done yet."""
    with store.reading() as reader:
        line = journal_facts.last_standing(reader, by)
    return None if line is None or line.through is through else undo.rehearse(store, Which(line.operation), by=by)


def _to_undo(op: Operation, entry: Which) -> JournalLine:
    line = _named(op, entry) if entry.operation else journal_facts.last_standing(op.reader, op.by)
    if line is None:
        raise Refused(
            f"Nothing to undo: {op.by} has booked nothing that still stands. "
            "What others booked: by its id, from the journal."
        )
    if line.undone:
        raise Refused(f"Not undone: {told(line)} is undone already.")
    return line


def _to_redo(op: Operation, entry: Which) -> JournalLine:
    if entry.operation:
        line = _named(op, entry)
        if not line.undone:
            raise Refused(f"Not done again: {told(line)} was not undone.")
        return line
    back = journal_facts.last_undoing(op.reader, op.by)
    if back is None or back.undoes is None:
        raise Refused(f"Nothing to do again: {op.by} has undone nothing.")
    standing = journal_facts.last_standing(op.reader, op.by)
    line = _known(op, back.undoes)
    if standing is not None and standing.seq > back.seq:
        raise Refused(
            f"Not done again: {op.by} has booked something since ({told(standing)}). "
            f"To do it all the same, name it: farmops redo {line.operation}"
        )
    return line


def _named(op: Operation, entry: Which) -> JournalLine:
    line = _known(op, entry.operation or "")
    if line.undoes or line.redoes:
        raise Refused(
            f"Not possible: {told(line)} is itself an undoing or a redoing. "
            f"Name the operation it is about: {line.undoes or line.redoes}."
        )
    return line


def _known(op: Operation, id: str) -> JournalLine:
    line = journal_facts.line(op.reader, id)
    if line is None:
        raise NotFound(f"The journal has no one operation {id}. See: farmops journal")
    return line


def _images(op: Operation, line: JournalLine) -> list[Image]:
    if line.schema_version != CURRENT:
        raise Refused(
            f"Not possible: {told(line)} was booked under schema {line.schema_version}, before an upgrade; "
            "undoing stops there."
        )
    written = journal_facts.written(op.reader, line.operation)
    images = written.images if written else []
    if any(image.table == "farm" and image.before is None for image in images):
        raise Refused("Not undone: this opened the farm. To begin anew, open a farm in another place with --farm.")
    return images


def _apply(op: Operation, line: JournalLine, images: list[Image], done: str) -> Undone:
    transaction = op.transaction
    transaction.defer_links()
    op.told_anyway = not images
    _check_untouched(op, line, images, done)
    going = {(image.table, image.id) for image in images if image.after is None}
    for image in images:
        if image.after is None:
            _check_free(op, line, image, going, done)
        else:
            _check_unique(op, line, image, image.after, done)
        transaction.restore(image)
    _check_links(op, line, images, done)
    try:
        op.check_rules()
    except FarmopsError as error:
        raise Refused(f"Not {done}: {told(line)} would break a rule. {error}") from error
    return Undone(line.operation, line.name, line.by, len(images), through=line.through)


def _check_untouched(op: Operation, line: JournalLine, images: Iterable[Image], done: str) -> None:
    tables: dict[str, list[int]] = defaultdict(list)
    for image in images:
        tables[image.table].append(image.id)
    standing = {table: op.transaction.standing(table, ids) for table, ids in tables.items()}
    for image in images:
        current = standing[image.table].get(image.id)
        if current != image.before:
            later = current["operation"] if current else _remover(op, image.table, image.id)
            raise Refused(f"Not {done}: {told(line)} was changed later by {_name(op, later)}.")


def _check_free(op: Operation, line: JournalLine, image: Image, going: set[tuple[str, int]], done: str) -> None:
    for table, id, operation_id in op.transaction.pointing_at(image.table, image.id):
        if (table, id) not in going:
            raise Refused(f"Not {done}: what {told(line)} wrote is used by {_name(op, operation_id)}.")


def _check_unique(op: Operation, line: JournalLine, image: Image, after: dict[str, Any], done: str) -> None:
    for operation_id in op.transaction.clashing_with(image.table, after, image.id):
        raise Refused(f"Not {done}: the same name or day was taken since by {_name(op, operation_id)}.")


def _check_links(op: Operation, line: JournalLine, images: Iterable[Image], done: str) -> None:
    pointed: dict[str, set[int]] = defaultdict(set)
    for image in images:
        for table, id in op.transaction.links(image.table, image.after or {}):
            pointed[table].add(id)
    for table, ids in pointed.items():
        for id in sorted(ids - op.transaction.standing(table, ids).keys()):
            remover = _name(op, _remover(op, table, id))
            raise Refused(f"Not {done}: what it belongs to in {told(line)} was removed later by {remover}.")


def _remover(op: Operation, table: str, id: int) -> str | None:
    """The newest operation whose images removed a row."""
    for line in journal_facts.lines(op.reader):
        written = journal_facts.written(op.reader, line.operation)
        for one in written.images if written else []:
            if (one.table, one.id) == (table, id) and one.after is None:
                return line.operation
    return None


def _name(op: Operation, operation_id: str | None) -> str:
    line = journal_facts.line(op.reader, operation_id) if operation_id else None
    return told(line) if line else "another operation"


def told(line: JournalLine) -> str:
    """An operation in a few words, with the id to name it by."""
    return f"'{line.name}' of {line.by} ({line.operation})"
