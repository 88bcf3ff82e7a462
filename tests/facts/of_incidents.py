"""What the tables say of incidents, of the units they concern, and of the fish that are alive."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from farmops.facts import incidents, live_fish
from farmops.facts.incidents import AtStake
from farmops.facts.live_fish import LiveLot
from farmops.model.incidents import Incident, IncidentKind, Ticked
from farmops.model.units import ACTIVE_STATES
from farmops.records.fish import FishLotRow, LossRow, SampleWeighingRow, TransferRow
from farmops.records.harvests import HarvestRow
from farmops.records.incidents import IncidentRow, IncidentStepRow
from farmops.records.units import UnitRow, UnitStateRow
from tests.facts.of_places import unit_of
from tests.facts.tables import DAYS, Answer, Tables, columns, days_around, says


def _incident(row: IncidentRow) -> Incident:
    return Incident(kind=IncidentKind(row.kind), **columns(row, "id", "began_at", "ended_at", "note"))


@says(incidents.incidents)
def all_that_went_wrong(rows: Tables) -> Iterator[Answer]:
    found = sorted(rows[IncidentRow], key=lambda row: (row.began_at, row.id), reverse=True)
    yield (), [_incident(row) for row in found]


@says(incidents.incident)
def each_incident(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[IncidentRow]:
        yield (row.id,), _incident(row)


@says(incidents.open_incidents)
def what_lasts(rows: Tables) -> Iterator[Answer]:
    yield (), [_incident(row) for row in rows[IncidentRow] if row.ended_at is None]


@says(incidents.ticked)
def what_was_done(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for one in rows[IncidentRow]:
        own = [row for row in rows[IncidentStepRow] if row.incident_id == one.id]
        yield (one.id,), [_ticked(rows, row) for row in sorted(own, key=lambda row: (row.at, row.id))]


def _ticked(rows: Tables, row: IncidentStepRow) -> Ticked:
    unit = rows.find(UnitRow, row.unit_id)
    named = columns(row, "id", "incident_id", "unit_id", "step", "at", "actor", "note")
    return Ticked(unit=unit.code if unit else None, **named)


def _days(rows: Tables) -> list[date]:
    lots = [day for row in rows[FishLotRow] for day in (row.stocked_day, row.closed_day) if day]
    return days_around([*DAYS, *lots, *(row.from_day for row in rows[UnitStateRow])])


def _number(rows: Tables, lot: FishLotRow, day: date) -> int:
    gone = [row for kind in (HarvestRow, LossRow) for row in rows[kind] if row.fish_lot_id == lot.id]
    moved = [row for row in rows[TransferRow] if row.day <= day]
    left = lot.number - sum(row.number or 0 for row in gone if row.day <= day)
    left += sum(row.number for row in moved if row.to_lot_id == lot.id)
    return left - sum(row.number for row in moved if row.from_lot_id == lot.id)


def _live(rows: Tables, lot: FishLotRow, day: date) -> LiveLot | None:
    """Fish that came or went by transfer change the mean weight in ways that the tests of populations tell."""
    place, number = rows.place_on(lot.id, day), _number(rows, lot, day)
    if day < lot.stocked_day or (lot.closed_day and lot.closed_day < day) or place is None or number <= 0:
        return None
    samples = [row for row in rows[SampleWeighingRow] if row.fish_lot_id == lot.id and row.day <= day]
    picked = [row for row in rows[HarvestRow] if row.fish_lot_id == lot.id and row.number and row.day <= day]
    weighed = max((row.day for row in samples), default=lot.stocked_day)
    last = [row for row in samples if row.day == weighed]
    mean = sum(row.mass_mg for row in last) / sum(row.number for row in last) if last else lot.mean_mg
    counted = max(picked, key=lambda row: (row.day, row.id), default=None)
    return LiveLot(
        lot_id=lot.id,
        **columns(lot, "code", "species", "library_key"),
        unit_id=place.unit_id,
        number=number,
        mean_mg=round(mean),
        weighed_day=weighed,
        picked_mean_mg=counted.mass_mg // counted.number if counted else None,
    )


class Alive:
    """Lots that are alive: equal to those of the same fish; of lots with transfers the weight is left open."""

    def __init__(self, found: list[LiveLot], moved: set[int]) -> None:
        self.found, self.moved = found, moved

    def __eq__(self, said: object) -> bool:
        assert isinstance(said, list)
        return len(said) == len(self.found) and all(map(self._alike, said, self.found))

    def _alike(self, said: LiveLot, own: LiveLot) -> bool:
        if own.lot_id in self.moved:
            return said.mean_mg > 0 and replace(said, mean_mg=own.mean_mg, weighed_day=own.weighed_day) == own
        return replace(said, mean_mg=own.mean_mg) == own and abs(said.mean_mg - own.mean_mg) <= 1


@says(live_fish.live_on)
def fish_alive(rows: Tables) -> Iterator[Answer]:
    moved = {end for row in rows[TransferRow] for end in (row.from_lot_id, row.to_lot_id)}
    for day in _days(rows):
        found = [(live, lot) for lot in rows[FishLotRow] if (live := _live(rows, lot, day))]
        found.sort(key=lambda one: (*rows.walking(one[0].unit_id), one[1].stocked_day, one[1].id))
        yield (day,), Alive([live for live, _ in found], moved)


@says(incidents.units_at_stake)
def units_to_look_after(rows: Tables) -> Iterator[Answer]:
    for day in _days(rows):
        fish = {live.unit_id for lot in rows[FishLotRow] if (live := _live(rows, lot, day))}
        found = []
        for row in sorted(rows[UnitRow], key=lambda row: (row.position, row.id)):
            held = sorted(
                (s.from_day, s.state) for s in rows[UnitStateRow] if s.unit_id == row.id and s.from_day <= day
            )
            if row.id in fish or (held and held[-1][1] in ACTIVE_STATES):
                found.append(AtStake(unit_of(row), row.id in fish))
        yield (day,), found
