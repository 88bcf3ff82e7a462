"""A transaction sees every row before and after, and leaves out what did not change."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from sqlalchemy import text

from farmops.model.errors import NotFound
from farmops.model.ids import new_id
from farmops.model.journal import Image
from farmops.records.chores import ChoreRow
from farmops.records.farm import PersonRow
from farmops.records.store import Store
from farmops.records.units import UnitRow, UnitStateRow
from tests.records.examples import DAY, VALID, write, write_one_of_each

FIRST, SECOND = new_id(), new_id()


def person(operation: str, **values: Any) -> dict[str, Any]:
    return {"id": 1, "operation": operation, "name": "Ada", "minor": False, "note": None} | values


def people(store: Store) -> list[dict[str, Any]]:
    with store.reading() as reader:
        return list(reader.rows("SELECT * FROM person ORDER BY id"))


def test_a_new_row_has_no_image_before(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        assert transaction.add(PersonRow(name="Ada")).id == 1
        assert transaction.images == [Image("person", 1, None, person(FIRST))]


def test_a_changed_row_has_both_and_bears_the_operation_that_changed_it(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add(PersonRow(name="Ada"))
    with store.writing(SECOND) as transaction:
        row = transaction.get(PersonRow, 1)
        transaction.change(row, name="Bea")
        transaction.change(row, note="mornings")
        after = person(SECOND, name="Bea", note="mornings")
        assert transaction.images == [Image("person", 1, person(FIRST), after)]
    assert people(store) == [after]


def test_a_change_to_the_same_is_no_change(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add(PersonRow(name="Ada"))
    with store.writing(SECOND) as transaction:
        transaction.change(transaction.get(PersonRow, 1), name="Ada")
        assert transaction.images == []
    assert people(store) == [person(FIRST)]


def test_a_removed_row_has_no_image_after(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add(PersonRow(name="Ada"))
    with store.writing(SECOND) as transaction:
        transaction.remove(transaction.get(PersonRow, 1))
        assert transaction.images == [Image("person", 1, person(FIRST), None)]
        with pytest.raises(NotFound, match="There is no person 1"):
            transaction.get(PersonRow, 1)
    assert people(store) == []


def test_what_came_and_went_in_one_operation_leaves_no_image(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.remove(transaction.add(PersonRow(name="Ada")))
        assert transaction.images == []


def test_many_rows_are_written_in_one_go_each_with_its_image(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add_all([PersonRow(name=f"P{number}") for number in range(300)])
        assert [image.id for image in transaction.images] == list(range(1, 301))
        assert [image.after["name"] for image in transaction.images if image.after] == [f"P{n}" for n in range(300)]


def test_derived_columns_are_left_out_and_move_no_image(store: Store) -> None:
    write_one_of_each(store)
    with store.writing(SECOND) as transaction:
        row = transaction.get(ChoreRow, 1)
        transaction.change(row, next_due=DAY)
        assert transaction.images == []
        assert row.operation != SECOND
    with store.writing(SECOND) as transaction:
        chore = transaction.get(ChoreRow, 1)
        transaction.change(chore, title="look twice")
        (image,) = transaction.images
        assert image.after is not None
        assert "next_due" not in image.after
        assert image.after["start_day"] == DAY.isoformat()
        assert image.after["with_fish"] is True


def test_an_image_brings_a_row_back_exactly(store: Store) -> None:
    write_one_of_each(store)
    with store.writing(FIRST) as transaction:
        for table in reversed(VALID):
            if table != "farm":
                transaction.remove(transaction.get(_kind(table), 1))
        gone = transaction.images
    with store.writing(SECOND) as transaction:
        transaction.defer_links()
        for image in gone:
            transaction.restore(Image(image.table, image.id, None, image.before))
        assert [transaction.current(image.table, 1) for image in gone] == [image.before for image in gone]
    with store.writing(SECOND) as transaction:
        assert [transaction.current(image.table, 1) for image in gone] == [image.before for image in gone]


def _kind(table: str) -> Any:
    from farmops.records.tables import BY_TABLE

    return BY_TABLE[table]


def test_restoring_goes_back_and_forth_and_is_itself_imaged(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add(PersonRow(name="Ada"))
    back = Image("person", 1, person(FIRST), person(SECOND, name="Bea"))
    with store.writing(new_id()) as transaction:
        transaction.restore(back)
        assert transaction.current("person", 1) == back.after
        assert transaction.images == [back]
    with store.writing(new_id()) as transaction:
        transaction.restore(Image("person", 1, back.after, None))
        assert transaction.current("person", 1) is None
    assert people(store) == []


def test_what_points_to_a_row_is_named_with_who_wrote_it(store: Store) -> None:
    write_one_of_each(store)
    with store.writing(SECOND) as transaction:
        transaction.add(UnitStateRow(unit_id=1, state="resting", from_day=DAY + timedelta(days=1)))
        found = transaction.pointing_at("unit", 1)
        assert ("unit_state", 2, SECOND) in found
        assert {table for table, _, _ in found} == {
            *("unit_state", "bed", "lot_place", "chore", "reading", "usage", "note", "incident_step"),
            *("device", "driver_share", "meter", "supply_use", "dose", "own_limit", "top_up"),
        }
        assert transaction.pointing_at("forecast", 1) == []


def test_what_clashes_with_a_row_that_would_come_back(store: Store) -> None:
    with store.writing(FIRST) as transaction:
        transaction.add(UnitRow(**VALID["unit"]))
        transaction.add(UnitStateRow(unit_id=1, state="running", from_day=date(2026, 5, 3)))
    with store.writing(SECOND) as transaction:
        clashing = transaction.clashing_with
        assert clashing("unit", {"code": "WREN"}, id=9) == [FIRST]
        assert clashing("unit", {"code": "WREN"}, id=1) == []
        assert clashing("unit", {"code": "ALDER"}, id=9) == []
        assert clashing("unit_state", {"unit_id": 1, "from_day": "2026-05-03"}, id=9) == [FIRST]
        assert clashing("unit_state", {"unit_id": 1, "from_day": "2026-05-04"}, id=9) == []
        assert clashing("harvest", {"fingerprint": None}, id=9) == []


def test_the_database_itself_holds_what_the_images_say(store: Store) -> None:
    write(store, "person", name="Ada")
    with store.writing(SECOND) as transaction:
        transaction.connection.execute(text("UPDATE person SET note = 'from elsewhere'"))
        current = transaction.current("person", 1)
        assert current is not None
        assert current["note"] == "from elsewhere"
