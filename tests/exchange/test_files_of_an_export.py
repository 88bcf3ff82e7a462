"""What an export writes of a kind of record comes in again: known on the farm it is of, or booked as it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from farmops.exchange import packages
from farmops.exchange.file_imports import Said, carry_out, read_rows
from farmops.records.store import Store
from tests.farmhand import ADA, TODAY, everything_stored, take_back
from tests.frozen import frozen
from tests.tui.demo import demo_place, demo_store

__all__ = ["demo_place", "demo_store"]
TABLES = {
    "prices": "price",
    "orders": "standing_order",
    "costs": "cost",
    "recurring costs": "recurring_cost",
    "labour rates": "labour_rate",
    "devices": "device",
    "meter readings": "meter",
    "power prices": "power_price",
    "supplies": "supply",
    "supplies bought": "supply_lot",
    "supplies used": "supply_use",
    "papers": "paper",
    "notes": "note",
}
LAID_AGAIN = ("prices", "orders", "recurring costs", "labour rates", "devices", "power prices", "papers", "notes")
"""Kinds nothing of the invented farm points to, so that their rows can be taken out and come in from the file."""
ITS_OWN = {"id", "operation"}


def _stored(store: Store, table: str) -> list[dict[str, Any]]:
    """The rows of a table without what tells who wrote them, and in which order."""
    rows = [{key: one[key] for key in one.keys() - ITS_OWN} for one in everything_stored(store)[table]]
    return sorted(rows, key=as_text)


def as_text(row: dict[str, Any]) -> str:
    """A row as one text, to sort by."""
    return repr(sorted(row.items()))


def test_the_farm_knows_every_record_of_its_own_export_and_books_those_it_has_lost_as_they_were(
    demo_store: Store, tmp_path: Path
) -> None:
    packages.export(demo_store, str(tmp_path / "out"))
    files = {kind: tmp_path / "out" / f"{table}.csv" for kind, table in TABLES.items()}
    with frozen(TODAY):
        for kind, file in files.items():
            read = read_rows(demo_store, kind, file, Said(), today=TODAY)
            taken = carry_out(demo_store, read, Said(), by=ADA)
            rows = len(_stored(demo_store, TABLES[kind]))
            assert (kind, taken.booked, taken.already, taken.refused, taken.asked) == (kind, 0, rows, (), ())
        for kind in LAID_AGAIN:
            table = TABLES[kind]
            before = _stored(demo_store, table)
            with demo_store.engine.begin() as connection:
                connection.exec_driver_sql(f"DELETE FROM {table}")
            read = read_rows(demo_store, kind, files[kind], Said(), today=TODAY)
            assert carry_out(demo_store, read, Said(), by=ADA).booked == len(before) > 0
            assert _stored(demo_store, table) == before
            take_back(demo_store)
            assert _stored(demo_store, table) == []
