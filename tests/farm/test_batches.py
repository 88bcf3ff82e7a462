"""Costs and plantings booked together: in one operation, undone as one, and not at all when one is refused."""

from __future__ import annotations

import pytest

from farmops.farm.batches import Costs, Grown, Plantings, plant_many, record_costs
from farmops.model.costs import NewCost
from farmops.model.errors import NotFound, Refused
from farmops.model.plantings import NewPlanting
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import ADA, a_bed, a_crop, a_unit, everything_stored, money, on, take_back


def test_costs_are_booked_together_and_undone_as_one(farm_store: Store) -> None:
    before = everything_stored(farm_store)
    entries = tuple(NewCost(on(5, day), "feed", money(f"{day}.50")) for day in (3, 4, 5))
    assert record_costs(farm_store, Costs(entries), by=ADA).number == 3
    assert [one.amount_minor for one in lists.costs(farm_store, on(5, 3), on(5, 5))] == [350, 450, 550]
    assert take_back(farm_store).rows == 3
    assert everything_stored(farm_store) == before


def test_one_cost_that_is_refused_keeps_the_others_out(farm_store: Store) -> None:
    before = everything_stored(farm_store)
    entries = (NewCost(on(5, 3), "feed", money("3")), NewCost(on(5, 4), "feed", money("3"), unit_id=99))
    with pytest.raises(NotFound):
        record_costs(farm_store, Costs(entries), by=ADA)
    assert everything_stored(farm_store) == before


def test_plantings_are_booked_with_their_last_day(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store)
    grown = (Grown(NewPlanting(bed.id, crop.id, on(4, 1)), on(6, 1)), Grown(NewPlanting(bed.id, crop.id, on(6, 2))))
    assert plant_many(farm_store, Plantings(grown), by=ADA).number == 2
    found = [(one.started_day, one.cleared_day) for one in lists.plantings(farm_store)]
    assert sorted(found) == [(on(4, 1), on(6, 1)), (on(6, 2), None)]


def test_one_planting_cleared_before_it_started_keeps_the_others_out(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store)
    before = everything_stored(farm_store)
    grown = (Grown(NewPlanting(bed.id, crop.id, on(4, 1))), Grown(NewPlanting(bed.id, crop.id, on(6, 2)), on(6, 1)))
    with pytest.raises(Refused, match="before it started"):
        plant_many(farm_store, Plantings(grown), by=ADA)
    assert everything_stored(farm_store) == before
