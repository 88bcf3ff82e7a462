"""Limits of the water: of those who live in each unit, and the grower's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from farmops.facts import units
from farmops.library.water_limits import first_step, limits_for
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
LIVING = """
    SELECT fish_lot.id, fish_lot.library_key, lot_place.unit_id
    FROM fish_lot
    JOIN lot_place ON lot_place.fish_lot_id = fish_lot.id AND lot_place.from_day = (
        SELECT MAX(latest.from_day) FROM lot_place AS latest
        WHERE latest.fish_lot_id = fish_lot.id AND latest.from_day <= :on_day
    )
    WHERE fish_lot.stocked_day <= :on_day AND (fish_lot.closed_day IS NULL OR fish_lot.closed_day >= :on_day)
    ORDER BY fish_lot.stocked_day, fish_lot.id
"""


@dataclass(frozen=True, slots=True)
class Living:
    """A lot that lives in a unit, and what the library calls its species."""

    id: int
    library_key: str | None
    unit_id: int


def own_limits(reader: Reader) -> list[OwnLimit]:
    """Every limit that the grower has set, the oldest first."""
    return reader.all(OwnLimit, f"{OWN_LIMITS} ORDER BY own_limit.from_day, own_limit.id")


def own_limit(reader: Reader, id: int) -> OwnLimit | None:
    """The own limit of that number."""
    return reader.one(OwnLimit, f"{OWN_LIMITS} WHERE own_limit.id = :id", id=id)


def limits_on(reader: Reader, on: date) -> dict[int, tuple[Limit, ...]]:
    """For each unit the limits of those who live in it on a day, and the grower's own; without water only these."""
    lots = reader.all(Living, LIVING, on_day=on)
    states, own = units.all_states(reader), own_limits(reader)
    return {
        unit.id: (
            *_of_the_living(unit.kind, _state(states.get(unit.id, ()), on), [x for x in lots if x.unit_id == unit.id]),
            *_own(own, unit.id, on),
        )
        for unit in units.units(reader)
    }


def _state(states: Iterable[StateFrom], on: date) -> UnitState | None:
    held = [one.state for one in states if one.from_day <= on]
    return held[-1] if held else None


def _of_the_living(kind: UnitKind, state: UnitState | None, lots: Sequence[Living]) -> tuple[Limit, ...]:
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
