"""Rows about papers that run out, and notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import notes as note_facts
from farmops.facts import papers as paper_facts
from farmops.farm.file_rows.booking import Booking, Mark, alike, by
from farmops.farm.notes import add_note
from farmops.farm.papers import add_paper
from farmops.model.notes import NewNote, Note
from farmops.model.papers import NewPaper, Paper
from farmops.records.reading import Reader


def _paper_mark(one: NewPaper | Paper) -> Mark:
    return one.kind, alike(one.name), one.unit_id, one.from_day


def _notes_held(reader: Reader, entries: Sequence[NewNote]) -> list[Mark]:
    days = [one.day for one in entries]
    return [_note_mark(one) for one in note_facts.notes(reader, min(days), max(days))]


def _note_mark(one: NewNote | Note) -> Mark:
    """A bed is of its unit, which a note that is read names too."""
    unit = None if one.bed_id or one.chore_id else one.unit_id
    return one.day, alike(one.text), unit, one.bed_id, one.chore_id, one.changed


BOOKINGS: dict[str, Booking[Any]] = {
    "papers": Booking(
        _paper_mark,
        lambda reader, entries: map(_paper_mark, paper_facts.papers(reader)),
        by(add_paper.body),
        one_by_one=True,
    ),
    "notes": Booking(_note_mark, _notes_held, by(add_note.body), one_by_one=True),
}
