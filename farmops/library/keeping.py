"""How long records of each kind are kept, to whom the rule speaks, and where it stands."""

from __future__ import annotations

from functools import cache

from farmops.library import tables
from farmops.library.tables import Standing
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class KeepFor:
    """A kind of record is kept for so many years from its day."""

    kind: str
    years: int
    applies: str
    source: str
    standing: Standing


@cache
def keeping() -> tuple[KeepFor, ...]:
    """Every kind that a rule speaks of."""
    return tuple(
        KeepFor(row["kind"], int(row["years"]), row["applies"], row["source"], Standing(row["standing"]))
        for row in tables.read("keeping.csv")
    )
