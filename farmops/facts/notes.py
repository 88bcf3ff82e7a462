"""Notes and photos, and what was changed on units."""

from __future__ import annotations

from datetime import date

from farmops.model.notes import Note
from farmops.records.reading import Reader

NOTES = """
    SELECT note.id, note.day, COALESCE(note.unit_id, bed.unit_id, chore_bed.unit_id, chore.unit_id) AS unit_id,
        unit.code AS unit, note.bed_id, note.chore_id,
        CASE WHEN note.chore_id IS NOT NULL THEN chore.title
            WHEN note.bed_id IS NOT NULL THEN unit.code || '-' || bed.name
            ELSE unit.code END AS "where",
        note.text, note.changed, note.file, note.file_name, note.file_sha256
    FROM note
    LEFT JOIN bed ON bed.id = note.bed_id
    LEFT JOIN chore ON chore.id = note.chore_id
    LEFT JOIN bed AS chore_bed ON chore_bed.id = chore.bed_id
    LEFT JOIN unit ON unit.id = COALESCE(note.unit_id, bed.unit_id, chore_bed.unit_id, chore.unit_id)
"""


def notes(reader: Reader, first: date, last: date) -> list[Note]:
    """Every note of a span of days, both included, the latest first."""
    where = "WHERE note.day BETWEEN :first AND :last"
    return reader.all(Note, f"{NOTES} {where} ORDER BY note.day DESC, note.id DESC", first=first, last=last)


def note(reader: Reader, id: int) -> Note | None:
    """The note of that number."""
    return reader.one(Note, f"{NOTES} WHERE note.id = :id", id=id)


def notes_of_chore(reader: Reader, chore: int) -> list[Note]:
    """What was noted on a chore, the latest first."""
    query = f"{NOTES} WHERE note.chore_id = :chore ORDER BY note.day DESC, note.id DESC"
    return reader.all(Note, query, chore=chore)
