"""What people say of chores: new ones, changes, how a time was settled, and when they rest."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.chores import ChoreClass, PartOfDay, SettledAs
from farmops.model.reading_entries import NewReading
from farmops.model.units import UnitState
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class NewChore:
    """A chore as a person describes it; it belongs to the farm, or to one unit, bed or fish lot.

    `rule` is plain words (`14 days after`, `Mon Thu`) or, with `literal`, the text of an RFC 5545 rule.
    `months` are numbers 1 to 12, `states` those of the unit in which it is active; empty means all.
    A chore `with_fish` rests while its unit holds no live fish.
    """

    title: str
    rule: str
    start_day: date
    literal: bool = False
    unit_id: int | None = None
    bed_id: int | None = None
    fish_lot_id: int | None = None
    grade: ChoreClass = ChoreClass.UPKEEP
    part: PartOfDay = PartOfDay.NONE
    minutes: int = 5
    instructions: str | None = None
    caution: str | None = None
    readings: tuple[str, ...] = ()
    confirmation: str | None = None
    adults_only: bool = False
    months: tuple[int, ...] = ()
    states: tuple[UnitState, ...] = ()
    with_fish: bool = False
    template_key: str | None = None
    template_version: int | None = None
    person_id: int | None = None


@dataclass(frozen=True, slots=True)
class ChoreChange:
    """A change of a chore."""

    chore_id: int
    title: str | Keep = KEEP
    rule: str | Keep = KEEP
    literal: bool = False
    start_day: date | Keep = KEEP
    grade: ChoreClass | Keep = KEEP
    part: PartOfDay | Keep = KEEP
    minutes: int | Keep = KEEP
    instructions: str | Keep | None = KEEP
    caution: str | Keep | None = KEEP
    readings: tuple[str, ...] | Keep = KEEP
    confirmation: str | Keep | None = KEEP
    adults_only: bool | Keep = KEEP
    months: tuple[int, ...] | Keep = KEEP
    states: tuple[UnitState, ...] | Keep = KEEP
    with_fish: bool | Keep = KEEP
    person_id: int | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class Settling:
    """A person settles a chore. Skipping needs a reason, deferring a day; `occurrence` None is the one that is due.

    `readings` are those of the chore's unit, read while it was done.
    """

    chore_id: int
    kind: SettledAs
    on: date
    occurrence: date | None = None
    until: date | None = None
    reason: str | None = None
    confirmed: str | None = None
    minutes: int | None = None
    readings: tuple[NewReading, ...] = ()


@dataclass(frozen=True, slots=True)
class NewPause:
    """A chore rests from a day, until a day (included) or until it is resumed."""

    chore_id: int
    from_day: date
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Resuming:
    """A paused chore goes on from a day."""

    chore_id: int
    from_day: date
