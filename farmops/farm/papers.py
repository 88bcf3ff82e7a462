"""Papers that run out: filed, corrected, and followed by the next one."""

from __future__ import annotations

from typing import Any

from farmops.facts import papers as paper_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import OutOfRange, Refused
from farmops.model.notes import KeptFile
from farmops.model.papers import NewPaper, Paper, PaperChange, PaperKind, Renewal
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep
from farmops.records.supplies import PaperRow
from farmops.records.units import UnitRow

YEARS_AHEAD = 100


@operation("paper")
def add_paper(op: Operation, entry: NewPaper) -> Paper:
    """File a paper with its days."""
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    row = op.add(
        PaperRow(
            kind=entry.kind.value,
            name=_name(entry.name),
            number=note_of(entry.number, "number"),
            issued_by=note_of(entry.issued_by, "name of who issued it"),
            unit_id=entry.unit_id,
            from_day=op.sensible_day(entry.from_day),
            until_day=entry.until_day,
            note=note_of(entry.note),
            **_file(entry.file),
        )
    )
    return _paper(op, row.id)


@operation("change paper")
def change_paper(op: Operation, entry: PaperChange) -> Paper:
    """Correct a paper."""
    row = op.get(PaperRow, entry.paper_id)
    names = ("kind", "name", "from_day", "until_day", "number", "issued_by", "unit_id", "note")
    values: dict[str, Any] = mapped(
        given(entry, *names), kind=str, name=_name, from_day=op.sensible_day, number=note_of, issued_by=note_of
    )
    if values.get("unit_id") is not None:
        op.get(UnitRow, values["unit_id"])
    op.change(row, **values, **({} if isinstance(entry.file, Keep) else _file(entry.file)))
    return _paper(op, row.id)


@operation("paper renewed")
def renew_paper(op: Operation, entry: Renewal) -> Paper:
    """File the paper that follows one; the one before stays with its days."""
    before = op.get(PaperRow, entry.paper_id)
    if entry.from_day <= before.from_day:
        raise Refused(f"Not booked: the next {before.name} begins after {before.from_day}, when this one began.")
    number = entry.number if entry.number is not None else before.number
    renewed = NewPaper(
        PaperKind(before.kind),
        before.name,
        entry.from_day,
        entry.until_day,
        number,
        before.issued_by,
        before.unit_id,
        entry.file,
        before.note,
    )
    return add_paper.body(op, renewed)


@rule(PaperRow, alone=True)
def ends_after_it_began(op: Operation, row: PaperRow) -> None:
    """The last day of a paper is not before its first, nor in another age."""
    if row.until_day is None:
        return
    if row.until_day < row.from_day:
        raise Refused(f"Not booked: {row.name} would end on {row.until_day}, before it begins on {row.from_day}.")
    if row.until_day.year > op.today.year + YEARS_AHEAD:
        raise OutOfRange(f"Not booked: {row.until_day} is no last day of a paper. Leave it empty for one without end.")


def _file(kept: KeptFile | None) -> dict[str, Any]:
    return {
        "file": kept.file if kept else None,
        "file_name": name_of(kept.name, "name of the file") if kept else None,
        "file_sha256": kept.sha256 if kept else None,
    }


def _name(text: str) -> str:
    return name_of(text, "name of the paper")


def _paper(op: Operation, id: int) -> Paper:
    found = paper_facts.paper(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
