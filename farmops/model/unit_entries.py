"""What people say of units: new ones, changes, and the states they enter."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.units import UnitKind, UnitState
from farmops.model.values import KEEP, Keep, Measured


@dataclass(frozen=True, slots=True)
class NewUnit:
    """What a person says of a unit that joins the row; the state holds from `from_day`.

    Without `chores` it gets none, nor with its beds and fish, until it enters a state with them. `cure_hours` is the
    longest time on the labels of sealant and coating, for one that is being built [h].
    """

    code: str
    from_day: date
    kind: UnitKind = UnitKind.COUPLED
    state: UnitState = UnitState.PLANNED
    position: int | None = None
    tank: Measured | None = None
    note: str | None = None
    chores: bool = True
    breaker: str | None = None
    valve: str | None = None
    cure_hours: int | None = None


@dataclass(frozen=True, slots=True)
class UnitChange:
    """A correction of a unit."""

    unit_id: int
    code: str | Keep = KEEP
    kind: UnitKind | Keep = KEEP
    position: int | Keep = KEEP
    tank: Measured | Keep | None = KEEP
    note: str | Keep | None = KEEP
    breaker: str | Keep | None = KEEP
    valve: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class NewState:
    """A unit enters a state on a day; `chores` says whether it gets the chores of that state.

    `cure_hours` is the longest time on the labels of sealant and coating, for one that is being built [h].
    """

    unit_id: int
    state: UnitState
    from_day: date
    chores: bool = True
    cure_hours: int | None = None
