"""What happens to a lot day by day: a sample is weighed, fish die, they are fed."""

from __future__ import annotations

from typing import Any

from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.farm.deaths import steps_after
from farmops.farm.feeding import feed
from farmops.farm.fields import measured
from farmops.farm.fish import number_of
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import OutOfRange, Refused
from farmops.model.fish_events import Feeding, Loss, LossBooked, NewFeeding, NewLoss, NewSample, Sample
from farmops.model.text import note_of
from farmops.quantities import MASS
from farmops.records.fish import FeedingRow, FishLotRow, LossRow, SampleFishRow, SampleWeighingRow

HEAVIEST_MG = 10_000_000_000
"""Ten tonnes: more than any lot, or what it is fed in a day."""


@operation("weigh fish")
def weigh_sample(op: Operation, entry: NewSample) -> Sample:
    """Some fish of a lot are weighed and go back: one by one, or a number of them together."""
    lot = op.get(FishLotRow, entry.lot_id)
    row = op.add(
        SampleWeighingRow(fish_lot_id=lot.id, day=op.past_day(entry.day), note=note_of(entry.note), **weighed(entry))
    )
    op.add_all([SampleFishRow(sample_weighing_id=row.id, mass_mg=one.exact) for one in entry.each])
    refuse_more_than_there_are(op, lot, row)
    found = event_facts.sample(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def weighed(entry: NewSample) -> dict[str, Any]:
    """The columns of a sample: fish weighed one by one, or a number of them together. Raises Refused."""
    if entry.each and (entry.mass is not None or entry.number not in (None, len(entry.each))):
        raise Refused("Not booked: fish are weighed one by one, or a number of them together, not both.")
    if entry.each:
        together = sum(one.exact for one in entry.each)
        typed = ", ".join(one.typed for one in entry.each)
        return {"number": len(entry.each), "mass_mg": together, "mass_typed": typed}
    if entry.mass is None or entry.number is None:
        raise Refused("Not booked: say how many fish were weighed and what they weighed together.")
    return {"number": number_of(entry.number), **measured(entry.mass, "mass_mg", "mass_typed")}


def refuse_more_than_there_are(op: Operation, lot: FishLotRow, row: SampleWeighingRow) -> None:
    """Raise Refused for a sample of more fish than the lot held; its days are held against it by a rule."""
    from farmops.facts.populations import lives

    held = lives(op.reader, [lot.id])[lot.id].on(row.day)
    if held is not None and row.day >= lot.stocked_day and row.number > held.number:
        raise Refused(f"Not booked: {row.number} fish weighed, but {lot.code} held {held.number} on {row.day}.")


@rule(SampleWeighingRow, alone=True)
def weighs_something(op: Operation, row: SampleWeighingRow) -> None:
    """A sample weighs more than nothing."""
    _check_mass(op, row.mass_mg)


@operation("fish died")
def record_loss(op: Operation, entry: NewLoss) -> LossBooked:
    """Fish of a lot died or went. Two dead in a unit on one day call for steps of their own."""
    lot = op.get(FishLotRow, entry.lot_id)
    row = op.add(
        LossRow(
            fish_lot_id=lot.id,
            day=op.past_day(entry.day),
            number=number_of(entry.number),
            cause=entry.cause.value,
            disposal=entry.disposal.value if entry.disposal else None,
            note=note_of(entry.note),
            **measured(entry.mass, "mass_mg", "mass_typed"),
        )
    )
    booked = LossBooked(_loss(op, row.id))
    unit = fish_facts.unit_on(op.reader, lot.id, row.day)
    return booked if unit is None else steps_after(op, booked, unit)


def _loss(op: Operation, id: int) -> Loss:
    found = event_facts.loss(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


@rule(LossRow, alone=True)
def dead_fish_weigh_something(op: Operation, row: LossRow) -> None:
    """Dead fish that were weighed weigh more than nothing."""
    if row.mass_mg is not None:
        _check_mass(op, row.mass_mg)


@operation("feed fish")
def record_feeding(op: Operation, entry: NewFeeding) -> Feeding:
    """A lot is fed, and how it ate. Asks once, by Unlikely, about far more than its ration."""
    return feed(op, entry)


@rule(FeedingRow, alone=True)
def feeds_something(op: Operation, row: FeedingRow) -> None:
    """A feeding is more than nothing."""
    _check_mass(op, row.mass_mg)


def _check_mass(op: Operation, mass_mg: int) -> None:
    if not 0 < mass_mg <= HEAVIEST_MG:
        shown = MASS.show(HEAVIEST_MG, op.farm.measures)
        raise OutOfRange(f"Not booked: a weight is more than nothing and at most {shown}.")
