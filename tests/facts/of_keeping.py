"""What the tables say of how many records of each kind there are."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import keeping
from farmops.facts.keeping import Counted
from farmops.records.chores import SettlementRow
from farmops.records.costs import CostRow
from farmops.records.fish import FishLotRow
from farmops.records.harvests import HarvestRow
from farmops.records.readings import ReadingRow
from farmops.records.sales import SaleRow
from farmops.records.water import TreatmentRow
from tests.facts.tables import Answer, Tables, says

DAYS_OF = {
    "weighings": (HarvestRow, "day"),
    "readings of the water": (ReadingRow, "day"),
    "chores settled": (SettlementRow, "on_day"),
    "treatments": (TreatmentRow, "day"),
    "sales": (SaleRow, "day"),
    "fish lots": (FishLotRow, "stocked_day"),
    "costs": (CostRow, "day"),
}


@says(keeping.counted)
def every_kind(rows: Tables) -> Iterator[Answer]:
    found = []
    for kind, (table, column) in DAYS_OF.items():
        days = [getattr(row, column) for row in rows[table]]
        found.append(Counted(kind, len(days), min(days, default=None), max(days, default=None)))
    yield (), found
