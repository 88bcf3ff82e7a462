"""Keeping a store of the present schema, for the programs to come: `python -m tests.records.keep` before a release."""

from __future__ import annotations

import sqlite3
import sys
from contextlib import closing
from importlib import import_module
from pathlib import Path

from farmops.records.store import Store
from farmops.records.version import CURRENT
from tests.farmhand import TODAY
from tests.frozen import frozen
from tests.land import lay

STORED = Path(__file__).parent / "stored"


def keep(place: Path) -> None:
    """Lay the varied farm into one small file; refuses to replace one that was kept before."""
    if place.exists():
        sys.exit(f"{place} is kept already: what a released program wrote is never made anew.")
    store = Store(str(place))
    with frozen(TODAY):
        lay(store)
    store.close()
    with closing(sqlite3.connect(place)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("VACUUM")


if __name__ == "__main__":
    import_module("tests.conftest")  # loads the floors before time stands still
    keep(STORED / f"{CURRENT}.db")
