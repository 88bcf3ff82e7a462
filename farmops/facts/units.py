"""Units in walking order and the states they are in."""

from __future__ import annotations

from farmops.model.units import StateFrom, Unit, UnitState
from farmops.records.reading import Reader, day

UNITS = "SELECT id, code, kind, position, tank_ml, tank_typed, note, breaker, valve FROM unit"
STATES = "SELECT from_day, state FROM unit_state WHERE unit_id = :unit ORDER BY from_day"
ALL_STATES = "SELECT unit_id, from_day, state FROM unit_state ORDER BY unit_id, from_day"


def units(reader: Reader) -> list[Unit]:
    """Every unit, in walking order."""
    return reader.all(Unit, f"{UNITS} ORDER BY position, id")


def unit(reader: Reader, id: int) -> Unit | None:
    """The unit of that id."""
    return reader.one(Unit, f"{UNITS} WHERE id = :id", id=id)


def unit_called(reader: Reader, code: str) -> Unit | None:
    """The unit of that code, in any letter case."""
    return reader.one(Unit, f"{UNITS} WHERE code = :code", code=code.strip().upper())


def states(reader: Reader, unit: int) -> list[StateFrom]:
    """The states of one unit, first to last."""
    return reader.all(StateFrom, STATES, unit=unit)


def all_states(reader: Reader) -> dict[int, list[StateFrom]]:
    """The states of every unit, first to last, by unit id."""
    found: dict[int, list[StateFrom]] = {}
    for row in reader.rows(ALL_STATES):
        found.setdefault(row["unit_id"], []).append(StateFrom(day(row["from_day"]), UnitState(row["state"])))
    return found
