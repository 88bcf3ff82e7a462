"""What people say of the farm and of those who work on it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.values import KEEP, Keep, Measured
from farmops.quantities import Measures


@dataclass(frozen=True, slots=True)
class NewFarm:
    """What has to be said to open a farm."""

    name: str
    measures: Measures
    time_zone: str
    altitude: Measured | None = None
    stands_on: date | None = None


@dataclass(frozen=True, slots=True)
class FarmChange:
    """A change of the farm's own settings."""

    name: str | Keep = KEEP
    measures: Measures | Keep = KEEP
    time_zone: str | Keep = KEEP
    altitude: Measured | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class NewPerson:
    """Somebody who begins to work here."""

    name: str
    note: str | None = None
    minor: bool = False


@dataclass(frozen=True, slots=True)
class PersonChange:
    """A correction of a person."""

    person_id: int
    name: str | Keep = KEEP
    note: str | Keep | None = KEEP
    minor: bool | Keep = KEEP
