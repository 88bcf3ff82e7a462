"""Units of the row: what kind each is and the states it passes through."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from farmops.model.later import later

if TYPE_CHECKING:
    from farmops.model.unit_entries import NewState as NewState
    from farmops.model.unit_entries import NewUnit as NewUnit
    from farmops.model.unit_entries import UnitChange as UnitChange


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


__getattr__ = later(__name__, "farmops.model.unit_entries", "NewUnit", "UnitChange", "NewState")
