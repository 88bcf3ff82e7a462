"""The journal, newest first, and single entries of it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from farmops.model.frozen import dataclass
from farmops.model.journal import Image, JournalLine
from farmops.records.reading import Reader, instant

UNDONE = """
    EXISTS (
        SELECT 1 FROM journal AS back WHERE back.undoes = entry.operation AND NOT EXISTS (
            SELECT 1 FROM journal AS again WHERE again.redoes = entry.operation AND again.seq > back.seq
        )
    )
"""
OVERTAKEN = """
    EXISTS (
        SELECT 1 FROM journal AS later
        WHERE (later.undoes = entry.undoes OR later.redoes = entry.undoes) AND later.seq > entry.seq
    )
"""
LINES = f"""
    SELECT entry.seq, entry.operation, entry.at, entry.actor AS "by", entry.through, entry.name, entry.undoes,
        entry.redoes, entry.schema_version, {UNDONE} AS undone
    FROM journal AS entry
"""
CHAIN = """
    SELECT seq, operation, at, actor, through, name, undoes, redoes, schema_version, images, result, previous, hash
    FROM journal ORDER BY seq
"""


MOST_AT_ONCE = 500
"""So many parameters any database takes."""


@dataclass(frozen=True, slots=True)
class Written:
    """What an operation wrote: its rows before and after, and the result it gave back."""

    images: list[Image]
    result: Any


def lines(reader: Reader, most: int | None = None) -> list[JournalLine]:
    """The operations, newest first; at most `most`."""
    limit = f"LIMIT {int(most)}" if most is not None else ""
    return reader.all(JournalLine, f"{LINES} ORDER BY entry.seq DESC {limit}")


def line(reader: Reader, operation: str) -> JournalLine | None:
    """One operation by its id, or by the beginning of it when that names just one."""
    query = f"{LINES} WHERE entry.operation LIKE :start ORDER BY entry.seq LIMIT 2"
    found = reader.all(JournalLine, query, start=operation.lower().translate({37: None, 95: None}) + "%")
    return found[0] if len(found) == 1 else None


def actors(reader: Reader, operations: Iterable[str]) -> dict[str, str]:
    """Who carried out each of some operations, by its id."""
    listed = sorted(set(operations))
    found: dict[str, str] = {}
    for at in range(0, len(listed), MOST_AT_ONCE):
        named = {f"id{number}": id for number, id in enumerate(listed[at : at + MOST_AT_ONCE])}
        places = ", ".join(f":{name}" for name in named)
        query = f"SELECT operation, actor FROM journal WHERE operation IN ({places}) ORDER BY seq"
        found.update((row["operation"], row["actor"]) for row in reader.rows(query, **named))
    return found


def opening(reader: Reader) -> str | None:
    """The id of the operation that opened the farm, which no other farm has; None for an empty journal."""
    found: str | None = reader.value("SELECT operation FROM journal ORDER BY seq LIMIT 1")
    return found


def last_standing(reader: Reader, by: str) -> JournalLine | None:
    """The latest operation of a person that is not undone; undoing and redoing are not counted."""
    where = f"WHERE entry.actor = :by AND entry.undoes IS NULL AND entry.redoes IS NULL AND NOT {UNDONE}"
    return reader.one(JournalLine, f"{LINES} {where} ORDER BY entry.seq DESC LIMIT 1", by=by)


def last_undoing(reader: Reader, by: str) -> JournalLine | None:
    """The latest undoing by a person that nobody has undone or redone anything over since."""
    where = f"WHERE entry.actor = :by AND entry.undoes IS NOT NULL AND NOT {OVERTAKEN}"
    return reader.one(JournalLine, f"{LINES} {where} ORDER BY entry.seq DESC LIMIT 1", by=by)


def written(reader: Reader, operation: str) -> Written | None:
    """The rows and the result of one operation."""
    found = next(reader.rows("SELECT images, result FROM journal WHERE operation = :id", id=operation), None)
    if found is None:
        return None
    import json

    images = [Image(**image) for image in json.loads(found["images"])]
    return Written(images, json.loads(found["result"]))


def chain(reader: Reader) -> list[dict[str, Any]]:
    """Every entry in order with all that its hash seals, for `records.chain.breaks`."""
    return [entry | {"at": instant(entry["at"])} for entry in reader.rows(CHAIN)]


def last_seq(reader: Reader) -> int:
    """The number of the newest entry, 0 for an empty journal: it moves with every change."""
    return int(reader.value("SELECT COALESCE(MAX(seq), 0) FROM journal"))


def seal_before(reader: Reader) -> tuple[int, str] | None:
    """Number and hash of the newest entry."""
    found = next(reader.rows("SELECT seq, hash FROM journal ORDER BY seq DESC LIMIT 1"), None)
    return (found["seq"], found["hash"]) if found else None
