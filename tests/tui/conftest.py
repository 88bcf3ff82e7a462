"""The small farm that tests of forms work on."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.records.store import Store
from tests.land import laid
from tests.tui.stage import laid_copy, lay
from tests.tui.stillness import be_still

__all__ = ["laid"]

be_still()


@pytest.fixture(scope="session")
def laid_template(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The laid farm that tests copy."""
    folder = tmp_path_factory.mktemp("stage")
    with laid_copy(sqlite_template, folder) as store:
        lay(store)
    return folder / "stage.db"


@pytest.fixture
def stage_store(laid_template: Path, tmp_path: Path) -> Iterator[Store]:
    """A copy of the laid farm to write into."""
    with laid_copy(laid_template, tmp_path) as store:
        yield store
