"""What a row of weighings says: read cell by cell, refused in words, marked so that it is never booked twice."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from datetime import date

from farmops.exchange.cells import NOT_AHEAD, Cells, RowRefusedError, in_column
from farmops.exchange.columns import Row
from farmops.exchange.customs import Customs
from farmops.farm.harvests import HEAVIEST_MG
from farmops.model.frozen import dataclass
from farmops.model.harvests import Use
from farmops.model.text import name_of
from farmops.model.values import Measured
from farmops.quantities import MASS

OVERFULL = "more cells than the first line names; put text with commas in quotation marks"


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
    """Reads rows by the customs of their file; `crop` names that of a row which names none, by its bed and day."""

    customs: Customs
    crop: Callable[[str, date], str] | None = None

    def row(self, row: Row) -> Weighed:
        """What the row says. Raises RowRefusedError."""
        if row.overfull:
            raise RowRefusedError(None, OVERFULL)
        cells = Cells(row, self.customs)
        day = cells.day(ahead=NOT_AHEAD)
        unit, bed = _place(cells.text("unit"), cells.text("bed"))
        what = self._what(cells, f"{unit}-{bed}", day)
        mass = _mass(cells)
        number, use = cells.number("count"), cells.word("use", Use, Use.HOME)
        return Weighed(row.line, day, unit, bed, what, mass, number, use, cells.note())

    def _what(self, cells: Cells, bed: str, day: date) -> str:
        said = cells.text("crop")
        return _named(self.crop(bed, day) if self.crop and not said else said, "crop")


def _named(cell: str, column: str) -> str:
    with in_column(column):
        return name_of(cell, column).upper()


def _place(unit: str, bed: str) -> tuple[str, str]:
    """The unit and the short name of the bed; the bed may be written `WREN-N`, and then names the unit too."""
    bed_name = _named(bed, "bed") if bed else ""
    code = _named(unit, "unit") if unit or "-" not in bed_name else bed_name.partition("-")[0]
    return code, bed_name.removeprefix(f"{code}-")


def _mass(cells: Cells) -> Measured:
    mass = cells.mass()
    if mass.exact > HEAVIEST_MG:
        most = MASS.show(HEAVIEST_MG, cells.customs.measures)
        raise RowRefusedError("weight", f"{mass.typed} is more than {most} in one weighing")
    return mass
