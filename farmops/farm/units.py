"""Units: joining the row, changing, and entering a state with the chores that belong to it."""

from __future__ import annotations

from datetime import date

from farmops.facts import units as unit_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation
from farmops.farm.templates import give_chores
from farmops.farm.unlikely import ask_tank
from farmops.library import FLOOR_HOURS
from farmops.model.errors import OutOfRange, Refused
from farmops.model.text import code_of, name_of, note_of
from farmops.model.units import NewState, NewUnit, StateFrom, Unit, UnitChange, UnitState
from farmops.records.units import UnitRow, UnitStateRow

LONGEST_CURE_HOURS = 60 * 24
LONGEST_PLACE = 200
"""Signs in the words for a breaker or a valve: they have to fit on a card on the wall."""


@operation("add unit")
def add_unit(op: Operation, entry: NewUnit) -> Unit:
    """A unit joins the row, at its end unless a position is given, with the chores of its kind and state.

    Asks once, by Unlikely, about an unlikely tank.
    """
    code = _free_code(op, entry.code)
    ask_tank(op, entry.tank, sure=entry.sure)
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
    op.add(UnitStateRow(unit_id=row.id, state=entry.state.value, from_day=op.sensible_day(entry.from_day)))
    unit = _unit(op, row.id)
    _give(op, unit, entry)
    return unit


def _give(op: Operation, unit: Unit, entry: NewUnit | NewState) -> None:
    hours = _cure_hours(entry)
    if entry.chores:
        give_chores(op, unit, entry.state, entry.from_day, hours)


def _cure_hours(entry: NewUnit | NewState) -> int:
    hours = entry.cure_hours
    if hours is None:
        return FLOOR_HOURS
    if entry.state is not UnitState.BUILDING:
        raise Refused(f"Not booked: only a unit that is being built has a time to cure, not one that is {entry.state}.")
    if not FLOOR_HOURS <= hours <= LONGEST_CURE_HOURS:
        raise OutOfRange(
            f"Not booked: {hours} h is no time to cure. Sealant stays dry for {FLOOR_HOURS} h at least, whatever its "
            f"label promises, and {LONGEST_CURE_HOURS} h at most; give the longest time on the labels."
        )
    return hours


@operation("change unit")
def change_unit(op: Operation, entry: UnitChange) -> Unit:
    """Correct a unit's code, kind, place in the row, tank, note, or where its power and water are shut off."""
    row = op.get(UnitRow, entry.unit_id)
    values = given(entry, "code", "kind", "position", "note", "breaker", "valve")
    if "code" in values:
        values["code"] = _free_code(op, values["code"], besides=row.id)
    ask_tank(op, entry.tank, sure=entry.sure)
    values = mapped(values, kind=lambda kind: kind.value, note=note_of, breaker=_place, valve=_place)
    op.change(row, **values, **measured(entry.tank, "tank_ml", "tank_typed"))
    return _unit(op, row.id)


@operation("unit enters a state")
def enter_state(op: Operation, entry: NewState) -> StateFrom:
    """A unit is in a state from a day on. The same day again corrects that state.

    Where it enters the same state next, that is no entering any more, and goes.
    """
    unit = op.get(UnitRow, entry.unit_id)
    day = op.sensible_day(entry.from_day)
    states = unit_facts.states(op.reader, entry.unit_id)
    before = [one for one in states if one.from_day < day]
    if before and before[-1].state is entry.state:
        raise Refused(f"Not changed: {unit.code} has been {entry.state} since {before[-1].from_day}.")
    if any(one.from_day == day for one in states):
        op.change(op.get(UnitStateRow, _state_row(op, unit.id, day)), state=entry.state.value)
    else:
        op.add(UnitStateRow(unit_id=unit.id, state=entry.state.value, from_day=day))
    after = next((one for one in states if one.from_day > day), None)
    if after is not None and after.state is entry.state:
        op.remove(op.get(UnitStateRow, _state_row(op, unit.id, after.from_day)))
    _give(op, _unit(op, unit.id), entry)
    return StateFrom(day, entry.state)


def _place(text: str | None) -> str | None:
    return name_of(text, "place", longest=LONGEST_PLACE) if text and text.strip() else None


def _state_row(op: Operation, unit_id: int, day: date) -> int:
    query = "SELECT id FROM unit_state WHERE unit_id = :unit AND from_day = :from_day"
    return int(op.reader.value(query, unit=unit_id, from_day=day))


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
