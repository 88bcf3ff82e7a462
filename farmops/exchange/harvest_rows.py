"""What a row of weighings says: read cell by cell, refused in words, marked so that it is never booked twice."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta

from farmops import clock
from farmops.exchange.harvest_tables import Row
from farmops.farm.harvests import HEAVIEST_MG, MOST_PIECES
from farmops.farm.operation import DAYS_AHEAD, FIRST_DAY
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.harvests import Use
from farmops.model.text import name_of, note_of, plain
from farmops.model.values import Measured
from farmops.quantities import MASS, Measures

NO_WEIGHT = ("", "-", "na", "n/a", "nan")
YEAR = re.compile(r"(?<![0-9+-])[0-9]{4}(?![0-9])")
NUMBERED_DAY = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2(?:[0-9]{4}|[0-9]{2})")
COUNT = re.compile(r"([0-9]{1,9})(?:[.,]0+)?")


class RowRefusedError(Exception):
    """A row that is not booked: the column it is about, None for the whole row, and why, in words."""

    def __init__(self, column: str | None, reason: str) -> None:
        super().__init__(reason)
        self.column = column
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a row says, in one spelling. `bed` is the short name, empty where the file names none."""

    line: int
    day: date
    unit: str
    bed: str
    what: str
    mass: Measured
    number: int | None
    use: Use
    note: str | None

    @property
    def where(self) -> str:
        """The bed by its full code, or the unit."""
        return f"{self.unit}-{self.bed}" if self.bed else self.unit

    def fingerprint(self, occurrence: int) -> str:
        """A mark of what the row says and of how often the file has said it before, the same in every file."""
        return hashlib.sha256(json.dumps([*self.said, occurrence]).encode()).hexdigest()

    @property
    def said(self) -> tuple[str | int | None, ...]:
        """What makes two rows alike."""
        day, mass_mg = self.day.isoformat(), self.mass.exact
        return ("harvest", day, self.unit, self.bed, self.what, mass_mg, self.number, self.use.value, self.note)


@dataclass(frozen=True, slots=True)
class Reading:
    """How the cells of a file are read: the farm's measures, today, and the unit of weights that name none."""

    measures: Measures
    today: date
    weights_in: str | None = None

    def row(self, row: Row) -> Weighed:
        """What the row says. Raises RowRefusedError."""
        if row.overfull:
            raise RowRefusedError(None, "more cells than the first line names; put text with commas in quotation marks")
        day = _day(_cell(row, "date"), self.today)
        unit, bed = _place(_cell(row, "unit"), _cell(row, "bed"))
        what = _named(_cell(row, "crop"), "crop")
        mass = _mass(_cell(row, "weight"), self.weights_in, self.measures)
        with _in_column("note"):
            note = note_of(row.cells.get("note"))
        return Weighed(
            row.line, day, unit, bed, what, mass, _number(_cell(row, "count")), _use(_cell(row, "use")), note
        )


def _cell(row: Row, column: str) -> str:
    return row.cells.get(column, "").strip()


@contextmanager
def _in_column(column: str) -> Iterator[None]:
    try:
        yield
    except FarmopsError as error:
        raise RowRefusedError(column, str(error)) from None


def _named(cell: str, column: str) -> str:
    with _in_column(column):
        return name_of(cell, column).upper()


def _place(unit: str, bed: str) -> tuple[str, str]:
    """The unit and the short name of the bed; the bed may be written `WREN-N`, and then names the unit too."""
    bed_name = _named(bed, "bed") if bed else ""
    code = _named(unit, "unit") if unit or "-" not in bed_name else bed_name.partition("-")[0]
    return code, bed_name.removeprefix(f"{code}-")


def _day(cell: str, today: date) -> date:
    if not cell:
        raise RowRefusedError("date", "no date")
    _refuse_numbered(cell)
    try:
        day = clock.parse_day(cell, today)
    except NotUnderstood:
        raise RowRefusedError("date", f"{plain(cell)} is no day; understood: 2026-05-03, 3 may 2026") from None
    if not YEAR.search(cell):
        reason = f"{plain(cell)} names no year, and a file must mean the same day whenever it is read; write {day}"
        raise RowRefusedError("date", reason)
    if not FIRST_DAY <= day <= today + timedelta(days=DAYS_AHEAD):
        raise RowRefusedError("date", f"{day} lies before 1900 or more than a year ahead")
    return day


def _refuse_numbered(cell: str) -> None:
    match = NUMBERED_DAY.fullmatch(cell)
    if match:
        first, second = match[1], match[3]
        raise RowRefusedError(
            "date",
            f"{cell} may put the month or the day first ({first} or {second}); write it as in 2026-05-03",
        )


def _mass(cell: str, unit: str | None, measures: Measures) -> Measured:
    if cell.lower() in NO_WEIGHT:
        raise RowRefusedError("weight", "no weight")
    typed = " + ".join(_with_unit(part.strip(), unit) for part in cell.split("+")) if unit else cell
    with _in_column("weight"):
        exact = MASS.parse(typed, measures)
    if exact > HEAVIEST_MG:
        raise RowRefusedError("weight", f"{typed} is more than {MASS.show(HEAVIEST_MG, measures)} in one weighing")
    return Measured(exact, typed)


def _with_unit(part: str, unit: str) -> str:
    return part if not part or any(sign.isalpha() for sign in part) else f"{part} {unit}"


def _number(cell: str) -> int | None:
    if not cell:
        return None
    match = COUNT.fullmatch(cell)
    number = int(match[1]) if match else 0
    if not 0 < number <= MOST_PIECES:
        raise RowRefusedError("count", f"{plain(cell)} is no count; understood: 1 to {MOST_PIECES:,}")
    return number


def _use(cell: str) -> Use:
    try:
        return Use(cell.lower()) if cell else Use.HOME
    except ValueError:
        raise RowRefusedError("use", f"{plain(cell)} is no use; understood: {', '.join(Use)}") from None
