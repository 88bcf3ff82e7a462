"""Beds: where they are, and how large from which day."""

from __future__ import annotations

from typing import Any

from farmops.facts import beds as bed_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation
from farmops.farm.templates import give_bed_chores
from farmops.farm.unlikely import ask_depth, ask_shrinking
from farmops.model.beds import Bed, BedChange, BedSize, NewBed, NewBedSize
from farmops.model.errors import Refused
from farmops.model.text import code_of, note_of
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.units import UnitRow


@operation("add bed")
def add_bed(op: Operation, entry: NewBed) -> Bed:
    """A unit gets a bed, with its size from a day on. Asks once, by Unlikely, about an unlikely depth."""
    unit = op.get(UnitRow, entry.unit_id)
    name = _free_name(op, entry.unit_id, entry.name)
    ask_depth(op, entry.depth, sure=entry.sure)
    depth = measured(entry.depth, "depth_um", "depth_typed")
    row = op.add(BedRow(unit_id=unit.id, name=name, kind=entry.kind.value, note=note_of(entry.note), **depth))
    if entry.area is not None:
        _set_size(op, row.id, NewBedSize(row.id, entry.from_day, entry.area))
    bed = _bed(op, row.id)
    give_bed_chores(op, bed, entry.from_day)
    return bed


@operation("change bed")
def change_bed(op: Operation, entry: BedChange) -> Bed:
    """Correct a bed's name, filling, depth or note. Asks as adding one does."""
    row = op.get(BedRow, entry.bed_id)
    values = given(entry, "name", "kind", "note")
    if "name" in values:
        values["name"] = _free_name(op, row.unit_id, values["name"], besides=row.id)
    ask_depth(op, entry.depth, sure=entry.sure)
    values = mapped(values, kind=lambda kind: kind.value, note=note_of)
    op.change(row, **values, **measured(entry.depth, "depth_um", "depth_typed"))
    return _bed(op, row.id)


@operation("size of a bed")
def size_bed(op: Operation, entry: NewBedSize) -> BedSize:
    """A bed is so large from a day on; answers for the days before do not move.

    Asks once, by Unlikely, where what stands there then is larger.
    """
    op.get(BedRow, entry.bed_id)
    op.sensible_day(entry.from_day)
    ask_shrinking(op, entry, sure=entry.sure)
    _set_size(op, entry.bed_id, entry)
    return next(size for size in bed_facts.sizes(op.reader, entry.bed_id) if size.from_day == entry.from_day)


def _set_size(op: Operation, bed: int, entry: NewBedSize) -> None:
    day = op.sensible_day(entry.from_day)
    values: dict[str, Any] = {"area_mm2": entry.area.exact, "area_typed": entry.area.typed}
    same_day = [size for size in bed_facts.sizes(op.reader, bed) if size.from_day == day]
    if same_day:
        op.change(op.get(BedSizeRow, same_day[0].id), **values)
    else:
        op.add(BedSizeRow(bed_id=bed, from_day=day, **values))


def _free_name(op: Operation, unit: int, text: str, besides: int | None = None) -> str:
    name = code_of(text, "name of a bed")
    taken = bed_facts.bed_called(op.reader, unit, name)
    if taken is not None and taken.id != besides:
        raise Refused(f"There is already a bed {taken.code}.")
    return name


def _bed(op: Operation, id: int) -> Bed:
    found = bed_facts.bed(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
