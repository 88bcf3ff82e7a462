"""What every test shares: the floors loaded before time stands still, stores on both databases, labels counted."""

from __future__ import annotations

import gc
import importlib
import os
import pkgutil
import shutil
from collections.abc import Iterator
from pathlib import Path

import matplotlib.dates  # noqa: F401 - loaded while the clock is frozen, charts would take only dates of that clock
import pytest

import farmops
from farmops.farm.farm import open_farm
from farmops.model.farm import NewFarm
from farmops.quantities import US
from farmops.records.store import Store
from tests.invented import demo_place, demo_store, invented, invented_place
from tests.labels import pytest_collection_modifyitems, pytest_terminal_summary
from tests.profiles import load_hypothesis
from tests.servers import Server, running

__all__ = [
    "demo_place",
    "demo_store",
    "invented",
    "invented_place",
    "pytest_collection_modifyitems",
    "pytest_terminal_summary",
]

MADE_IN_A_TEST = 50_000
"""About as many objects as a large test makes and leaves behind."""
FRONT_ENDS = ("cli", "tui", "main", "__main__")

os.environ["FARMOPS_DAILY_BACKUP"] = "off"  # where a test is not about it, it would only take time
load_hypothesis()


def _import_the_floors() -> None:
    """A table class that is first made while the clock is frozen takes the frozen date for a type."""
    for room in pkgutil.iter_modules(farmops.__path__):
        if room.name not in FRONT_ENDS:
            package = importlib.import_module(f"farmops.{room.name}")
            for module in pkgutil.iter_modules(getattr(package, "__path__", ())):
                importlib.import_module(f"{package.__name__}.{module.name}")


_import_the_floors()


@pytest.fixture(scope="session")
def sqlite_template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated, empty file that tests copy."""
    place = tmp_path_factory.mktemp("template") / "farm.db"
    store = Store(str(place))
    store.create()
    store.close()
    return place


@pytest.fixture(scope="session")
def postgres_server() -> Iterator[Server]:
    """The PostgreSQL server of this test run."""
    with running() as server:
        yield server


@pytest.fixture
def sqlite_store(sqlite_template: Path, tmp_path: Path) -> Iterator[Store]:
    """An empty store in a file of its own."""
    store = Store(str(shutil.copy(sqlite_template, tmp_path / "farm.db")))
    yield store
    store.close()


@pytest.fixture
def postgres_store(postgres_server: Server) -> Iterator[Store]:
    """An empty store in a PostgreSQL database of its own."""
    with postgres_server.database() as url:
        store = Store(url)
        yield store
        store.close()


@pytest.fixture(params=["sqlite", "postgres"])
def store(request: pytest.FixtureRequest) -> Store:
    """An empty store, once on each kind of database."""
    found: Store = request.getfixturevalue(f"{request.param}_store")
    return found


@pytest.fixture
def farm_store(store: Store) -> Store:
    """A store in which Ada has opened Hollow Lane Holding, which measures the US way in New York's time."""
    open_farm(store, NewFarm("Hollow Lane Holding", US, "America/New_York"), by="Ada")
    return store


def pytest_collection_finish() -> None:
    """What is loaded by now stays to the end: looking through it for garbage again and again takes a fifth of a run."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(MADE_IN_A_TEST)
