"""The varied farm for this room's tests, on a day that stands still."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.farmhand import TODAY
from tests.frozen import frozen
from tests.land import laid, land

__all__ = ["laid", "land"]


@pytest.fixture(scope="package", autouse=True)
def _stands_still() -> Iterator[None]:
    """It is 14 October 2026 here."""
    with frozen(TODAY):
        yield
