"""What was weighed while a treatment held it, and yet is booked as eaten, sold, given or fed."""

from __future__ import annotations

from collections.abc import Collection

from farmops.facts.harvests import harvests
from farmops.facts.plantings import plantings
from farmops.facts.treatments import bed_holds, lot_holds
from farmops.model.harvests import Harvest, Use
from farmops.model.treatments import Hold
from farmops.records.reading import Reader


def weighed_inside(reader: Reader, treatment: int) -> list[Harvest]:
    """What is booked as eaten, sold, given or fed from the day after a treatment to the end of its hold.

    On the day itself it may have been taken before.
    """
    by_bed, by_lot = _of(bed_holds(reader), treatment), _of(lot_holds(reader), treatment)
    beds = {one.id: one.bed_id for one in plantings(reader)} if by_bed else {}
    found = []
    for one in weighed_within(reader, [*by_bed.values(), *by_lot.values()]):
        hold = by_bed.get(beds.get(one.planting_id or 0, 0)) if one.fish_lot_id is None else by_lot.get(one.fish_lot_id)
        if hold is not None and hold.covers(one.day) and one.day > hold.treatment.day:
            found.append(one)
    return found


def _of(held: dict[int, list[Hold]], treatment: int) -> dict[int, Hold]:
    return {place: hold for place, holds in held.items() for hold in holds if hold.treatment.id == treatment}


def weighed_within(reader: Reader, holds: Collection[Hold]) -> list[Harvest]:
    """The weighings of all days on which any of some holds lasts, waste left out, whatever they come from."""
    if not holds:
        return []
    first, last = min(hold.since for hold in holds), max(hold.free_day for hold in holds)
    return [one for one in harvests(reader, first, last) if one.use is not Use.WASTE]
