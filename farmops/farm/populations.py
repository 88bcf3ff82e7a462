"""The rule over all that happens to fish: never fewer than none on any day, and nothing before or after their time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts.populations import Life, Step, lives
from farmops.farm.operation import Operation, rule_over
from farmops.model.errors import Refused
from farmops.model.fish import FishLot
from farmops.model.fish_events import Happened
from farmops.model.journal import Image
from farmops.quantities import MASS
from farmops.records.fish import FeedingRow, FishLotRow, LossRow, LotPlaceRow, SampleWeighingRow, TransferRow
from farmops.records.harvests import HarvestRow

COLUMNS = ("fish_lot_id", "from_lot_id", "to_lot_id")


@rule_over(FishLotRow, LotPlaceRow, SampleWeighingRow, LossRow, TransferRow, FeedingRow)
def lies_in_their_time(op: Operation, touched: Sequence[Image]) -> None:
    """What is booked of a lot lies between its stocking and its closing."""
    for id in _lots(touched):
        lot, span = fish_facts.lot(op.reader, id), event_facts.span_of_events(op.reader, id)
        if lot is not None and span is not None:
            _check_span(lot, *span)


@rule_over(FishLotRow, SampleWeighingRow, LossRow, TransferRow, HarvestRow)
def never_fewer_than_none(op: Operation, touched: Sequence[Image]) -> None:
    """On no day have more fish gone from a lot than were there, nor more weight with them than they had."""
    known = lives(op.reader, _lots(touched))
    for life in known.values():
        for step in life.steps:
            if step.after.number < 0:
                raise Refused(_more_than_there_are(op, life, step))
            if step.after.number > 0 and step.after.biomass_mg <= 0:
                raise Refused(_heavier_than_all(op, step))


def _check_span(lot: FishLot, first: date, last: date) -> None:
    if first < lot.stocked_day:
        raise Refused(f"Not booked: {lot.code} was stocked on {lot.stocked_day}, after {first}.")
    if lot.closed_day is not None and last > lot.closed_day:
        raise Refused(
            f"Not booked: {lot.code} was closed on {lot.closed_day}, before {last}; no fish were left after that."
        )


def _lots(touched: Sequence[Image]) -> set[int]:
    return {id for image in touched for id in _named(image) if id is not None}


def _named(image: Image) -> Iterator[int | None]:
    if image.table == FishLotRow.table_name():
        yield image.id
    for side in (image.before, image.after):
        yield from ((side or {}).get(column) for column in COLUMNS)


def _more_than_there_are(op: Operation, life: Life, step: Step) -> str:
    lot, day = fish_facts.lot(op.reader, life.lot_id), step.event.day
    came = sum(
        one.event.number or 0 for one in life.until(day) if one.event.kind in (Happened.STOCKED, Happened.MOVED_IN)
    )
    gone = came - step.after.number
    code = lot.code if lot else "it"
    return f"Not booked: {gone} fish would have gone from {code} by {day}, more than the {came} there were."


def _heavier_than_all(op: Operation, step: Step) -> str:
    event, measures = step.event, op.farm.measures
    lot = fish_facts.lot(op.reader, event.lot_id)
    held = step.after.biomass_mg + step.mass_mg
    code = lot.code if lot else "it"
    return (
        f"Not booked: on {event.day} {event.number} fish would go with {MASS.show(step.mass_mg, measures)}, "
        f"and all of {code} weighed {MASS.show(held, measures)} by its last weighing. Weigh a sample of {code} first."
    )
