"""Files about papers that run out, and notes."""

from __future__ import annotations

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
    bed = None if cells.empty("bed") else take.names.bed(cells)
    unit = None if bed is not None else unit_or_all(cells, take)
    return NewNote(cells.day(), cells.note("text"), unit, bed, changed=cells.chosen("changed", Changed))


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
    Column("changed"),
)
KINDS = (Kind("papers", FILED, each(_paper)), Kind("notes", NOTED, each(_note)))
