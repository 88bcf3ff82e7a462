"""A retry with a known id books nothing twice and gives back what the first try gave."""

from __future__ import annotations

import pytest

from farmops.farm.farm import open_farm
from farmops.farm.plantings import add_crop, change_crop
from farmops.farm.units import add_unit
from farmops.model.codec import from_plain, to_plain
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.farm import NewFarm
from farmops.model.ids import new_id
from farmops.model.plantings import CropChange, NewCrop
from farmops.model.units import NewUnit
from farmops.quantities import US
from farmops.records.store import Store
from tests.farm.cases import CASES, Case
from tests.farmhand import ADA, BOB, a_crop, counted, everything_stored, on, take_back
from tests.land import Land


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_known_id_gives_back_the_first_result_and_doubles_nothing(land: Land, case: Case):
    id = new_id()
    case.before(land)
    entry = case.entry(land)
    first = case.function(land.store, entry, by=ADA, operation=id)
    after = everything_stored(land.store), counted(land.store)
    again = case.function(land.store, entry, by=ADA, operation=id.upper())
    assert again == first
    assert type(again) is type(first)
    assert (everything_stored(land.store), counted(land.store)) == after
    assert from_plain(case.function.result_type, to_plain(first)) == first


def test_opening_a_farm_is_retried_like_everything_else(store: Store):
    id, entry = new_id(), NewFarm("Hollow Lane Holding", US, "America/New_York")
    first = open_farm(store, entry, by=ADA, operation=id)
    assert open_farm(store, entry, by=ADA, operation=id) == first
    with pytest.raises(Refused, match="already holds the farm Hollow Lane Holding"):
        open_farm(store, entry, by=ADA)
    assert counted(store)["farm"] == counted(store)["journal"] == 1


def test_the_id_stands_in_the_journal_and_in_every_row_it_wrote(farm_store: Store):
    id = new_id()
    add_unit(farm_store, NewUnit("WREN", on(3, 1), chores=False), by=ADA, operation=id)
    stored = everything_stored(farm_store)
    assert [row["operation"] for row in (*stored["unit"], *stored["unit_state"])] == [id, id]
    assert take_back(farm_store, id).operation == id


def test_an_id_that_is_no_uuid_is_refused(farm_store: Store):
    with pytest.raises(NotUnderstood):
        add_crop(farm_store, NewCrop("CHARD"), by=ADA, operation="again")
    assert counted(farm_store)["crop"] == 0


def test_an_id_of_another_operation_is_refused(farm_store: Store):
    id = new_id()
    crop = add_crop(farm_store, NewCrop("CHARD"), by=ADA, operation=id)
    with pytest.raises(Refused, match="this id belongs to the operation 'add crop'"):
        change_crop(farm_store, CropChange(crop.id, "KALE"), by=ADA, operation=id)
    assert everything_stored(farm_store)["crop"][0]["name"] == "CHARD"


def test_what_changes_nothing_leaves_no_entry(farm_store: Store):
    crop = a_crop(farm_store, "CHARD", by=BOB)
    before = counted(farm_store)
    assert change_crop(farm_store, CropChange(crop.id, "chard"), by=ADA) == crop
    assert counted(farm_store) == before


def test_results_carry_what_follows_from_them(farm_store: Store):
    from farmops.farm.chores import add_chore, change_chore
    from farmops.model.chores import ChoreChange, NewChore

    chore = add_chore(farm_store, NewChore("Sweep", "Sat", on(3, 1)), by=ADA)
    assert chore.next_due == on(3, 7)
    assert change_chore(farm_store, ChoreChange(chore.id, rule="Sun"), by=ADA).next_due == on(3, 1)
