"""What an export writes of a kind of record comes in again: known on the farm it is of, or booked as it was."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from farmops.exchange import packages
from farmops.exchange.file_imports import Said, Taken, carry_out, read_rows
from farmops.exchange.file_kinds import KINDS
from farmops.farm import removal
from farmops.records.store import Store
from farmops.records.tables import BY_TABLE
from tests.exchange.file_desk import Desk
from tests.farmhand import ADA, TODAY, a_unit, counted, everything_stored, take_back
from tests.frozen import frozen

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
    "driver": "drivers",
    "joint_split": "splits",
    "device": "devices",
    "power_price": "power prices",
    "supply": "supplies",
    "supply_lot": "supplies bought",
    "supply_use": "supplies used",
    "paper": "papers",
    "note": "notes",
}
BY_THE_FARM = {
    "harvest": "harvests, which have a command of their own",
    "presence": "presence, by the names of who is here",
    "transfer": "transfers",
    "meter": "meter readings",
}
"""Tables of which the invented farm holds nothing, or whose rows come in otherwise, and by which kind."""
WITH_ANOTHER = {"sale": "sale_line", "driver_share": "driver"}
"""Tables that lie beside the one whose file is named, and are read with it."""
WITHOUT = {
    "farm": "a farm is opened, and import package makes it",
    "chore_pause": "pauses are given to a chore by hand; its file says the months and states it rests in",
    "chore_template": "a template is changed line by line, beside the packaged one: chores template edit",
    "cost_label": "labels come in as a set, by a CSV file of their own: costs labels load",
    "incident_step": "ticks of a power cut are made as it goes on; its file says that all was seen running",
    "sample_fish": "weights of single fish are typed at the scale; the file of samples holds those of all together",
}
"""Tables no file of rows comes into, and why."""
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
    "driver",
    "joint_split",
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


def test_every_table_has_a_way_in_by_file_or_a_reason_why_not() -> None:
    told = [*TABLES, *BY_THE_FARM, *WITH_ANOTHER, *WITHOUT]
    assert sorted(told) == sorted(BY_TABLE)
    assert set(KINDS) == {*TABLES.values(), *(words.partition(",")[0] for words in BY_THE_FARM.values())} - {"harvests"}
    assert set(WITH_ANOTHER.values()) <= set(TABLES)


def test_what_can_be_removed_can_come_in_by_file() -> None:
    assert {kind for kind, row in removal.KINDS.items() if row.table_name() in WITHOUT} == {"labels"}


def test_fixed_shares_come_in_from_the_table_beside_their_driver(store_room: Desk, tmp_path: Path) -> None:
    a_unit(store_room.store, "ROOK")
    store_room.take("drivers", "from,driver,category,shares\n2026-01-01,fixed shares,power,WREN=2 rook=1\n")
    before = _stored(store_room.store, "driver_share"), _stored(store_room.store, "driver")
    packages.export(store_room.store, str(tmp_path / "out"))
    with frozen(TODAY):
        assert _take(store_room.store, tmp_path / "out", "driver").already == 1
        take_back(store_room.store)
        assert _stored(store_room.store, "driver_share") == []
        assert _take(store_room.store, tmp_path / "out", "driver").booked == 1
    shares, drivers = _stored(store_room.store, "driver_share"), _stored(store_room.store, "driver")
    assert ([(one["unit_id"], one["parts"]) for one in shares], drivers) == (
        [(one["unit_id"], one["parts"]) for one in before[0]],
        before[1],
    )


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
