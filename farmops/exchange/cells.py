"""Cells of a row of a file: what they say, or in words why they say nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime, timedelta
from enum import StrEnum
from typing import TypeVar

from farmops import clock
from farmops.exchange.columns import BY_NUMBER, Row, with_unit
from farmops.exchange.customs import MONTHS, NUMBERED_DAY, Customs, Order, only_order, parted
from farmops.farm.harvests import MOST_PIECES
from farmops.farm.operation import DAYS_AHEAD, FIRST_DAY
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.frozen import dataclass
from farmops.model.nearness import near_names
from farmops.model.text import LONGEST_NOTE, name_of, note_of, plain
from farmops.model.values import Measured
from farmops.quantities import MASS, Dimension, parse_money

NOTHING = ("", "-", "na", "n/a", "nan")
YEAR = re.compile(r"(?<![0-9+-])[0-9]{4}(?![0-9])")
MARK = re.compile(r"(?<=[0-9])[.,](?=[0-9])")
COUNT = re.compile(r"([0-9]{1,9})(?:[.,]0+)?")
CENTURY, MINUTES_A_DAY = 2000, 1440
A_YEAR, AN_AGE, NOT_AHEAD = timedelta(days=DAYS_AHEAD), timedelta(days=100 * DAYS_AHEAD), timedelta(0)
"""How far ahead a day may lie: of a record, of a paper or what keeps for long until its last, of what happened."""
YES, NO = ("yes", "y", "true", "1", "x"), ("no", "n", "false", "0")

W = TypeVar("W", bound=StrEnum)


class RowRefusedError(Exception):
    """A row that is not booked: the column it is about, None for the whole row, and why, in words."""

    def __init__(self, column: str | None, reason: str) -> None:
        super().__init__(reason)
        self.column = column
        self.reason = reason


@dataclass(frozen=True, slots=True)
class RefusedRow:
    """A row that is not booked, by its line; `column` None means the whole row."""

    line: int
    column: str | None
    reason: str

    def __str__(self) -> str:
        return f"line {self.line}{f', {self.column}' if self.column else ''}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Cells:
    """The cells of one row, read by the customs of its file. What says nothing clear raises RowRefusedError."""

    row: Row
    customs: Customs

    def text(self, column: str) -> str:
        """What is written there."""
        cell = self.row.cells.get(column, "").strip()
        if len(cell) > LONGEST_NOTE:
            raise RowRefusedError(column, f"{len(cell):,} signs; at most {LONGEST_NOTE:,} fit")
        return cell

    def empty(self, column: str) -> bool:
        """Whether nothing is written there, or a sign for nothing."""
        return self.text(column).lower() in NOTHING

    def day(self, column: str = "date", ahead: timedelta = A_YEAR) -> date:
        """A day, so far ahead at the most."""
        with in_column(column):
            return day_of(parted(self.text(column))[0], self.customs.today, self.customs.order, column, ahead)

    def numbers(self, column: str) -> str:
        """What is written there, its decimals with the sign of the farm."""
        text = self.text(column)
        return MARK.sub(lambda found: "." if found[0] == "," else ",", text) if self.customs.swapped else text

    def with_unit(self, column: str) -> str:
        """What is written there, with the unit of its column where it names none."""
        typed, unit = self.numbers(column), self.customs.units.get(column)
        return with_unit(typed, unit)

    def mass(self, column: str = "weight") -> Measured:
        """A weight."""
        if self.empty(column):
            raise RowRefusedError(column, f"no {column}")
        typed = self.with_unit(column)
        with in_column(column):
            return Measured(MASS.parse(typed, self.customs.measures), typed)

    def measured(self, column: str, dimension: Dimension) -> Measured | None:
        """A volume, an area, a length, a weight; None for an empty cell."""
        if self.empty(column):
            return None
        typed = self.with_unit(column)
        with in_column(column):
            return Measured(dimension.parse(typed, self.customs.measures), typed)

    def money(self, column: str = "amount") -> Measured:
        """A sum of money."""
        if self.empty(column):
            raise RowRefusedError(column, f"no {column}")
        typed = self.numbers(column)
        with in_column(column):
            return Measured(parse_money(typed, self.customs.measures), typed)

    def number(self, column: str) -> int | None:
        """A count; None for an empty cell."""
        cell = self.text(column)
        if not cell:
            return None
        match = COUNT.fullmatch(cell)
        number = int(match[1]) if match else 0
        if not 0 < number <= MOST_PIECES:
            raise RowRefusedError(column, f"{plain(cell)} is no count; understood: 1 to {MOST_PIECES:,}")
        return number

    def whole(self, column: str) -> int | None:
        """A whole number, 0 too; None for an empty cell."""
        if self.empty(column):
            return None
        cell = self.text(column)
        match = COUNT.fullmatch(cell)
        if match is None:
            raise RowRefusedError(column, f"{plain(cell)} is no whole number")
        return int(match[1])

    def yes(self, column: str) -> bool | None:
        """Yes or no; None for an empty cell."""
        if self.empty(column):
            return None
        said = self.text(column).lower()
        if said not in YES and said not in NO:
            raise RowRefusedError(column, f"{plain(said)} is neither yes nor no")
        return said in YES

    def chosen(self, column: str, words: type[W]) -> W | None:
        """One of some words; None for an empty cell."""
        return None if self.empty(column) else self.word(column, words, next(iter(words)))

    def day_or_none(self, column: str, ahead: timedelta = A_YEAR) -> date | None:
        """A day; None for an empty cell."""
        return None if self.empty(column) else self.day(column, ahead)

    def code(self, column: str) -> str:
        """A name in capitals, which must be there."""
        return self.name(column).upper()

    def by_number(self, column: str) -> int | None:
        """The number of a record on this farm, where the cells of a column are such numbers."""
        if self.customs.units.get(column) != BY_NUMBER or self.empty(column):
            return None
        return self.whole(column)

    def minute(self, column: str = "time") -> int | None:
        """An hour of the day, in minutes from midnight, else that beside the date; None where neither says one."""
        counted = self.by_number(column)
        if counted is not None:
            return counted % MINUTES_A_DAY
        hour = parted(self.text("date"))[1] if self.empty(column) else self.text(column)
        at = _instant(hour)
        if at is not None:
            local = at.astimezone(clock.time_zone(self.customs.zone))
            return local.hour * 60 + local.minute
        with in_column(column):
            return clock.parse_minute(hour) if hour else None

    def instant(self, column: str) -> datetime | None:
        """A day with its hour on the farm, or an instant with its zone; None for an empty cell."""
        if self.empty(column):
            return None
        at = _instant(self.text(column))
        if at is not None:
            return at
        hour = parted(self.text(column))[1]
        if not hour:
            raise RowRefusedError(column, f"{plain(self.text(column))} names no hour; understood: 2026-05-03 06:10")
        with in_column(column):
            return clock.instant_of(self.day(column), clock.parse_minute(hour), self.customs.zone)

    def word(self, column: str, words: type[W], default: W) -> W:
        """One of some words; the default for an empty cell."""
        cell = " ".join(self.text(column).lower().split())
        try:
            return words(cell) if cell else default
        except ValueError:
            reason = f"{plain(cell)} is no {column}; understood: {', '.join(words)}"
            raise RowRefusedError(column, reason) from None

    def name(self, column: str) -> str:
        """A name that must be there."""
        with in_column(column):
            return name_of(self.text(column), column)

    def note(self, column: str = "note") -> str | None:
        """A longer text; None for an empty cell."""
        with in_column(column):
            return note_of(self.row.cells.get(column), column)


@contextmanager
def in_column(column: str) -> Iterator[None]:
    """Where a cell is not understood, the row is refused for its column."""
    try:
        yield
    except FarmopsError as error:
        raise RowRefusedError(column, plain(str(error))) from None


def _instant(cell: str) -> datetime | None:
    """The instant of a cell that says its zone too, as an export writes it; None for others."""
    try:
        at = datetime.fromisoformat(cell)
    except ValueError:
        return None
    return at.astimezone(UTC) if at.tzinfo else None


def near(name: str, known: Sequence[str]) -> str:
    """` (did you mean WREN?)`, nothing where no name is near."""
    found = near_names(name, known)
    return f" (did you mean {' or '.join(found)}?)" if found else ""


def day_of(cell: str, today: date, order: Order | None = None, column: str = "date", ahead: timedelta = A_YEAR) -> date:
    """The day a cell says, the same whenever the file is read. Raises RowRefusedError."""
    if not cell:
        raise RowRefusedError(column, f"no {column}")
    numbered = NUMBERED_DAY.fullmatch(cell)
    day = _numbered_day(cell, numbered, order, column) if numbered else _written_day(cell, today, column)
    if not FIRST_DAY <= day <= today + ahead:
        raise RowRefusedError(column, f"{day} lies before 1900 or {_too_far(ahead)}")
    return day


def _too_far(ahead: timedelta) -> str:
    years = ahead.days // A_YEAR.days
    return "is still to come" if not years else f"more than {'a year' if years == 1 else f'{years} years'} ahead"


def _written_day(cell: str, today: date, column: str) -> date:
    try:
        day = clock.parse_day(cell, today)
    except NotUnderstood:
        raise RowRefusedError(column, f"{plain(cell)} is no day; understood: 2026-05-03, 3 may 2026") from None
    if not YEAR.search(cell):
        reason = f"{plain(cell)} names no year, and a file must mean the same day whenever it is read; write {day}"
        raise RowRefusedError(column, reason)
    return day


def _no_one_order(cell: str, match: re.Match[str]) -> str:
    only = only_order(match)
    if min(int(match[1]), int(match[3])) > MONTHS:
        return f"{cell} is no day; write it as in 2026-05-03"
    if only is None:
        return (
            f"{cell} may put the month or the day first ({match[1]} or {match[3]}); write it as in 2026-05-03, "
            "or say --dates day-first or month-first"
        )
    read = only.replace("-", " ")
    return f"{cell} is {read}, and other days of the file are the other way; write all as in 2026-05-03"


def _numbered_day(cell: str, match: re.Match[str], order: Order | None, column: str) -> date:
    first, second, year = int(match[1]), int(match[3]), int(match[4])
    if order is None:
        raise RowRefusedError(column, _no_one_order(cell, match))
    day, month = (first, second) if order is Order.DAY_FIRST else (second, first)
    try:
        return date(year if year > 99 else CENTURY + year, month, day)
    except ValueError:
        raise RowRefusedError(column, f"{cell} is no day, read {order}") from None
