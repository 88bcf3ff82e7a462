"""Chores: what recurs or is due once, how grave it is, and how each time was settled."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.rations import Fed
from farmops.model.readings import Measure, NewReading, asked_for
from farmops.model.units import UnitState
from farmops.model.values import KEEP, Keep


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


class AppliesTo(StrEnum):
    """What a chore made from a template belongs to."""

    FARM = "farm"
    UNIT = "unit"
    BED = "bed"


class Occasion(StrEnum):
    """What gives a unit or bed the chores of a template."""

    STATE = "state"
    STOCKING = "stocking"
    PLANTING = "planting"
    TREATMENT = "treatment"
    DOSING = "dosing"
    BED_CLEANING = "bed cleaning"
    POWER_CUT = "power cut"
    DEATHS = "deaths"


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


@dataclass(frozen=True, slots=True)
class Chore:
    """Work that recurs or is due once. `next_due` is derived from its rule, its history and where it belongs.

    `person` is who does it as a rule; None is whoever is here.
    """

    id: int
    title: str
    unit_id: int | None
    unit: str | None
    bed_id: int | None
    bed: str | None
    fish_lot_id: int | None
    lot: str | None
    grade: ChoreClass
    rule_kind: str
    rule_text: str
    rule_words: str
    start_day: date
    part: PartOfDay
    minutes: int
    instructions: str | None
    caution: str | None
    readings: str | None
    confirmation: str | None
    adults_only: bool
    months: str | None
    states: str | None
    with_fish: bool
    template_key: str | None
    template_version: int | None
    next_due: date | None
    person_id: int | None = None
    person: str | None = None

    @property
    def measures(self) -> tuple[Measure, ...]:
        """What it asks to be read of its unit; other words among its readings are for the sheet alone."""
        return asked_for(self.readings) if self.unit_id is not None else ()

    @property
    def is_never_late(self) -> bool:
        """Whether it is open for as long as something holds, and not late, since no fish suffer for it."""
        return self.rule_kind == "when" and not self.grade.keeps_fish_alive

    def confirmed_by(self, words: str) -> bool:
        """Whether words, in any case, are the confirmation it insists on or begin it."""
        said, wanted = (" ".join(text.lower().split()) for text in (words, self.confirmation or ""))
        return bool(said) and wanted.startswith(said)


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

    `readings` are those of the chore's unit, read while it was done. `fed` is what a feeding chore gave to each lot;
    None: what the ration of the day leaves. `actor` is who did it, None whoever books it. One who is `sure` is not
    asked about what hardly can be, such as far more feed than the ration, or the same once more on a day.
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
    fed: tuple[Fed, ...] | None = None
    actor: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class Settled:
    """One line of a chore's history, with who settled it."""

    id: int
    chore_id: int
    occurrence: date
    kind: SettledAs
    on_day: date
    until_day: date | None
    reason: str | None
    confirmed: str | None
    minutes: int | None
    actor: str
    operation: str


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
