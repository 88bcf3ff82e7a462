"""Rows about treatments against pests and diseases."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import treatments as treatment_facts
from farmops.farm.file_rows.booking import Booking, Mark, alike, by
from farmops.farm.treatments import book_treatment
from farmops.model.treatments import NewTreatment
from farmops.records.reading import Reader


def _mark(one: NewTreatment) -> Mark:
    return one.day, (one.unit_id, one.bed_id, one.fish_lot_id), alike(one.product), alike(one.amount_typed)


def _held(reader: Reader, entries: Sequence[NewTreatment]) -> list[Mark]:
    days = [one.day for one in entries]
    return [
        (one.day, _place(one.unit_id, one.bed_id, one.lot_id), alike(one.product), alike(one.amount_typed))
        for one in treatment_facts.treatments(reader, min(days), max(days))
    ]


def _place(unit: int, bed: int | None, lot: int | None) -> tuple[int | None, int | None, int | None]:
    return None if bed or lot else unit, bed, lot


BOOKINGS: dict[str, Booking[Any]] = {"treatments": Booking(_mark, _held, by(book_treatment.body), one_by_one=True)}
