"""Fish on the move: some to another lot, some into a lot of their own, a whole lot to another unit."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts.populations import lives
from farmops.farm.fields import measured
from farmops.farm.fish import free_code, lot_of, number_of, refuse_retired
from farmops.farm.operation import Operation, operation
from farmops.farm.templates import give_fish_chores
from farmops.model.errors import Refused
from farmops.model.fish import FishLot
from farmops.model.fish_events import NewPlace, NewSplit, NewTransfer, Transfer
from farmops.model.text import note_of
from farmops.model.values import Measured
from farmops.quantities import MASS
from farmops.records.fish import FishLotRow, LotPlaceRow, TransferRow
from farmops.records.units import UnitRow


@operation("move fish to a lot")
def transfer(op: Operation, entry: NewTransfer) -> Transfer:
    """Some fish of a lot go to another lot of the same species, in the same unit or in another."""
    source, target = op.get(FishLotRow, entry.from_lot_id), op.get(FishLotRow, entry.to_lot_id)
    day = op.past_day(entry.day)
    if source.id == target.id:
        raise Refused(f"Not moved: they are in {source.code} already.")
    if source.species != target.species:
        raise Refused(f"Not moved: {source.code} is {source.species} and {target.code} is {target.species}.")
    _refuse_retired_home(op, target, day)
    id = _move(op, source, target, day, entry.number, entry.mean, entry.note)
    found = event_facts.transfer(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


@operation("split fish lot")
def split(op: Operation, entry: NewSplit) -> FishLot:
    """Some fish of a lot become a lot of their own in a unit, which gets the chores that live fish call for."""
    source, unit = op.get(FishLotRow, entry.from_lot_id), op.get(UnitRow, entry.unit_id)
    day = op.past_day(entry.day)
    refuse_retired(op, unit, day)
    mean = entry.mean or _mean(op, source, day)
    row = op.add(
        FishLotRow(
            code=free_code(op, entry.code),
            species=source.species,
            library_key=source.library_key,
            stocked_day=day,
            number=0,
            closed_day=None,
            source=f"out of {source.code}",
            paper_id=source.paper_id,
            note=note_of(entry.note),
            **measured(mean, "mean_mg", "mean_typed"),
        )
    )
    op.add(LotPlaceRow(fish_lot_id=row.id, unit_id=unit.id, from_day=day))
    _move(op, source, row, day, entry.number, entry.mean, None)
    give_fish_chores(op, unit.id, day)
    return lot_of(op, row.id)


@operation("move fish lot")
def move_lot(op: Operation, entry: NewPlace) -> FishLot:
    """A whole lot lives in another unit from a day on."""
    lot, unit = op.get(FishLotRow, entry.lot_id), op.get(UnitRow, entry.unit_id)
    day = op.sensible_day(entry.day)
    refuse_retired(op, unit, day)
    if lot.closed_day is not None and day > lot.closed_day:
        raise Refused(f"Not moved: {lot.code} was closed on {lot.closed_day}; no fish were left after that.")
    here = fish_facts.unit_on(op.reader, lot.id, day)
    if here is None:
        raise Refused(f"Not moved: {lot.code} was stocked on {lot.stocked_day}, after {day}.")
    if here == unit.id:
        raise Refused(f"Not moved: {lot.code} lives in {unit.code} already on {day}.")
    _enter(op, lot, unit, day)
    give_fish_chores(op, unit.id, day)
    return lot_of(op, lot.id)


def _enter(op: Operation, lot: FishLotRow, unit: UnitRow, day: date) -> None:
    """The lot's place from a day on; a place of that very day is written over."""
    query = "SELECT id FROM lot_place WHERE fish_lot_id = :lot AND from_day = :day"
    held = op.reader.value(query, lot=lot.id, day=day)
    if held is None:
        op.add(LotPlaceRow(fish_lot_id=lot.id, unit_id=unit.id, from_day=day))
        return
    before = fish_facts.unit_on(op.reader, lot.id, day - timedelta(days=1))
    if before == unit.id:
        op.remove(op.get(LotPlaceRow, int(held)))
    else:
        op.change(op.get(LotPlaceRow, int(held)), unit_id=unit.id)


def _move(
    op: Operation,
    source: FishLotRow,
    target: FishLotRow,
    day: date,
    number: int,
    mean: Measured | None,
    note: str | None,
) -> int:
    row = op.add(
        TransferRow(
            day=day,
            from_lot_id=source.id,
            to_lot_id=target.id,
            number=number_of(number),
            note=note_of(note),
            **measured(mean, "mean_mg", "mean_typed"),
        )
    )
    return row.id


def _refuse_retired_home(op: Operation, lot: FishLotRow, day: date) -> None:
    unit = fish_facts.unit_on(op.reader, lot.id, day)
    if unit is not None:
        refuse_retired(op, op.get(UnitRow, unit), day)


def _mean(op: Operation, lot: FishLotRow, day: date) -> Measured:
    """How heavy one fish of a lot is by its last weighing; by its stocking where none is there."""
    held = lives(op.reader, [lot.id])[lot.id].on(day)
    mean_mg = (held.mean_mg if held else None) or lot.mean_mg
    return Measured(mean_mg, MASS.show(mean_mg, op.farm.measures))
