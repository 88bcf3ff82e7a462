"""Costs as commands tell them: in JSON's words, in tables, in a sentence."""

from __future__ import annotations

from datetime import date

from farmops.cli.desk import Desk
from farmops.cli.entries import numbered
from farmops.cli.output import emit, say, table
from farmops.model.costs import Cost
from farmops.quantities import show_life, show_money
from farmops.reports import lists


def plain_cost(desk: Desk, one: Cost) -> dict[str, object]:
    """A cost in JSON's words; `_cents` are minor units of the currency, whatever its smallest coin is called."""
    return {
        "id": one.id,
        "date": one.day,
        "what": one.what,
        "category": one.category,
        "amount_cents": one.amount_minor,
        "amount_typed": one.amount_typed,
        "currency": desk.measures.currency,
        "unit": one.unit,
        "bed": one.bed,
        "lot": one.lot,
        "from_whom": one.payee,
        "kind": one.kind,
        "life_months": one.life_months,
        "salvage_cents": one.salvage_minor,
        "label": one.label,
        "recurring": one.recurring_cost_id,
        "receipt": one.receipt_name,
        "sha256": one.receipt_sha256,
        "note": one.note,
    }


def print_costs(desk: Desk, found: list[Cost]) -> None:
    """Costs as a table."""
    rows = [
        [
            str(one.id),
            str(one.day),
            one.what,
            one.category,
            show_money(one.amount_minor, desk.measures),
            one.where or "shared",
            one.payee or "",
            show_life(one.life_months) if one.life_months else "",
            one.note or "",
        ]
        for one in found
    ]
    heads = ["no.", "day", "what", "category", "amount", "for", "from whom", "lasts", "note"]
    table(heads, rows, right=[0, 4])


def tell_cost(desk: Desk, one: Cost, done: str, *, as_json: bool) -> None:
    """What was booked or changed."""
    if as_json:
        emit(plain_cost(desk, one))
        return
    lasts = f", to last {show_life(one.life_months)}" if one.life_months else ""
    kept = f", receipt {one.receipt_name} kept" if one.receipt_name else ""
    amount = show_money(one.amount_minor, desk.measures)
    where = one.where or "shared"
    say(f"{done}: {amount} for {one.what}, {one.category}, {where}, {one.day}{lasts}{kept}; number {one.id}.")


def cost_of(desk: Desk, number: int) -> Cost:
    """The cost of that number. Raises NotFound."""
    lists.farm(desk.store)
    return numbered(lists.costs(desk.store, date.min, date.max), number, "cost", "farmops costs list")
