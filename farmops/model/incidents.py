"""Incidents: what goes wrong at once and is worked through step by step."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.units import UnitKind
from farmops.model.values import KEEP, Keep


class IncidentKind(StrEnum):
    """What happened."""

    POWER_CUT = "power cut"


class Phase(StrEnum):
    """When a step is taken: while it lasts, or to see everything running again after it."""

    DURING = "during"
    AFTER = "after"


@dataclass(frozen=True, slots=True)
class Step:
    """Something to do in an incident, or to look at after it: for each unit of the named kinds, or once for the farm.

    One `with_fish` is for units with live fish alone.
    """

    key: str
    phase: Phase
    kinds: tuple[UnitKind, ...]
    with_fish: bool
    title: str
    words: str
    source: str
    standing: str

    @property
    def per_unit(self) -> bool:
        """Whether it is ticked unit by unit."""
        return bool(self.kinds)

    def fits(self, kind: UnitKind, *, fish: bool) -> bool:
        """Whether a unit of a kind, with live fish in it or without, calls for it."""
        return kind in self.kinds and (fish or not self.with_fish)


@dataclass(frozen=True, slots=True)
class Incident:
    """Something went wrong at an instant and is over at another, None while it lasts."""

    id: int
    kind: IncidentKind
    began_at: datetime
    ended_at: datetime | None
    note: str | None


@dataclass(frozen=True, slots=True)
class Ticked:
    """A step that was taken, for one unit or for all, when and by whom."""

    id: int
    incident_id: int
    unit_id: int | None
    unit: str | None
    step: str
    at: datetime
    actor: str
    note: str | None


@dataclass(frozen=True, slots=True)
class NewIncident:
    """Something went wrong; `began_at` None is now."""

    kind: IncidentKind = IncidentKind.POWER_CUT
    began_at: datetime | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Tick:
    """Steps were taken in the incident that is open, for one unit or for the farm; `at` None is now."""

    steps: tuple[str, ...]
    unit_id: int | None = None
    at: datetime | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class TickedMany:
    """The steps that were ticked."""

    ticked: tuple[Ticked, ...]


@dataclass(frozen=True, slots=True)
class Ending:
    """The incident that is open is over; `ended_at` None is now.

    With `all_running` the person says that they saw everything running again that is not ticked yet.
    """

    ended_at: datetime | None = None
    all_running: bool = False
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Ended:
    """An incident that is over, and what follows: feeds that are left out today, chores that were given."""

    incident: Incident
    feeds_left_out: tuple[str, ...]
    chores_given: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class IncidentChange:
    """A correction of when an incident began or ended, or of its note."""

    incident_id: int
    began_at: datetime | Keep = KEEP
    ended_at: datetime | Keep = KEEP
    note: str | Keep | None = KEEP
