"""How high a place lies above the sea, as typed."""

from __future__ import annotations

from farmops.model.errors import NotUnderstood
from farmops.model.text import plain
from farmops.quantities.dimensions import LENGTH
from farmops.quantities.measures import Measures

LONGEST_SHOWN = 80


def parse_altitude(text: str, measures: Measures) -> int:
    """Above the sea [um]. Raises NotUnderstood, with heights of places instead of lengths of things."""
    try:
        return LENGTH.parse(text, measures, zero_ok=True)
    except NotUnderstood:
        typed = plain(text.strip()[:LONGEST_SHOWN])
        raise NotUnderstood(f"{typed!r} is no altitude. Understood: 1200 ft, 365 m.") from None
