"""What was fed in a unit, whichever lots lived there."""

from __future__ import annotations

from datetime import date

from farmops.facts.fish_events import FEEDINGS
from farmops.model.fish_events import Feeding
from farmops.records.reading import Reader

IN_UNIT = f"""
    {FEEDINGS}
    JOIN lot_place ON lot_place.fish_lot_id = feeding.fish_lot_id AND lot_place.from_day = (
        SELECT MAX(held.from_day) FROM lot_place AS held
        WHERE held.fish_lot_id = feeding.fish_lot_id AND held.from_day <= feeding.day
    )
    WHERE lot_place.unit_id = :unit AND feeding.day BETWEEN :first AND :last
    ORDER BY feeding.day, feeding.id
"""


def fed_in_unit(reader: Reader, unit: int, first: date, last: date) -> list[Feeding]:
    """The feedings of a span of days, both included, of the lots that lived in a unit on their day."""
    return reader.all(Feeding, IN_UNIT, unit=unit, first=first, last=last)
