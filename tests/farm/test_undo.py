"""Whatever was done can be taken back to the byte and done again, or is refused with the reason."""

from __future__ import annotations

import pytest
from sqlalchemy import text

from farmops.farm import farm, harvests, plantings
from farmops.farm.soundness import repair
from farmops.farm.undo import redo, undo
from farmops.model.errors import NotFound, Refused
from farmops.model.harvests import HarvestChange
from farmops.model.journal import Removal, Through, Undone, Which
from farmops.model.plantings import CropChange, NewCrop, PlantingChange
from farmops.records.store import Store
from farmops.reports import lists
from tests.farm.cases import CASES, Case, operations
from tests.farmhand import (
    ADA,
    BOB,
    a_bed,
    a_chore,
    a_crop,
    a_unit,
    counted,
    do_again,
    everything_stored,
    last_operation,
    on,
    pay,
    plant,
    read,
    settle,
    stock,
    take_back,
    weigh,
)
from tests.land import Land

WITHOUT_A_CASE = {farm._open, undo, redo, repair}
"""What undo is about, what it refuses, and due days, which no image holds."""


def test_every_operation_has_a_case_here():
    assert operations() - WITHOUT_A_CASE == {case.function for case in CASES}


@pytest.mark.parametrize("case", CASES, ids=str)
def test_undo_leaves_every_byte_as_it_was_and_redo_as_it_became(land: Land, case: Case):
    case.before(land)
    before = everything_stored(land.store)
    case.function(land.store, case.entry(land), by=ADA)
    after = everything_stored(land.store)
    done = last_operation(land.store)
    assert after != before
    undone = take_back(land.store)
    assert everything_stored(land.store) == before
    assert do_again(land.store) == undone
    assert everything_stored(land.store) == after
    take_back(land.store, done)
    assert everything_stored(land.store) == before
    assert (undone.operation, undone.name, undone.by) == (done, case.function.name, ADA)


def refused(store: Store, *words: str, operation: str | None = None, by: str = ADA) -> None:
    """Undoing is refused in these words, and nothing is changed by it."""
    before = everything_stored(store), counted(store)
    with pytest.raises(Refused) as told:
        take_back(store, operation, by=by)
    assert all(word in str(told.value) for word in words), str(told.value)
    assert (everything_stored(store), counted(store)) == before


def test_a_row_that_was_changed_later_is_not_taken_back_and_the_later_operation_is_named(farm_store: Store):
    crop = a_crop(farm_store, "CHARD")
    first = last_operation(farm_store)
    plantings.change_crop(farm_store, CropChange(crop.id, "KALE"), by=BOB)
    later = last_operation(farm_store)
    refused(farm_store, "'add crop' of Ada", "was changed later by 'change crop' of Bob", later, operation=first)
    take_back(farm_store, by=BOB)
    take_back(farm_store, first)
    assert everything_stored(farm_store)["crop"] == []


def test_a_row_that_was_removed_later_is_not_taken_back(land: Land):
    correction = HarvestChange(land.weighing.id, note="heavier than it looked")
    harvests.change_harvest(land.store, correction, by=ADA)
    first = last_operation(land.store)
    _removed(land.store, "harvests", land.weighing.id, by=BOB)
    refused(land.store, "was changed later by 'remove' of Bob", last_operation(land.store), operation=first)


def _removed(store: Store, kind: str, id: int, *, by: str) -> None:
    from farmops.farm.removal import remove_record

    remove_record(store, Removal(kind, id), by=by)


def test_what_is_used_by_another_record_is_not_taken_back(farm_store: Store):
    unit = a_unit(farm_store)
    made = last_operation(farm_store)
    bed = a_bed(farm_store, unit, by=BOB)
    user = last_operation(farm_store)
    refused(farm_store, "what 'add unit' of Ada", "is used by 'add bed' of Bob", user, operation=made)
    plant(farm_store, bed, a_crop(farm_store), by=BOB)
    refused(farm_store, "is used by 'planting' of Bob", operation=user)


def test_what_belonged_to_something_removed_since_is_not_brought_back(farm_store: Store):
    unit = a_unit(farm_store)
    cost = pay(farm_store, "8", on(5, 1), unit=unit)
    _removed(farm_store, "costs", cost.id, by=ADA)
    removal = last_operation(farm_store)
    _removed(farm_store, "units", unit.id, by=BOB)
    refused(
        farm_store,
        "what it belongs to in 'remove' of Ada",
        "'remove' of Bob",
        last_operation(farm_store),
        operation=removal,
    )
    take_back(farm_store, by=BOB)
    take_back(farm_store, removal)
    assert [row["unit_id"] for row in everything_stored(farm_store)["cost"]] == [unit.id]


def test_a_name_that_was_taken_since_is_not_given_back(farm_store: Store):
    crop = a_crop(farm_store, "CHARD")
    plantings.change_crop(farm_store, CropChange(crop.id, "KALE"), by=ADA)
    renamed = last_operation(farm_store)
    a_crop(farm_store, "CHARD", by=BOB)
    refused(farm_store, "was taken since by 'add crop' of Bob", last_operation(farm_store), operation=renamed)


def test_a_removed_record_does_not_come_back_beside_a_namesake(farm_store: Store):
    crop = a_crop(farm_store, "CHARD")
    _removed(farm_store, "crops", crop.id, by=ADA)
    a_crop(farm_store, "CHARD", by=BOB)
    refused(farm_store, "was taken since by 'add crop' of Bob", last_operation(farm_store))


def test_a_name_that_was_taken_since_is_not_done_again(farm_store: Store):
    a_crop(farm_store, "CHARD")
    take_back(farm_store)
    a_crop(farm_store, "CHARD", by=BOB)
    with pytest.raises(Refused, match=r"Not done again: .* was taken since by 'add crop' of Bob"):
        do_again(farm_store)


def test_undo_that_would_break_a_rule_is_refused_with_the_rule(farm_store: Store):
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store), on(5, 1))
    plantings.change_planting(farm_store, PlantingChange(planting.id, started_day=on(4, 1)), by=ADA)
    moved = last_operation(farm_store)
    weigh(farm_store, planting, "1 lb", on(4, 10), by=BOB)
    refused(farm_store, "would break a rule", "a weighing from it on 2026-04-10, before 2026-05-01", operation=moved)
    take_back(farm_store, by=BOB)
    take_back(farm_store, moved)


def test_redo_that_would_break_a_rule_is_refused_with_the_rule(farm_store: Store):
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store), on(5, 1))
    plantings.change_planting(farm_store, PlantingChange(planting.id, cleared_day=on(6, 1)), by=ADA)
    take_back(farm_store)
    weigh(farm_store, planting, "1 lb", on(6, 2), by=BOB)
    with pytest.raises(Refused, match=r"Not done again: .* would break a rule. .* on 2026-06-02, after 2026-06-01"):
        do_again(farm_store)


def test_a_weighing_removed_comes_back_only_into_the_life_of_its_planting(farm_store: Store):
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store), on(5, 1))
    weighing = weigh(farm_store, planting, "1 lb", on(6, 2))
    _removed(farm_store, "harvests", weighing.id, by=ADA)
    plantings.change_planting(farm_store, PlantingChange(planting.id, cleared_day=on(6, 1)), by=BOB)
    refused(farm_store, "would break a rule", "was cleared on 2026-06-01")


def test_fish_counted_out_keep_their_number_from_being_taken_back(farm_store: Store):
    from farmops.farm.fish import change_lot
    from farmops.model.fish import FishLotChange

    lot = stock(farm_store, a_unit(farm_store), number=3)
    change_lot(farm_store, FishLotChange(lot.id, number=9), by=ADA)
    weigh(farm_store, lot, "5 lb", on(9, 1), number=8, by=BOB)
    refused(farm_store, "8 fish would have gone from PERCH-24 by 2026-09-01, more than the 3 there were")


def test_two_people_do_not_undo_each_other(farm_store: Store):
    a_crop(farm_store, "CHARD", by=ADA)
    a_crop(farm_store, "KALE", by=BOB)
    assert take_back(farm_store, by=ADA).by == ADA
    assert take_back(farm_store, by=BOB).by == BOB
    with pytest.raises(Refused, match="Nothing to undo: Bob has booked nothing that still stands"):
        take_back(farm_store, by=BOB)
    assert do_again(farm_store, by=ADA).by == ADA
    with pytest.raises(Refused, match="Nothing to do again: Cleo has undone nothing"):
        do_again(farm_store, by="Cleo")
    assert [row["name"] for row in everything_stored(farm_store)["crop"]] == ["CHARD"]


def test_anybody_undoes_any_operation_by_its_id_or_the_beginning_of_it(farm_store: Store):
    a_crop(farm_store, "CHARD", by=ADA)
    made = last_operation(farm_store)
    assert take_back(farm_store, made[:30].upper(), by=BOB) == Undone(made, "add crop", ADA, 1, "CHARD")
    assert do_again(farm_store, made, by="Cleo") == Undone(made, "add crop", ADA, 1, "CHARD")


def test_what_is_taken_back_is_named_and_who_booked_it_where_that_is_another(farm_store: Store):
    unit = a_unit(farm_store)
    planting = plant(farm_store, a_bed(farm_store, unit), a_crop(farm_store, "CHARD"))
    weigh(farm_store, planting, "12 lb", on(10, 14))
    done = take_back(farm_store)
    assert done.words_for(ADA, Through.COMMAND) == "harvest, 12 lb, WREN-N CHARD, 14 Oct"
    assert done.words_for(ADA, Through.SCREEN) == "harvest, 12 lb, WREN-N CHARD, 14 Oct, by command"
    assert done.words_for(BOB, Through.SCREEN) == "harvest, 12 lb, WREN-N CHARD, 14 Oct, of Ada by command"
    assert do_again(farm_store).about == done.about
    settle(farm_store, a_chore(farm_store, "Look round", "day", on(10, 1), unit_id=unit.id), on(10, 14))
    assert take_back(farm_store).about == "Look round WREN, 14 Oct"
    read(farm_store, unit, on(10, 12), ph="7.2", nitrite="0.5")
    assert take_back(farm_store).about == "7.2, pH WREN, 12 Oct, and 1 more"


def test_a_farm_is_not_unopened(farm_store: Store):
    refused(farm_store, "this opened the farm", "open a farm in another place")


def test_undo_stops_at_another_schema(farm_store: Store):
    a_crop(farm_store)
    with farm_store.engine.begin() as connection:
        connection.execute(text("UPDATE journal SET schema_version = '0000' WHERE name = 'add crop'"))
    refused(farm_store, "was booked under schema 0000", "undoing stops there")


def test_undo_and_redo_walk_back_and_forth(farm_store: Store):
    states = [everything_stored(farm_store)]
    for name in ("CHARD", "KALE", "SORREL"):
        a_crop(farm_store, name)
        states.append(everything_stored(farm_store))
    for state in reversed(states[:-1]):
        take_back(farm_store)
        assert everything_stored(farm_store) == state
    for state in states[1:]:
        do_again(farm_store)
        assert everything_stored(farm_store) == state
    with pytest.raises(Refused, match="Nothing to do again"):
        do_again(farm_store)


def test_redo_after_new_work_is_refused_and_says_how_to_name_it(farm_store: Store):
    a_crop(farm_store, "CHARD")
    undone = take_back(farm_store)
    a_crop(farm_store, "KALE")
    with pytest.raises(Refused, match=f"has booked something since .* farmops redo {undone.operation}"):
        do_again(farm_store)
    do_again(farm_store, undone.operation)
    assert {row["name"] for row in everything_stored(farm_store)["crop"]} == {"CHARD", "KALE"}


def test_an_undoing_is_not_undone_itself(farm_store: Store):
    a_crop(farm_store)
    made = last_operation(farm_store)
    take_back(farm_store)
    undoing = last_operation(farm_store)
    refused(farm_store, "is itself an undoing or a redoing", made, operation=undoing)
    refused(farm_store, "is undone already", operation=made)
    do_again(farm_store)
    with pytest.raises(Refused, match="was not undone"):
        do_again(farm_store, made)


def test_an_unknown_id_is_said_to_be_unknown(farm_store: Store):
    with pytest.raises(NotFound, match="The journal has no one operation 01a2"):
        take_back(farm_store, "01a2ffff")


def test_due_dates_follow_an_undo(farm_store: Store):
    chore = a_chore(farm_store, "Sweep", "7 days after", on(3, 2))
    settle(farm_store, chore, on(3, 4))
    settle(farm_store, chore, on(3, 12), by=BOB)
    due = []
    for who in (BOB, ADA):
        take_back(farm_store, by=who)
        due.append(everything_stored(farm_store)["chore"][0]["next_due"])
    assert due == [on(3, 11), on(3, 2)]
    do_again(farm_store)
    assert everything_stored(farm_store)["chore"][0]["next_due"] == on(3, 11)


def test_a_retried_undo_undoes_once(farm_store: Store):
    from farmops.model.ids import new_id

    a_crop(farm_store, "CHARD")
    a_crop(farm_store, "KALE")
    id = new_id()
    first = undo(farm_store, Which(), by=ADA, operation=id)
    assert undo(farm_store, Which(), by=ADA, operation=id) == first
    assert [row["name"] for row in everything_stored(farm_store)["crop"]] == ["CHARD"]


def test_a_plain_redo_leaves_alone_what_somebody_else_took_back(farm_store: Store):
    crop = plantings.add_crop(farm_store, NewCrop("KALE"), by="Ada")
    undo(farm_store, Which(), by="Ada")
    redo(farm_store, Which(), by="Ada")
    booked = next(line for line in lists.journal(farm_store) if line.name == "add crop")
    undo(farm_store, Which(booked.operation), by="Bea")
    with pytest.raises(Refused, match="Nothing to do again"):
        redo(farm_store, Which(), by="Ada")
    assert redo(farm_store, Which(), by="Bea").name == "add crop"
    assert [one.name for one in lists.crops(farm_store)] == [crop.name]
