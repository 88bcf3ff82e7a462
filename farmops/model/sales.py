"""Sales: what was sold to whom, from which planting or fish lot, and standing orders for it."""

from __future__ import annotations

from enum import StrEnum


class SoldBy(StrEnum):
    """What a price is for."""

    WEIGHT = "weight"
    BUNCH = "bunch"
    HEAD = "head"
    DOZEN = "dozen"
    EACH = "each"
