"""The round: one look at every unit, then what is due on a day in walking order, late and grave first."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import presence as presence_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore, ChoreClass, PartOfDay
from farmops.model.farm import Farm, Person
from farmops.model.frozen import dataclass
from farmops.model.presence import Crew
from farmops.reports.crew import doer_of, falls_to
from farmops.reports.holds import HoldLine, hold_lines
from farmops.reports.places import of_unit, unit_named
from farmops.reports.reasons import Undated, asked_on, undated
from farmops.reports.round_lines import Fold, Item, RoundLine, SettledLine, folded
from farmops.reports.trouble import troubled_units

__all__ = ["Fold", "Item", "Round", "RoundLine", "Section", "SettledLine", "Undated", "lines_on", "round_of"]

PARTS = (PartOfDay.MORNING, PartOfDay.MIDDAY, PartOfDay.EVENING, PartOfDay.NONE)
LOOK, LATE, WAITING = range(3)
"""The sections of a day that stand before its parts."""
ALL_UNITS = "All units"
FEED = "feed"
"""The template of the chore that feeds fish by a ration."""
LOOKS = (PartOfDay.MORNING, PartOfDay.NONE)
"""Parts of the day in which a look at every unit comes before all else; a later look opens its own part."""


@dataclass(frozen=True, slots=True)
class Section:
    """Lines that stand together: the look at every unit, what is late, a part of the day, or a later day.

    `items` are the same lines as they are shown: for the whole row, the same work in several places on one line.
    """

    title: str
    lines: tuple[RoundLine, ...]
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Round:
    """The chores of one day, and of the days after when they were asked for; `person` where it is one person's.

    `crew` is who is here on the day. `undated` are chores by use that no record gives a day yet.
    `holds` are what treatments hold on the day: places nobody goes into yet, beds not picked, fish not taken.
    """

    farm: Farm
    on: date
    units: int
    sections: tuple[Section, ...]
    settled: tuple[SettledLine, ...]
    crew: Crew
    person: Person | None = None
    undated: tuple[Undated, ...] = ()
    holds: tuple[HoldLine, ...] = ()

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
    def look(self) -> Section | None:
        """The look at every unit that the round begins with."""
        return next((section for section in self.sections if section.title == ALL_UNITS), None)

    @property
    def waiting(self) -> tuple[RoundLine, ...]:
        """What is due and for adults only, while no adult is here."""
        return tuple(line for line in self.due if line.doer.waits)

    @property
    def overdue_life_support(self) -> tuple[RoundLine, ...]:
        """What keeps fish alive by flow, air, level, temperature and clean water, and is late."""
        return tuple(line for line in self.late if line.chore.grade is ChoreClass.LIFE_SUPPORT)

    @property
    def minutes(self) -> int:
        """Minutes that what is due will take."""
        return sum(line.chore.minutes for line in self.due)


def round_of(
    store: Store, on: date | None = None, *, days: int = 1, unit: str | None = None, person: Person | None = None
) -> Round:
    """The round of a day, looking `days` ahead, for one unit or the whole row, for one person or everybody."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        last = day + timedelta(days=days - 1)
        chores = chore_facts.due_by(reader, last)
        if unit is not None:
            chores = of_unit(chores, unit_named(reader, unit))
        return round_with(reader, farm, day, lines_on(reader, chores, day, last), unit=unit, person=person)


def round_with(
    reader: Reader,
    farm: Farm,
    day: date,
    asked: Sequence[RoundLine],
    *,
    unit: str | None = None,
    person: Person | None = None,
) -> Round:
    """The round of a day on which these chores are asked for."""
    crew = presence_facts.crew_on(reader, day)
    lines = _given_out(reader, asked, crew, troubled_units(reader, farm, day))
    if person is not None:
        lines = [line for line in lines if falls_to(person, line.chore, line.doer, crew)]
    if any(line.chore.template_key == FEED and line.due <= day for line in lines):
        from farmops.reports.rations import with_rations

        lines = with_rations(reader, farm, day, lines)
    sections = tuple(_sections(lines, day, folds=unit is None))
    units = len(unit_facts.units(reader))
    settled, waiting = _settled(reader, day, unit), tuple(undated(reader, day, unit))
    held = hold_lines(reader, farm, day, unit)
    return Round(farm, day, units, sections, settled, crew, person, waiting, held)


def _given_out(reader: Reader, lines: Sequence[RoundLine], crew: Crew, troubled: Collection[int]) -> list[RoundLine]:
    """Each line with who does it by who is here on its day, and whether its unit is to come last."""
    later = {line.due for line in lines if line.due > crew.day}
    crews = {crew.day: crew, **{day: presence_facts.crew_on(reader, day) for day in later}}
    return [
        replace(line, doer=doer_of(line.chore, crews[max(line.due, crew.day)]), troubled=line.chore.unit_id in troubled)
        for line in lines
    ]


def _settled(reader: Reader, day: date, unit: str | None) -> tuple[SettledLine, ...]:
    found = chore_facts.settled_on(reader, day)
    chores = {chore.id: chore for chore in chore_facts.with_ids(reader, (one.chore_id for one in found))}
    lines = (SettledLine(chores[one.chore_id], one) for one in found)
    return tuple(line for line in lines if unit is None or line.chore.unit == unit.strip().upper())


def lines_on(reader: Reader, chores: Sequence[Chore], day: date, last: date | None = None) -> list[RoundLine]:
    """Chores that are due, each since when and why; late ones that ask for nothing on the day are left out.

    What they will ask for next stands instead, if that is not after `last`.
    """
    asked = asked_on(reader, chores, day)
    lines = []
    for chore in chores:
        found = asked.get(chore.id)
        if found is not None and found.due <= max(day, last or day):
            late = _days_late(chore, found.due, day)
            lines.append(RoundLine(chore, found.due, late, found.missed, why=found.why, ends=found.ends))
        elif found is None and chore.next_due is not None and chore.next_due >= day:
            lines.append(RoundLine(chore, chore.next_due, 0, 0))
    return lines


def _days_late(chore: Chore, due: date, day: date) -> int:
    """How late a chore is. While something holds its chore is open, not late, unless fish may suffer for it."""
    return 0 if chore.is_never_late else max(0, (day - due).days)


def _sections(lines: Sequence[RoundLine], day: date, *, folds: bool) -> Iterator[Section]:
    found: dict[tuple[date, int, str], list[RoundLine]] = {}
    for line in lines:
        found.setdefault(_section_of(line, day), []).append(line)
    for when, at, title in sorted(found):
        ordered = _in_order(at, found[when, at, title])
        yield Section(title, ordered, folded(ordered) if folds else ordered)


def _section_of(line: RoundLine, day: date) -> tuple[date, int, str]:
    """The section a line stands in: its day, its place among the sections of that day, its title."""
    if line.due > day:
        return line.due, 0, f"{line.due:%a} {line.due}"
    if line.doer.waits:
        return day, WAITING, "Waits for an adult"
    if _is_look(line):
        return day, LOOK, ALL_UNITS
    if line.days_late:
        return day, LATE, "Late"
    part = line.chore.part
    return day, WAITING + 1 + PARTS.index(part), "No set hour" if part is PartOfDay.NONE else part.value.capitalize()


def _in_order(section: int, lines: Sequence[RoundLine]) -> tuple[RoundLine, ...]:
    walked = _walking(lines)
    return tuple(sorted(walked, key=_gravity) if section in (LATE, WAITING) else walked)


def _is_look(line: RoundLine) -> bool:
    """Whether it is a look at all units that the day begins with, or one that is late."""
    chore = line.chore
    opens = line.days_late > 0 or chore.part in LOOKS
    return chore.unit_id is None and chore.grade is ChoreClass.LIFE_SUPPORT and opens


def _walking(lines: Sequence[RoundLine]) -> list[RoundLine]:
    """In walking order, which is the order the facts come in, with units in trouble last.

    At each place picking comes before fish and filter work.
    """
    places = {place: at for at, place in reversed(list(enumerate(line.chore.unit_id for line in lines)))}

    def place(line: RoundLine) -> tuple[object, ...]:
        chore = line.chore
        return line.troubled, places[chore.unit_id], ORDER_AT_PLACE[chore.grade], line.due

    return sorted(lines, key=place)


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
