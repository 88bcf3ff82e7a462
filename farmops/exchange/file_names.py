"""What the cells of a file name on the farm: units, beds, crops, fish lots, people, by the names people write."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from farmops.exchange.cells import Cells, RowRefusedError, near
from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.facts import instruments as instrument_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import sources as source_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader
from farmops.model.chores import Chore
from farmops.model.fish import FishLot
from farmops.model.text import plain

T = TypeVar("T")
MOST_NAMED = 12
WHOLE_FARM = ("SHARED", "ALL", "FARM")


class FileNames:
    """What the farm has on one snapshot. What it has not raises RowRefusedError, naming what is near.

    A cell below a head such as `unit_id` gives the number of a record on this farm in place of its name.
    """

    def __init__(self, reader: Reader) -> None:
        self._units = {one.code: one.id for one in unit_facts.units(reader)}
        self._beds = {one.code: one.id for one in bed_facts.beds(reader)}
        self._crops = {one.name: one.id for one in planting_facts.crops(reader)}
        self._lots = {one.code: one for one in fish_facts.lots(reader)}
        self._people = {one.name.upper(): one.id for one in farm_facts.people(reader)}
        self._sources = {one.name.upper(): one.id for one in source_facts.sources(reader)}
        self._instruments = {one.name.upper(): one.id for one in instrument_facts.instruments(reader)}
        self._chores = {one.id: one for one in chore_facts.chores(reader)}

    def unit(self, cells: Cells, column: str = "unit") -> int:
        """The unit named there; the only one of the farm where none is."""
        if cells.empty(column) and len(self._units) == 1:
            return next(iter(self._units.values()))
        return _id(cells, column, "unit", self._units)

    def unit_called(self, said: str, column: str, *, numbered: bool = False) -> int:
        """The unit of a code, or of its number on this farm, in a cell that names several."""
        if numbered:
            return _numbered(column, "unit", int(said) if said.isdecimal() else 0, self._units)
        return _of(said.upper(), column, "unit", self._units)

    def unit_code(self, cells: Cells, column: str = "unit") -> str:
        """The code of a unit, which the farm may lack where it is written and not given by number."""
        number = cells.by_number(column)
        return cells.code(column) if number is None else _code(column, "unit", number, self._units)

    def bed(self, cells: Cells) -> int:
        """The bed named there, `WREN-N` or `N` beside its unit; the only bed of the unit where none is."""
        if cells.by_number("bed") is not None:
            return _id(cells, "bed", "bed", self._beds)
        unit, bed = cells.text("unit").upper(), cells.text("bed").upper()
        code = bed if bed in self._beds or not unit else f"{unit}-{bed}"
        if bed:
            return _of(code, "bed", "bed", self._beds)
        beds = [known for known in self._beds if known.startswith(f"{unit}-")]
        if len(beds) == 1:
            return self._beds[beds[0]]
        named = f"; {unit} has {', '.join(beds[:MOST_NAMED])}" if beds else ""
        raise RowRefusedError("bed", f"no bed{named}")

    def bed_in_unit(self, cells: Cells) -> tuple[int, str]:
        """The unit of a bed, which the farm may lack, and its name there: `WREN-N`, or `N` beside its unit."""
        number = cells.by_number("bed")
        bed = cells.code("bed") if number is None else _code("bed", "bed", number, self._beds)
        unit, _, name = bed.partition("-")
        if not cells.empty("unit"):
            id = self.unit(cells)
            code = next(code for code, known in self._units.items() if known == id)
            return id, bed.removeprefix(f"{code}-")
        return _of(unit if name else "", "unit", "unit", self._units), name

    def crop(self, cells: Cells) -> int:
        """The crop named there."""
        return _id(cells, "crop", "crop", self._crops)

    def lot(self, cells: Cells, column: str = "lot") -> FishLot:
        """The fish lot named there."""
        number = cells.by_number(column)
        if number is not None:
            return self._lots[_code(column, "fish lot", number, self._lot_ids)]
        return _of(_said(cells, column), column, "fish lot", self._lots)

    def lot_code(self, cells: Cells, column: str) -> str:
        """The code of a fish lot, which the farm may lack where it is written and not given by number."""
        number = cells.by_number(column)
        return cells.code(column) if number is None else _code(column, "fish lot", number, self._lot_ids)

    def person(self, cells: Cells, column: str) -> int:
        """The person named there."""
        return _id(cells, column, "person", self._people)

    def source(self, cells: Cells, column: str = "source") -> int:
        """The water source named there."""
        return _id(cells, column, "water source", self._sources)

    def source_name(self, cells: Cells, column: str = "source") -> str:
        """The name of a water source, which the farm may lack where it is written and not given by number."""
        number = cells.by_number(column)
        return cells.name(column) if number is None else _code(column, "water source", number, self._sources)

    def instrument(self, cells: Cells, column: str = "instrument") -> int:
        """The instrument named there."""
        return _id(cells, column, "instrument", self._instruments)

    def chore(self, cells: Cells) -> Chore:
        """The chore of a title in its place, or of a number."""
        number = cells.by_number("chore")
        if number is not None:
            if number not in self._chores:
                raise RowRefusedError("chore", f"there is no chore {number}")
            return self._chores[number]
        title, place = _said(cells, "chore"), self.somewhere(cells)
        titled = [one for one in self._chores.values() if " ".join(one.title.upper().split()) == title]
        if not titled:
            raise _missing("chore", "chore", title, [one.title.upper() for one in self._chores.values()])
        found = [one for one in titled if _stands(one, place)] if place or len(titled) > 1 else titled
        found = found or [one for one in titled if place == {"unit_id": one.unit_id}]
        if len(found) == 1:
            return found[0]
        where = ", ".join(f"{one.id} in {one.bed or one.lot or one.unit or 'all'}" for one in titled[:MOST_NAMED])
        raise RowRefusedError("chore" if found else "for", f"which {plain(title)}? There is {where}")

    def place(self, cells: Cells) -> dict[str, int]:
        """What a cost is for: a unit, bed or fish lot by its code; nothing where the cell is empty or says shared."""
        code = _said(cells, "for")
        if cells.empty("for") or code in WHOLE_FARM:
            return {}
        kinds: Mapping[str, Mapping[str, int]] = {
            "unit_id": self._units,
            "bed_id": self._beds,
            "fish_lot_id": self._lot_ids,
        }
        found = next(({column: known[code]} for column, known in kinds.items() if code in known), None)
        if found is None:
            raise _missing("for", "unit, bed or fish lot", code, [name for known in kinds.values() for name in known])
        return found

    def somewhere(self, cells: Cells) -> dict[str, int]:
        """A unit, bed or fish lot, in the column `for` or in one of its own; nothing where none is named."""
        if not cells.empty("for"):
            return self.place(cells)
        if not cells.empty("lot"):
            return {"fish_lot_id": self.lot(cells).id}
        if not cells.empty("bed"):
            return {"bed_id": self.bed(cells)}
        return {} if cells.empty("unit") else {"unit_id": self.unit(cells)}

    @property
    def _lot_ids(self) -> dict[str, int]:
        return {code: lot.id for code, lot in self._lots.items()}


def _stands(chore: Chore, place: Mapping[str, int]) -> bool:
    """Whether a chore belongs to a place; to the whole farm where none is named."""
    if "unit_id" in place:
        return chore.unit_id == place["unit_id"] and chore.bed_id is None and chore.fish_lot_id is None
    if "bed_id" in place:
        return chore.bed_id == place["bed_id"]
    if "fish_lot_id" in place:
        return chore.fish_lot_id == place["fish_lot_id"]
    return chore.unit_id is None


def _said(cells: Cells, column: str) -> str:
    return " ".join(cells.text(column).upper().split())


def _id(cells: Cells, column: str, kind: str, known: Mapping[str, int]) -> int:
    number = cells.by_number(column)
    return _of(_said(cells, column), column, kind, known) if number is None else _numbered(column, kind, number, known)


def _numbered(column: str, kind: str, number: int, known: Mapping[str, int]) -> int:
    return known[_code(column, kind, number, known)]


def _code(column: str, kind: str, number: int, known: Mapping[str, int]) -> str:
    """The code or name of the record of a number."""
    found = next((code for code, id in known.items() if id == number), None)
    if found is None:
        raise RowRefusedError(column, f"there is no {kind} of the number {number}")
    return found


def _of(name: str, column: str, kind: str, known: Mapping[str, T]) -> T:
    if not name:
        raise RowRefusedError(column, f"no {column}")
    if name not in known:
        raise _missing(column, kind, name, known)
    return known[name]


def _missing(column: str, kind: str, name: str, known: Iterable[str]) -> RowRefusedError:
    return RowRefusedError(column, f"there is no {kind} {plain(name)}{near(name, list(known))}")
