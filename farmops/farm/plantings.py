"""Crops and plantings: into a bed, and cleared out of it."""

from __future__ import annotations

from farmops.facts import beds as bed_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.templates import give_planting_chores
from farmops.farm.unlikely import ask_room
from farmops.model.beds import Bed
from farmops.model.errors import OutOfRange, Refused
from farmops.model.plantings import Crop, CropChange, NewCrop, NewPlanting, Planting, PlantingChange
from farmops.model.text import name_of, note_of
from farmops.model.values import KEEP
from farmops.records.beds import BedRow
from farmops.records.plantings import CropRow, PlantingRow


@operation("add crop")
def add_crop(op: Operation, entry: NewCrop) -> Crop:
    """The farm begins to grow a crop."""
    name = _free_name(op, entry.name)
    row = op.add(CropRow(name=name, library_key=entry.library_key, note=note_of(entry.note)))
    return _crop(op, row.id)


@operation("change crop")
def change_crop(op: Operation, entry: CropChange) -> Crop:
    """Correct the name or the note of a crop."""
    row = op.get(CropRow, entry.crop_id)
    values = mapped(given(entry, "name", "note"), note=note_of)
    if "name" in values:
        values["name"] = _free_name(op, values["name"], besides=row.id)
    op.change(row, **values)
    return _crop(op, row.id)


@operation("planting")
def plant(op: Operation, entry: NewPlanting) -> Planting:
    """A crop goes into a bed. A new one is added with it, unless the farm grows one of that name.

    Asks once, by Unlikely, about an area that the bed hardly has.
    """
    op.get(BedRow, entry.bed_id)
    row = op.add(
        PlantingRow(
            bed_id=entry.bed_id,
            crop_id=_crop_planted(op, entry.crop),
            variety=note_of(entry.variety, "variety"),
            started_day=op.sensible_day(entry.started_day),
            started_by=entry.started_by.value,
            cleared_day=None,
            plants=_count(entry.plants),
            note=note_of(entry.note),
            **measured(entry.area, "area_mm2", "area_typed"),
        )
    )
    ask_room(op, _planting(op, row.id), sure=entry.sure)
    give_planting_chores(op, _bed(op, row.bed_id), row.started_day)
    return _planting(op, row.id)


@operation("change planting")
def change_planting(op: Operation, entry: PlantingChange) -> Planting:
    """Correct a planting, or clear it: `cleared_day` is the last day on which it stands."""
    row = op.get(PlantingRow, entry.planting_id)
    values = given(entry, "started_day", "started_by", "cleared_day", "variety", "plants", "note")
    functions = {
        "started_day": op.sensible_day,
        "started_by": lambda word: word.value,
        "cleared_day": op.sensible_end,
        "plants": _count,
        "note": note_of,
        "variety": note_of,
    }
    op.change(row, **mapped(values, **functions), **measured(entry.area, "area_mm2", "area_typed"))
    changed = _planting(op, row.id)
    ask_room(op, changed, sure=entry.sure or entry.area is KEEP)
    return changed


@rule(PlantingRow, alone=True)
def ends_after_it_starts(op: Operation, row: PlantingRow) -> None:
    """A planting is cleared no earlier than it started."""
    if row.cleared_day is not None and row.cleared_day < row.started_day:
        raise Refused(f"Not booked: it would be cleared on {row.cleared_day}, before it started on {row.started_day}.")


@rule(PlantingRow)
def keeps_its_harvests(op: Operation, row: PlantingRow) -> None:
    """A planting spans all its harvests."""
    span = harvest_facts.span_of_planting(op.reader, row.id)
    if span is None:
        return
    first, last = span
    if first < row.started_day:
        raise Refused(f"Not booked: there is a weighing from it on {first}, before {row.started_day}.")
    if row.cleared_day is not None and last > row.cleared_day:
        raise Refused(f"Not booked: there is a weighing from it on {last}, after {row.cleared_day}.")


def _crop_planted(op: Operation, crop: int | NewCrop) -> int:
    if isinstance(crop, int):
        return op.get(CropRow, crop).id
    grown = planting_facts.crop_called(op.reader, name_of(crop.name, "name of a crop"))
    return grown.id if grown else add_crop.body(op, crop).id


def _count(plants: int | None) -> int | None:
    if plants is not None and not 0 < plants <= 1_000_000:
        raise OutOfRange(f"{plants} is no number of plants. Understood: 1 to 1,000,000.")
    return plants


def _free_name(op: Operation, text: str, besides: int | None = None) -> str:
    name = name_of(text, "name of a crop").upper()
    taken = planting_facts.crop_called(op.reader, name)
    if taken is not None and taken.id != besides:
        raise Refused(f"There is already a crop {name}.")
    return name


def _crop(op: Operation, id: int) -> Crop:
    found = planting_facts.crop(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _bed(op: Operation, id: int) -> Bed:
    found = bed_facts.bed(op.reader, id)
    assert found is not None  # noqa: S101 - it was read a moment ago
    return found


def _planting(op: Operation, id: int) -> Planting:
    found = planting_facts.planting(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
