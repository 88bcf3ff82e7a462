"""Where species are fed whose vital temperatures no table here tells."""

from __future__ import annotations

from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class FedBetween:
    """The full ration is fed from `best_low_c` to `best_high_c`, none at or beyond the stops [deg C]."""

    key: str
    best_low_c: float
    best_high_c: float
    stop_below_c: float
    stop_above_c: float
    source: str
    standing: Standing


@cache
def _all() -> dict[str, FedBetween]:
    return {row["key"]: _fed_between(row) for row in tables.read("feeding_temperatures.csv")}


def fed_between(key: str) -> FedBetween | None:
    """Where the species of that key is fed; None where the table does not tell."""
    return _all().get(key)


def _fed_between(row: dict[str, str]) -> FedBetween:
    return FedBetween(
        key=row["key"],
        best_low_c=float(row["best_low_c"]),
        best_high_c=float(row["best_high_c"]),
        stop_below_c=float(row["stop_below_c"]),
        stop_above_c=float(row["stop_above_c"]),
        source=row["source"],
        standing=Standing(row["standing"]),
    )
