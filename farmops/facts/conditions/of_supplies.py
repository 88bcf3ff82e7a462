"""What can hold for the farm's supplies: one is to be reordered, or is past its date."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from farmops.facts import supplies as supply_facts
from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.farm import farm
from farmops.facts.stock import Level, levels, still_held
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.quantities.supplies import held_of
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

TABLES = ("supply", "supply_lot", "supply_use")
DAY = timedelta(days=1)
BAGS = """
    SELECT supply_lot.supply_id, supply.name AS supply, supply_lot.day, supply_lot.amount, supply_lot.lot_code,
        supply_lot.expires_day
    FROM supply_lot JOIN supply ON supply.id = supply_lot.supply_id
    ORDER BY supply_lot.supply_id, supply_lot.day DESC, supply_lot.id DESC
"""


@dataclass(frozen=True, slots=True)
class Bag:
    """So much of a supply that came at once, with the date on it."""

    supply_id: int
    supply: str
    day: date
    amount: int
    lot_code: str | None
    expires_day: date | None


@condition("supply to reorder", place=AppliesTo.FARM, tables=TABLES)
def to_reorder(reader: Reader) -> Held:
    """A supply is down to its reorder level, or below it, by what was bought, used and counted; until more is bought or
    found.
    """
    return by_place(_to_reorder(reader))


def _to_reorder(reader: Reader) -> Iterator[tuple[None, Holding]]:
    kept = [one for one in supply_facts.supplies(reader) if one.reorder_at is not None]
    held = levels(reader) if kept else {}
    for one in kept:
        since = down_since(held.get(one.id, ()), one.reorder_at or 0)
        if since is not None:
            left = held_of(one.held_by, since.held, one.name, farm(reader).measures)
            yield None, Holding(since.day, None, f"{left} left, to reorder", "a purchase, or a higher count")


def down_since(days: Sequence[Level], level: int) -> Level | None:
    """The day from which a supply is down to a level to this day, with what is left now; None where it is above."""
    found = None
    for one in reversed(days):
        if one.held > level:
            break
        found = one.day
    return None if found is None else Level(found, days[-1].held)


@condition("supply past its date", place=AppliesTo.FARM, tables=TABLES)
def past_date(reader: Reader) -> Held:
    """Some of a supply is past the date on it: the oldest is taken to be used first; until it is used up, thrown away
    or counted as gone.
    """
    return by_place(_past_date(reader))


def _past_date(reader: Reader) -> Iterator[tuple[None, Holding]]:
    held = levels(reader)
    bags: dict[int, list[Bag]] = {}
    for bag in reader.all(Bag, BAGS):
        bags.setdefault(bag.supply_id, []).append(bag)
    for supply, own in bags.items():
        for bag in still_held(own, held[supply][-1].held):
            if bag.expires_day is not None:
                yield None, _past(bag, bag.expires_day)


def _past(bag: Bag, until: date) -> Holding:
    which = f"{bag.supply}, lot {bag.lot_code}," if bag.lot_code else f"{bag.supply} of {bag.day}"
    return Holding(until + DAY, None, f"{which} past its date", "using it up, throwing it away, or a count")
