"""Which feed a lot is fed from."""

from __future__ import annotations

from farmops.model.costs import Category
from farmops.model.supplies import HeldBy
from farmops.records.reading import Reader

LAST_DRAWN = """
    SELECT supply_use.supply_id FROM feeding JOIN supply_use ON supply_use.id = feeding.supply_use_id
    WHERE feeding.fish_lot_id = :lot ORDER BY feeding.day DESC, feeding.id DESC LIMIT 1
"""
FEEDS = f"SELECT id FROM supply WHERE category = '{Category.FEED}' AND held_by = '{HeldBy.MASS}' ORDER BY id"


def feed_supply(reader: Reader, lot: int) -> int | None:
    """The supply that a lot was fed from last, else the only feed there is; None where that cannot be told."""
    last = reader.value(LAST_DRAWN, lot=lot)
    if last is not None:
        return int(last)
    feeds = [int(row["id"]) for row in reader.rows(FEEDS)]
    return feeds[0] if len(feeds) == 1 else None
