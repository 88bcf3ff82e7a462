"""What the cells of a file name of the goods of a farm: supplies, what is sold, what has a price."""

from __future__ import annotations

from datetime import date

from farmops.exchange.cells import Cells, RowRefusedError, in_column, near
from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import supplies as supply_facts
from farmops.facts.reading import Reader
from farmops.model.supplies import HeldBy, Supply
from farmops.model.text import plain
from farmops.reports.products import product_among
from farmops.reports.selling import Shelf, Source, chosen


class FileGoods:
    """What the farm has on one snapshot, which is read while the file is. What it has not raises RowRefusedError."""

    def __init__(self, reader: Reader) -> None:
        self._supplies = {one.name.casefold(): one for one in supply_facts.supplies(reader)}
        self._crops = {one.name: one.id for one in planting_facts.crops(reader)}
        self._species = {one.species for one in fish_facts.lots(reader)}
        self._shelf = Shelf(reader)

    def supply(self, cells: Cells) -> Supply:
        """The supply named there, or that of a number."""
        number, name = cells.by_number("supply"), " ".join(cells.text("supply").casefold().split())
        found = self._supplies.get(name) if number is None else self._numbered(number)
        if found is None:
            said = plain(cells.text("supply"))
            raise RowRefusedError("supply", f"there is no supply {said}{near(name, list(self._supplies))}")
        return found

    def held_by(self, name: str) -> HeldBy:
        """How a supply is counted; one that is not there yet by weight."""
        found = self._supplies.get(name.casefold())
        return found.held_by if found else HeldBy.MASS

    def _numbered(self, number: int) -> Supply | None:
        return next((one for one in self._supplies.values() if one.id == number), None)

    def product(self, cells: Cells) -> tuple[int | None, str | None]:
        """The crop named there, by its number perhaps, or the species of a fish lot, in a column of its own perhaps."""
        number = cells.by_number("what")
        if number is not None:
            return self._crop_numbered(number), None
        column = "species" if cells.empty("what") and not cells.empty("species") else "what"
        with in_column(column):
            return product_among(self._crops, self._species, cells.name(column))

    def _crop_numbered(self, number: int) -> int:
        if number not in self._crops.values():
            raise RowRefusedError("what", f"there is no crop of the number {number}")
        return number

    def to_sell(self, cells: Cells, day: date) -> Source:
        """The planting or fish lot from which was sold what is named there, in the bed beside it where one is."""
        for column in ("what", "lot"):
            number = cells.by_number(column)
            if number is not None:
                return self._source_numbered(column, number, day)
        bed = "" if cells.empty("bed") else cells.text("bed").upper()
        unit = "" if cells.empty("unit") else cells.text("unit").upper()
        where = bed if not unit or "-" in bed else f"{unit}-{bed}"
        with in_column("what"):
            return chosen(f"{where} {cells.name('what')}".strip(), self._shelf.on(day))

    def _source_numbered(self, column: str, number: int, day: date) -> Source:
        for one in self._shelf.on(day):
            if number == (one.planting_id if column == "what" else one.fish_lot_id):
                return one
        raise RowRefusedError(column, f"there is nothing to sell of the number {number}")
