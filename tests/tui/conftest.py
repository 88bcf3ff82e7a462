"""The farms that tests of the interface work on: the invented one, and a small one for forms."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.records.store import Store
from tests.land import laid
from tests.tui.demo import demo_place, demo_store
from tests.tui.stage import laid_copy, lay
from tests.tui.stillness import be_still

__all__ = ["demo_place", "demo_store", "laid"]

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
