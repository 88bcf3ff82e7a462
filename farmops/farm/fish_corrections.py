"""What was booked of fish, put right: samples, losses, transfers, feedings."""

from __future__ import annotations

from typing import Any

from farmops.facts import fish_events as event_facts
from farmops.farm.feeding import draw_again
from farmops.farm.fields import given, mapped, measured
from farmops.farm.fish import number_of
from farmops.farm.fish_events import refuse_more_than_there_are, weighed
from farmops.farm.operation import Operation, operation
from farmops.model.errors import Refused
from farmops.model.fish_events import (
    Feeding,
    FeedingChange,
    Loss,
    LossChange,
    NewSample,
    Sample,
    SampleChange,
    Transfer,
    TransferChange,
)
from farmops.model.text import note_of
from farmops.model.values import KEEP, Keep, Measured
from farmops.records.fish import FeedingRow, FishLotRow, LossRow, SampleFishRow, SampleWeighingRow, TransferRow


@operation("change sample of fish")
def change_sample(op: Operation, entry: SampleChange) -> Sample:
    """Correct a sample weighing. Of fish weighed one by one, all weights are said again."""
    row = op.get(SampleWeighingRow, entry.sample_id)
    held = op.transaction.pointing_at(row.table_name(), row.id)
    values = _noted(op, entry)
    if not isinstance(entry.each, Keep) and entry.each:
        _weighed_again(op, row, held, entry.each)
        values |= weighed(NewSample(row.fish_lot_id, row.day, each=entry.each))
    elif entry.number is not KEEP or entry.mass is not KEEP:
        values |= _together(row, held, entry)
    op.change(row, **values)
    refuse_more_than_there_are(op, op.get(FishLotRow, row.fish_lot_id), row)
    found = event_facts.sample(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _weighed_again(op: Operation, row: SampleWeighingRow, held: list[Any], each: tuple[Measured, ...]) -> None:
    for _, id, _ in held:
        op.remove(op.get(SampleFishRow, id))
    op.add_all([SampleFishRow(sample_weighing_id=row.id, mass_mg=one.exact) for one in each])


def _together(row: SampleWeighingRow, held: list[Any], entry: SampleChange) -> dict[str, Any]:
    if held:
        raise Refused("Not changed: these fish were weighed one by one. Say all their weights again.")
    values = mapped(given(entry, "number"), number=number_of)
    return values | measured(entry.mass, "mass_mg", "mass_typed")


@operation("change loss of fish")
def change_loss(op: Operation, entry: LossChange) -> Loss:
    """Correct a loss. The steps it brought stay."""
    row = op.get(LossRow, entry.loss_id)
    values = mapped(
        given(entry, "number", "cause", "disposal"),
        number=number_of,
        cause=lambda word: word.value,
        disposal=lambda word: word.value if word else None,
    )
    op.change(row, **_noted(op, entry), **values, **measured(entry.mass, "mass_mg", "mass_typed"))
    found = event_facts.loss(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


@operation("change transfer of fish")
def change_transfer(op: Operation, entry: TransferChange) -> Transfer:
    """Correct how many fish went to the other lot, when, and how heavy one was."""
    row = op.get(TransferRow, entry.transfer_id)
    values = mapped(given(entry, "number"), number=number_of)
    op.change(row, **_noted(op, entry), **values, **measured(entry.mean, "mean_mg", "mean_typed"))
    found = event_facts.transfer(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


@operation("change feeding")
def change_feeding(op: Operation, entry: FeedingChange) -> Feeding:
    """Correct a feeding, or say afterwards how they ate."""
    row = op.get(FeedingRow, entry.feeding_id)
    values = mapped(given(entry, "ate"), ate=lambda word: word.value if word else None)
    changed = op.change(row, **_noted(op, entry), **values, **measured(entry.mass, "mass_mg", "mass_typed"))
    if entry.mass is not KEEP or entry.day is not KEEP:
        draw_again(op, changed)
    found = event_facts.feeding(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _noted(op: Operation, entry: Any) -> dict[str, Any]:
    """The day and the note of a change."""
    return mapped(given(entry, "day", "note"), day=op.past_day, note=note_of)
