"""Farms that files are taken into."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.records.store import Store
from tests.exchange.file_desk import Desk
from tests.farmhand import TODAY, a_bed, a_crop, a_unit, stock
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
