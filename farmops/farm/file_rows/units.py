"""Rows about the row of units and its beds: what is new, and what holds of one that is there from a day on."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.facts import beds as bed_facts
from farmops.facts import units as unit_facts
from farmops.farm.beds import add_bed, size_bed
from farmops.farm.file_rows.booking import Booking, agrees, named, needed, refuse_other
from farmops.farm.operation import Operation
from farmops.farm.units import add_unit, enter_state
from farmops.model.beds import Bed, BedKind, NewBed, NewBedSize
from farmops.model.frozen import dataclass
from farmops.model.units import NewState, NewUnit, Unit, UnitKind, UnitState
from farmops.model.values import Measured


@dataclass(frozen=True, slots=True)
class UnitSaid:
    """What a row says of a unit, None where it says nothing; it is in the `state` from `from_day` on.

    `cure_hours` [h] and `sure` as for a unit that is entered by hand.
    """

    code: str
    from_day: date | None = None
    state: UnitState | None = None
    kind: UnitKind | None = None
    position: int | None = None
    tank: Measured | None = None
    breaker: str | None = None
    valve: str | None = None
    cure_hours: int | None = None
    note: str | None = None
    chores: bool = True
    sure: bool = False


@dataclass(frozen=True, slots=True)
class BedSaid:
    """What a row says of a bed of a unit, None where it says nothing; it has the `area` from `from_day` on."""

    unit_id: int
    name: str
    from_day: date | None = None
    area: Measured | None = None
    kind: BedKind | None = None
    depth: Measured | None = None
    note: str | None = None
    sure: bool = False


def _unit_there(op: Operation, said: UnitSaid) -> bool:
    unit = unit_facts.unit_called(op.reader, said.code)
    if unit is None:
        return False
    _refuse_other_unit(unit, said)
    if said.state is None:
        return True
    return any(
        one.from_day == said.from_day and one.state is said.state for one in unit_facts.states(op.reader, unit.id)
    )


def _refuse_other_unit(unit: Unit, said: UnitSaid) -> None:
    refuse_other(
        unit.code,
        kind=(said.kind, unit.kind),
        position=(said.position, unit.position),
        tank=(said.tank and said.tank.exact, unit.tank_ml),
        breaker=(said.breaker, unit.breaker),
        valve=(said.valve, unit.valve),
        note=(said.note, unit.note),
    )


def _book_unit(op: Operation, said: UnitSaid) -> None:
    """Add a unit, or let one that is there enter a state."""
    from_day = needed(said.from_day, "from")
    unit = unit_facts.unit_called(op.reader, said.code)
    if unit is None:
        add_unit.body(op, _new_unit(said, from_day))
    else:
        state = needed(said.state, "state")
        enter_state.body(op, NewState(unit.id, state, from_day, said.chores, said.cure_hours))


def _new_unit(said: UnitSaid, from_day: date) -> NewUnit:
    return NewUnit(
        said.code,
        from_day,
        kind=said.kind or UnitKind.COUPLED,
        state=said.state or UnitState.PLANNED,
        position=said.position,
        tank=said.tank,
        note=said.note,
        chores=said.chores,
        breaker=said.breaker,
        valve=said.valve,
        cure_hours=said.cure_hours,
        sure=said.sure,
    )


def _bed_there(op: Operation, said: BedSaid) -> bool:
    bed = bed_facts.bed_called(op.reader, said.unit_id, said.name)
    if bed is None:
        return False
    _refuse_other_bed(bed, said)
    if said.area is None:
        return True
    same_day = [one for one in bed_facts.sizes(op.reader, bed.id) if agrees(said.from_day, one.from_day)]
    return any(one.area_mm2 == said.area.exact for one in same_day)


def _refuse_other_bed(bed: Bed, said: BedSaid) -> None:
    refuse_other(
        bed.code,
        kind=(said.kind, bed.kind),
        depth=(said.depth and said.depth.exact, bed.depth_um),
        note=(said.note, bed.note),
    )


def _book_bed(op: Operation, said: BedSaid) -> None:
    """Add a bed to its unit, or give one that is there another size from a day on."""
    from_day = needed(said.from_day, "from")
    bed = bed_facts.bed_called(op.reader, said.unit_id, said.name)
    if bed is not None:
        size_bed.body(op, NewBedSize(bed.id, from_day, needed(said.area, "area"), said.sure))
        return
    kind = said.kind or BedKind.MEDIA
    add_bed.body(op, NewBed(said.unit_id, said.name, from_day, said.area, kind, said.depth, said.note, said.sure))


BOOKINGS: dict[str, Booking[Any]] = {
    "units": named(_unit_there, _book_unit),
    "beds": named(_bed_there, _book_bed),
}
