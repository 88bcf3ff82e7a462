"""Files about money paid: costs."""

from __future__ import annotations

from farmops.exchange.cells import Cells, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, Kind, Take, each
from farmops.model.costs import Category, CostKind, NewCost
from farmops.quantities.lives import parse_life


def _cost(cells: Cells, take: Take) -> NewCost:
    place = take.names.place(cells)
    life = None
    if not cells.empty("life"):
        with in_column("life"):
            life = parse_life(cells.text("life"))
    return NewCost(
        cells.day(),
        cells.name("what"),
        cells.money(),
        category=cells.word("category", Category, Category.OTHER),
        payee=cells.note("payee"),
        kind=cells.word("kind", CostKind, CostKind.OPERATING if life is None else CostKind.CAPITAL),
        life_months=life,
        salvage_minor=None if cells.empty("salvage") else cells.money("salvage").exact,
        note=cells.note(),
        label=cells.note("label"),
        again=take.sure,
        unit_id=place.get("unit_id"),
        bed_id=place.get("bed_id"),
        fish_lot_id=place.get("fish_lot_id"),
    )


PAID = (
    DATE,
    Column("what", needed=True, also=("item", "description")),
    Column("amount", needed=True, also=("paid", "cost", "total")),
    Column("category"),
    Column("payee", also=("paid to", "supplier", "vendor", "shop")),
    Column("for", also=("unit", "place")),
    Column("kind"),
    Column("life"),
    Column("salvage"),
    Column("label"),
    NOTE,
)
KINDS = (Kind("costs", PAID, each(_cost)),)
