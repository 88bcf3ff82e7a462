"""Supplies: entered, bought, used, thrown away, counted and corrected."""

from __future__ import annotations

from datetime import date

from farmops.facts import supplies as supply_facts
from farmops.farm.costs import ask_about_a_loose_cost
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import FIRST_DAY, Operation, operation, rule
from farmops.model.costs import CostKind
from farmops.model.errors import OutOfRange, Refused
from farmops.model.journal import Through
from farmops.model.supplies import (
    HeldBy,
    Movement,
    NewSupply,
    NewSupplyLot,
    NewSupplyUse,
    Supply,
    SupplyChange,
    SupplyLot,
    SupplyLotChange,
    SupplyUse,
    SupplyUseChange,
)
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep, Measured
from farmops.quantities.supplies import COUNTED_BY
from farmops.records.costs import CostRow
from farmops.records.supplies import SupplyLotRow, SupplyRow, SupplyUseRow
from farmops.records.units import UnitRow

MOST = 10**13
"""The most of a supply that is booked at once: 10 000 t in milligrams."""
LAST_EXPIRY = date(2199, 12, 31)
NOTHING_PAID = "Not booked: somebody was paid, so say how much."


@operation("add supply")
def add_supply(op: Operation, entry: NewSupply) -> Supply:
    """Enter a thing that is bought, held and used up."""
    row = op.add(
        SupplyRow(
            name=_name(entry.name),
            category=entry.category.value,
            held_by=entry.held_by.value,
            note=note_of(entry.note),
            **measured(entry.reorder, "reorder_at", "reorder_typed"),
        )
    )
    return _supply(op, row.id)


@operation("change supply")
def change_supply(op: Operation, entry: SupplyChange) -> Supply:
    """Correct the name of a supply, its kind of thing, when to buy more, or its note."""
    row = op.get(SupplyRow, entry.supply_id)
    values = mapped(given(entry, "name", "category", "note"), name=_name, category=str, note=note_of)
    op.change(row, **values, **measured(entry.reorder, "reorder_at", "reorder_typed"))
    return _supply(op, row.id)


@rule(SupplyRow, alone=True)
def has_a_name_of_its_own(op: Operation, row: SupplyRow) -> None:
    """No two supplies are called the same, and what is left when more is bought is nothing or more."""
    if row.reorder_at is not None and not 0 <= row.reorder_at <= MOST:
        raise OutOfRange("Not booked: more is to be bought when nothing is left, or so much.")
    for one in supply_facts.supplies(op.reader):
        if one.id != row.id and one.name.casefold() == row.name.casefold():
            raise Refused(f"Not booked: there is already a supply {one.name}.")


@operation("buy supply")
def buy_supply(op: Operation, entry: NewSupplyLot) -> SupplyLot:
    """Book what was bought of a supply and what it cost; without a sum, what was there already.

    Asks once, by Unlikely, where the sum seems to be among the costs already; a file says all that was bought.
    """
    supply, day = op.get(SupplyRow, entry.supply_id), op.past_day(entry.day)
    payee = note_of(entry.payee, "payee")
    if payee is not None and entry.paid is None:
        raise Refused(NOTHING_PAID)
    cost = None if entry.paid is None else _cost_row(supply, day, entry.paid, payee)
    if cost is not None and not entry.again and op.through is not Through.FILE:
        ask_about_a_loose_cost(op, cost)
    cost = cost and op.add(cost)
    row = op.add(
        SupplyLotRow(
            supply_id=supply.id,
            day=day,
            cost_id=cost.id if cost else None,
            lot_code=_lot_code(entry.lot_code),
            opened_day=op.sensible_end(entry.opened_day),
            expires_day=_expiry(entry.expires_day),
            note=note_of(entry.note),
            **measured(entry.amount, "amount", "amount_typed"),
        )
    )
    return _lot(op, row.id)


def _cost_row(supply: SupplyRow, day: date, paid: Measured, payee: str | None) -> CostRow:
    return CostRow(
        day=day,
        what=supply.name,
        category=supply.category,
        payee=payee,
        kind=CostKind.OPERATING.value,
        **measured(paid, "amount_minor", "amount_typed"),
    )


@operation("change bought supply")
def change_bought(op: Operation, entry: SupplyLotChange) -> SupplyLot:
    """Correct what was bought: its day, amount and cost, its lot number, when it was opened and is good until."""
    row = op.get(SupplyLotRow, entry.lot_id)
    names = ("day", "lot_code", "opened_day", "expires_day", "note")
    values = mapped(
        given(entry, *names),
        day=op.past_day,
        lot_code=_lot_code,
        opened_day=op.sensible_end,
        expires_day=_expiry,
        note=note_of,
    )
    gone = row.cost_id if entry.paid is None else None
    cost = None if entry.paid is None else _paid_anew(op, row, values.get("day", row.day), entry)
    op.change(row, cost_id=cost, **values, **measured(entry.amount, "amount", "amount_typed"))
    if gone is not None:
        op.remove(op.get(CostRow, gone))
    return _lot(op, row.id)


def _paid_anew(op: Operation, row: SupplyLotRow, day: date, entry: SupplyLotChange) -> int | None:
    """The id of the cost of what was bought, brought up to the correction; None where nothing was ever paid."""
    payee = {} if isinstance(entry.payee, Keep) else {"payee": note_of(entry.payee, "payee")}
    if row.cost_id is not None:
        paid = measured(entry.paid, "amount_minor", "amount_typed")
        return op.change(op.get(CostRow, row.cost_id), day=day, **payee, **paid).id
    if isinstance(entry.paid, Measured):
        supply = op.get(SupplyRow, row.supply_id)
        return op.add(_cost_row(supply, day, entry.paid, payee.get("payee"))).id
    if payee.get("payee"):
        raise Refused(NOTHING_PAID)
    return None


@rule(SupplyLotRow, alone=True)
def is_good_after_it_came(op: Operation, row: SupplyLotRow) -> None:
    """Something was bought, and it was not opened, nor past its date, before it came."""
    _check_amount(row.amount)
    if row.opened_day is not None and row.opened_day < row.day:
        raise Refused(f"Not booked: it would be opened on {row.opened_day}, before it came on {row.day}.")
    if row.expires_day is not None and row.expires_day < row.day:
        raise Refused(f"Not booked: it would be past its date, {row.expires_day}, when it came on {row.day}.")


@operation("supply used")
def use_supply(op: Operation, entry: NewSupplyUse) -> SupplyUse:
    """Book what was used of a supply, thrown away, or found to be left at a count."""
    return _take(op, entry)


def draw(
    op: Operation,
    supply_id: int,
    amount: Measured,
    day: date,
    unit_id: int | None,
    *,
    held_by: HeldBy = HeldBy.MASS,
    settlement_id: int | None = None,
    note: str | None = None,
) -> SupplyUse:
    """Book within another operation what it takes from a supply, in milligrams, millilitres or pieces.

    More than the books hold is taken, too: a count sets them right.

    Raises:
        NotFound: there is no such supply, or no such unit.
        Refused: the supply is not counted in that unit.
        OutOfRange: the amount is nothing, or no day to book on.
    """
    supply = op.get(SupplyRow, supply_id)
    if supply.held_by != held_by.value:
        by, asked = COUNTED_BY[HeldBy(supply.held_by)], COUNTED_BY[held_by]
        raise Refused(f"Not booked: {supply.name} is counted by {by}, not by {asked}.")
    return _take(op, NewSupplyUse(supply_id, day, amount, unit_id, note=note), settlement_id)


def give_back(op: Operation, use_id: int) -> None:
    """Take back within another operation what it had taken from a supply, once nothing points to it any more."""
    op.remove(op.get(SupplyUseRow, use_id))


def _take(op: Operation, entry: NewSupplyUse, settlement_id: int | None = None) -> SupplyUse:
    supply = op.get(SupplyRow, entry.supply_id)
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    row = op.add(
        SupplyUseRow(
            supply_id=supply.id,
            day=op.past_day(entry.day),
            kind=entry.kind.value,
            unit_id=entry.unit_id,
            settlement_id=settlement_id,
            note=note_of(entry.note),
            **measured(entry.amount, "amount", "amount_typed"),
        )
    )
    return _use(op, row.id)


@operation("change supply used")
def change_use(op: Operation, entry: SupplyUseChange) -> SupplyUse:
    """Correct what was taken or counted; what a feeding or a dose took is corrected there."""
    row = op.get(SupplyUseRow, entry.use_id)
    if op.transaction.pointing_at(row.table_name(), row.id):
        raise Refused("Not changed: a feeding or a dose took it. Remove that, and book it again.")
    values = mapped(given(entry, "day", "unit_id", "note"), day=op.past_day, note=note_of)
    if values.get("unit_id") is not None:
        op.get(UnitRow, values["unit_id"])
    op.change(row, **values, **measured(entry.amount, "amount", "amount_typed"))
    return _use(op, row.id)


@rule(SupplyUseRow, alone=True)
def takes_something(op: Operation, row: SupplyUseRow) -> None:
    """Something was taken; a count may find nothing, and is of all there is, not of one unit."""
    if row.kind != Movement.COUNTED.value:
        _check_amount(row.amount)
        return
    if row.unit_id is not None:
        raise Refused("Not booked: a count is of all that is held, not of one unit.")
    if row.amount:
        _check_amount(row.amount)


def _check_amount(amount: int) -> None:
    if not 0 < amount <= MOST:
        raise OutOfRange("Not booked: an amount is more than nothing, and less than ten thousand tonnes.")


def _name(text: str) -> str:
    return name_of(text, "name of the supply")


def _lot_code(text: str | None) -> str | None:
    return note_of(text, "lot number")


def _expiry(day: date | None) -> date | None:
    """The last day on which it is good; what is bought may keep for many years."""
    if day is not None and not FIRST_DAY <= day <= LAST_EXPIRY:
        raise OutOfRange(f"{day} is not a day on which a supply runs out.")
    return day


def _supply(op: Operation, id: int) -> Supply:
    found = supply_facts.supply(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _lot(op: Operation, id: int) -> SupplyLot:
    found = supply_facts.lot(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _use(op: Operation, id: int) -> SupplyUse:
    found = supply_facts.use(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
