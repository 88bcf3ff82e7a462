"""The round: what is due on a day, in walking order, late and grave first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore, ChoreClass, PartOfDay, Settled
from farmops.model.errors import NotFound
from farmops.model.farm import Farm

PARTS = (PartOfDay.MORNING, PartOfDay.MIDDAY, PartOfDay.EVENING, PartOfDay.NONE)


@dataclass(frozen=True, slots=True)
class RoundLine:
    """One chore of the round. `missed` counts the occurrences that went by besides the one that is due."""

    chore: Chore
    due: date
    days_late: int
    missed: int

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return self.chore.bed or self.chore.lot or self.chore.unit or "all"

    @property
    def lateness(self) -> str:
        """How late it is, and how many went by, in words; nothing when it is not late."""
        if not self.days_late:
            return ""
        days = "1 day late" if self.days_late == 1 else f"{self.days_late} days late"
        return f"{days}, {self.missed} missed" if self.missed else days


@dataclass(frozen=True, slots=True)
class SettledLine:
    """A chore that was settled on the day of the round."""

    chore: Chore
    settled: Settled

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return self.chore.bed or self.chore.lot or self.chore.unit or "all"


@dataclass(frozen=True, slots=True)
class Section:
    """Lines that stand together: the look at every unit, what is late, a part of the day, or a later day."""

    title: str
    lines: tuple[RoundLine, ...]


@dataclass(frozen=True, slots=True)
class Round:
    """The chores of one day, and of the days after when they were asked for."""

    farm: Farm
    on: date
    units: int
    sections: tuple[Section, ...]
    settled: tuple[SettledLine, ...]

    @property
    def lines(self) -> tuple[RoundLine, ...]:
        """Every line in the order of the round."""
        return tuple(line for section in self.sections for line in section.lines)

    @property
    def due(self) -> tuple[RoundLine, ...]:
        """What is due on the day itself, late ones included."""
        return tuple(line for line in self.lines if line.due <= self.on)

    @property
    def late(self) -> tuple[RoundLine, ...]:
        """What should have been settled before the day."""
        return tuple(line for line in self.due if line.days_late)

    @property
    def minutes(self) -> int:
        """Minutes that what is due will take."""
        return sum(line.chore.minutes for line in self.due)


def round_of(store: Store, on: date | None = None, *, days: int = 1, unit: str | None = None) -> Round:
    """The round of a day, looking `days` ahead, for one unit or for the whole row."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        chores = chore_facts.due_by(reader, day + timedelta(days=days - 1))
        if unit is not None:
            chores = _of_unit(reader, chores, unit)
        lines = lines_on(reader, chores, day)
        units = len(unit_facts.units(reader))
        settled = _settled(reader, day, unit)
        return Round(farm, day, units, tuple(_sections(lines, day)), settled)


def _settled(reader: Reader, day: date, unit: str | None) -> tuple[SettledLine, ...]:
    found = chore_facts.settled_on(reader, day)
    chores = {chore.id: chore for chore in chore_facts.with_ids(reader, (one.chore_id for one in found))}
    lines = (SettledLine(chores[one.chore_id], one) for one in found)
    return tuple(line for line in lines if unit is None or line.chore.unit == unit.strip().upper())


def _of_unit(reader: Reader, chores: Sequence[Chore], code: str) -> list[Chore]:
    found = unit_facts.unit_called(reader, code)
    if found is None:
        known = ", ".join(one.code for one in unit_facts.units(reader)) or "none yet"
        raise NotFound(f"There is no unit {code}. Known: {known}.")
    return [chore for chore in chores if chore.unit_id == found.id]


def lines_on(reader: Reader, chores: Sequence[Chore], day: date) -> list[RoundLine]:
    """Chores that are due, each since when; late ones that rest on the day are left out."""
    late = [chore.id for chore in chores if chore.next_due and chore.next_due < day]
    standing = chore_facts.standing_on(reader, late, day)
    lines = []
    for chore in chores:
        if chore.id in standing:
            open_since = standing[chore.id]
            lines.append(RoundLine(chore, open_since.due, (day - open_since.due).days, open_since.missed))
        elif chore.next_due is not None and chore.next_due >= day:
            lines.append(RoundLine(chore, chore.next_due, 0, 0))
    return lines


def _sections(lines: Sequence[RoundLine], day: date) -> list[Section]:
    look = [line for line in lines if _is_look(line) and line.due <= day]
    rest = [line for line in lines if line not in look]
    late = [line for line in rest if line.days_late]
    sections = [("All units", _walking(look)), ("Late", sorted(_walking(late), key=_gravity))]
    for part in PARTS:
        title = "No set hour" if part is PartOfDay.NONE else part.value.capitalize()
        sections.append((title, _walking([line for line in rest if line.chore.part is part and line.due == day])))
    for later in sorted({line.due for line in rest if line.due > day}):
        sections.append((f"{later:%a} {later}", _walking([line for line in rest if line.due == later])))
    return [Section(title, tuple(found)) for title, found in sections if found]


def _is_look(line: RoundLine) -> bool:
    return line.chore.unit_id is None and line.chore.grade is ChoreClass.LIFE_SUPPORT


def _walking(lines: Sequence[RoundLine]) -> list[RoundLine]:
    """In walking order, which is the order the facts come in; at each place picking before fish and filter work."""
    places = {place: at for at, place in reversed(list(enumerate(line.chore.unit_id for line in lines)))}
    return sorted(lines, key=lambda line: (places[line.chore.unit_id], ORDER_AT_PLACE[line.chore.grade], line.due))


def _gravity(line: RoundLine) -> int:
    return line.chore.grade.gravity


ORDER_AT_PLACE = {
    ChoreClass.FOOD_SAFETY: 0,
    ChoreClass.CROP: 1,
    ChoreClass.LIFE_SUPPORT: 2,
    ChoreClass.FISH_CARE: 3,
    ChoreClass.UPKEEP: 4,
    ChoreClass.PAPERWORK: 5,
}
