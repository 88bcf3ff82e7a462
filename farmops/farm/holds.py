"""Holds: what is weighed while a treatment holds it is waste, by whatever way it would come into the books."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from farmops.facts import harvests as harvest_facts
from farmops.facts import journal as journal_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import treatments as treatment_facts
from farmops.facts.fish_events import kin
from farmops.facts.held_weighings import weighed_within
from farmops.farm.operation import Operation, rule, rule_over
from farmops.model.errors import Refused
from farmops.model.harvests import Use
from farmops.model.journal import Image
from farmops.model.treatments import Hold, longest
from farmops.quantities.weighed import weighing_words
from farmops.records.fish import LotPlaceRow, TransferRow
from farmops.records.harvests import HarvestRow
from farmops.records.reading import Reader

PLACED_BY = ("day", "planting_id", "fish_lot_id")
NO_ID = 0


@rule(HarvestRow)
def is_waste_in_a_hold(op: Operation, row: HarvestRow) -> None:
    """A weighing that lies in a hold is booked as waste, or was there in the same way before.

    On the day a hold ends it waits for the hour, too, as long as that is still to come.
    """
    if row.use == Use.WASTE:
        return
    holds = _holds_on(op, row.planting_id, row.fish_lot_id)
    hold = longest(holds, row.day) or _waits_for_the_hour(op, holds, row.day)
    if hold is not None and not _was_there(op, row):
        raise Refused(_stopped(hold, _what(op, row)))


@rule_over(LotPlaceRow, TransferRow)
def fish_take_their_holds_along(op: Operation, images: Sequence[Image]) -> None:
    """Fish that were in a treated place, as it is booked now, were not taken while it held them.

    What was weighed before the treatment was booked stands as it was asked about then.
    """
    lots = _touched_lots(images)
    held = {lot: holds for lot, holds in treatment_facts.lot_holds(op.reader).items() if lot in kin(op.reader, lots)}
    for one in weighed_within(op.reader, [one for holds in held.values() for one in holds]):
        for hold in held.get(one.fish_lot_id or NO_ID, ()):
            if hold.covers(one.day) and _booked_after(op, one.operation, hold.treatment.operation):
                raise Refused(f"{_stopped(hold, one.what)} {weighing_words(one, op.farm.measures)} lies in it.")


def _booked_after(op: Operation, later: str, earlier: str) -> bool:
    lines = [journal_facts.line(op.reader, operation) for operation in (earlier, later)]
    before, after = (line.seq if line else None for line in lines)
    return after is None or before is None or after > before


def _was_there(op: Operation, row: HarvestRow) -> bool:
    """Whether the weighing lay on the same day of the same planting or lot before, and was no waste."""
    for image in op.transaction.images:
        if (image.table, image.id) == ("harvest", row.id) and image.before and image.after:
            same = all(image.before[name] == image.after[name] for name in PLACED_BY)
            return same and image.before["use"] != Use.WASTE
    return False


def _holds_on(op: Operation, planting_id: int | None, lot_id: int | None) -> Sequence[Hold]:
    if planting_id is not None:
        return op.fact(_bed_holds, NO_ID).get(_bed_of(op, planting_id), ())
    return op.fact(_lot_holds, NO_ID).get(lot_id or NO_ID, ())


def _bed_of(op: Operation, planting_id: int | None) -> int:
    planting = op.fact(planting_facts.planting, planting_id) if planting_id is not None else None
    return planting.bed_id if planting else NO_ID


def _bed_holds(reader: Reader, _: int) -> dict[int, list[Hold]]:
    return treatment_facts.bed_holds(reader)


def _lot_holds(reader: Reader, _: int) -> dict[int, list[Hold]]:
    return treatment_facts.lot_holds(reader)


def _waits_for_the_hour(op: Operation, holds: Iterable[Hold], day: date) -> Hold | None:
    ending = (one for one in holds if one.free_day == day == op.today and op.farm.now() < one.free_at)
    return max(ending, key=lambda one: one.free_at, default=None)


def _what(op: Operation, row: HarvestRow) -> str:
    found = harvest_facts.harvest(op.reader, row.id)
    return found.what if found else "this"


def _stopped(hold: Hold, what: str) -> str:
    return f"Not booked: {what} is held {hold.words}. Until then it can be booked as waste only."


def _touched_lots(images: Iterable[Image]) -> set[int]:
    rows = [row for image in images for row in (image.before, image.after) if row]
    columns = ("fish_lot_id", "from_lot_id", "to_lot_id")
    return {row[name] for row in rows for name in columns if row.get(name) is not None}
