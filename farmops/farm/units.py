"""Units: joining the row, changing, and entering a state with the chores that belong to it."""

from __future__ import annotations

from datetime import date

from farmops.facts import units as unit_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation
from farmops.farm.templates import give_chores
from farmops.model.errors import Refused
from farmops.model.text import code_of, name_of, note_of
from farmops.model.units import NewState, NewUnit, StateFrom, Unit, UnitChange, UnitState
from farmops.records.units import UnitRow, UnitStateRow

LONGEST_PLACE = 200
"""Signs in the words for a breaker or a valve: they have to fit on a card on the wall."""


@operation("add unit")
def add_unit(op: Operation, entry: NewUnit) -> Unit:
    """A unit joins the row, at its end unless a position is given, with the chores of its kind and state."""
    code = _free_code(op, entry.code)
    position = entry.position or 1 + max((unit.position for unit in unit_facts.units(op.reader)), default=0)
    row = op.add(
        UnitRow(
            code=code,
            kind=entry.kind.value,
            position=position,
            breaker=_place(entry.breaker),
            valve=_place(entry.valve),
            note=note_of(entry.note),
            **measured(entry.tank, "tank_ml", "tank_typed"),
        )
    )
    _enter(op, row, entry.state, entry.from_day, chores=entry.chores)
    return _unit(op, row.id)


def _enter(op: Operation, unit: UnitRow, state: UnitState, from_day: date, *, chores: bool) -> None:
    day = op.sensible_day(from_day)
    op.add(UnitStateRow(unit_id=unit.id, state=state.value, from_day=day))
    if chores:
        give_chores(op, _unit(op, unit.id), state, day)


@operation("change unit")
def change_unit(op: Operation, entry: UnitChange) -> Unit:
    """Correct a unit's code, kind, place in the row, tank, note, or where its power and water are shut off."""
    row = op.get(UnitRow, entry.unit_id)
    values = given(entry, "code", "kind", "position", "note", "breaker", "valve")
    if "code" in values:
        values["code"] = _free_code(op, values["code"], besides=row.id)
    values = mapped(values, kind=lambda kind: kind.value, note=note_of, breaker=_place, valve=_place)
    op.change(row, **values, **measured(entry.tank, "tank_ml", "tank_typed"))
    return _unit(op, row.id)


@operation("unit enters a state")
def enter_state(op: Operation, entry: NewState) -> StateFrom:
    """A unit is in a state from a day on. The same day again corrects that state."""
    unit = op.get(UnitRow, entry.unit_id)
    day = op.sensible_day(entry.from_day)
    states = unit_facts.states(op.reader, entry.unit_id)
    before = [one for one in states if one.from_day < day]
    if before and before[-1].state is entry.state:
        raise Refused(f"Not changed: {unit.code} has been {entry.state} since {before[-1].from_day}.")
    if any(one.from_day == day for one in states):
        found = _state_row(op, entry)
        op.change(op.get(UnitStateRow, found), state=entry.state.value)
        if entry.chores:
            give_chores(op, _unit(op, unit.id), entry.state, day)
    else:
        _enter(op, unit, entry.state, day, chores=entry.chores)
    return StateFrom(day, entry.state)


def _place(text: str | None) -> str | None:
    return name_of(text, "place", longest=LONGEST_PLACE) if text and text.strip() else None


def _state_row(op: Operation, entry: NewState) -> int:
    query = "SELECT id FROM unit_state WHERE unit_id = :unit AND from_day = :from_day"
    return int(op.reader.value(query, unit=entry.unit_id, from_day=entry.from_day))


def _free_code(op: Operation, text: str, besides: int | None = None) -> str:
    code = code_of(text, "code of a unit")
    if "-" in code:
        raise Refused(f"Not booked: {code} holds a dash, which parts a unit from its bed, as in WREN-N.")
    taken = unit_facts.unit_called(op.reader, code)
    if taken is not None and taken.id != besides:
        raise Refused(f"There is already a unit {code}.")
    return code


def _unit(op: Operation, id: int) -> Unit:
    found = unit_facts.unit(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
