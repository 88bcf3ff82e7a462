"""Files about supplies: themselves, what was bought of them, and what was used, thrown away or counted."""

from __future__ import annotations

from farmops.exchange.cells import AN_AGE, Cells, RowRefusedError, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, UNIT, Kind, Take, each, unit_in, unit_or_all
from farmops.farm.file_rows.supplies import SupplySaid
from farmops.model.costs import Category
from farmops.model.supplies import HeldBy, Movement, NewSupplyLot, NewSupplyUse
from farmops.model.values import Measured
from farmops.quantities import MASS, VOLUME
from farmops.quantities.supplies import read_held


def _supply(cells: Cells, take: Take) -> SupplySaid:
    name = cells.name("supply")
    held_by = cells.chosen("by", HeldBy)
    level = None
    if not cells.empty("reorder"):
        level = _held(cells, "reorder", held_by or take.goods.held_by(name), zero_ok=True)
    return SupplySaid(name, held_by, cells.chosen("category", Category), level, cells.note())


def _bought(cells: Cells, take: Take) -> NewSupplyLot:
    supply = take.goods.supply(cells)
    return NewSupplyLot(
        supply.id,
        cells.day(),
        _held(cells, "amount", supply.held_by),
        None if cells.empty("paid") else cells.money("paid"),
        cells.note("payee"),
        cells.note("lot"),
        cells.day_or_none("opened"),
        cells.day_or_none("expires", AN_AGE),
        cells.note(),
    )


def _used(cells: Cells, take: Take) -> NewSupplyUse:
    """A row says what was taken, or in `left` what a count found."""
    supply, counted = take.goods.supply(cells), not cells.empty("left")
    if counted and not cells.empty("amount"):
        raise RowRefusedError("left", "a row says what was taken or what is left, not both")
    kind = Movement.COUNTED if counted else cells.word("kind", Movement, Movement.USED)
    column = "left" if counted else "amount"
    return NewSupplyUse(
        supply.id,
        cells.day(),
        _held(cells, column, supply.held_by, zero_ok=kind is Movement.COUNTED),
        unit_or_all(cells, take),
        kind,
        cells.note(),
    )


def _held(cells: Cells, column: str, held_by: HeldBy, *, zero_ok: bool = False) -> Measured:
    if cells.empty(column):
        raise RowRefusedError(column, f"no {column}")
    typed = cells.with_unit(column)
    with in_column(column):
        return Measured(read_held(held_by, typed, cells.customs.measures, zero_ok=zero_ok), typed)


HELD = unit_in(MASS, VOLUME)
NAME = Column("supply", needed=True, also=("name", "item", "what"), numbered=("supply id",))
AMOUNT = Column("amount", also=("amount typed", "weight", "quantity"), unit_of=HELD)
ENTERED = (
    NAME,
    Column("by", also=("held by", "counted by")),
    Column("category"),
    Column("reorder", also=("reorder typed",), unit_of=HELD),
    NOTE,
)
BOUGHT = (
    DATE,
    NAME,
    Column("amount", needed=True, also=AMOUNT.also, unit_of=HELD),
    Column("paid", also=("cost", "price", "total")),
    Column("payee", also=("paid to", "supplier", "vendor", "shop")),
    Column("lot", also=("lot code", "lot number")),
    Column("opened", also=("opened day",)),
    Column("expires", also=("expires day", "good until", "best before")),
    NOTE,
)
USED = (
    DATE,
    NAME,
    AMOUNT,
    Column("left", also=("counted",), unit_of=HELD),
    Column("kind"),
    UNIT,
    NOTE,
)
KINDS = (
    Kind("supplies", ENTERED, each(_supply)),
    Kind("supplies bought", BOUGHT, each(_bought)),
    Kind("supplies used", USED, each(_used)),
)
