"""`farmops orders`: what buyers take again and again; `farmops picks`, the pick list of a day, stands beside it."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied
from farmops.cli.options import answer_options, json_option, note_option, on_option
from farmops.cli.output import emit, say, table
from farmops.cli.picks import picks
from farmops.cli.sales import told_sale
from farmops.model.journal import Removal
from farmops.model.sales import NewOrder, OrderChange, SoldBy, StandingOrder
from farmops.quantities.sales import parse_order, show_amount, show_terms
from farmops.reports import ordering
from farmops.reports.products import product

__all__ = ["orders", "picks"]

MG_PER_G = 1_000
EXAMPLE = 'farmops orders add "the inn" "KALE 6 bunches at 2.50" --every "Tue Fri"'


@click.group()
def orders() -> None:
    """What buyers take again and again, until a day or for good."""


@orders.command("add")
@click.argument("buyer")
@click.argument("what")
@click.option("--every", "rule", metavar="RULE", required=True, help='On which days, such as "Tue Fri", week, month.')
@click.option("--from", "first", metavar="DAY", help="The first day it may be wanted. [today]")
@click.option("--until", metavar="DAY", help="The last day. [for good]")
@note_option
@json_option
@pass_desk
def add_order(desk: Desk, /, buyer: str, what: str, first: str | None, as_json: bool, **typed: Any) -> None:
    """A BUYER wants so much of a crop, or of fish of a species: WHAT says which, how much and for what.

    \b
    Examples: farmops orders add "the inn" "KALE 6 bunches at 2.50" --every "Tue Fri"
              farmops orders add "the market" "yellow perch 4 lb at 8/lb" --every "2 weeks on Sat" --until "30 sep"
    """
    from farmops.farm.orders import record_order

    line = parse_order(what, desk.measures)
    crop_id, species = product(desk.store, line.what)
    entry = NewOrder(
        buyer,
        line.terms,
        typed["rule"],
        desk.day(first),
        crop_id=crop_id,
        species=species,
        until_day=desk.day_or_none(typed["until"], ahead=True),
        note=typed["note"],
    )
    _told(desk, record_order(desk.store, entry, **desk.hand), "Booked", as_json)


@orders.command("list")
@click.option("--all", "over_too", is_flag=True, help="Those that are over, too.")
@answer_options
@pass_desk
def list_orders(desk: Desk, over_too: bool, as_json: bool) -> None:
    """List standing orders, by buyer, with the day each is wanted next.

    \b
    Example: farmops orders list
    """
    found = [one for one in ordering.orders(desk.store) if over_too or _lasts(desk, one)]
    if as_json:
        emit({"currency": desk.measures.currency, "orders": [plain_order(desk, one) for one in found]})
    elif not found:
        say(f"No standing order. Book one: {EXAMPLE}")
    else:
        heads = ["no.", "buyer", "what", "how much", "price", "every", "next", "until", "note"]
        table(heads, [_row(desk, one) for one in found], right=[0])


def _lasts(desk: Desk, one: StandingOrder) -> bool:
    return ordering.next_wanted(one, desk.today) is not None


def _row(desk: Desk, one: StandingOrder) -> list[str]:
    amount = show_amount(one.sold_by, one.amount, desk.measures)
    terms = show_terms(ordering.terms_of(one), desk.measures)
    following = ordering.next_wanted(one, desk.today)
    cells = [str(one.id), one.buyer, one.what, amount, terms, one.rule_words]
    return [*cells, str(following or "over"), str(one.until_day or ""), one.note or ""]


@orders.command("end")
@click.argument("number", type=NUMBER)
@click.option("--on", metavar="DAY", help="The last day it is wanted. [today]")
@json_option
@pass_desk
def end_order(desk: Desk, number: int, on: str | None, as_json: bool) -> None:
    """A standing order ends; what was sold for it stays.

    \b
    Example: farmops orders end 2 --on "30 sep"
    """
    from farmops.farm.orders import change_order

    one = ordering.order(desk.store, number)
    entry = OrderChange(one.id, until_day=desk.day(on))
    _told(desk, change_order(desk.store, entry, **desk.hand), "Ends", as_json)


@orders.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--buyer", metavar="NAME")
@click.option("--what", metavar="TEXT", help="How much and for what, of the same crop or species.")
@click.option("--every", "rule", metavar="RULE", help="On which days.")
@click.option("--from", "first", metavar="DAY", help="The first day it may be wanted.")
@click.option("--until", metavar="DAY", help="The last day; - for good.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit_order(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct a standing order by its number.

    \b
    Example: farmops orders edit 2 --what "KALE 8 bunches at 2.40" --every Fri
    """
    from farmops.farm.orders import change_order

    given = emptied(changes(**typed), "note")
    one = ordering.order(desk.store, number)
    entry = OrderChange(one.id, **_understood(desk, one, given))
    _told(desk, change_order(desk.store, entry, **desk.hand), "Changed", as_json)


def _understood(desk: Desk, one: StandingOrder, given: dict[str, Any]) -> dict[str, Any]:
    known: dict[str, Any] = {name: given[name] for name in ("buyer", "rule", "note") if name in given}
    if "what" in given:
        known["terms"] = ordering.same_product(desk.store, one, parse_order(given["what"], desk.measures))
    if "first" in given:
        known["start_day"] = desk.day(given["first"])
    if "until" in given:
        known["until_day"] = None if given["until"] == NOTHING else desk.day_or_none(given["until"], ahead=True)
    return known


@orders.command("fill")
@click.argument("numbers", type=NUMBER, nargs=-1, required=True)
@click.option("--from", "source", metavar="WHERE", help='From which bed or lot, such as "WREN-N KALE".')
@click.option("--what", metavar="TEXT", help="What is handed over instead, such as: KALE 4 bunches at 2.50")
@on_option
@json_option
@pass_desk
def fill_order(
    desk: Desk, numbers: tuple[int, ...], source: str | None, what: str | None, on: str | None, as_json: bool
) -> None:
    """Fill orders of one buyer on a day they are wanted: it makes a sale with a line for each.

    \b
    Examples: farmops orders fill 1 2
              farmops orders fill 1 --from "WREN-N KALE" --what "KALE 4 bunches at 2.50" --on fri
    """
    from farmops.farm.sales import record_sale

    if len(numbers) > 1 and (source or what):
        raise click.UsageError("--from and --what are about one order.")
    fillings = [ordering.Filling(one, source) for one in dict.fromkeys(numbers)]
    if what is not None:
        one, line = ordering.order(desk.store, numbers[0]), parse_order(what, desk.measures)
        fillings = [ordering.Filling(one.id, source, ordering.same_product(desk.store, one, line))]
    entry = ordering.filling_sale(desk.store, fillings, desk.day(on))
    told_sale(desk, record_sale(desk.store, entry, **desk.hand), "Booked", as_json)


@orders.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_order(desk: Desk, number: int) -> None:
    """Remove a standing order that was a slip; one that is over ends instead.

    \b
    Example: farmops orders remove 2
    """
    from farmops.farm.removal import remove_record

    one = ordering.order(desk.store, number)
    remove_record(desk.store, Removal("orders", one.id), **desk.hand)
    say(f"The order of {one.what} by {one.buyer} removed. farmops undo brings it back.")


def plain_order(desk: Desk, one: StandingOrder) -> dict[str, object]:
    """A standing order in JSON's words; what is sold by count stands in `_count`."""
    by_weight = one.sold_by is SoldBy.WEIGHT
    return {
        "id": one.id,
        "buyer": one.buyer,
        "what": one.what,
        "kind": "crop" if one.crop_id is not None else "fish",
        "sold_by": one.sold_by,
        "amount_g": one.amount / MG_PER_G if by_weight else None,
        "amount_count": None if by_weight else one.amount,
        "price_cents": one.price_minor,
        "per_g": one.per_amount / MG_PER_G if by_weight else None,
        "per_count": None if by_weight else one.per_amount,
        "currency": desk.measures.currency,
        "every": one.rule_words,
        "from": one.start_day,
        "until": one.until_day,
        "next": ordering.next_wanted(one, desk.today),
        "note": one.note,
    }


def _told(desk: Desk, one: StandingOrder, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_order(desk, one))
        return
    amount = show_amount(one.sold_by, one.amount, desk.measures)
    until = f" until {one.until_day}" if one.until_day else ""
    following = ordering.next_wanted(one, desk.today)
    then = f", next {following:%a} {following}" if following else ", over"
    terms = show_terms(ordering.terms_of(one), desk.measures)
    say(f"{done}: {one.buyer} wants {amount} of {one.what} {terms}, {one.rule_words}{until}{then}; number {one.id}.")
