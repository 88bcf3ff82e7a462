"""Units of the row: what kind each is and the states it passes through."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class UnitKind(StrEnum):
    """What a unit couples."""

    COUPLED = "coupled"
    HYDROPONIC = "hydroponic"
    FISH_ONLY = "fish only"
    HOLDING = "holding"


class UnitState(StrEnum):
    """Where a unit stands in its life; each state holds from a day until the next one."""

    PLANNED = "planned"
    BUILDING = "building"
    CYCLING = "cycling"
    RUNNING = "running"
    WINTERING = "wintering"
    RESTING = "resting"
    RETIRED = "retired"

    @property
    def active(self) -> bool:
        """Whether the unit bears a part of the shared costs: it holds water that is kept alive."""
        return self in ACTIVE_STATES


ACTIVE_STATES = (UnitState.CYCLING, UnitState.RUNNING, UnitState.WINTERING)


@dataclass(frozen=True, slots=True)
class StateFrom:
    """A state and the first day on which it holds."""

    from_day: date
    state: UnitState


@dataclass(frozen=True, slots=True)
class Unit:
    """One coupled system, or a hydroponic, fish-only or holding one. `tank_ml` in millilitres.

    `breaker` and `valve` say in words where its power and its water are shut off.
    """

    id: int
    code: str
    kind: UnitKind
    position: int
    tank_ml: int | None
    tank_typed: str | None
    note: str | None
    breaker: str | None = None
    valve: str | None = None


@dataclass(frozen=True, slots=True)
class NewUnit:
    """What a person says of a unit that joins the row; the state holds from `from_day`.

    Without `chores` it gets none, nor with its beds and fish, until it enters a state with them. `cure_hours` is the
    longest time on the labels of sealant and coating, for one that is being built [h]. One that is `sure` is not asked
    about an unlikely tank.
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
    sure: bool = False


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
    sure: bool = False


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
