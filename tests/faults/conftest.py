"""A farm in which something grows, for tests that disturb its store."""

from __future__ import annotations

import pytest

from farmops.farm.farm import open_farm
from farmops.model.farm import NewFarm
from farmops.quantities import US
from farmops.records.store import Store
from tests.faults.children import plant_something


@pytest.fixture
def growing(farm_store: Store) -> Store:
    """A store whose planting 1 can be weighed."""
    plant_something(farm_store)
    return farm_store


@pytest.fixture
def growing_file(sqlite_store: Store) -> Store:
    """A file whose planting 1 can be weighed."""
    open_farm(sqlite_store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
    plant_something(sqlite_store)
    return sqlite_store


@pytest.fixture
def growing_database(postgres_store: Store) -> Store:
    """A PostgreSQL database whose planting 1 can be weighed."""
    open_farm(postgres_store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
    plant_something(postgres_store)
    return postgres_store
