"""`farmops costs`: money paid, for a unit or shared; `farmops prices` stands beside it."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied, numbered
from farmops.cli.options import json_option, note_option, on_option, one_of, span_options, word
from farmops.cli.output import emit, line, say, table
from farmops.cli.prices import prices
from farmops.model.costs import Category, Cost, CostChange, CostKind, NewCost
from farmops.model.journal import Removal
from farmops.quantities import parse_life, show_life, show_money
from farmops.reports import lists, names

__all__ = ["costs", "prices"]


@click.group()
def costs() -> None:
    """Money paid, for a unit or shared by all; in JSON, cents are the smallest coin of the farm's currency."""


@costs.command("list")
@span_options
@click.option("--unit", metavar="CODE", help="Only what one unit bears alone.")
@click.option("--category", type=one_of(Category), help="Only one kind of thing.")
@json_option
@pass_desk
def list_costs(
    desk: Desk, first: str | None, last: str | None, unit: str | None, category: str | None, as_json: bool
) -> None:
    """List what was paid, oldest first.

    \b
    Example: farmops costs list --from "1 sep" --category feed
    """
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    lists.farm(desk.store)
    code = names.unit(desk.store, unit).code if unit is not None else None
    kind = word(Category, category)
    paid = [one for one in lists.costs(desk.store, *span) if code in (None, one.unit)]
    found = [one for one in paid if kind in (None, one.category)]
    if as_json:
        emit({"currency": desk.measures.currency, "costs": [plain_cost(desk, one) for one in found]})
    elif found:
        _print(desk, found)
    else:
        say('No cost here. Book one: farmops costs add "fish feed 50 lb" 42.50 --category feed')


def _print(desk: Desk, found: list[Cost]) -> None:
    rows = [
        [
            str(one.id),
            str(one.day),
            one.what,
            one.category,
            show_money(one.amount_minor, desk.measures),
            one.unit or "shared",
            one.payee or "",
            show_life(one.life_months) if one.life_months else "",
            one.note or "",
        ]
        for one in found
    ]
    heads = ["no.", "day", "what", "category", "amount", "for", "from whom", "lasts", "note"]
    table(heads, rows, right=[0, 4])


@costs.command("show")
@click.argument("number", type=NUMBER)
@json_option
@pass_desk
def show_cost(desk: Desk, number: int, as_json: bool) -> None:
    """Show one cost by its number in the list.

    \b
    Example: farmops costs show 7
    """
    one = _cost(desk, number)
    if as_json:
        emit(plain_cost(desk, one))
        return
    line(f"{one.what}, {show_money(one.amount_minor, desk.measures)} on {one.day}, number {one.id}")
    line(f"{one.category}, for {one.unit or 'all units'}{f', from {one.payee}' if one.payee else ''}")
    if one.life_months:
        salvage = show_money(one.salvage_minor or 0, desk.measures)
        line(f"lasts {show_life(one.life_months)}, worth {salvage} at its end")
    if one.note:
        line(one.note)


@costs.command("add")
@click.argument("what")
@click.argument("amount")
@click.option("--category", type=one_of(Category), default=Category.OTHER.value, show_default=True)
@click.option("--unit", metavar="CODE", help="The unit that bears it alone. [shared by all active units]")
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid.")
@click.option("--life", metavar="TIME", help='How long it lasts, such as "8 years" or "30 months": it is capital.')
@click.option("--salvage", metavar="AMOUNT", help="What it is still worth at the end of its life.")
@note_option
@on_option
@json_option
@pass_desk
def add_cost(desk: Desk, /, what: str, amount: str, on: str | None, as_json: bool, **typed: Any) -> None:
    """Book money paid: WHAT it was for, and the AMOUNT.

    \b
    Examples: farmops costs add "fish feed 50 lb" 42.50 --category feed --on "3 may"
              farmops costs add pump 120 --unit WREN --category tools --life "8 years" --salvage 10
    """
    from farmops.farm.costs import record_cost

    day = desk.day(on)
    unit, life, salvage = typed["unit"], typed["life"], typed["salvage"]
    entry = NewCost(
        day,
        what,
        desk.money(amount),
        category=word(Category, typed["category"]),
        payee=typed["payee"],
        unit_id=names.unit(desk.store, unit).id if unit is not None else None,
        kind=CostKind.OPERATING if life is None else CostKind.CAPITAL,
        life_months=None if life is None else parse_life(life),
        salvage_minor=None if salvage is None else desk.money(salvage, zero_ok=True).exact,
        note=typed["note"],
    )
    _told(desk, record_cost(desk.store, entry, **desk.hand), "Booked", as_json)


@costs.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--what", metavar="TEXT")
@click.option("--amount", metavar="AMOUNT")
@click.option("--category", type=one_of(Category))
@click.option("--unit", metavar="CODE", help="The unit that bears it alone; - when all share it.")
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid; - clears it.")
@click.option("--life", metavar="TIME", help="How long it lasts; - when it is used up at once.")
@click.option("--salvage", metavar="AMOUNT", help="What it is still worth at the end of its life; - for nothing.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", metavar="DAY", help="The day it was paid.")
@json_option
@pass_desk
def edit_cost(desk: Desk, /, number: int, on: str | None, as_json: bool, **typed: Any) -> None:
    """Correct a cost by its number in the list.

    \b
    Example: farmops costs edit 7 --amount 44 --unit -
    """
    from farmops.farm.costs import change_cost

    given = changes(day=desk.day_or_none(on), **typed)
    entry = CostChange(_cost(desk, number).id, **_understood(desk, emptied(given, "payee", "note")))
    _told(desk, change_cost(desk.store, entry, **desk.hand), "Changed", as_json)


def _understood(desk: Desk, given: dict[str, Any]) -> dict[str, Any]:
    """The options of an edit as fields of a change."""
    known = {name: value for name, value in given.items() if name not in ("unit", "life", "salvage")}
    if "amount" in known:
        known["amount"] = desk.money(known["amount"])
    if "category" in known:
        known["category"] = word(Category, known["category"])
    if "unit" in given:
        known["unit_id"] = None if given["unit"] == NOTHING else names.unit(desk.store, given["unit"]).id
    if "salvage" in given:
        salvage = given["salvage"]
        known["salvage_minor"] = None if salvage == NOTHING else desk.money(salvage, zero_ok=True).exact
    if "life" in given:
        lasting = given["life"] != NOTHING
        known["kind"] = CostKind.CAPITAL if lasting else CostKind.OPERATING
        known["life_months"] = parse_life(given["life"]) if lasting else None
    return known


@costs.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_cost(desk: Desk, number: int) -> None:
    """Remove a cost by its number in the list.

    \b
    Example: farmops costs remove 7
    """
    from farmops.farm.removal import remove_record

    one = _cost(desk, number)
    remove_record(desk.store, Removal("costs", one.id), **desk.hand)
    say(f"{one.what} of {one.day} removed. farmops undo brings it back.")


def _cost(desk: Desk, number: int) -> Cost:
    lists.farm(desk.store)
    return numbered(lists.costs(desk.store, date.min, date.max), number, "cost", "farmops costs list")


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
        "from_whom": one.payee,
        "kind": one.kind,
        "life_months": one.life_months,
        "salvage_cents": one.salvage_minor,
        "note": one.note,
    }


def _told(desk: Desk, one: Cost, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_cost(desk, one))
        return
    lasts = f", to last {show_life(one.life_months)}" if one.life_months else ""
    amount = show_money(one.amount_minor, desk.measures)
    say(f"{done}: {amount} for {one.what}, {one.category}, {one.unit or 'shared'}, {one.day}{lasts}; number {one.id}.")
