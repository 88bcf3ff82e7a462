"""Chores: what recurs or is due once, how grave it is, and how each time was settled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class ChoreClass(StrEnum):
    """How grave it is when a chore is missed, gravest first."""

    LIFE_SUPPORT = "life support"
    FISH_CARE = "fish care"
    FOOD_SAFETY = "food safety"
    CROP = "crop"
    UPKEEP = "upkeep"
    PAPERWORK = "paperwork"

    @property
    def gravity(self) -> int:
        """0 for the gravest class, rising."""
        return list(ChoreClass).index(self)

    @property
    def keeps_fish_alive(self) -> bool:
        """Whether no state of a unit suspends it while live fish are there."""
        return self in (ChoreClass.LIFE_SUPPORT, ChoreClass.FISH_CARE)


class PartOfDay(StrEnum):
    """When in the day a chore belongs."""

    MORNING = "morning"
    MIDDAY = "midday"
    EVENING = "evening"
    NONE = "none"


class SettledAs(StrEnum):
    """How one occurrence of a chore was settled."""

    DONE = "done"
    SKIPPED = "skipped"
    DEFERRED = "deferred"


@dataclass(frozen=True, slots=True)
class Settlement:
    """One settling of a chore: the occurrence it settles, how, on which day, deferred until when."""

    occurrence: date
    kind: SettledAs
    on: date
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Pause:
    """A span, both days included, in which a chore rests; `until` None is open-ended."""

    from_day: date
    until: date | None = None
