"""What an export writes of the farm itself, of fish, water and work comes in again: all of it is there already."""

from __future__ import annotations

import csv
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange.file_imports import RowsRead, Said, carry_out, foresee, read_rows
from farmops.exchange.packages import export
from farmops.farm.removal import remove_record
from farmops.model.journal import Removal
from farmops.model.water import Dose, TopUp
from farmops.records.store import Store
from farmops.reports import lists
from tests.tui.demo import demo_place, demo_store

__all__ = ["demo_place", "demo_store"]
MAREN = "Maren"
TABLES = (
    ("unit", "units", None),
    ("unit_state", "units", None),
    ("bed", "beds", None),
    ("bed_size", "beds", None),
    ("crop", "crops", None),
    ("fish_lot", "fish lots", None),
    ("lot_place", "transfers", None),
    ("treatment", "treatments", None),
    ("dose", "doses", {"amount_typed": "amount"}),
    ("water_source", "water sources", None),
    ("source_value", "water sources", {"typed": "value"}),
    ("top_up", "top-ups", None),
    ("instrument", "instruments", None),
    ("instrument_check", "instrument checks", None),
    ("own_limit", "own limits", None),
    ("chore", "chores", None),
    ("settlement", "chores done", None),
    ("usage", "usage", {"typed": "amount"}),
    ("person", "people", None),
    ("contact", "contacts", None),
    ("absence", "absences", None),
    ("incident", "incidents", None),
)


@pytest.fixture
def package(demo_store: Store, tmp_path: Path) -> Path:
    """The invented farm as an export writes it."""
    export(demo_store, str(tmp_path / "quillet"))
    return tmp_path / "quillet"


def _read(store: Store, file: Path, kind: str, meant: dict[str, str] | None) -> RowsRead:
    return read_rows(store, kind, file, Said(meant), today=lists.farm(store).today())


def _rows(file: Path) -> int:
    with file.open(encoding="utf-8", newline="") as lines:
        return len(list(csv.DictReader(lines)))


def test_what_was_exported_is_there_already(demo_store: Store, package: Path) -> None:
    for table, kind, meant in TABLES:
        file = package / f"{table}.csv"
        found = foresee(demo_store, _read(demo_store, file, kind, meant), Said(), by=MAREN)
        aside = [str(one) for one in (*found.refused, *found.asked)]
        assert (table, found.booked, found.already, aside) == (table, 0, _rows(file), [])
        assert found.already > 0, f"the invented farm has no {kind}"


@pytest.mark.parametrize(
    ("table", "kind", "meant", "held"),
    [
        ("dose", "doses", {"amount_typed": "amount"}, lists.doses),
        ("top_up", "top-ups", None, lists.top_ups),
    ],
)
def test_what_was_removed_since_comes_in_again(
    demo_store: Store,
    package: Path,
    table: str,
    kind: str,
    meant: dict[str, str] | None,
    held: Callable[[Store, date, date], Sequence[Dose | TopUp]],
) -> None:
    gone = held(demo_store, date.min, date.max)[0]
    remove_record(demo_store, Removal(kind, gone.id), by=MAREN)
    read = _read(demo_store, package / f"{table}.csv", kind, meant)
    assert carry_out(demo_store, read, Said(), by=MAREN).booked == 1
    back = max(held(demo_store, date.min, date.max), key=lambda one: one.id)
    assert (back.day, back.unit, back.note) == (gone.day, gone.unit, gone.note)
