"""`farmops supplies edit` and `remove`: slips with supplies put right."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied, numbered
from farmops.cli.options import json_option, one_of, word
from farmops.cli.output import say
from farmops.cli.supply_output import tell_lot, tell_supply, tell_use
from farmops.model.costs import Category
from farmops.model.journal import Removal
from farmops.model.supplies import HeldBy, Movement, SupplyChange, SupplyLotChange, SupplyUseChange
from farmops.model.values import Measured
from farmops.quantities.supplies import read_held
from farmops.reports import names
from farmops.reports.supplies_held import bought_numbered, supplies, supply_called, taken_numbered

KINDS = {"supply": "supplies", "bought": "bought supplies", "used": "used supplies"}


@click.command("edit")
@click.argument("name")
@click.option("--name", "new_name", metavar="TEXT", help="Another name.")
@click.option("--category", type=one_of(Category))
@click.option("--reorder", metavar="AMOUNT", help="What is left when more is to be bought; - for no level.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(desk: Desk, /, name: str, as_json: bool, **typed: Any) -> None:
    """Correct a supply by its name.

    \b
    Example: farmops supplies edit pellets --reorder "15 lb"
    """
    from farmops.farm.supplies import change_supply

    one = supply_called(desk.store, name)
    values = emptied(changes(**typed), "reorder", "note")
    if "new_name" in values:
        values["name"] = values.pop("new_name")
    if values.get("category"):
        values["category"] = word(Category, values["category"])
    if values.get("reorder"):
        values["reorder"] = _amount(desk, one.held_by, values["reorder"], zero_ok=True)
    changed = change_supply(desk.store, SupplyChange(one.id, **values), **desk.hand)
    tell_supply(desk, changed, "changed", as_json)


@click.command("edit-bought")
@click.argument("number", type=NUMBER)
@click.option("--amount", metavar="AMOUNT")
@click.option("--paid", metavar="SUM", help="What was paid for all of it; - for nothing.")
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid; - clears it.")
@click.option("--lot", "lot_code", metavar="TEXT", help="The lot number on the bag; - clears it.")
@click.option("--opened", "opened_day", metavar="DAY", help="When it was opened; - clears it.")
@click.option("--good-until", "expires_day", metavar="DAY", help="The date on the bag; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", "day", metavar="DAY", help="The day it was bought.")
@json_option
@pass_desk
def edit_bought(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct what was bought, by its number; its cost follows.

    \b
    Example: farmops supplies edit-bought 2 --paid 44 --opened today
    """
    from farmops.farm.supplies import change_bought

    one = bought_numbered(desk.store, number)
    values = emptied(changes(**typed), "paid", "payee", "lot_code", "opened_day", "expires_day", "note")
    readers: dict[str, Callable[[str], Any]] = {
        "amount": lambda text: _amount(desk, one.held_by, text),
        "paid": desk.money,
        "day": desk.day,
        "opened_day": desk.day,
        "expires_day": lambda text: desk.day_or_none(text, ahead=True),
    }
    values = {key: readers[key](text) if text is not None and key in readers else text for key, text in values.items()}
    tell_lot(desk, change_bought(desk.store, SupplyLotChange(one.id, **values), **desk.hand), "Changed", as_json)


@click.command("edit-used")
@click.argument("number", type=NUMBER)
@click.option("--amount", metavar="AMOUNT")
@click.option("--unit", metavar="CODE", help="The unit that bears it alone; - when all share it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", "day", metavar="DAY", help="The day it was used or counted.")
@json_option
@pass_desk
def edit_used(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct what was used or counted, by its number.

    \b
    Example: farmops supplies edit-used 5 --amount "3 lb"
    """
    from farmops.farm.supplies import change_use

    one = taken_numbered(desk.store, number)
    values = emptied(changes(**typed), "note")
    if "unit" in values:
        unit = values.pop("unit")
        values["unit_id"] = None if unit == NOTHING else names.unit(desk.store, unit).id
    if "amount" in values:
        values["amount"] = _amount(desk, one.held_by, values["amount"], zero_ok=one.kind is Movement.COUNTED)
    if "day" in values:
        values["day"] = desk.day(values["day"])
    changed = change_use(desk.store, SupplyUseChange(one.id, **values), **desk.hand)
    tell_use(desk, changed, "Changed; ", as_json)


@click.command("remove", short_help="Remove a supply, or what was bought, used or counted.")
@click.argument("what", type=click.Choice(list(KINDS)))
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, what: str, number: int) -> None:
    """Remove a supply, what was bought with its cost, or what was used or counted, by its number.

    \b
    Example: farmops supplies remove used 5
    """
    from farmops.farm.removal import remove_record

    if what == "supply":
        told = numbered(supplies(desk.store), number, "supply", "farmops supplies list").name
    elif what == "bought":
        told = f"What was bought of {bought_numbered(desk.store, number).supply}"
    else:
        one = taken_numbered(desk.store, number)
        told = f"What was {one.kind} of {one.supply}"
    remove_record(desk.store, Removal(KINDS[what], number), **desk.hand)
    say(f"{told} removed. farmops undo brings it back.")


def _amount(desk: Desk, held_by: HeldBy, text: str, *, zero_ok: bool = False) -> Measured:
    return Measured(read_held(held_by, text, desk.measures, zero_ok=zero_ok), text)
