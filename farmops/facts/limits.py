"""Limits of the water: of those who live in each unit, and the grower's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from farmops.facts import units
from farmops.library.water_limits import first_step, limits_for
from farmops.model.frozen import dataclass
from farmops.model.limits import Level, Limit, OwnLimit, Side
from farmops.model.readings import Measure
from farmops.model.units import StateFrom, UnitKind, UnitState
from farmops.records.reading import Reader

WITH_WATER = (UnitState.CYCLING, UnitState.RUNNING, UnitState.WINTERING)
WITH_PLANTS = (UnitState.RUNNING, UnitState.WINTERING)
OWN = "your own limit"
OWN_LIMITS = """
    SELECT own_limit.id, own_limit.from_day, own_limit.unit_id, unit.code AS unit, own_limit.measure, own_limit.low,
        own_limit.high, own_limit.note
    FROM own_limit LEFT JOIN unit ON unit.id = own_limit.unit_id
"""
LIVED = """
    SELECT fish_lot.id, fish_lot.library_key, fish_lot.stocked_day, fish_lot.closed_day, lot_place.unit_id,
        lot_place.from_day
    FROM fish_lot JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id
    ORDER BY fish_lot.stocked_day, fish_lot.id, lot_place.from_day
"""


@dataclass(frozen=True, slots=True)
class Lived:
    """A lot, what the library calls its species, and a unit that it lives in from a day on."""

    id: int
    library_key: str | None
    stocked_day: date
    closed_day: date | None
    unit_id: int
    from_day: date


class LimitsOfDays:
    """The limits of every unit on any day, read once."""

    def __init__(self, reader: Reader) -> None:
        self._units, self._states = {one.id: one for one in units.units(reader)}, units.all_states(reader)
        self._lived, self._own = reader.all(Lived, LIVED), own_limits(reader)
        self._found: dict[tuple[int, date], tuple[Limit, ...]] = {}

    def on(self, day: date) -> dict[int, tuple[Limit, ...]]:
        """For each unit the limits of those who live in it on a day, and the grower's own of that day."""
        return {unit: self.of(unit, day) for unit in self._units}

    def of(self, unit: int, day: date) -> tuple[Limit, ...]:
        """The limits of those who live in a unit on a day, and the grower's own of that day."""
        if (unit, day) not in self._found:
            living = [one for one in _there(self._lived, day) if one.unit_id == unit]
            state = _state(self._states.get(unit, ()), day)
            held = _of_the_living(self._units[unit].kind, state, living)
            self._found[unit, day] = (*held, *_own(self._own, unit, day))
        return self._found[unit, day]


def _there(lived: Iterable[Lived], day: date) -> list[Lived]:
    """The lots alive on a day, each in the unit where it was then."""
    last = {one.id: one for one in lived if one.from_day <= day}
    return [one for one in last.values() if one.stocked_day <= day <= (one.closed_day or date.max)]


def own_limits(reader: Reader) -> list[OwnLimit]:
    """Every limit that the grower has set, the oldest first."""
    return reader.all(OwnLimit, f"{OWN_LIMITS} ORDER BY own_limit.from_day, own_limit.id")


def own_limit(reader: Reader, id: int) -> OwnLimit | None:
    """The own limit of that number."""
    return reader.one(OwnLimit, f"{OWN_LIMITS} WHERE own_limit.id = :id", id=id)


def limits_on(reader: Reader, on: date) -> dict[int, tuple[Limit, ...]]:
    """For each unit the limits of those who live in it on a day, and the grower's own; without water only these."""
    return LimitsOfDays(reader).on(on)


def _state(states: Iterable[StateFrom], on: date) -> UnitState | None:
    held = [one.state for one in states if one.from_day <= on]
    return held[-1] if held else None


def _of_the_living(kind: UnitKind, state: UnitState | None, lots: Sequence[Lived]) -> tuple[Limit, ...]:
    return limits_for(
        (one.library_key for one in lots if one.library_key),
        fish=bool(lots),
        bacteria=state in WITH_WATER and kind is not UnitKind.HYDROPONIC,
        plants=state in WITH_PLANTS and kind in (UnitKind.COUPLED, UnitKind.HYDROPONIC),
    )


def _own(limits: Iterable[OwnLimit], unit: int, on: date) -> Iterator[Limit]:
    """Those in force: of each measure the unit's latest, else the farm's latest."""
    held: dict[Measure, OwnLimit] = {}
    begun = (one for one in limits if one.from_day <= on and one.unit_id in (None, unit))
    for one in sorted(begun, key=lambda one: (one.unit_id is not None, one.from_day, one.id)):
        held[one.measure] = one
    for one in held.values():
        yield from _sides(one)


def _sides(own: OwnLimit) -> Iterator[Limit]:
    why, source = f"set on {own.from_day}", f"your own limit of {own.measure} since {own.from_day}"
    for side, at in ((Side.BELOW, own.low), (Side.ABOVE, own.high)):
        if at is not None:
            first = first_step(own.measure, side) or "read again to be sure, then look for what changed"
            yield Limit(OWN, own.measure, side, at, Level.WATCH, why, first, source, remembered=False)
