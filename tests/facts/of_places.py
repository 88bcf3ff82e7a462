"""What the tables say of the farm, its people, units, beds and fish."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts import beds, contacts, farm, fish, presence, units
from farmops.model.beds import Bed, BedKind, BedSize
from farmops.model.contacts import Contact
from farmops.model.farm import Farm, Person
from farmops.model.fish import FishLot
from farmops.model.presence import Crew, Member
from farmops.model.units import StateFrom, Unit, UnitKind, UnitState
from farmops.quantities import Measures
from farmops.records.beds import BedRow, BedSizeRow
from farmops.records.farm import FarmRow, PersonRow
from farmops.records.fish import FishLotRow, LotPlaceRow
from farmops.records.notes import ContactRow
from farmops.records.presence import AbsenceRow, PresenceRow
from farmops.records.supplies import PaperRow
from farmops.records.units import UnitRow, UnitStateRow
from tests.facts.tables import DAYS, Answer, Tables, columns, days_around, says


@says(farm.farm)
def the_farm(rows: Tables) -> Iterator[Answer]:
    row = rows.get(FarmRow, 1)
    names = ("mass", "volume", "area", "length", "temperature", "currency", "decimal_comma")
    measures = Measures(**columns(row, *names))
    more = {"altitude_um": row.altitude_um, "stands_on": row.stands_on_day}
    yield (), Farm(row.name, measures, row.time_zone, row.opened_day, **more)


@says(farm.people)
def everybody(rows: Tables) -> Iterator[Answer]:
    yield (), _people(rows)
    for row in rows[PersonRow]:
        yield (row.id,), [one for one in _people(rows) if one.id > row.id]


@says(farm.person)
def each_person(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for one in _people(rows):
        yield (one.id,), one


def _people(rows: Tables) -> list[Person]:
    found = sorted(rows[PersonRow], key=lambda row: row.name)
    return [Person(**columns(row, "id", "name", "note", "minor")) for row in found]


def _days_said(rows: Tables) -> set[date]:
    return {*DAYS, *(row.day for row in rows[PresenceRow]), *(row.from_day for row in rows[AbsenceRow])}


@says(presence.said_of)
def who_was_said_to_be_here(rows: Tables) -> Iterator[Answer]:
    for day in _days_said(rows):
        yield (day,), {row.person_id: row.id for row in rows[PresenceRow] if row.day == day}


@says(presence.crew_on)
def who_is_here(rows: Tables) -> Iterator[Answer]:
    for day in _days_said(rows):
        said = {row.person_id for row in rows[PresenceRow] if row.day == day}
        away = {row.person_id: row for row in rows[AbsenceRow] if row.from_day <= day <= row.until_day}
        members = []
        for one in _people(rows):
            here = one.id in said if said else one.id not in away
            gone = None if here else away.get(one.id)
            members.append(Member(one, here, gone and gone.until_day, gone and gone.stand_in_id))
        yield (day,), Crew(day, bool(said), tuple(members))


def _contact(row: ContactRow) -> Contact:
    return Contact(**columns(row, "id", "name", "calls_for", "phone", "note"))


@says(contacts.contacts)
def whom_to_call(rows: Tables) -> Iterator[Answer]:
    for after in (0, *(row.id for row in rows[ContactRow])):
        yield (after,), [_contact(row) for row in rows[ContactRow] if row.id > after]


@says(contacts.contact)
def each_contact(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[ContactRow]:
        yield (row.id,), _contact(row)


def unit_of(row: UnitRow) -> Unit:
    """A unit as its row says."""
    names = ("id", "code", "position", "tank_ml", "tank_typed", "note", "breaker", "valve")
    return Unit(kind=UnitKind(row.kind), **columns(row, *names))


@says(units.units)
def the_row_of_units(rows: Tables) -> Iterator[Answer]:
    yield (), [unit_of(row) for row in sorted(rows[UnitRow], key=lambda row: (row.position, row.id))]


@says(units.unit)
def each_unit(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[UnitRow]:
        yield (row.id,), unit_of(row)


@says(units.unit_called)
def each_unit_by_code(rows: Tables) -> Iterator[Answer]:
    yield ("NOBODY",), None
    for row in rows[UnitRow]:
        yield (f" {row.code.lower()} ",), unit_of(row)


def _states(rows: Tables, unit_id: int) -> list[StateFrom]:
    found = sorted((s.from_day, s.state) for s in rows[UnitStateRow] if s.unit_id == unit_id)
    return [StateFrom(day, UnitState(state)) for day, state in found]


@says(units.states)
def states_of_each_unit(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for row in rows[UnitRow]:
        yield (row.id,), _states(rows, row.id)


@says(units.all_states)
def states_of_all_units(rows: Tables) -> Iterator[Answer]:
    yield (), {row.id: _states(rows, row.id) for row in rows[UnitRow]}


def _bed(rows: Tables, row: BedRow) -> Bed:
    named = columns(row, "id", "unit_id", "name", "depth_um", "depth_typed", "note")
    return Bed(unit=rows.get(UnitRow, row.unit_id).code, kind=BedKind(row.kind), **named)


@says(beds.beds)
def every_bed(rows: Tables) -> Iterator[Answer]:
    found = sorted(rows[BedRow], key=lambda row: (*rows.walking(row.unit_id), row.name))
    yield (), [_bed(rows, row) for row in found]
    for unit in rows[UnitRow]:
        yield (unit.id,), [_bed(rows, row) for row in found if row.unit_id == unit.id]


@says(beds.bed)
def each_bed(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[BedRow]:
        yield (row.id,), _bed(rows, row)


@says(beds.bed_called)
def each_bed_by_name(rows: Tables) -> Iterator[Answer]:
    for unit in rows[UnitRow]:
        yield (unit.id, "nowhere"), None
    for row in rows[BedRow]:
        yield (row.unit_id, row.name.lower()), _bed(rows, row)


@says(beds.sizes)
def sizes_of_each_bed(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for bed in rows[BedRow]:
        own = sorted((s for s in rows[BedSizeRow] if s.bed_id == bed.id), key=lambda s: s.from_day)
        yield (bed.id,), [BedSize(**columns(s, "id", "bed_id", "from_day", "area_mm2", "area_typed")) for s in own]


@says(beds.areas_on)
def areas_on_days(rows: Tables) -> Iterator[Answer]:
    for day in days_around([*DAYS, *(size.from_day for size in rows[BedSizeRow])]):
        held = sorted((size for size in rows[BedSizeRow] if size.from_day <= day), key=lambda size: size.from_day)
        yield (day,), {size.bed_id: size.area_mm2 for size in held}


@says(beds.sized_ever)
def beds_ever_sized(rows: Tables) -> Iterator[Answer]:
    yield (), {size.bed_id for size in rows[BedSizeRow]}


def _lot(rows: Tables, row: FishLotRow) -> FishLot:
    names = ("id", "code", "species", "library_key", "stocked_day", "number", "mean_mg", "mean_typed", "closed_day")
    unit = rows.get(UnitRow, rows.places(row.id)[-1].unit_id)
    paper = rows.find(PaperRow, row.paper_id)
    more = columns(row, *names, "note", "source", "paper_id")
    return FishLot(**more, unit_id=unit.id, unit=unit.code, paper=paper.name if paper else None)


@says(fish.lots)
def every_lot(rows: Tables) -> Iterator[Answer]:
    found = [_lot(rows, row) for row in rows[FishLotRow]]
    yield (), sorted(found, key=lambda lot: (*rows.walking(lot.unit_id), lot.stocked_day, lot.id))


@says(fish.lot)
def each_lot(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[FishLotRow]:
        yield (row.id,), _lot(rows, row)


@says(fish.lot_called)
def each_lot_by_code(rows: Tables) -> Iterator[Answer]:
    yield ("NOBODY",), None
    for row in rows[FishLotRow]:
        yield (f" {row.code.lower()} ",), _lot(rows, row)


@says(fish.fish_spans)
def spans_with_fish(rows: Tables) -> Iterator[Answer]:
    found: dict[int, list[fish.Span]] = {}
    for lot in rows[FishLotRow]:
        places = rows.places(lot.id)
        for place, following in zip(places, [*places[1:], None], strict=True):
            last = following.from_day - timedelta(days=1) if following else lot.closed_day
            found.setdefault(place.unit_id, []).append((place.from_day, last))
    assert len(rows[LotPlaceRow]) == sum(map(len, found.values()))
    yield (), found
