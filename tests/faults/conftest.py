"""A farm in which something grows, for tests that disturb its store."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from farmops.farm.farm import open_farm
from farmops.model.farm import NewFarm
from farmops.quantities import US
from farmops.records.store import Store
from tests.faults.children import plant_something
from tests.faults.errands import settle_in
from tests.servers import MortalServer, mortal


@pytest.fixture
def growing(farm_store: Store) -> Store:
    """A store whose planting 1 can be weighed."""
    plant_something(farm_store)
    return farm_store


@pytest.fixture
def busy(farm_store: Store) -> Store:
    """A store in which four people have a unit each to work on."""
    settle_in(farm_store)
    return farm_store


@pytest.fixture
def busy_file(sqlite_store: Store) -> Store:
    """A file in which four people have a unit each to work on."""
    open_farm(sqlite_store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
    settle_in(sqlite_store)
    return sqlite_store


@pytest.fixture
def mortal_store() -> Iterator[tuple[MortalServer, Store]]:
    """A server that can be killed, and a store on it in which four people have a unit each to work on."""
    with mortal() as server, server.farm() as store:
        open_farm(store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
        settle_in(store)
        yield server, store


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
