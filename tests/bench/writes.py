"""One booking in process, against a bare durable insert."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from farmops.farm.harvests import record_harvest
from farmops.model.harvests import NewHarvest
from farmops.model.values import Measured
from farmops.records.store import Store
from tests.bench.stores import LAST
from tests.bench.timing import in_turn

RUNS = 40
AIM_BARE, AIM_LARGE = 6.0, 1.3


def booking(store: Store, scratch: Path) -> tuple[float, float]:
    """Median seconds of one booking, and of a bare insert with full sync into an empty table beside it."""
    bare = sqlite3.connect(scratch, isolation_level=None)
    for statement in ("PRAGMA journal_mode = WAL", "PRAGMA synchronous = FULL", "CREATE TABLE t (a INTEGER, b TEXT)"):
        bare.execute(statement)
    entry = NewHarvest(LAST, Measured(623_690, "1 6"), planting_id=1)
    ours, theirs = in_turn(
        RUNS,
        lambda: record_harvest(store, entry, by="bench"),
        lambda: bare.execute("INSERT INTO t VALUES (1, 'x')"),
    )
    bare.close()
    store.close()
    return ours, theirs
