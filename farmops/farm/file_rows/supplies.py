"""Rows about supplies: themselves, what was bought of them, and what was taken or counted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from farmops.facts import supplies as supply_facts
from farmops.farm.file_rows.booking import Booking, Mark, alike, by, named, refuse_other
from farmops.farm.operation import Operation
from farmops.farm.supplies import add_supply, buy_supply, use_supply
from farmops.model.costs import Category
from farmops.model.frozen import dataclass
from farmops.model.supplies import HeldBy, NewSupply
from farmops.model.values import Measured
from farmops.records.reading import Reader

ALL = 2**31


@dataclass(frozen=True, slots=True)
class SupplySaid:
    """What a row says of a supply, None where it says nothing."""

    name: str
    held_by: HeldBy | None = None
    category: Category | None = None
    reorder: Measured | None = None
    note: str | None = None


def _supply_there(op: Operation, said: SupplySaid) -> bool:
    found = next((one for one in supply_facts.supplies(op.reader) if alike(one.name) == alike(said.name)), None)
    if found is None:
        return False
    refuse_other(
        found.name,
        way_of_counting=(said.held_by, found.held_by),
        category=(said.category, found.category),
        reorder_level=(said.reorder and said.reorder.exact, found.reorder_at),
    )
    return True


def _enter(op: Operation, said: SupplySaid) -> None:
    held_by, category = said.held_by or HeldBy.MASS, said.category or Category.SUPPLIES
    add_supply.body(op, NewSupply(said.name, held_by, category, said.reorder, said.note))


def _of_supplies(
    read: Callable[[Reader, int], Iterable[Any]], mark: Callable[[Any], Mark]
) -> Callable[[Reader, Sequence[Any]], list[Mark]]:
    return lambda reader, entries: [
        mark(one) for supply in sorted({entry.supply_id for entry in entries}) for one in read(reader, supply)
    ]


BOOKINGS: dict[str, Booking[Any]] = {
    "supplies": named(_supply_there, _enter),
    "supplies bought": Booking(
        lambda one: (one.supply_id, one.day, one.amount.exact, alike(one.lot_code)),
        _of_supplies(supply_facts.lots, lambda one: (one.supply_id, one.day, one.amount, alike(one.lot_code))),
        by(buy_supply.body),
        one_by_one=True,
    ),
    "supplies used": Booking(
        lambda one: (one.supply_id, one.day, one.kind, one.amount.exact, one.unit_id),
        _of_supplies(
            lambda reader, supply: supply_facts.uses(reader, supply, ALL),
            lambda one: (one.supply_id, one.day, one.kind, one.amount, one.unit_id),
        ),
        by(use_supply.body),
        one_by_one=True,
    ),
}
