"""A look through the farm finds what is not as it was booked, on both databases; what can be mended is."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange import kept_files
from farmops.exchange.checking import check
from farmops.farm.costs import record_cost
from farmops.farm.farm import open_farm
from farmops.farm.notes import add_note
from farmops.farm.soundness import repair
from farmops.farm.undo import undo
from farmops.figures import Figure, Made
from farmops.model.costs import NewCost
from farmops.model.errors import NoFarm
from farmops.model.farm import NewFarm
from farmops.model.journal import Which
from farmops.model.notes import NewNote
from farmops.model.soundness import Part, Repair
from farmops.quantities import US
from farmops.records.store import Store
from tests.farmhand import ADA, a_chore, everything_stored, last_operation, money
from tests.land import Land

ASIDE = (Part.FILES, Part.ENTRIES)
"""The photos of an invented farm are nowhere, and some of its entries are odd on purpose."""


def changed(store: Store, statement: str) -> None:
    """Change the tables past the program, as a hand with other tools would."""
    if store.dialect.name == "sqlite":
        store.close()
        with closing(sqlite3.connect(store.place)) as connection, connection:
            connection.execute(statement)
    else:
        with store.engine.begin() as connection:
            connection.exec_driver_sql("SET LOCAL session_replication_role = replica")
            connection.exec_driver_sql(statement)


def found(store: Store) -> list[tuple[Part, str | None, int | None]]:
    return [(one.part, one.kind, one.id) for one in check(store).findings if one.part not in ASIDE]


def test_a_farm_written_by_operations_is_whole(land: Land) -> None:
    looked = check(land.store)
    assert [one for one in looked.findings if one.part not in ASIDE] == []
    assert set(looked.parts) == set(Part)
    assert looked.operations > 100


HARMS = [
    ("UPDATE harvest SET mass_mg = mass_mg + 1 WHERE id = 2", [(Part.ROWS, "harvest", 2)]),
    ("UPDATE harvest SET day = '2026-05-21' WHERE id = 1", [(Part.ROWS, "harvest", 1)]),
    ("UPDATE reading SET value = value + 0.001 WHERE id = 1", [(Part.ROWS, "reading", 1)]),
    ("UPDATE settlement SET minutes = 999 WHERE id = 1", [(Part.ROWS, "settlement", 1)]),
    ("UPDATE person SET minor = NOT minor WHERE id = 1", [(Part.ROWS, "person", 1)]),
    ("DELETE FROM harvest WHERE id = 3", [(Part.ROWS, "harvest", 3)]),
    ("INSERT INTO person (id, operation, name, minor) VALUES (99, 'x', 'Eve', FALSE)", [(Part.ROWS, "person", 99)]),
    ("UPDATE journal SET actor = 'Eve' WHERE seq = 7", [(Part.JOURNAL, None, None)]),
]


@pytest.mark.parametrize(("statement", "expected"), HARMS, ids=lambda one: one if isinstance(one, str) else "")
def test_what_was_changed_past_the_journal_is_found_and_named(
    land: Land, statement: str, expected: list[tuple[Part, str | None, int | None]]
) -> None:
    changed(land.store, statement)
    assert found(land.store) == expected
    assert not check(land.store).can_be_mended


def test_an_entry_taken_out_of_the_journal_is_found(land: Land) -> None:
    changed(land.store, "DELETE FROM journal WHERE seq = 9")
    assert Part.JOURNAL in {part for part, _, _ in found(land.store)}


def test_a_record_whose_owner_is_gone_is_found(land: Land) -> None:
    changed(land.store, "UPDATE bed SET unit_id = 77 WHERE id = 1")
    assert (Part.LINKS, "bed", 1) in found(land.store)


def test_a_number_that_would_be_given_twice_is_found(land: Land) -> None:
    if land.store.dialect.name == "sqlite":
        changed(land.store, "UPDATE sqlite_sequence SET seq = 1 WHERE name = 'harvest'")
    else:
        changed(land.store, "SELECT setval('harvest_id_seq', 1)")
    assert found(land.store) == [(Part.NUMBERS, None, None)]


def test_a_figure_that_does_not_add_up_is_found(land: Land, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Figure, "adds_up", lambda figure: figure.made is not Made.SUM)
    assert found(land.store)
    assert {part for part, _, _ in found(land.store)} == {Part.FIGURES}


def test_a_due_day_that_does_not_follow_from_its_rule_is_found_and_mended(land: Land) -> None:
    before = everything_stored(land.store)
    changed(land.store, f"UPDATE chore SET next_due = '2027-01-01' WHERE id = {land.sweep.id}")
    looked = check(land.store)
    due_days = [(one.part, one.id, one.mends) for one in looked.findings if one.part not in ASIDE]
    assert due_days == [(Part.DUE_DAYS, land.sweep.id, True)]
    assert looked.can_be_mended
    assert repair(land.store, Repair(), by=ADA).due_days == 1
    assert found(land.store) == []
    assert everything_stored(land.store) == before


def test_a_repair_stands_in_the_journal_and_is_stepped_over_by_undo(land: Land) -> None:
    a_chore(land.store, "Mow", "Sat")
    mowing = last_operation(land.store)
    assert repair(land.store, Repair(), by=ADA).due_days == 0
    assert last_operation(land.store) == mowing
    changed(land.store, f"UPDATE chore SET next_due = '2027-01-01' WHERE id = {land.sweep.id}")
    repair(land.store, Repair(), by=ADA)
    assert undo(land.store, Which(), by=ADA).rows == 0
    assert undo(land.store, Which(), by=ADA).operation == mowing
    assert found(land.store) == []


def test_an_unlikely_entry_is_named_and_can_be_left_out(farm_store: Store) -> None:
    for what in ("feed, 20 lb", "Feed, 20 lb"):
        record_cost(farm_store, NewCost(date(2026, 5, 3), what, money("12.50"), again=True), by=ADA)
    (one,) = (one for one in check(farm_store).findings if one.part is Part.ENTRIES)
    assert (one.kind, one.id, one.mends) == ("costs", 1, False)
    assert "(cost booked twice)" in one.words
    assert Part.ENTRIES not in check(farm_store, only_damage=True).parts
    assert not check(farm_store).can_be_mended


def test_nothing_is_looked_through_before_there_is_a_farm(store: Store) -> None:
    with pytest.raises(NoFarm):
        check(store)


def test_photos_that_are_gone_or_changed_and_a_file_that_others_can_read_are_found(
    sqlite_store: Store, tmp_path: Path
) -> None:
    open_farm(sqlite_store, NewFarm("Hollow Lane Holding", US, "UTC"), by=ADA)
    kept = []
    for content in (b"one", b"two"):
        (tmp_path / "photo.jpg").write_bytes(content)
        kept.append(kept_files.keep(sqlite_store, str(tmp_path / "photo.jpg")))
        add_note(sqlite_store, NewNote(date(2026, 5, 3), file=kept[-1]), by=ADA)
    Path(sqlite_store.place).chmod(0o600)
    assert check(sqlite_store).findings == ()
    kept_files.place_of(sqlite_store, kept[0].file).unlink()
    kept_files.place_of(sqlite_store, kept[1].file).write_bytes(b"three")
    Path(sqlite_store.place).chmod(0o644)
    words = [one.words for one in check(sqlite_store).findings]
    assert [kept[0].file in words[0], kept[1].file in words[1]] == [True, True]
    assert "can read" in words[2]
