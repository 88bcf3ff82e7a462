"""The invented farm, made once in a test run: one that nobody writes into, and copies to do with as one likes."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import fasteners
import pytest

from farmops.exchange.demo import keep_demo
from farmops.records.store import Store


@pytest.fixture(scope="session")
def invented_place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file that the first worker of a run makes, which nobody writes into."""
    own = tmp_path_factory.getbasetemp()
    run = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
    place = run / "invented.db"
    with fasteners.InterProcessLock(run / "invented.lock"):
        if not place.exists():
            keep_demo(Store(str(place)))
    return place


@pytest.fixture(scope="session")
def invented(invented_place: Path) -> Iterator[Store]:
    """The invented farm to read."""
    store = Store(str(invented_place))
    yield store
    store.close()


@pytest.fixture
def demo_place(invented_place: Path, tmp_path: Path) -> str:
    """A copy of the invented farm to do with as one likes."""
    return str(shutil.copy(invented_place, tmp_path / "demo.db"))


@pytest.fixture
def demo_store(demo_place: str) -> Iterator[Store]:
    """The copy as another program sees it."""
    store = Store(demo_place)
    yield store
    store.close()
