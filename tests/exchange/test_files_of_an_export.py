"""What an export writes of a kind of record comes in again: known on the farm it is of, or booked as it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from farmops.exchange import packages
from farmops.exchange.file_imports import Said, Taken, carry_out, read_rows
from farmops.records.store import Store
from tests.farmhand import ADA, TODAY, counted, everything_stored, take_back
from tests.frozen import frozen
from tests.tui.demo import demo_place, demo_store

__all__ = ["demo_place", "demo_store"]
TABLES = {
    "unit": "units",
    "unit_state": "units",
    "bed": "beds",
    "bed_size": "beds",
    "crop": "crops",
    "planting": "plantings",
    "fish_lot": "fish lots",
    "lot_place": "transfers",
    "feeding": "feedings",
    "sample_weighing": "samples",
    "loss": "losses",
    "reading": "readings",
    "dose": "doses",
    "top_up": "top-ups",
    "water_source": "water sources",
    "source_value": "water sources",
    "treatment": "treatments",
    "instrument": "instruments",
    "instrument_check": "instrument checks",
    "own_limit": "own limits",
    "chore": "chores",
    "settlement": "chores done",
    "usage": "usage",
    "person": "people",
    "contact": "contacts",
    "absence": "absences",
    "incident": "incidents",
    "forecast": "forecasts",
    "price": "prices",
    "standing_order": "orders",
    "sale_line": "sales",
    "cost": "costs",
    "recurring_cost": "recurring costs",
    "labour_rate": "labour rates",
    "device": "devices",
    "power_price": "power prices",
    "supply": "supplies",
    "supply_lot": "supplies bought",
    "supply_use": "supplies used",
    "paper": "papers",
    "note": "notes",
}
MEANT = {"reading": {"typed": "value"}, "source_value": {"typed": "value"}, "usage": {"typed": "amount"}}
"""What was typed stands for the exact number beside it, in tables whose heads do not say so themselves."""
LAID_AGAIN = (
    "treatment",
    "own_limit",
    "usage",
    "contact",
    "source_value",
    "instrument_check",
    "price",
    "standing_order",
    "recurring_cost",
    "labour_rate",
    "device",
    "power_price",
    "paper",
    "note",
)
"""Tables nothing of the invented farm points to, so that their rows can be taken out and come in from the file."""
ITS_OWN = {"id", "operation", "settlement_id"}


def _stored(store: Store, table: str) -> list[dict[str, Any]]:
    """The rows of a table without what tells who wrote them, and in which order."""
    rows = [{key: one[key] for key in one.keys() - ITS_OWN} for one in everything_stored(store)[table]]
    return sorted(rows, key=as_text)


def as_text(row: dict[str, Any]) -> str:
    """A row as one text, to sort by."""
    return repr(sorted(row.items()))


def _take(store: Store, folder: Path, table: str) -> Taken:
    said = Said(MEANT.get(table), sure=True)
    return carry_out(store, read_rows(store, TABLES[table], folder / f"{table}.csv", said, today=TODAY), said, by=ADA)


def test_the_farm_knows_every_record_of_its_own_export_and_books_those_it_has_lost_as_they_were(
    demo_store: Store, tmp_path: Path
) -> None:
    folder = tmp_path / "out"
    packages.export(demo_store, str(folder))
    with frozen(TODAY):
        counts = counted(demo_store)
        for table in TABLES:
            taken, rows = _take(demo_store, folder, table), counts[table]
            assert rows > 0, table
            found = [str(one) for one in (*taken.refused, *taken.asked)]
            assert (table, taken.booked, taken.already, found) == (table, 0, rows, [])
        for table in LAID_AGAIN:
            before = _stored(demo_store, table)
            with demo_store.engine.begin() as connection:
                connection.exec_driver_sql(f"DELETE FROM {table}")
            assert _take(demo_store, folder, table).booked == len(before) > 0, table
            assert _stored(demo_store, table) == before, table
            take_back(demo_store)
            assert _stored(demo_store, table) == []
