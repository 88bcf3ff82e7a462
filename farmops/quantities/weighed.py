"""A weighing that was booked, in a few words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from farmops.quantities.dimensions import MASS
from farmops.quantities.measures import Measures

if TYPE_CHECKING:
    from farmops.model.harvests import Harvest


def weighing_words(one: Harvest, measures: Measures) -> str:
    """`2 lb 3 oz CHARD sold on Sat 17 Oct (weighing 12)`."""
    weight = MASS.show(one.mass_mg, measures)
    return f"{weight} {one.what} {one.use} on {one.day:%a} {one.day.day} {one.day:%b} (weighing {one.id})"
