"""`farmops costs add|edit|receipt|remove`: booking and correcting what was paid."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import click

from farmops.cli.cost_output import cost_of, tell_cost
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied
from farmops.cli.options import json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, line, say
from farmops.exchange.kept_files import Kept, keep, kept_state, place_of
from farmops.model.costs import Category, CostChange, CostKind, NewCost
from farmops.model.errors import NotFound, Refused, Unlikely
from farmops.model.journal import Removal
from farmops.quantities import parse_life
from farmops.reports import names
from farmops.reports.store import Store

LABEL_HELP = "Its label of a set that was loaded."


@contextmanager
def asked_again() -> Iterator[None]:
    """Where a double is asked about, say how to answer."""
    try:
        yield
    except Unlikely as error:
        raise Refused(f"{error} If it was, say so: --again") from None


@click.command("add")
@click.argument("what")
@click.argument("amount")
@click.option("--category", type=one_of(Category), default=Category.OTHER.value, show_default=True)
@click.option("--unit", metavar="CODE", help="The unit that bears it alone. [shared by all active units]")
@click.option("--bed", metavar="BED", help="The bed that it was for, such as WREN-N.")
@click.option("--lot", metavar="CODE", help="The fish lot that it was for.")
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid.")
@click.option("--life", metavar="TIME", help='How long it lasts, such as "8 years" or "30 months": it is capital.')
@click.option("--salvage", metavar="AMOUNT", help="What it is still worth at the end of its life.")
@click.option("--label", metavar="LABEL", help=LABEL_HELP)
@click.option("--receipt", metavar="FILE", help="The receipt; a copy is kept beside the store.")
@click.option("--again", is_flag=True, help="Book it although the same was paid already, or ahead of its day.")
@note_option
@on_option
@json_option
@pass_desk
def add_cost(desk: Desk, /, what: str, amount: str, again: bool, on: str | None, as_json: bool, **typed: Any) -> None:
    """Book money paid: WHAT it was for, and the AMOUNT.

    \b
    Examples: farmops costs add "fish feed 50 lb" 42.50 --category feed --on "3 may"
              farmops costs add pump 120 --unit WREN --category tools --life "8 years" --salvage 10
              farmops costs add seedlings 9 --bed WREN-N --from-whom "The nursery" --receipt slip.jpg
    """
    from farmops.farm.costs import record_cost

    day = desk.day(on)
    life, salvage, receipt = typed["life"], typed["salvage"], typed["receipt"]
    entry = NewCost(
        day,
        what,
        desk.money(amount),
        category=word(Category, typed["category"]),
        payee=typed["payee"],
        kind=CostKind.OPERATING if life is None else CostKind.CAPITAL,
        life_months=None if life is None else parse_life(life),
        salvage_minor=None if salvage is None else desk.money(salvage, zero_ok=True).exact,
        note=typed["note"],
        label=typed["label"],
        again=again,
        **_places(desk, typed),
        receipt=keep(desk.store, receipt) if receipt is not None else None,
    )
    with asked_again():
        booked = record_cost(desk.store, entry, **desk.hand)
    tell_cost(desk, booked, "Booked", as_json=as_json)


def _places(desk: Desk, typed: dict[str, Any]) -> dict[str, int | None]:
    """The unit, bed or lot that was named, as fields of an entry; `-` is none."""
    find: dict[str, tuple[str, Callable[[Store, str], Any]]] = {
        "unit": ("unit_id", names.unit),
        "bed": ("bed_id", names.bed),
        "lot": ("fish_lot_id", names.lot),
    }
    found: dict[str, int | None] = {}
    for name, (column, named) in find.items():
        text = typed.get(name)
        if text is not None:
            found[column] = None if text == NOTHING else named(desk.store, text).id
    return found


@click.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--what", metavar="TEXT")
@click.option("--amount", metavar="AMOUNT")
@click.option("--category", type=one_of(Category))
@click.option("--unit", metavar="CODE", help="The unit that bears it alone; - when all share it.")
@click.option("--bed", metavar="BED", help="The bed that it was for.")
@click.option("--lot", metavar="CODE", help="The fish lot that it was for.")
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid; - clears it.")
@click.option("--life", metavar="TIME", help="How long it lasts; - when it is used up at once.")
@click.option("--salvage", metavar="AMOUNT", help="What it is still worth at the end of its life; - for nothing.")
@click.option("--label", metavar="LABEL", help=f"{LABEL_HELP[:-1]}; - clears it.")
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
    entry = CostChange(cost_of(desk, number).id, **_understood(desk, emptied(given, "payee", "note", "label")))
    tell_cost(desk, change_cost(desk.store, entry, **desk.hand), "Changed", as_json=as_json)


def _understood(desk: Desk, given: dict[str, Any]) -> dict[str, Any]:
    """The options of an edit as fields of a change."""
    known = {name: value for name, value in given.items() if name not in ("unit", "bed", "lot", "life", "salvage")}
    known |= _places(desk, given)
    if "amount" in known:
        known["amount"] = desk.money(known["amount"])
    if "category" in known:
        known["category"] = word(Category, known["category"])
    if "salvage" in given:
        salvage = given["salvage"]
        known["salvage_minor"] = None if salvage == NOTHING else desk.money(salvage, zero_ok=True).exact
    if "life" in given:
        lasting = given["life"] != NOTHING
        known["kind"] = CostKind.CAPITAL if lasting else CostKind.OPERATING
        known["life_months"] = parse_life(given["life"]) if lasting else None
    return known


@click.command("receipt")
@click.argument("number", type=NUMBER)
@click.argument("file", required=False)
@json_option
@pass_desk
def receipt(desk: Desk, number: int, file: str | None, as_json: bool) -> None:
    """Keep FILE as the receipt of a cost; without FILE, say where it is kept and whether it is whole. - takes it off.

    \b
    Examples: farmops costs receipt 7 slip.jpg
              farmops costs receipt 7
    """
    one = cost_of(desk, number)
    if file is not None:
        from farmops.farm.costs import change_cost

        kept = None if file == NOTHING else keep(desk.store, file)
        entry = CostChange(one.id, receipt=kept)
        tell_cost(desk, change_cost(desk.store, entry, **desk.hand), "Changed", as_json=as_json)
        return
    if one.receipt is None:
        raise NotFound(f"Cost {one.id} has no receipt. Keep one: farmops costs receipt {one.id} slip.jpg")
    place, state = str(place_of(desk.store, one.receipt)), kept_state(desk.store, one.receipt, one.receipt_sha256 or "")
    if as_json:
        emit({"id": one.id, "receipt": one.receipt_name, "file": place, "sha256": one.receipt_sha256, "state": state})
        return
    line(place)
    if state is not Kept.WHOLE:
        say(f"The receipt {one.receipt_name} is {state}. A backup may have it; else keep it anew.")


@click.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_cost(desk: Desk, number: int) -> None:
    """Remove a cost by its number in the list; its receipt stays where it is kept.

    \b
    Example: farmops costs remove 7
    """
    from farmops.farm.removal import remove_record

    one = cost_of(desk, number)
    remove_record(desk.store, Removal("costs", one.id), **desk.hand)
    say(f"{one.what} of {one.day} removed. farmops undo brings it back.")
