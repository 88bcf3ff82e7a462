"""Rows about what went into the water, and where it came from: doses, top-ups, sources with what they are like."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from farmops.facts import doses as dose_facts
from farmops.facts import sources as source_facts
from farmops.farm.doses import record_dose
from farmops.farm.file_rows.booking import Booking, Mark, agrees, alike, by, named, needed, refuse_other
from farmops.farm.operation import Operation
from farmops.farm.sources import add_source, record_top_up, set_source_values
from farmops.model.frozen import dataclass
from farmops.model.readings import NewReading
from farmops.model.water import NewDose, NewSource, NewSourceValues, NewTopUp, SourceKind, SourceValue, WaterSource
from farmops.records.reading import Reader
from farmops.science.judging import as_reported


@dataclass(frozen=True, slots=True)
class SourceSaid:
    """What a row says of a water source, None where it says nothing; its water is like `readings` from a day on."""

    name: str
    kind: SourceKind | None = None
    from_day: date | None = None
    readings: tuple[NewReading, ...] = ()
    note: str | None = None


def _source(reader: Reader, name: str) -> WaterSource | None:
    return next((one for one in source_facts.sources(reader) if alike(one.name) == alike(name)), None)


def _source_there(op: Operation, said: SourceSaid) -> bool:
    source = _source(op.reader, said.name)
    if source is None:
        return False
    refuse_other(source.name, kind=(said.kind, source.kind), note=(said.note, source.note))
    held = [
        one for one in source_facts.values(op.reader) if (one.source_id, one.from_day) == (source.id, said.from_day)
    ]
    return all(any(_same(one, value) for value in held) for one in said.readings)


def _same(said: NewReading, held: SourceValue) -> bool:
    value = as_reported(held.measure, held.value, held.form)
    alike = said.measure is held.measure and f"{said.value:.6g}" == f"{value:.6g}"
    return alike and agrees(said.form, held.form)


def _book_source(op: Operation, said: SourceSaid) -> None:
    """Name a source, and say what the water of one that is there is like."""
    source = _source(op.reader, said.name)
    if source is None:
        source = add_source.body(op, NewSource(said.name, needed(said.kind, "kind"), said.note))
    if said.readings:
        set_source_values.body(op, NewSourceValues(source.id, needed(said.from_day, "from"), said.readings))


def _doses_held(reader: Reader, entries: Sequence[NewDose]) -> list[Mark]:
    days = [one.day for one in entries]
    known = dose_facts.doses(reader, min(days), max(days))
    return [(one.unit_id, one.day, alike(one.what), one.held_by, one.amount) for one in known]


def _top_ups_held(reader: Reader, entries: Sequence[NewTopUp]) -> list[Mark]:
    days = [one.day for one in entries]
    known = source_facts.top_ups(reader, min(days), max(days))
    return [(one.unit_id, one.day, one.volume_ml, one.source_id) for one in known]


BOOKINGS: dict[str, Booking[Any]] = {
    "doses": Booking(
        lambda one: (one.unit_id, one.day, alike(one.what), one.amount.held_by, one.amount.measured.exact),
        _doses_held,
        by(record_dose.body),
        one_by_one=True,
    ),
    "top-ups": Booking(
        lambda one: (one.unit_id, one.day, one.volume.exact, one.source_id),
        _top_ups_held,
        by(record_top_up.body),
        one_by_one=True,
    ),
    "water sources": named(_source_there, _book_source),
}
