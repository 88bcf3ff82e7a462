"""Fish are fed: alone or with the chore, by the ration unless told otherwise; the feed is drawn from supplies."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from farmops.facts import fish as fish_facts
from farmops.facts import fish_events as event_facts
from farmops.facts.chores import chore
from farmops.facts.feed_supplies import feed_supply
from farmops.facts.rations import rations
from farmops.farm.fields import measured
from farmops.farm.operation import Operation
from farmops.farm.supplies import draw, give_back
from farmops.farm.unlikely import ask_feed
from farmops.model.chores import Chore, Settling
from farmops.model.errors import Refused
from farmops.model.fish_events import Feeding, NewFeeding
from farmops.model.rations import Fed
from farmops.model.text import note_of
from farmops.model.values import Measured
from farmops.records.chores import ChoreRow
from farmops.records.fish import FeedingRow, FishLotRow

FEED = "feed"
"""The template of the chore that feeds the fish of a unit."""
MG_PER_G = 1000


def feed(op: Operation, entry: NewFeeding, settlement_id: int | None = None) -> Feeding:
    """Book a feeding within an operation; what it takes is drawn from the feed the lot is fed from.

    Asks once, by Unlikely, about far more than the ration of the day.
    """
    lot, day = op.get(FishLotRow, entry.lot_id), op.past_day(entry.day)
    ask_feed(op, lot, entry)
    row = op.add(
        FeedingRow(
            fish_lot_id=lot.id,
            day=day,
            ate=entry.ate.value if entry.ate else None,
            supply_use_id=_drawn(op, lot.id, entry.mass, day, settlement_id, entry.supply_id),
            settlement_id=settlement_id,
            note=note_of(entry.note),
            **measured(entry.mass, "mass_mg", "mass_typed"),
        )
    )
    found = event_facts.feeding(op.reader, row.id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _drawn(
    op: Operation, lot: int, mass: Measured, day: date, settlement_id: int | None, feed: int | None = None
) -> int | None:
    """What the feeding takes from a supply: nothing where it cannot be told which, or it weighs nothing."""
    supply = (feed or feed_supply(op.reader, lot)) if mass.exact > 0 else None
    if supply is None:
        return None
    return draw(op, supply, mass, day, fish_facts.unit_on(op.reader, lot, day), settlement_id=settlement_id).id


def draw_again(op: Operation, row: FeedingRow) -> None:
    """What a corrected feeding takes from its supply, in place of what it took before."""
    used = row.supply_use_id
    if used is None:
        return
    again = _drawn(op, row.fish_lot_id, Measured(row.mass_mg, row.mass_typed), row.day, row.settlement_id)
    op.change(row, supply_use_id=again)
    give_back(op, used)


def feed_by_chore(op: Operation, row: ChoreRow, entry: Settling, settlement_id: int) -> None:
    """What was fed when a chore was done; unless told, what is left of the ration of each lot on that day."""
    if row.template_key != FEED:
        if entry.fed:
            raise Refused(f"Not booked: {row.title} feeds no fish. Book it alone: farmops fish fed LOT AMOUNT")
        return
    found = chore(op.reader, row.id)
    fed = _ceilings(op, found, entry.on) if entry.fed is None else entry.fed
    for one in fed:
        _check_home(op, found, one, entry.on)
        sure = entry.sure or entry.fed is None
        feed(op, NewFeeding(one.lot_id, entry.on, one.mass, one.ate, sure=sure), settlement_id)


def _ceilings(op: Operation, of: Chore | None, day: date) -> Sequence[Fed]:
    here = [one for one in rations(op.reader, day) if of and _is_of(of, one.lot_id, one.unit_id)]
    return [
        Fed(one.lot_id, Measured(one.left_g * MG_PER_G, f"{one.left_g} g"))
        for one in here
        if one.left_g is not None and one.left_g > 0
    ]


def _is_of(of: Chore, lot_id: int, unit_id: int | None) -> bool:
    return of.fish_lot_id == lot_id if of.fish_lot_id is not None else of.unit_id == unit_id


def _check_home(op: Operation, of: Chore | None, one: Fed, day: date) -> None:
    lot = op.get(FishLotRow, one.lot_id)
    if of is None or not _is_of(of, lot.id, fish_facts.unit_on(op.reader, lot.id, day)):
        raise Refused(f"Not booked: {lot.code} does not live in {of.unit if of else 'that unit'} on {day}.")
