"""Rows about what grows: crops and plantings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import plantings as planting_facts
from farmops.farm.batches import Grown, plant_one
from farmops.farm.file_rows.booking import Booking, Mark, alike, by, named, refuse_other
from farmops.farm.operation import Operation
from farmops.farm.plantings import add_crop
from farmops.library import crop as crop_facts
from farmops.model.frozen import dataclass
from farmops.model.plantings import NewCrop
from farmops.records.reading import Reader


@dataclass(frozen=True, slots=True)
class CropSaid:
    """What a row says of a crop; `facts` is the key of packaged ones, empty for none, None for those of its name."""

    name: str
    facts: str | None = None
    note: str | None = None


def _crop_there(op: Operation, said: CropSaid) -> bool:
    held = planting_facts.crop_called(op.reader, said.name)
    if held is None:
        return False
    refuse_other(held.name, set_of_facts=(said.facts, held.library_key or ""), note=(said.note, held.note))
    return True


def _book_crop(op: Operation, said: CropSaid) -> None:
    packaged = crop_facts(said.name) if said.facts is None else None
    add_crop.body(op, NewCrop(said.name, packaged.key if packaged else said.facts or None, said.note))


def _grown_mark(one: Grown) -> Mark:
    planting = one.planting
    return planting.bed_id, planting.crop, planting.started_day, alike(planting.variety)


def _plantings_held(reader: Reader, entries: Sequence[Grown]) -> list[Mark]:
    known = planting_facts.plantings(reader)
    return [(one.bed_id, one.crop_id, one.started_day, alike(one.variety)) for one in known]


BOOKINGS: dict[str, Booking[Any]] = {
    "crops": named(_crop_there, _book_crop),
    "plantings": Booking(_grown_mark, _plantings_held, by(plant_one), one_by_one=True),
}
