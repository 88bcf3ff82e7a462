"""Chore templates: the chores a farm, a unit or a bed starts with, by kind and state of the unit."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay
from farmops.model.units import UnitKind, UnitState


@dataclass(frozen=True, slots=True)
class ChoreTemplate:
    """A chore to start with. `minutes` are per unit; empty `months` means all.

    A unit gets it in the first of `states` that it enters, and it is active in all of them. A farm template
    is one chore for all units; its `kinds` and `states` say which units call for it. `rule` is `once`,
    `once +N` (N days after entering the state) or the plain words of a chore's rule. One `with_fish` is given
    with the first fish and rests while none live there.
    """

    key: str
    version: int
    title: str
    applies_to: AppliesTo
    occasion: Occasion
    kinds: tuple[UnitKind, ...]
    states: tuple[UnitState, ...]
    grade: ChoreClass
    rule: str
    part: PartOfDay
    minutes: int
    instructions: str
    caution: str | None
    readings: tuple[str, ...]
    confirmation: str | None
    adults_only: bool
    months: tuple[int, ...]
    with_fish: bool
    source: str
    standing: Standing

    @property
    def once_after_days(self) -> int | None:
        """Days from entering the state to the day it is due; None when it recurs."""
        if self.rule.split()[0] != "once":
            return None
        return int(self.rule.removeprefix("once").strip() or 0)

    def fits(self, kind: UnitKind, state: UnitState) -> bool:
        """Whether a unit of this kind and in this state calls for it."""
        return kind in self.kinds and state in self.states


@cache
def chore_templates() -> tuple[ChoreTemplate, ...]:
    """All templates, in the order of the table."""
    return tuple(_template(row) for row in tables.read("chore_templates.csv"))


@cache
def templates_for(kind: UnitKind, state: UnitState) -> tuple[ChoreTemplate, ...]:
    """Templates for the units and beds of a kind in a state; a retired unit has none."""
    return tuple(t for t in chore_templates() if t.applies_to is not AppliesTo.FARM and t.fits(kind, state))


@cache
def farm_templates() -> tuple[ChoreTemplate, ...]:
    """Templates of which the farm has one chore for all its units."""
    return tuple(t for t in chore_templates() if t.applies_to is AppliesTo.FARM)


def _template(row: dict[str, str]) -> ChoreTemplate:
    return ChoreTemplate(
        key=row["key"],
        version=int(row["version"]),
        title=row["title"],
        applies_to=AppliesTo(row["applies_to"]),
        occasion=Occasion(row["occasion"]),
        kinds=tuple(UnitKind(kind) for kind in tables.words(row["kinds"])),
        states=tuple(UnitState(state) for state in tables.words(row["states"])),
        grade=ChoreClass(row["class"]),
        rule=row["rule"],
        part=PartOfDay(row["part_of_day"]),
        minutes=int(row["minutes"]),
        instructions=row["instructions"],
        caution=row["caution"] or None,
        readings=tables.words(row["readings"]),
        confirmation=row["confirmation"] or None,
        adults_only=tables.yes(row["adults_only"]),
        months=tables.span_of_months(row["months"]),
        with_fish=tables.yes(row["with_fish"]),
        source=row["source"],
        standing=Standing(row["standing"]),
    )
