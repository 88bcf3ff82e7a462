"""Costs and list prices: booked and corrected."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from farmops.facts import costs as cost_facts
from farmops.farm.cost_labels import known_label
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.costs import Cost, CostChange, CostKind, ListPrice, NewCost, NewPrice, PriceChange, same_payment
from farmops.model.errors import OutOfRange, Refused, Unlikely
from farmops.model.notes import KeptFile
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep
from farmops.quantities import show_money
from farmops.records.base import Row
from farmops.records.beds import BedRow
from farmops.records.costs import CostRow, PriceRow
from farmops.records.fish import FishLotRow
from farmops.records.plantings import CropRow
from farmops.records.units import UnitRow

LONGEST_LIFE_MONTHS = 1200
SAME_BILL_DAYS = 3
"""How many days apart one bill is easily booked twice, by hand and by two people."""
PLACES: dict[str, type[Row]] = {"unit_id": UnitRow, "bed_id": BedRow, "fish_lot_id": FishLotRow}


@operation("cost")
def record_cost(op: Operation, entry: NewCost) -> Cost:
    """Book money paid, for one unit, bed or fish lot, or shared.

    Asks once about a double, and about a day that is still to come: raises Unlikely.
    """
    if not entry.again and op.sensible_day(entry.day) > op.today:
        raise Unlikely(f"Not booked yet: {entry.day} is still to come. Is it paid for that day already?")
    return add_cost(op, entry)


def add_cost(op: Operation, entry: NewCost, *, recurring_cost_id: int | None = None) -> Cost:
    """Book a cost within an operation, as one time of a recurring cost where one is named."""
    row = cost_row(op, entry, recurring_cost_id=recurring_cost_id)
    if not entry.again:
        ask_about_a_double(op, row, days=0 if recurring_cost_id else SAME_BILL_DAYS)
    return _cost(op, op.add(row).id)


def cost_row(op: Operation, entry: NewCost, *, recurring_cost_id: int | None = None) -> CostRow:
    """The row of a new cost, not written yet."""
    places = {column: getattr(entry, column) for column in PLACES}
    _check_places(op, places)
    return CostRow(
        day=op.sensible_day(entry.day),
        what=_what(entry.what),
        category=entry.category.value,
        payee=note_of(entry.payee, "payee"),
        amount_minor=entry.amount.exact,
        amount_typed=entry.amount.typed,
        kind=entry.kind.value,
        label=known_label(op, entry.label),
        note=note_of(entry.note),
        recurring_cost_id=recurring_cost_id,
        **places,
        **_receipt(entry.receipt),
        **_lasting(entry.kind, entry.life_months, entry.salvage_minor),
    )


def ask_about_a_double(op: Operation, row: CostRow, days: int = 0) -> None:
    """Raise Unlikely for what looks like a payment that is booked already.

    The same to the same payee is one up to so many `days` apart; what names no payee, only on one day.
    """
    near = timedelta(days=days)
    paid = cost_facts.of_amount(op.reader, row.day - near, row.day + near, row.amount_minor)
    alike = [one for one in paid if same_payment(one, row.payee, row.what)]
    found = [one for one in alike if one.day == row.day or row.payee is not None]
    if found:
        raise _paid_already(op, found[0])


def ask_about_a_loose_cost(op: Operation, row: CostRow) -> None:
    """Raise Unlikely where what a supply cost seems to be booked for that day already, by a cost that names it."""
    for one in cost_facts.of_amount(op.reader, row.day, row.day, row.amount_minor):
        if row.what.casefold() in one.what.casefold() or same_payment(one, row.payee, row.what):
            raise _paid_already(op, one)


def _paid_already(op: Operation, one: Cost) -> Unlikely:
    amount = show_money(one.amount_minor, op.farm.measures)
    whose = f" from {one.payee}" if one.payee else ""
    return Unlikely(
        f"Not booked yet: {amount} for {one.what}{whose} is booked for {one.day} already (number {one.id}). "
        "Was it paid twice?"
    )


def _check_places(op: Operation, places: dict[str, int | None]) -> None:
    for column, id in places.items():
        if id is not None:
            op.get(PLACES[column], id)


def _receipt(kept: KeptFile | None) -> dict[str, Any]:
    return {
        "receipt": kept.file if kept else None,
        "receipt_name": name_of(kept.name, "name of the receipt") if kept else None,
        "receipt_sha256": kept.sha256 if kept else None,
    }


@operation("change cost")
def change_cost(op: Operation, entry: CostChange) -> Cost:
    """Correct a cost."""
    row = op.get(CostRow, entry.cost_id)
    names = ("day", "what", "category", "payee", "kind", "life_months", "salvage_minor", "note", "label")
    values = mapped(
        given(entry, *names), day=op.sensible_day, what=_what, category=_word, kind=_word, payee=note_of, note=note_of
    )
    if values.get("label") is not None:
        values["label"] = known_label(op, values["label"])
    values |= _moved(op, entry) | ({} if isinstance(entry.receipt, Keep) else _receipt(entry.receipt))
    kind = CostKind(values.get("kind", row.kind))
    life = values.get("life_months", row.life_months if kind is CostKind.CAPITAL else None)
    salvage = values.get("salvage_minor", row.salvage_minor if kind is CostKind.CAPITAL else None)
    values |= _lasting(kind, life, salvage)
    op.change(row, **values, **measured(entry.amount, "amount_minor", "amount_typed"))
    return _cost(op, row.id)


def _moved(op: Operation, entry: CostChange) -> dict[str, int | None]:
    """Where a cost belongs now: what is named, and nowhere else."""
    places = given(entry, *PLACES)
    _check_places(op, places)
    return {column: places.get(column) for column in PLACES} if places else {}


@rule(CostRow, alone=True)
def is_for_one_place(op: Operation, row: CostRow) -> None:
    """A cost is for one unit, bed or fish lot, or shared by all."""
    if sum(getattr(row, column) is not None for column in PLACES) > 1:
        raise Refused("Not booked: a cost is for one unit, one bed or one fish lot, or shared by all.")


@rule(CostRow, alone=True)
def leaves_no_more_than_it_cost(op: Operation, row: CostRow) -> None:
    """Something was paid, and what a thing is still worth at the end of its life is at most that."""
    if row.amount_minor <= 0:
        raise OutOfRange("Not booked: a cost is more than nothing.")
    if row.salvage_minor is not None and not 0 <= row.salvage_minor <= row.amount_minor:
        raise Refused("Not booked: what it is worth at the end of its life lies between nothing and what was paid.")


@operation("price")
def set_price(op: Operation, entry: NewPrice) -> ListPrice:
    """What a crop or a species is worth from a day on; answers for the days before do not move."""
    if (entry.crop_id is None) == (entry.species is None):
        raise Refused("Not booked: a price is for one crop or for one species.")
    if entry.crop_id is not None:
        op.get(CropRow, entry.crop_id)
    day = op.sensible_day(entry.from_day)
    species = name_of(entry.species, "species").lower() if entry.species else None
    values: dict[str, Any] = {"price_minor": entry.price_minor, "per_mg": entry.per_mg, "typed": entry.typed}
    for one in cost_facts.prices(op.reader):
        if (one.crop_id, one.species, one.from_day) == (entry.crop_id, species, day):
            op.change(op.get(PriceRow, one.id), **values)
            return _price(op, one.id)
    row = op.add(PriceRow(crop_id=entry.crop_id, species=species, from_day=day, **values))
    return _price(op, row.id)


@operation("change price")
def change_price(op: Operation, entry: PriceChange) -> ListPrice:
    """Correct a price, or the day it holds from. Refuses a day on which the same product has another one."""
    row = op.get(PriceRow, entry.price_id)
    values = mapped(given(entry, "from_day", "price_minor", "per_mg", "typed"), from_day=op.sensible_day)
    for one in cost_facts.prices(op.reader):
        same = (one.crop_id, one.species) == (row.crop_id, row.species) and one.id != row.id
        if same and one.from_day == values.get("from_day"):
            raise Refused(f"Not booked: {one.what} has a price from {one.from_day} already, number {one.id}.")
    op.change(row, **values)
    return _price(op, row.id)


def _lasting(kind: CostKind, life_months: int | None, salvage_minor: int | None) -> dict[str, Any]:
    if kind is CostKind.OPERATING:
        if life_months is not None or salvage_minor:
            raise Refused("Not booked: only what is bought to last has a life and a worth at its end.")
        return {"life_months": None, "salvage_minor": None}
    if life_months is None:
        raise Refused("Not booked: for what is bought to last, say how long it lasts.")
    if not 0 < life_months <= LONGEST_LIFE_MONTHS:
        raise OutOfRange(f"{life_months} months is no life of a thing. Understood: 1 month to 100 years.")
    return {"life_months": life_months, "salvage_minor": salvage_minor or 0}


def _what(text: str) -> str:
    return name_of(text, "name of what was paid for")


def _word(word: object) -> str:
    return str(word)


def _cost(op: Operation, id: int) -> Cost:
    found = cost_facts.cost(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _price(op: Operation, id: int) -> ListPrice:
    found = cost_facts.price(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
