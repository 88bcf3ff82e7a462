"""What the cells of a file name on the farm: units, beds, crops and fish lots, by the names people write."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from farmops.exchange.cells import Cells, RowRefusedError, near
from farmops.facts import beds as bed_facts
from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader
from farmops.model.fish import FishLot
from farmops.model.text import plain

T = TypeVar("T")
MOST_NAMED = 12


class FileNames:
    """What the farm has on one snapshot. What it has not raises RowRefusedError, naming what is near."""

    def __init__(self, reader: Reader) -> None:
        self._units = {one.code: one.id for one in unit_facts.units(reader)}
        self._beds = {one.code: one.id for one in bed_facts.beds(reader)}
        self._crops = {one.name: one.id for one in planting_facts.crops(reader)}
        self._lots = {one.code: one for one in fish_facts.lots(reader)}

    def unit(self, cells: Cells, column: str = "unit") -> int:
        """The unit named there; the only one of the farm where none is."""
        if cells.empty(column) and len(self._units) == 1:
            return next(iter(self._units.values()))
        return _found(cells, column, "unit", self._units)

    def bed(self, cells: Cells) -> int:
        """The bed named there, `WREN-N` or `N` beside its unit; the only bed of the unit where none is."""
        unit, bed = cells.text("unit").upper(), cells.text("bed").upper()
        code = bed if bed in self._beds or not unit else f"{unit}-{bed}"
        if bed:
            return _of(code, "bed", "bed", self._beds)
        beds = [known for known in self._beds if known.startswith(f"{unit}-")]
        if len(beds) == 1:
            return self._beds[beds[0]]
        named = f"; {unit} has {', '.join(beds[:MOST_NAMED])}" if beds else ""
        raise RowRefusedError("bed", f"no bed{named}")

    def crop(self, cells: Cells) -> int:
        """The crop named there."""
        return _found(cells, "crop", "crop", self._crops)

    def lot(self, cells: Cells, column: str = "lot") -> FishLot:
        """The fish lot named there."""
        return _found(cells, column, "fish lot", self._lots)

    def place(self, cells: Cells) -> dict[str, int]:
        """What a cost is for: a unit, bed or fish lot by its code; nothing where the cell is empty or says shared."""
        code = " ".join(cells.text("for").upper().split())
        if cells.empty("for") or code in ("SHARED", "ALL", "FARM"):
            return {}
        kinds: Mapping[str, Mapping[str, int]] = {
            "unit_id": self._units,
            "bed_id": self._beds,
            "fish_lot_id": {lot.code: lot.id for lot in self._lots.values()},
        }
        found = next(({column: known[code]} for column, known in kinds.items() if code in known), None)
        if found is None:
            raise _missing("for", "unit, bed or fish lot", code, [name for known in kinds.values() for name in known])
        return found


def _found(cells: Cells, column: str, kind: str, known: Mapping[str, T]) -> T:
    return _of(" ".join(cells.text(column).upper().split()), column, kind, known)


def _of(name: str, column: str, kind: str, known: Mapping[str, T]) -> T:
    if not name:
        raise RowRefusedError(column, f"no {column}")
    if name not in known:
        raise _missing(column, kind, name, known)
    return known[name]


def _missing(column: str, kind: str, name: str, known: Iterable[str]) -> RowRefusedError:
    return RowRefusedError(column, f"there is no {kind} {plain(name)}{near(name, list(known))}")
