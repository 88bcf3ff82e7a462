"""The farm: the whole holding, how it measures, and the people who work on it."""

from __future__ import annotations

from datetime import UTC, date, datetime

from farmops import clock
from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured
from farmops.quantities import Measures


@dataclass(frozen=True, slots=True)
class Farm:
    """The holding: its name, how it weighs and measures, and the IANA zone its days are counted in.

    `altitude_um` is the height above the sea in micrometres. `stands_on` is set for an invented farm alone: the
    day on which its clock stands still.
    """

    name: str
    measures: Measures
    time_zone: str
    opened_day: date
    altitude_um: int | None = None
    stands_on: date | None = None

    def today(self) -> date:
        """The day it is on the farm."""
        return self.stands_on or clock.today(self.time_zone)

    def now(self) -> datetime:
        """The instant in UTC: on an invented farm the hour of this moment, on the day that stands still there."""
        if self.stands_on is None:
            return clock.now()
        local = clock.now().astimezone(clock.time_zone(self.time_zone))
        return local.replace(year=self.stands_on.year, month=self.stands_on.month, day=self.stands_on.day).astimezone(
            UTC
        )


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
class Person:
    """Somebody who works here. A `minor` is not given chores that are for adults only."""

    id: int
    name: str
    note: str | None
    minor: bool = False


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
