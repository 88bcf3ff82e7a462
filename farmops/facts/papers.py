"""Papers and their last days."""

from __future__ import annotations

from farmops.model.papers import Paper
from farmops.records.reading import Reader

PAPERS = """
    SELECT paper.id, paper.kind, paper.name, paper.number, paper.issued_by, paper.unit_id, unit.code AS unit,
        paper.from_day, paper.until_day, paper.file, paper.file_name, paper.file_sha256, paper.note,
        EXISTS (
            SELECT 1 FROM paper AS later
            WHERE later.kind = paper.kind AND later.name = paper.name
                AND COALESCE(later.unit_id, 0) = COALESCE(paper.unit_id, 0)
                AND (later.from_day > paper.from_day OR (later.from_day = paper.from_day AND later.id > paper.id))
        ) AS renewed
    FROM paper LEFT JOIN unit ON unit.id = paper.unit_id
"""


def papers(reader: Reader) -> list[Paper]:
    """Every paper by kind and name, the earliest first."""
    return reader.all(Paper, f"{PAPERS} ORDER BY paper.kind, paper.name, paper.from_day, paper.id")


def paper(reader: Reader, id: int) -> Paper | None:
    """The paper of that id."""
    return reader.one(Paper, f"{PAPERS} WHERE paper.id = :id", id=id)
