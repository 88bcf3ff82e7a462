"""`farmops sales`: what was sold to whom, line by line, and what came back."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied
from farmops.cli.options import answer_options, json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.model.journal import Removal
from farmops.model.sales import ComingBack, NewSale, Sale, SaleChange, SaleLine, SoldBy
from farmops.quantities import show_money
from farmops.quantities.sales import part_of, show_amount, show_line
from farmops.reports import lists, selling

MG_PER_G = 1_000
EXAMPLE = 'farmops sales add "the gate stall" --line "CHARD 2 lb at 3.50/lb"'


@click.group()
def sales() -> None:
    """What was sold to whom, line by line, and what came back."""


@sales.command("add")
@click.argument("buyer")
@click.option("--line", "lines", metavar="TEXT", multiple=True, required=True, help="What was sold; again for more.")
@note_option
@on_option
@json_option
@pass_desk
def add_sale(desk: Desk, buyer: str, lines: tuple[str, ...], note: str | None, on: str | None, as_json: bool) -> None:
    """Book a sale to a BUYER, with a --line for each thing sold.

    A line says what, how much, and the price: 'at' for each pound, bunch, head, dozen or piece, 'for' for all of it.
    Where a crop stands in several beds, the bed goes before it. What is sold by count may say its weight with
    'weighing'; what came back, 'unsold' or 'returned', is not paid for.

    \b
    Examples: farmops sales add "the gate stall" --line "CHARD 2 lb at 3.50/lb" --line "PERCH-24 3 lb for 21"
              farmops sales add "the inn" --line "WREN-N KALE 12 bunches weighing 6 lb at 2.50 unsold 2" --on sat
    """
    from farmops.farm.sales import record_sale

    day = desk.day(on)
    entry = NewSale(day, buyer, selling.sale_lines(desk.store, lines, day), note)
    told_sale(desk, record_sale(desk.store, entry, **desk.hand), "Booked", as_json)


@sales.command("list")
@span_options
@click.option("--buyer", metavar="NAME", help="Only what one buyer took.")
@answer_options
@pass_desk
def list_sales(desk: Desk, first: str | None, last: str | None, buyer: str | None, as_json: bool) -> None:
    """List sales, oldest first.

    \b
    Example: farmops sales list --from "1 sep" --buyer "the inn"
    """
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    lists.farm(desk.store)
    found = [one for one in selling.sales(desk.store, *span) if _is_of(one, buyer)]
    if as_json:
        emit({"currency": desk.measures.currency, "sales": [plain_sale(desk, one) for one in found]})
    elif not found:
        say(f"No sale here. Book one: {EXAMPLE}")
    else:
        rows = [_row(desk, one) for one in found]
        table(["no.", "day", "buyer", "paid", "what", "note"], rows, right=[0, 3])


def _is_of(one: Sale, buyer: str | None) -> bool:
    return buyer is None or one.buyer.casefold() == " ".join(buyer.split()).casefold()


def _row(desk: Desk, one: Sale) -> list[str]:
    what = ", ".join(f"{each.name} {_sold(desk, each)}" for each in one.lines)
    return [str(one.id), str(one.day), one.buyer, show_money(one.paid_minor, desk.measures), what, one.note or ""]


def _sold(desk: Desk, one: SaleLine) -> str:
    return show_amount(one.sold_by, one.sold, desk.measures) if one.sold else "nothing"


@sales.command("show")
@click.argument("number", type=NUMBER)
@answer_options
@pass_desk
def show_sale(desk: Desk, number: int, as_json: bool) -> None:
    """Show one sale by its number, with its lines.

    \b
    Example: farmops sales show 3
    """
    one = selling.sale(desk.store, number)
    if as_json:
        emit(plain_sale(desk, one))
        return
    line(f"{one.buyer}, {show_money(one.paid_minor, desk.measures)} on {one.day}, number {one.id}")
    for each in one.lines:
        line(f"  {show_line(each, desk.measures)}")
    if one.note:
        line(one.note)


@sales.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--buyer", metavar="NAME")
@click.option("--line", "lines", metavar="TEXT", multiple=True, help="All that was sold, in place of what is booked.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", metavar="DAY", help="The day it was sold.")
@json_option
@pass_desk
def edit_sale(desk: Desk, /, number: int, on: str | None, lines: tuple[str, ...], as_json: bool, **typed: Any) -> None:
    """Correct a sale by its number; lines that are given take the place of all it had.

    \b
    Example: farmops sales edit 3 --line "CHARD 2 lb at 3.25/lb" --line "KALE 4 bunches for 9"
    """
    from farmops.farm.sales import change_sale

    given = emptied(changes(day=desk.day_or_none(on), lines=lines or None, **typed), "note")
    known = selling.sale(desk.store, number)
    if lines:
        given["lines"] = selling.sale_lines(desk.store, lines, given.get("day", known.day))
    told_sale(desk, change_sale(desk.store, SaleChange(known.id, **given), **desk.hand), "Changed", as_json)


@sales.command("return")
@click.argument("number", type=NUMBER)
@click.argument("amount")
@click.option("--line", "what", metavar="WHAT", default="", help="Which line, where the sale has several.")
@click.option("--unsold", is_flag=True, help="It was never sold, instead of brought back by the buyer.")
@json_option
@pass_desk
def return_sale(desk: Desk, number: int, amount: str, what: str, unsold: bool, as_json: bool) -> None:
    """So much more of a sale came back; it is not paid for.

    \b
    Examples: farmops sales return 3 "2 bunches" --line KALE
              farmops sales return 3 "8 oz" --unsold
    """
    from farmops.farm.sales import take_in_return

    one = selling.line_called(selling.sale(desk.store, number), what)
    part = part_of(amount, one.sold_by, desk.measures)
    entry = ComingBack(one.id, unsold=part) if unsold else ComingBack(one.id, returned=part)
    told_sale(desk, take_in_return(desk.store, entry, **desk.hand), "Changed", as_json)


@sales.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_sale(desk: Desk, number: int) -> None:
    """Remove a sale and its lines by its number.

    \b
    Example: farmops sales remove 3
    """
    from farmops.farm.removal import remove_record

    one = selling.sale(desk.store, number)
    remove_record(desk.store, Removal("sales", one.id), **desk.hand)
    say(f"The sale to {one.buyer} of {one.day} removed. farmops undo brings it back.")


def plain_sale(desk: Desk, one: Sale) -> dict[str, object]:
    """A sale in JSON's words; `_cents` are minor units of the currency."""
    return {
        "id": one.id,
        "date": one.day,
        "buyer": one.buyer,
        "paid_cents": one.paid_minor,
        "currency": desk.measures.currency,
        "lines": [_plain_line(each) for each in one.lines],
        "note": one.note,
    }


def _plain_line(one: SaleLine) -> dict[str, object]:
    by_weight = one.sold_by is SoldBy.WEIGHT
    amounts = {"taken": one.amount, "unsold": one.unsold, "returned": one.returned, "sold": one.sold}
    return {
        "id": one.id,
        "what": one.what,
        "bed": one.bed,
        "sold_by": one.sold_by,
        **{f"{name}_g": amount / MG_PER_G if by_weight else None for name, amount in amounts.items()},
        **{f"{name}_count": None if by_weight else amount for name, amount in amounts.items()},
        "sold_weight_g": None if one.sold_mg is None else one.sold_mg / MG_PER_G,
        "price_cents": one.price_minor,
        "per_g": one.per_amount / MG_PER_G if by_weight else None,
        "per_count": None if by_weight else one.per_amount,
        "paid_cents": one.paid_minor,
        "amount_typed": one.amount_typed,
        "price_typed": one.price_typed,
    }


def told_sale(desk: Desk, one: Sale, done: str, as_json: bool) -> None:
    """Say what a sale is now, line by line, or print it as JSON."""
    if as_json:
        emit(plain_sale(desk, one))
        return
    paid = show_money(one.paid_minor, desk.measures)
    say(f"{done}: {paid} from {one.buyer}, {one.day}; number {one.id}.")
    for each in one.lines:
        say(f"  {show_line(each, desk.measures)}")
