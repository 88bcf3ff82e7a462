"""Chores: what recurs or is due once, how grave it is, and how each time was settled."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING

from farmops.model.later import later
from farmops.model.readings import Measure, asked_for

if TYPE_CHECKING:
    from farmops.model.chore_entries import ChoreChange as ChoreChange
    from farmops.model.chore_entries import NewChore as NewChore
    from farmops.model.chore_entries import NewPause as NewPause
    from farmops.model.chore_entries import Resuming as Resuming
    from farmops.model.chore_entries import Settling as Settling


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


__getattr__ = later(
    __name__, "farmops.model.chore_entries", "NewChore", "ChoreChange", "Settling", "NewPause", "Resuming"
)
