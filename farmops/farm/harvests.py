"""Weighing what comes out: booked, corrected, and kept within the life of what it came from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import fish as fish_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.facts.doubts import LATELY, New, doubt
from farmops.facts.weighings import ground, lately
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.progress import Watch, watched
from farmops.model.errors import OutOfRange, Refused, Unlikely
from farmops.model.frozen import dataclass
from farmops.model.harvests import Harvest, HarvestChange, NewHarvest
from farmops.model.text import note_of
from farmops.quantities import MASS
from farmops.records.fish import FishLotRow
from farmops.records.harvests import HarvestRow
from farmops.records.plantings import PlantingRow

HEAVIEST_MG = 1_000_000_000
MOST_PIECES = 1_000_000


@operation("harvest")
def record_harvest(op: Operation, entry: NewHarvest) -> Harvest:
    """Book one weighing. Refuses one before its planting started, after it was cleared, or from no fish.

    Asks once about what somebody else booked already, and about what is far from the usual: raises Unlikely.
    """
    _must_exist(op, entry.planting_id, entry.fish_lot_id)
    (row,) = op.checked([harvest_row(op, entry)])
    if not entry.sure:
        _ask_about(op, row)
    return _booked(op, op.add(row))


def _ask_about(op: Operation, row: HarvestRow) -> None:
    """Raises Unlikely for what another person booked already, and for what is far from the usual."""
    alike = lately(op.reader, row.planting_id, row.fish_lot_id, row.day, row.mass_mg, LATELY)
    stands = ground(op.reader, row.planting_id, row.day) if row.planting_id is not None else None
    new = New(row.day, row.mass_mg, row.mass_typed, row.number, op.by, row.tare_mg, stands)
    told = doubt(new, alike, op.farm.measures)
    if told:
        raise Unlikely(f"Not booked yet: {told}")


@dataclass(frozen=True, slots=True)
class Batch:
    """Many weighings that are booked together or not at all."""

    entries: tuple[NewHarvest, ...]


@dataclass(frozen=True, slots=True)
class Booked:
    """How many weighings a batch booked."""

    number: int


@operation("harvests")
def record_harvests(op: Operation, entry: Batch) -> Booked:
    """Book many weighings in one operation."""
    return Booked(add_harvests(op, entry.entries))


def add_harvests(op: Operation, entries: Sequence[NewHarvest], watch: Watch | None = None) -> int:
    """Write many weighings within an operation; returns how many. `watch` is told how far it has come."""
    op.add_all([harvest_row(op, entry) for entry in watched(entries, watch)])
    return len(entries)


@operation("change harvest")
def change_harvest(op: Operation, entry: HarvestChange) -> Harvest:
    """Correct a weighing."""
    row = op.get(HarvestRow, entry.harvest_id)
    values = given(entry, "day", "planting_id", "fish_lot_id", "number", "use", "note")
    values = mapped(values, use=lambda use: use.value, note=note_of, number=_pieces, day=op.past_day)
    _must_exist(op, values.get("planting_id"), values.get("fish_lot_id"))
    mass, tare = measured(entry.mass, "mass_mg", "mass_typed"), measured(entry.tare, "tare_mg", "tare_typed")
    if tare.get("tare_mg", 0) is None:
        tare["tare_mg"] = 0
    dressed = measured(entry.dressed, "dressed_mg", "dressed_typed")
    return _booked(op, op.change(row, **values, **mass, **tare, **dressed))


def _booked(op: Operation, row: HarvestRow) -> Harvest:
    found = harvest_facts.harvest(op.reader, row.id)
    if found is None:
        op.check_rules()
        raise Refused(f"Not booked: the fish were in no unit on {row.day}.")
    return found


def _must_exist(op: Operation, planting: int | None, lot: int | None) -> None:
    if planting is not None:
        op.must_exist(PlantingRow, planting)
    if lot is not None:
        op.must_exist(FishLotRow, lot)


def harvest_row(op: Operation, entry: NewHarvest) -> HarvestRow:
    """The row of a new weighing."""
    tare: dict[str, Any] = {
        "tare_mg": entry.tare.exact if entry.tare else 0,
        "tare_typed": entry.tare.typed if entry.tare else None,
    }
    return HarvestRow(
        day=op.past_day(entry.day),
        planting_id=entry.planting_id,
        fish_lot_id=entry.fish_lot_id,
        mass_mg=entry.mass.exact,
        mass_typed=entry.mass.typed,
        number=_pieces(entry.number),
        use=entry.use.value,
        note=note_of(entry.note),
        fingerprint=entry.fingerprint,
        **tare,
        **measured(entry.dressed, "dressed_mg", "dressed_typed"),
    )


@rule(HarvestRow, alone=True)
def weighs_something_sensible(op: Operation, row: HarvestRow) -> None:
    """A weighing is more than nothing and at most a tonne."""
    if not 0 < row.mass_mg <= HEAVIEST_MG:
        shown = MASS.show(HEAVIEST_MG, op.farm.measures)
        raise OutOfRange(f"Not booked: one weighing is more than nothing and at most {shown}.")
    if row.tare_mg < 0:
        raise OutOfRange("Not booked: a tare is nothing or more.")


@rule(HarvestRow, alone=True)
def is_dressed_of_the_whole(op: Operation, row: HarvestRow) -> None:
    """Only fish are dressed, and weigh less for it."""
    if row.dressed_mg is None:
        return
    if row.fish_lot_id is None:
        raise Refused("Not booked: only fish have a dressed weight. Book produce as it was weighed.")
    if not 0 < row.dressed_mg <= row.mass_mg:
        whole = MASS.show(row.mass_mg, op.farm.measures)
        raise OutOfRange(f"Not booked: dressed fish weigh something, at most the {whole} they weighed whole.")


@rule(HarvestRow, alone=True)
def comes_from_one_source(op: Operation, row: HarvestRow) -> None:
    """A weighing is of one planting or of one fish lot."""
    if (row.planting_id is None) == (row.fish_lot_id is None):
        raise Refused("Not booked: a weighing comes from one planting or from one fish lot.")


@rule(HarvestRow)
def comes_from_something_alive(op: Operation, row: HarvestRow) -> None:
    """A weighing lies between the first and the last day of its planting or fish lot."""
    if row.planting_id is not None:
        _check_planting(op, row, row.planting_id)
    else:
        _check_lot(op, row, row.fish_lot_id or 0)


def _check_planting(op: Operation, row: HarvestRow, planting_id: int) -> None:
    planting = op.fact(planting_facts.planting, planting_id)
    if planting is None:
        raise Refused(f"Not booked: there is no planting {planting_id}.")
    if row.day < planting.started_day:
        raise Refused(
            f"Not booked: {planting.crop} in {planting.bed} started on {planting.started_day}, after {row.day}. "
            "Change the date of the weighing, or of the planting."
        )
    if planting.cleared_day is not None and row.day > planting.cleared_day:
        raise Refused(
            f"Not booked: {planting.crop} in {planting.bed} was cleared on {planting.cleared_day}. "
            "Start a new planting, or change the date."
        )


def _check_lot(op: Operation, row: HarvestRow, lot_id: int) -> None:
    lot = op.fact(fish_facts.lot, lot_id)
    if lot is None:
        raise Refused(f"Not booked: there is no fish lot {lot_id}.")
    if row.day < lot.stocked_day:
        raise Refused(f"Not booked: {lot.code} was stocked on {lot.stocked_day}, after {row.day}.")
    if lot.closed_day is not None and row.day > lot.closed_day:
        raise Refused(f"Not booked: {lot.code} was closed on {lot.closed_day}; no fish were left after that.")


def _pieces(number: int | None) -> int | None:
    if number is not None and not 0 < number <= MOST_PIECES:
        raise OutOfRange(f"{number} is no count. Understood: 1 to {MOST_PIECES:,}.")
    return number
