"""Chore templates: the chores that a state of a unit, or another occasion, gives to a farm, a unit or a bed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.chores import AppliesTo, ChoreClass, Occasion, PartOfDay
from farmops.model.frozen import dataclass
from farmops.model.units import UnitKind, UnitState

ONCE = "once"
WAIT = re.compile(r" \+(?P<days>[0-9]{1,4})$")


@dataclass(frozen=True, slots=True)
class ChoreTemplate:
    """A chore to start with. `minutes` are per unit; empty `months` and empty `states` mean all.

    On the occasion of a state, a unit gets it in the first of `states` that it enters, and it is active in all of
    them. A farm template is one chore for all units; its `kinds` and `states` say which units call for it. `rule` is
    `once` or the plain words of a chore's rule; with ` +N` behind it, it counts from N days after the occasion.
    One `with_fish` is given where fish live and rests while none do.
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
    def words(self) -> str:
        """The rule in the words of a chore's rule, without the days to wait."""
        return WAIT.sub("", self.rule)

    @property
    def wait_days(self) -> int:
        """Days from the occasion to the day from which the rule counts."""
        found = WAIT.search(self.rule)
        return int(found["days"]) if found else 0

    @property
    def once_after_days(self) -> int | None:
        """Days from the occasion to the day it is due; None when it recurs."""
        return self.wait_days if self.words == ONCE else None

    def waiting(self, days: int) -> ChoreTemplate:
        """The same, counting from so many days after the occasion."""
        return self if days == self.wait_days else replace(self, rule=f"{self.words} +{days}")

    def fits(self, kind: UnitKind, state: UnitState | None) -> bool:
        """Whether a unit of this kind and in this state calls for it."""
        return kind in self.kinds and (not self.states or state in self.states)


@cache
def chore_templates() -> tuple[ChoreTemplate, ...]:
    """All templates, in the order of the table."""
    return tuple(_template(row) for row in tables.read("chore_templates.csv"))


def of_state(templates: Iterable[ChoreTemplate], kind: UnitKind, state: UnitState | None) -> tuple[ChoreTemplate, ...]:
    """Those that a state of a unit of that kind calls for, its beds' and the farm's included."""
    return tuple(one for one in templates if one.occasion is Occasion.STATE and one.fits(kind, state))


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
