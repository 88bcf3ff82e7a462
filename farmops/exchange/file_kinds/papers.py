"""Files about papers that run out, and notes."""

from __future__ import annotations

from typing import Any

from farmops.exchange.cells import AN_AGE, Cells, RowRefusedError
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import BEGINS, DATE, IN_BED, NOTE, UNIT, UNTIL, Kind, Take, each, unit_or_all
from farmops.model.notes import Changed, NewNote
from farmops.model.papers import NewPaper, PaperKind


def _paper(cells: Cells, take: Take) -> NewPaper:
    kind = cells.chosen("kind", PaperKind)
    if kind is None:
        raise RowRefusedError("kind", f"no kind; understood: {', '.join(PaperKind)}")
    return NewPaper(
        kind,
        cells.name("name"),
        cells.day("from"),
        cells.day_or_none("until", AN_AGE),
        cells.note("number"),
        cells.note("issuer"),
        unit_or_all(cells, take),
        note=cells.note(),
    )


def _note(cells: Cells, take: Take) -> NewNote:
    """A note on the farm, a unit, a bed, or a chore, which its place tells from others of the same title."""
    where: dict[str, Any] = {}
    if not cells.empty("chore"):
        where = {"chore_id": take.names.chore(cells).id}
    elif not cells.empty("bed"):
        where = {"bed_id": take.names.bed(cells)}
    elif not cells.empty("unit"):
        where = {"unit_id": take.names.unit(cells)}
    return NewNote(cells.day(), cells.note("text"), changed=cells.chosen("changed", Changed), **where)


FILED = (
    Column("kind", needed=True, also=("paper",)),
    Column("name", needed=True),
    BEGINS,
    UNTIL,
    Column("number", also=("no.", "no")),
    Column("issuer", also=("issued by", "by")),
    UNIT,
    NOTE,
)
NOTED = (
    DATE,
    Column("text", also=NOTE.heads),
    UNIT,
    IN_BED,
    Column("chore", numbered=("chore id",)),
    Column("changed"),
)
KINDS = (Kind("papers", FILED, each(_paper)), Kind("notes", NOTED, each(_note)))
