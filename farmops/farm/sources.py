"""Water sources, what they are like from a day on, and what of them was put into units."""

from __future__ import annotations

from typing import Any

from farmops.facts import readings as reading_facts
from farmops.facts import sources as source_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import OutOfRange, Refused, Unlikely
from farmops.model.readings import NewReading, form_of
from farmops.model.text import name_of, note_of, plain
from farmops.model.water import (
    NewSource,
    NewSourceValues,
    NewTopUp,
    SourceChange,
    SourceValue,
    SourceValuesSet,
    TopUp,
    TopUpChange,
    WaterSource,
)
from farmops.quantities import VOLUME
from farmops.quantities.readings import check_possible, question
from farmops.records.units import UnitRow
from farmops.records.water import SourceValueRow, TopUpRow, WaterSourceRow
from farmops.science.judging import as_nitrogen

LARGEST_ML = 1_000_000_000


@operation("water source")
def add_source(op: Operation, entry: NewSource) -> WaterSource:
    """Name where water comes from."""
    row = op.add(WaterSourceRow(name=_free_name(op, entry.name), kind=entry.kind.value, note=note_of(entry.note)))
    return _source(op, row.id)


@operation("change water source")
def change_source(op: Operation, entry: SourceChange) -> WaterSource:
    """Correct the name, the kind or the note of a source."""
    row = op.get(WaterSourceRow, entry.source_id)
    values = mapped(
        given(entry, "name", "kind", "note"),
        name=lambda name: _free_name(op, name, besides=row.id),
        kind=lambda kind: kind.value,
        note=note_of,
    )
    return _source(op, op.change(row, **values).id)


@operation("source values")
def set_source_values(op: Operation, entry: NewSourceValues) -> SourceValuesSet:
    """Say what the water of a source is like from a day on, in place of what was said for that very day."""
    op.get(WaterSourceRow, entry.source_id)
    if not entry.readings:
        raise Refused("Not booked: no value was given. Say what the water is like, such as pH 7.4 alkalinity 120.")
    ids = [_set(op, entry, one) for one in entry.readings]
    held = {one.id: one for one in source_facts.values(op.reader)}
    return SourceValuesSet(tuple(held[id] for id in ids))


def _set(op: Operation, entry: NewSourceValues, read: NewReading) -> int:
    day, measure = op.sensible_day(entry.from_day), read.measure
    form = form_of(measure, read.form, reading_facts.last_forms(op.reader))
    check_possible(read.value, measure, op.farm.measures)
    value = as_nitrogen(measure, read.value, form)
    asked = question(value, measure, op.farm.measures)
    if asked and not read.sure:
        raise Unlikely(f"Not booked yet: {asked}")
    values: dict[str, Any] = {
        "value": value,
        "form": form.value if form else None,
        "typed": name_of(read.typed, "value"),
    }
    held = _held(op, entry.source_id, day, read)
    if held is not None:
        return op.change(op.get(SourceValueRow, held.id), **values).id
    row = SourceValueRow(water_source_id=entry.source_id, from_day=day, measure=measure.value, **values)
    return op.add(row).id


def _held(op: Operation, source: int, day: object, read: NewReading) -> SourceValue | None:
    same = (source, day, read.measure)
    return next((x for x in source_facts.values(op.reader) if (x.source_id, x.from_day, x.measure) == same), None)


@operation("top-up")
def record_top_up(op: Operation, entry: NewTopUp) -> TopUp:
    """Book water that was put into a unit."""
    op.get(UnitRow, entry.unit_id)
    row = op.add(
        TopUpRow(
            day=op.past_day(entry.day),
            unit_id=entry.unit_id,
            water_source_id=_known(op, entry.source_id),
            note=note_of(entry.note),
            **measured(entry.volume, "volume_ml", "volume_typed"),
        )
    )
    return _top_up(op, row.id)


@operation("change top-up")
def change_top_up(op: Operation, entry: TopUpChange) -> TopUp:
    """Correct how much was put in, from where, or when."""
    row = op.get(TopUpRow, entry.top_up_id)
    values = mapped(given(entry, "day", "note"), day=op.past_day, note=note_of)
    if entry.source_id is None or isinstance(entry.source_id, int):
        values["water_source_id"] = _known(op, entry.source_id)
    return _top_up(op, op.change(row, **values, **measured(entry.volume, "volume_ml", "volume_typed")).id)


@rule(TopUpRow, alone=True)
def is_some_water(op: Operation, row: TopUpRow) -> None:
    """A top-up is more than nothing and less than a pond."""
    if not 0 < row.volume_ml <= LARGEST_ML:
        most = VOLUME.show(LARGEST_ML, op.farm.measures)
        raise OutOfRange(f"Not booked: a top-up is more than nothing and at most {most}.")


def _known(op: Operation, source: int | None) -> int | None:
    return None if source is None else op.get(WaterSourceRow, source).id


def _free_name(op: Operation, typed: str, besides: int | None = None) -> str:
    name = name_of(typed, "name of the source")
    for one in source_facts.sources(op.reader):
        if one.name.casefold() == name.casefold() and one.id != besides:
            raise Refused(f"Not booked: there is a source {plain(one.name)} already. Give this one another name.")
    return name


def _source(op: Operation, id: int) -> WaterSource:
    found = source_facts.source(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _top_up(op: Operation, id: int) -> TopUp:
    found = source_facts.top_up(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
