"""The round as a sheet to carry along: its lines in the order of the round, each with the blanks it leaves."""

from __future__ import annotations

from datetime import date

from farmops.model.chores import Chore, PartOfDay
from farmops.model.frozen import dataclass
from farmops.model.readings import READ_IN, TEMPERATURES, Measure
from farmops.quantities import Measures
from farmops.reports.round import Round, RoundLine, Section

NOTHING_DUE = "Nothing is due on this day."
BOOK_BACK = 'Book it back by number: farmops chores book --row "NUMBER 6 min ..."'
NO_UNIT = "There is no unit yet, and so no chore: farmops units add WREN --state building"


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One chore on paper. `blanks` name what is to be written in, readings before what must be confirmed."""

    number: int
    where: str
    title: str
    minutes: int
    remarks: tuple[str, ...]
    caution: str | None
    instructions: str | None
    blanks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetSection:
    """Lines under one heading of the round."""

    title: str
    lines: tuple[SheetLine, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The round of a day on paper; `counted` is how much there is to do, in words."""

    farm: str
    day: str
    counted: str
    sections: tuple[SheetSection, ...]
    empty: str | None

    @property
    def lines(self) -> tuple[SheetLine, ...]:
        """Every line in the order of the round."""
        return tuple(line for section in self.sections for line in section.lines)


def sheet_of(found: Round, unit: str | None = None) -> Sheet:
    """The sheet of a round that looks at one day, for the whole row or for one unit; of whom the round is."""
    measures = found.farm.measures
    told: dict[str, int] = {}
    sections = tuple(_section(section, measures, told) for section in found.sections)
    whose = (unit.strip().upper() if unit else "", f"for {found.person.name}" if found.person else "")
    name = ", ".join(part for part in (found.farm.name, *whose) if part)
    return Sheet(name, day_in_full(found.on), _counted(found), sections, _empty(found))


def day_in_full(day: date) -> str:
    """`Wednesday 14 October 2026`."""
    return f"{day:%A} {day.day} {day:%B %Y}"


def _counted(found: Round) -> str:
    late = f"{len(found.late)} late" if found.late else ""
    settled = f"{len(found.settled)} settled already" if found.settled else ""
    minutes = f"{found.minutes} min" if found.due else ""
    parts = (f"{len(found.due)} to do", late, settled, minutes)
    return ", ".join(part for part in parts if part)


def _empty(found: Round) -> str | None:
    if found.sections:
        return None
    if found.person is not None and found.person not in found.crew.here:
        return f"{found.person.name} is not here on this day."
    return NOTHING_DUE if found.units else f"{NOTHING_DUE} {NO_UNIT}"


def _section(section: Section, measures: Measures, told: dict[str, int]) -> SheetSection:
    return SheetSection(section.title, tuple(_line(line, section.title, measures, told) for line in section.lines))


def _line(line: RoundLine, heading: str, measures: Measures, told: dict[str, int]) -> SheetLine:
    """A line; `told` holds which instructions stand at which number already."""
    chore = line.chore
    return SheetLine(
        chore.id,
        line.where,
        chore.title,
        chore.minutes,
        _remarks(line, heading),
        chore.caution,
        _told_once(chore, told) if chore.instructions else None,
        _blanks(chore, measures),
    )


def _remarks(line: RoundLine, heading: str) -> tuple[str, ...]:
    part = line.chore.part
    in_heading = part is PartOfDay.NONE or part.value == heading.lower()
    adults = "adults only" if line.chore.adults_only else ""
    remarks = (line.lateness, line.why or "", adults, line.doer.words, "" if in_heading else part.value)
    return tuple(remark for remark in remarks if remark)


def _told_once(chore: Chore, told: dict[str, int]) -> str:
    """The instructions, or the number above at which the very same stand; a caution is told each time."""
    instructions = chore.instructions or ""
    first = told.setdefault(instructions, chore.id)
    return instructions if first == chore.id else f"How: as at number {first}."


def _blanks(chore: Chore, measures: Measures) -> tuple[str, ...]:
    readings = [blank(reading, measures) for reading in (chore.readings or "").split(",") if reading]
    return (*readings, *([chore.confirmation] if chore.confirmation else []))


def blank(reading: str, measures: Measures) -> str:
    """A reading with the unit in which a bare number of it is understood on this farm."""
    name = reading.strip()
    own = {**dict.fromkeys(TEMPERATURES, measures.temperature), Measure.FLOW: f"{measures.volume}/h"}
    measure = next((one for one in Measure if one == name), None)
    unit = own.get(measure, READ_IN[measure]) if measure is not None else ""
    return f"{name} in {unit}" if unit else name
