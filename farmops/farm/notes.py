"""Notes: written down, corrected, with files that are kept beside the store."""

from __future__ import annotations

from farmops.facts import notes as note_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused
from farmops.model.notes import NewNote, Note, NoteChange
from farmops.model.text import name_of, note_of
from farmops.records.beds import BedRow
from farmops.records.chores import ChoreRow
from farmops.records.notes import NoteRow
from farmops.records.units import UnitRow

PLACES = ((UnitRow, "unit_id"), (BedRow, "bed_id"), (ChoreRow, "chore_id"))


@operation("note")
def add_note(op: Operation, entry: NewNote) -> Note:
    """Write something down on the farm, or on one unit, bed or chore."""
    for kind, column in PLACES:
        id = getattr(entry, column)
        if id is not None:
            op.get(kind, id)
    kept = entry.file
    row = op.add(
        NoteRow(
            day=op.sensible_day(entry.day),
            unit_id=entry.unit_id,
            bed_id=entry.bed_id,
            chore_id=entry.chore_id,
            text=note_of(entry.text),
            changed=entry.changed.value if entry.changed else None,
            file=kept.file if kept else None,
            file_name=name_of(kept.name, "name of the file") if kept else None,
            file_sha256=kept.sha256 if kept else None,
        )
    )
    return _note(op, row.id)


@operation("change note")
def change_note(op: Operation, entry: NoteChange) -> Note:
    """Correct what a note says, its day, or what it marks as changed."""
    row = op.get(NoteRow, entry.note_id)
    values = mapped(
        given(entry, "day", "text", "changed"),
        day=op.sensible_day,
        text=note_of,
        changed=lambda word: word.value if word else None,
    )
    op.change(row, **values)
    return _note(op, row.id)


@rule(NoteRow, alone=True)
def says_something_somewhere(op: Operation, row: NoteRow) -> None:
    """A note says or shows something, stands in one place, and marks a change on a unit."""
    if row.text is None and row.file is None and row.changed is None:
        raise Refused("Not booked: a note says something, shows a file, or marks what was changed.")
    if sum(place is not None for place in (row.unit_id, row.bed_id, row.chore_id)) > 1:
        raise Refused("Not booked: a note stands on the farm, or on one unit, bed or chore.")
    if row.changed is not None and row.unit_id is None:
        raise Refused(f"Not booked: say on which unit the {row.changed} was changed.")


def _note(op: Operation, id: int) -> Note:
    found = note_facts.note(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
