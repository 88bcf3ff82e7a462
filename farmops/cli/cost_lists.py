"""`farmops costs list|find|show`: what was paid."""

from __future__ import annotations

from datetime import date

import click

from farmops.cli.cost_output import cost_of, plain_cost, print_costs
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER
from farmops.cli.options import answer_options, one_of, span_options, word
from farmops.cli.output import emit, line, say
from farmops.model.costs import Category, Cost
from farmops.quantities import show_life, show_money
from farmops.reports import lists, names


@click.command("list")
@span_options
@click.option("--unit", metavar="CODE", help="Only what one unit, its beds and its fish bear.")
@click.option("--category", type=one_of(Category), help="Only one kind of thing.")
@answer_options
@pass_desk
def list_costs(
    desk: Desk, first: str | None, last: str | None, unit: str | None, category: str | None, as_json: bool
) -> None:
    """List what was paid, oldest first.

    \b
    Example: farmops costs list --from "1 sep" --category feed
    """
    paid = _paid(desk, first, last)
    code = names.unit(desk.store, unit).code if unit is not None else None
    kind = word(Category, category)
    found = [one for one in paid if code in (None, one.unit) and kind in (None, one.category)]
    _tell(desk, found, 'No cost here. Book one: farmops costs add "fish feed 50 lb" 42.50 --category feed', as_json)


@click.command("find")
@click.argument("text", default="")
@click.option("--from-whom", "payee", metavar="NAME", help="Only what this payee got.")
@click.option("--amount", metavar="AMOUNT", help="Only of just this amount.")
@click.option("--over", metavar="AMOUNT", help="Only of this amount or more.")
@click.option("--under", metavar="AMOUNT", help="Only of this amount or less.")
@span_options
@answer_options
@pass_desk
def find_costs(
    desk: Desk,
    text: str,
    payee: str | None,
    amount: str | None,
    over: str | None,
    under: str | None,
    first: str | None,
    last: str | None,
    as_json: bool,
) -> None:
    """Find costs by words in what they were for, who was paid, the label, the receipt or the note.

    \b
    Examples: farmops costs find pump
              farmops costs find --from-whom mill --over 40 --from "1 jan"
    """
    paid = _paid(desk, first, last)
    bounds = [None if one is None else desk.money(one, zero_ok=True).exact for one in (amount, over, under)]
    found = [one for one in paid if _says(one, text, payee) and _costs(one, *bounds)]
    _tell(desk, found, "No cost like that. All of them: farmops costs list", as_json)


def _paid(desk: Desk, first: str | None, last: str | None) -> list[Cost]:
    lists.farm(desk.store)
    return lists.costs(desk.store, desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)


def _says(one: Cost, text: str, payee: str | None) -> bool:
    """Whether every word stands somewhere in a cost, and the payee's in its payee."""
    said = (one.what, one.category, one.payee, one.where, one.label, one.receipt_name, one.note)
    whole = " ".join(word for word in said if word).casefold()
    return all(word in whole for word in text.casefold().split()) and (
        payee is None or payee.casefold() in (one.payee or "").casefold()
    )


def _costs(one: Cost, just: int | None, over: int | None, under: int | None) -> bool:
    return just in (None, one.amount_minor) and (over or 0) <= one.amount_minor <= (
        one.amount_minor if under is None else under
    )


def _tell(desk: Desk, found: list[Cost], none: str, as_json: bool) -> None:
    if as_json:
        emit({"currency": desk.measures.currency, "costs": [plain_cost(desk, one) for one in found]})
    elif found:
        print_costs(desk, found)
    else:
        say(none)


@click.command("show")
@click.argument("number", type=NUMBER)
@answer_options
@pass_desk
def show_cost(desk: Desk, number: int, as_json: bool) -> None:
    """Show one cost by its number in the list.

    \b
    Example: farmops costs show 7
    """
    one = cost_of(desk, number)
    if as_json:
        emit(plain_cost(desk, one))
        return
    line(f"{one.what}, {show_money(one.amount_minor, desk.measures)} on {one.day}, number {one.id}")
    line(f"{one.category}, for {one.where or 'all units'}{f', from {one.payee}' if one.payee else ''}")
    if one.life_months:
        salvage = show_money(one.salvage_minor or 0, desk.measures)
        line(f"lasts {show_life(one.life_months)}, worth {salvage} at its end")
    if one.label:
        line(f"label: {one.label}")
    if one.receipt_name:
        line(f"receipt: {one.receipt_name}; where it is kept: farmops costs receipt {one.id}")
    if one.note:
        line(one.note)
