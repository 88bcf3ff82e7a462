"""Farms that files are taken into."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.farm.farm import add_person
from farmops.model.farm import NewPerson
from farmops.records.store import Store
from farmops.reports import lists
from tests.exchange.file_desk import Desk
from tests.farmhand import ADA, TODAY, a_bed, a_crop, a_unit, plant, stock
from tests.frozen import frozen
from tests.land import laid, land

__all__ = ["laid", "land"]


@pytest.fixture(scope="module")
def stands_still() -> Iterator[None]:
    """It is the same day all along."""
    with frozen(TODAY):
        yield


@pytest.fixture
def desk(farm_store: Store, tmp_path: Path) -> Desk:
    """A farm with WREN, its bed N, chard and ten perch."""
    unit = a_unit(farm_store)
    a_bed(farm_store, unit)
    a_crop(farm_store)
    stock(farm_store, unit, number=10)
    return Desk(farm_store, tmp_path)


@pytest.fixture
def store_room(desk: Desk) -> Desk:
    """The farm of the desk, with pellets by weight, and chard that grows in WREN-N, and Ada who works there."""
    (bed,), (crop,) = lists.beds(desk.store), lists.crops(desk.store)
    plant(desk.store, bed.bed, crop)
    add_person(desk.store, NewPerson("Ada"), by=ADA)
    desk.take("supplies", "supply,category\npellets,feed\n")
    return desk
