"""What the tables say of the lives of fish lots: samples, losses, transfers, feedings, and who is left."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from farmops.facts import fish, fish_events, populations
from farmops.model.fish import Ate, Disposal, LossCause
from farmops.model.fish_events import Feeding, FishEvent, Happened, Loss, Sample, Transfer
from farmops.records.fish import (
    FeedingRow,
    FishLotRow,
    LossRow,
    SampleFishRow,
    SampleWeighingRow,
    TransferRow,
)
from farmops.records.harvests import HarvestRow
from farmops.records.units import UnitRow
from farmops.records.water import TreatmentRow
from tests.facts.tables import DAYS, Answer, Tables, columns, days_around, says

NOTED = ("id", "day", "note")


def _of_lot(rows: Tables, row: Any) -> dict[str, Any]:
    return {"lot_id": row.fish_lot_id, "lot": rows.get(FishLotRow, row.fish_lot_id).code, **columns(row, *NOTED)}


def _sample(rows: Tables, row: SampleWeighingRow) -> Sample:
    each = tuple(one.mass_mg for one in rows[SampleFishRow] if one.sample_weighing_id == row.id)
    return Sample(**_of_lot(rows, row), **columns(row, "number", "mass_mg", "mass_typed"), each_mg=each)


def _loss(rows: Tables, row: LossRow) -> Loss:
    disposal = Disposal(row.disposal) if row.disposal else None
    more = columns(row, "number", "mass_mg", "mass_typed")
    return Loss(**_of_lot(rows, row), **more, cause=LossCause(row.cause), disposal=disposal)


def _transfer(rows: Tables, row: TransferRow) -> Transfer:
    named = {
        "from_lot": rows.get(FishLotRow, row.from_lot_id).code,
        "to_lot": rows.get(FishLotRow, row.to_lot_id).code,
    }
    return Transfer(**named, **columns(row, *NOTED, "from_lot_id", "to_lot_id", "number", "mean_mg", "mean_typed"))


def feeding_of(rows: Tables, row: FeedingRow) -> Feeding:
    """The feeding of a row."""
    more = columns(row, "mass_mg", "mass_typed", "supply_use_id", "settlement_id")
    return Feeding(**_of_lot(rows, row), **more, ate=Ate(row.ate) if row.ate else None)


def _by_day(found: list[Any]) -> list[Any]:
    return sorted(found, key=lambda one: (one.day, one.id))


def _lots(rows: Tables) -> list[int]:
    return [9999, *(row.id for row in rows[FishLotRow])]


@says(fish_events.samples)
def samples_of_each_lot(rows: Tables) -> Iterator[Answer]:
    for lot in _lots(rows):
        yield (lot,), _by_day([_sample(rows, row) for row in rows[SampleWeighingRow] if row.fish_lot_id == lot])


@says(fish_events.sample)
def each_sample(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[SampleWeighingRow]:
        yield (row.id,), _sample(rows, row)


@says(fish_events.weighed_singly)
def fish_weighed_singly(rows: Tables) -> Iterator[Answer]:
    samples = [_sample(rows, row) for row in rows[SampleWeighingRow]]
    for lots in ([], _lots(rows), _lots(rows)[:2]):
        yield (lots,), {one.id: one.each_mg for one in samples if one.lot_id in lots and one.each_mg}


@says(fish_events.losses)
def losses_of_each_lot(rows: Tables) -> Iterator[Answer]:
    for lot in _lots(rows):
        yield (lot,), _by_day([_loss(rows, row) for row in rows[LossRow] if row.fish_lot_id == lot])


@says(fish_events.loss)
def each_loss(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[LossRow]:
        yield (row.id,), _loss(rows, row)


@says(fish_events.transfers)
def transfers_of_each_lot(rows: Tables) -> Iterator[Answer]:
    for lot in _lots(rows):
        found = [row for row in rows[TransferRow] if lot in (row.from_lot_id, row.to_lot_id)]
        yield (lot,), _by_day([_transfer(rows, row) for row in found])


@says(fish_events.transfer)
def each_transfer(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[TransferRow]:
        yield (row.id,), _transfer(rows, row)


@says(fish_events.feedings)
def feedings_of_each_lot(rows: Tables) -> Iterator[Answer]:
    for lot in _lots(rows):
        yield (lot,), _by_day([feeding_of(rows, row) for row in rows[FeedingRow] if row.fish_lot_id == lot])


@says(fish_events.feeding)
def each_feeding(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[FeedingRow]:
        yield (row.id,), feeding_of(rows, row)


@says(fish_events.span_of_events)
def spans_of_what_is_booked(rows: Tables) -> Iterator[Answer]:
    for lot in _lots(rows):
        days = [
            row.day
            for kind in (SampleWeighingRow, LossRow, FeedingRow, TreatmentRow)
            for row in rows[kind]
            if row.fish_lot_id == lot
        ]
        days += [row.day for row in rows[TransferRow] if lot in (row.from_lot_id, row.to_lot_id)]
        yield (lot,), (min(days), max(days)) if days else None


@says(fish_events.died_in_unit)
def dead_in_each_unit(rows: Tables) -> Iterator[Answer]:
    for unit in rows[UnitRow]:
        for day in days_around([*DAYS, *(row.day for row in rows[LossRow])]):
            dead = [row for row in rows[LossRow] if row.day == day and row.cause != LossCause.CULLED]
            here = [row for row in dead if (at := rows.place_on(row.fish_lot_id, day)) and at.unit_id == unit.id]
            yield (unit.id, day), sum(row.number for row in here)


@says(fish_events.kin)
def lots_joined_by_transfers(rows: Tables) -> Iterator[Answer]:
    groups = [{row.id} for row in rows[FishLotRow]]
    for row in rows[TransferRow]:
        joined = [group for group in groups if not group.isdisjoint((row.from_lot_id, row.to_lot_id))]
        groups = [group for group in groups if group not in joined] + [set().union(*joined)]
    for group in groups:
        for lot in group:
            yield ([lot],), group


@says(fish_events.events)
def what_happened(rows: Tables) -> Iterator[Answer]:
    for lots in ([], _lots(rows), _lots(rows)[1:2]):
        yield (lots,), AnyOrder(_events(rows, lots))


class AnyOrder:
    """A list whose order is not promised."""

    def __init__(self, wanted: list[FishEvent]) -> None:
        self.wanted = wanted

    def __eq__(self, said: object) -> bool:
        return isinstance(said, list) and len(said) == len(self.wanted) and all(one in said for one in self.wanted)


def _events(rows: Tables, lots: list[int]) -> list[FishEvent]:
    found = [
        FishEvent(row.id, row.stocked_day, Happened.STOCKED, row.id, row.number, row.number * row.mean_mg)
        for row in rows[FishLotRow]
    ]
    kinds = ((SampleWeighingRow, Happened.SAMPLED), (LossRow, Happened.DIED), (HarvestRow, Happened.HARVESTED))
    for kind, happened in kinds:
        of_fish = [row for row in rows[kind] if row.fish_lot_id]  # type: ignore[attr-defined]
        found += [FishEvent(row.fish_lot_id, row.day, happened, row.id, row.number, row.mass_mg) for row in of_fish]
    for row in rows[TransferRow]:
        mass = row.mean_mg * row.number if row.mean_mg else None
        found.append(FishEvent(row.from_lot_id, row.day, Happened.MOVED_OUT, row.id, row.number, mass, row.to_lot_id))
    return [one for one in found if one.lot_id in lots]


@says(populations.lives)
def who_is_left(rows: Tables) -> Iterator[Answer]:
    lots = _lots(rows)[1:]
    yield ([],), {}
    yield (lots,), Lives(rows, lots)


class Lives:
    """The lives of all lots: equal to those in which every day has the number of fish that the tables have."""

    def __init__(self, rows: Tables, lots: list[int]) -> None:
        self.rows, self.lots = rows, lots

    def __eq__(self, said: object) -> bool:
        assert isinstance(said, dict)
        return set(said) == set(self.lots) and all(self._alike(said[lot]) for lot in self.lots)

    def _alike(self, life: populations.Life) -> bool:
        days = days_around([*DAYS, *(step.event.day for step in life.steps)])
        row = self.rows.get(FishLotRow, life.lot_id)
        return all(number_on(self.rows, row, day) == self._held(life, day) for day in days)

    def _held(self, life: populations.Life, day: date) -> int:
        held = life.on(day)
        return held.number if held else 0


def number_on(rows: Tables, row: FishLotRow, day: date) -> int:
    """How many fish a lot holds at the end of a day."""
    if row.stocked_day > day:
        return 0
    moved = [one for one in rows[TransferRow] if one.day <= day]
    came = sum(one.number for one in moved if one.to_lot_id == row.id)
    gone = sum(one.number for one in moved if one.from_lot_id == row.id)
    for kind in (LossRow, HarvestRow):
        of_lot = [one for one in rows[kind] if one.fish_lot_id == row.id and one.day <= day]  # type: ignore[attr-defined]
        gone += sum(one.number or 0 for one in of_lot)
    return row.number + came - gone


@says(fish.unit_on)
def homes_of_each_lot(rows: Tables) -> Iterator[Answer]:
    yield (9999, DAYS[0]), None
    for row in rows[FishLotRow]:
        for day in days_around([*DAYS, *(place.from_day for place in rows.places(row.id))]):
            at = rows.place_on(row.id, day)
            yield (row.id, day), at.unit_id if at else None
