"""Rows about what grows: plantings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import plantings as planting_facts
from farmops.farm.batches import Grown, plant_one
from farmops.farm.file_rows.booking import Booking, Mark, alike, by
from farmops.records.reading import Reader


def _grown_mark(one: Grown) -> Mark:
    planting = one.planting
    return planting.bed_id, planting.crop, planting.started_day, alike(planting.variety)


def _plantings_held(reader: Reader, entries: Sequence[Grown]) -> list[Mark]:
    known = planting_facts.plantings(reader)
    return [(one.bed_id, one.crop_id, one.started_day, alike(one.variety)) for one in known]


BOOKINGS: dict[str, Booking[Any]] = {"plantings": Booking(_grown_mark, _plantings_held, by(plant_one), one_by_one=True)}
