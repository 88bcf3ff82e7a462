"""Notes and photos, and the people and numbers to call."""

from __future__ import annotations

from datetime import date

from farmops.model.notes import Changed
from farmops.records.base import Row, check, link, one_of, table_options, words


class NoteRow(Row, table=True):
    """A note, a file that is kept beside the store, or both; `changed` marks what was changed on a unit.

    `file` is the name under which the copy is kept, `file_name` the one it came with.
    """

    __tablename__ = "note"
    __table_args__ = table_options(
        one_of("changed", Changed),
        check("says_something", "text IS NOT NULL OR file IS NOT NULL OR changed IS NOT NULL"),
        check("file_whole", "(file IS NULL) = (file_name IS NULL) AND (file IS NULL) = (file_sha256 IS NULL)"),
        check("changed_on_a_unit", "changed IS NULL OR unit_id IS NOT NULL"),
        check(
            "one_place",
            "(CASE WHEN unit_id IS NULL THEN 0 ELSE 1 END) + (CASE WHEN bed_id IS NULL THEN 0 ELSE 1 END)"
            " + (CASE WHEN chore_id IS NULL THEN 0 ELSE 1 END) <= 1",
        ),
    )

    day: date
    unit_id: int | None = link("unit", required=False)
    bed_id: int | None = link("bed", required=False)
    chore_id: int | None = link("chore", required=False)
    text: str | None = words(required=False)
    changed: str | None = words(required=False)
    file: str | None = words(required=False)
    file_name: str | None = words(required=False)
    file_sha256: str | None = words(required=False)


class ContactRow(Row, table=True):
    """Somebody to call: a vet, an electrician, a neighbour, an agency."""

    __tablename__ = "contact"
    __table_args__ = table_options()

    name: str = words()
    calls_for: str = words()
    phone: str = words()
    note: str | None = words(required=False)
