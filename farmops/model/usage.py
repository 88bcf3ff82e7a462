"""Usage: how much a part of a unit has worked, from which chores by use fall due."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


class Counter(StrEnum):
    """What is counted: hours a pump ran, feed that went through, cycles of the siphon."""

    PUMP_HOURS = "pump hours"
    FEED = "feed"
    SIPHON_CYCLES = "siphon cycles"


@dataclass(frozen=True, slots=True)
class Usage:
    """How much was used up to a day since the record before: `amount` in minutes, milligrams or cycles."""

    id: int
    day: date
    unit_id: int
    unit: str
    counter: Counter
    amount: int
    typed: str
    note: str | None


@dataclass(frozen=True, slots=True)
class NewUsage:
    """How much a part of a unit worked up to a day since the record before: minutes, milligrams or cycles."""

    unit_id: int
    counter: Counter
    day: date
    amount: Measured
    note: str | None = None


@dataclass(frozen=True, slots=True)
class UsageChange:
    """A correction of a record of use."""

    usage_id: int
    day: date | Keep = KEEP
    amount: Measured | Keep = KEEP
    note: str | Keep | None = KEEP
