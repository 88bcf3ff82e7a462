"""How supplies are printed: in JSON's words, and in a line."""

from __future__ import annotations

from collections.abc import Sequence

from farmops.cli.desk import Desk
from farmops.cli.output import emit, say, table
from farmops.cli.trees import whys
from farmops.model.supplies import HeldBy, Movement, Supply, SupplyLot, SupplyUse
from farmops.quantities import show_money
from farmops.quantities.supplies import COUNTED_BY, STORED_IN, held_of, show_held
from farmops.reports.supplies_held import SupplyHeld


def plain_supply(one: Supply) -> dict[str, object]:
    """A supply in JSON's words; amounts in what `held_in` names."""
    return {
        "id": one.id,
        "name": one.name,
        "category": one.category,
        "held_in": STORED_IN[one.held_by],
        "reorder_at": one.reorder_at,
        "reorder_typed": one.reorder_typed,
        "note": one.note,
    }


def plain_held(one: SupplyHeld, with_why: bool = False) -> dict[str, object]:
    """What is held of a supply in JSON's words."""
    return {
        **plain_supply(one.supply),
        "held": one.held,
        "worth_cents": one.worth_minor,
        "used_per_day": None if one.a_day is None else round(float(one.a_day), 3),
        "days_left": one.days_left,
        "good_until": one.good_until,
        "past_its_date": one.past_its_date,
        "to_reorder": one.to_reorder,
        "taken_beyond": one.beyond,
        **whys(with_why, {"held": one.figures["held"], "worth_cents": one.figures["worth"]}),
    }


def plain_lot(one: SupplyLot) -> dict[str, object]:
    """What was bought in JSON's words."""
    return {
        "id": one.id,
        "supply": one.supply,
        "date": one.day,
        "amount": one.amount,
        "amount_in": STORED_IN[one.held_by],
        "amount_typed": one.amount_typed,
        "paid_cents": one.cost_minor,
        "from_whom": one.payee,
        "cost_id": one.cost_id,
        "lot": one.lot_code,
        "opened": one.opened_day,
        "good_until": one.expires_day,
        "note": one.note,
    }


def plain_use(one: SupplyUse) -> dict[str, object]:
    """What was taken or counted in JSON's words; unit null for all."""
    return {
        "id": one.id,
        "supply": one.supply,
        "date": one.day,
        "kind": one.kind,
        "amount": one.amount,
        "amount_in": STORED_IN[one.held_by],
        "amount_typed": one.amount_typed,
        "unit": one.unit,
        "note": one.note,
    }


def held_words(desk: Desk, held_by: HeldBy, amount: int) -> str:
    """An amount of a supply as it is read."""
    return show_held(held_by, amount, desk.measures)


def money(desk: Desk, minor: int) -> str:
    """A sum as it is read."""
    return show_money(minor, desk.measures)


def watch_words(desk: Desk, one: SupplyHeld) -> str:
    """What to see to: past its date, to reorder, or counted anew."""
    beyond = held_words(desk, one.supply.held_by, one.beyond)
    said = (
        "past its date" if one.past_its_date else "",
        "to reorder" if one.to_reorder else "",
        f"{beyond} more was taken than bought: count it" if one.beyond else "",
    )
    return ", ".join(word for word in said if word)


def tell_supply(desk: Desk, one: Supply, done: str, as_json: bool) -> None:
    """A supply was entered or changed."""
    if as_json:
        emit(plain_supply(one))
        return
    level = "" if one.reorder_at is None else f", to reorder at {held_words(desk, one.held_by, one.reorder_at)}"
    say(f"{one.name}, {one.category}, counted by {COUNTED_BY[one.held_by]}{level}, {done}; number {one.id}.")


def tell_lot(desk: Desk, one: SupplyLot, done: str, as_json: bool) -> None:
    """Something was bought, or corrected."""
    if as_json:
        emit({"currency": desk.measures.currency, **plain_lot(one)})
        return
    paid = "there already" if one.cost_minor is None else f"for {money(desk, one.cost_minor)}"
    what = held_of(one.held_by, one.amount, one.supply, desk.measures)
    good = f", good until {one.expires_day}" if one.expires_day else ""
    say(f"{done}: {what}, {paid}, on {one.day}{good}; number {one.id}.")


def tell_use(desk: Desk, one: SupplyUse, done: str, as_json: bool, beyond: int = 0) -> None:
    """Something was taken or counted, or corrected; `beyond` is what the books did not hold of it."""
    if as_json:
        emit(plain_use(one))
        return
    amount, whose = held_of(one.held_by, one.amount, one.supply, desk.measures), one.unit or "all"
    what = f"{one.kind}: {amount}{'' if one.kind is Movement.COUNTED else f' for {whose}'}"
    say(f"{done}{what}, {one.day}; number {one.id}.")
    if beyond:
        more = held_words(desk, one.held_by, beyond)
        say(f'{more} more was taken than the books held. Count it: farmops supplies count "{one.supply}" AMOUNT')


def print_held(desk: Desk, found: Sequence[SupplyHeld]) -> None:
    """Supplies in a table."""
    rows = [
        [
            str(one.supply.id),
            one.supply.name,
            held_words(desk, one.supply.held_by, one.held),
            money(desk, one.worth_minor),
            "" if one.days_left is None else str(one.days_left),
            str(one.good_until or ""),
            watch_words(desk, one),
        ]
        for one in found
    ]
    table(["no.", "supply", "held", "worth", "days left", "good until", ""], rows, right=[0, 2, 3, 4])
