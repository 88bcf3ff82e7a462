"""Templates as the grower keeps them, sets of chores as they are asked for, and what became of both."""

from __future__ import annotations

from datetime import date

from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay
from farmops.model.frozen import dataclass
from farmops.model.units import UnitKind, UnitState
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class OwnTemplate:
    """A template as the grower has changed it; lists are words parted by commas. A `dropped` one gives no chore."""

    key: str
    version: int
    title: str
    applies_to: AppliesTo
    occasion: Occasion
    kinds: str
    states: str
    grade: ChoreClass
    rule: str
    part: PartOfDay
    minutes: int
    instructions: str | None
    caution: str | None
    readings: str | None
    confirmation: str | None
    adults_only: bool
    months: str | None
    with_fish: bool
    dropped: bool


@dataclass(frozen=True, slots=True)
class Following:
    """What becomes of the chores that were made from a template when it changes.

    `follow` None: not decided, which is refused where there are any. Those numbered in `also` follow although
    they were edited by hand.
    """

    follow: bool | None = None
    also: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class TemplateChange:
    """A change of a template: from then on its chores are given like this.

    `rule` is `once` or the plain words of a chore's rule; ` +3` behind it: from 3 days after the occasion on.
    """

    key: str
    title: str | Keep = KEEP
    rule: str | Keep = KEEP
    grade: ChoreClass | Keep = KEEP
    part: PartOfDay | Keep = KEEP
    minutes: int | Keep = KEEP
    instructions: str | Keep | None = KEEP
    caution: str | Keep | None = KEEP
    readings: tuple[str, ...] | Keep = KEEP
    confirmation: str | Keep | None = KEEP
    adults_only: bool | Keep = KEEP
    months: tuple[int, ...] | Keep = KEEP
    kinds: tuple[UnitKind, ...] | Keep = KEEP
    states: tuple[UnitState, ...] | Keep = KEEP
    with_fish: bool | Keep = KEEP
    existing: Following = Following()


@dataclass(frozen=True, slots=True)
class TemplateRestoring:
    """A template is to be the packaged one again."""

    key: str
    existing: Following = Following()


@dataclass(frozen=True, slots=True)
class TemplateDropping:
    """A template gives no chore any more; those that were made from it stay."""

    key: str


@dataclass(frozen=True, slots=True)
class LeftChore:
    """A chore that kept words of its own although its template changed."""

    chore_id: int
    title: str
    where: str
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TemplateChanged:
    """What a template is now, how many chores follow it, and which kept words of their own."""

    key: str
    version: int
    title: str
    followed: int
    left: tuple[LeftChore, ...]


@dataclass(frozen=True, slots=True)
class NewSet:
    """The set of chores of an occasion is given to a unit, or to one bed of it, from a day on.

    A treatment asks for `hold_days`: the days until harvest that its label names.
    """

    occasion: Occasion
    unit_id: int
    day: date
    bed_id: int | None = None
    hold_days: int | None = None


@dataclass(frozen=True, slots=True)
class GivenSet:
    """The titles of the chores that were given, those of open ones that last longer now, and those left out today."""

    given: tuple[str, ...]
    prolonged: tuple[str, ...]
    skipped: tuple[str, ...] = ()
