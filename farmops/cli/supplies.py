"""`farmops supplies`: what is bought, used up and counted; what is held, its worth, and for how long."""

from __future__ import annotations

import click

from farmops.cli.cost_edits import asked_again
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, line, say, table
from farmops.cli.supply_edits import edit, edit_bought, edit_used, remove
from farmops.cli.supply_output import (
    held_words,
    money,
    plain_held,
    plain_lot,
    plain_use,
    print_held,
    tell_lot,
    tell_supply,
    tell_use,
    watch_words,
)
from farmops.cli.trees import only_in_json, why_option
from farmops.model.costs import Category
from farmops.model.supplies import HeldBy, Movement, NewSupply, NewSupplyLot, NewSupplyUse, Supply
from farmops.model.values import Measured
from farmops.quantities.supplies import read_held
from farmops.reports import names
from farmops.reports.supplies_held import SupplyBook, supplies_held, supply_book, supply_called

NONE_YET = 'No supply yet. Enter one: farmops supplies add pellets --category feed --reorder "10 lb"'


@click.group()
def supplies() -> None:
    """Feed, filter pads, seed and the like: bought, used up, counted.

    Each costs when it is used, at the average of what was paid for what was held.
    """


@supplies.command("list", short_help="List what is held, its worth and how long it lasts.")
@on_option
@why_option
@answer_options
@pass_desk
def list_supplies(desk: Desk, on: str | None, with_why: bool, as_json: bool) -> None:
    """List what is held, its worth, for how many days it lasts and until when it is good.

    \b
    Example: farmops supplies list
    """
    only_in_json(with_why, as_json)
    found = supplies_held(desk.store, desk.day_or_none(on))
    if as_json:
        emit({"currency": desk.measures.currency, "supplies": [plain_held(one, with_why) for one in found]})
    elif found:
        print_held(desk, found)
    else:
        say(NONE_YET)


@supplies.command("show")
@click.argument("name")
@on_option
@why_option
@answer_options
@pass_desk
def show_supply(desk: Desk, name: str, on: str | None, with_why: bool, as_json: bool) -> None:
    """Show a supply with what was bought of it and what was taken, each with its number.

    \b
    Example: farmops supplies show pellets
    """
    only_in_json(with_why, as_json)
    book = supply_book(desk.store, supply_called(desk.store, name), desk.day_or_none(on))
    if as_json:
        emit(
            {
                "currency": desk.measures.currency,
                **plain_held(book.line, with_why),
                "bought": [plain_lot(one) for one in book.lots],
                "used": [plain_use(one) for one in book.uses],
            }
        )
    else:
        _print(desk, book)


def _print(desk: Desk, book: SupplyBook) -> None:
    one = book.line
    held = held_words(desk, one.supply.held_by, one.held)
    lasts = "" if one.days_left is None else f", lasts {one.days_left} days at the rate of the last 28"
    line(f"{one.supply.name}, {one.supply.category}: {held} held, worth {money(desk, one.worth_minor)}{lasts}")
    if watch_words(desk, one):
        line(f"> {watch_words(desk, one)}")
    rows = [
        [
            "bought",
            str(lot.id),
            str(lot.day),
            held_words(desk, lot.held_by, lot.amount),
            "there already" if lot.cost_minor is None else money(desk, lot.cost_minor),
            ", ".join(word for word in (lot.payee, lot.lot_code and f"lot {lot.lot_code}") if word),
            f"good until {lot.expires_day}" if lot.expires_day else "",
        ]
        for lot in book.lots
    ]
    rows += [
        [
            use.kind,
            str(use.id),
            str(use.day),
            held_words(desk, use.held_by, use.amount),
            use.unit or "",
            use.note or "",
            "",
        ]
        for use in book.uses
    ]
    if rows:
        table(["", "no.", "day", "amount", "", "", ""], rows, right=[1, 3])


@supplies.command("add")
@click.argument("name")
@click.option("--by", "held_by", type=one_of(HeldBy), default=HeldBy.MASS.value, show_default=True, help="Counted by.")
@click.option("--category", type=one_of(Category), default=Category.SUPPLIES.value, show_default=True)
@click.option("--reorder", metavar="AMOUNT", help="What is left when more is to be bought: chores can wait for it.")
@note_option
@json_option
@pass_desk
def add(
    desk: Desk, name: str, held_by: str, category: str, reorder: str | None, note: str | None, as_json: bool
) -> None:
    """Enter a thing that is bought, held and used up.

    \b
    Examples: farmops supplies add pellets --category feed --reorder "10 lb"
              farmops supplies add "filter pads" --by count --reorder 2
    """
    from farmops.farm.supplies import add_supply

    kind = word(HeldBy, held_by)
    level = None if reorder is None else Measured(read_held(kind, reorder, desk.measures, zero_ok=True), reorder)
    entry = NewSupply(name, kind, word(Category, category), level, note)
    tell_supply(desk, add_supply(desk.store, entry, **desk.hand), "entered", as_json)


@supplies.command("buy")
@click.argument("name")
@click.argument("amount")
@click.argument("paid", required=False)
@click.option("--from-whom", "payee", metavar="NAME", help="Who was paid.")
@click.option("--lot", "lot_code", metavar="TEXT", help="The lot number on the bag.")
@click.option("--opened", metavar="DAY", help="When it was opened.")
@click.option("--good-until", metavar="DAY", help="The date on the bag.")
@click.option("--again", is_flag=True, help="Book it although it seems to be among the costs already.")
@note_option
@on_option
@json_option
@pass_desk
def buy(
    desk: Desk,
    name: str,
    amount: str,
    paid: str | None,
    payee: str | None,
    lot_code: str | None,
    opened: str | None,
    good_until: str | None,
    again: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Book what was bought and what was PAID for all of it; without a sum, what was there already.

    \b
    Examples: farmops supplies buy pellets "50 lb" 42.50 --from-whom "The mill" --good-until "31 dec"
              farmops supplies buy "filter pads" 6
    """
    from farmops.farm.supplies import buy_supply

    entry = NewSupplyLot(
        supply_called(desk.store, name).id,
        desk.day(on),
        _amount(desk, supply_called(desk.store, name), amount),
        None if paid is None else desk.money(paid),
        payee,
        lot_code,
        desk.day_or_none(opened),
        desk.day_or_none(good_until, ahead=True),
        note,
        again,
    )
    with asked_again():
        bought = buy_supply(desk.store, entry, **desk.hand)
    tell_lot(desk, bought, "Bought", as_json)


@supplies.command("use")
@click.argument("name")
@click.argument("amount")
@click.option("--unit", metavar="CODE", help="The unit that bears it alone. [shared by all active units]")
@click.option("--thrown-away", is_flag=True, help="It was thrown away: mouldy, torn, past its date.")
@note_option
@on_option
@json_option
@pass_desk
def use(
    desk: Desk,
    name: str,
    amount: str,
    unit: str | None,
    thrown_away: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Book what was used of a supply; it costs then, at the average of what was paid.

    \b
    Example: farmops supplies use "filter pads" 1 --unit WREN
    """
    unit_id = names.unit(desk.store, unit).id if unit is not None else None
    kind = Movement.THROWN_AWAY if thrown_away else Movement.USED
    supply = supply_called(desk.store, name)
    taken = _amount(desk, supply, amount)
    _take(desk, NewSupplyUse(supply.id, desk.day(on), taken, unit_id, kind, note), supply, as_json)


@supplies.command("count")
@click.argument("name")
@click.argument("amount")
@note_option
@on_option
@json_option
@pass_desk
def count(desk: Desk, name: str, amount: str, note: str | None, on: str | None, as_json: bool) -> None:
    """Book what was found to be left: what is missing was used by all, what is more comes in at no cost.

    \b
    Example: farmops supplies count pellets "22 lb"
    """
    supply = supply_called(desk.store, name)
    found = _amount(desk, supply, amount, zero_ok=True)
    _take(desk, NewSupplyUse(supply.id, desk.day(on), found, kind=Movement.COUNTED, note=note), supply, as_json)


def _take(desk: Desk, entry: NewSupplyUse, supply: Supply, as_json: bool) -> None:
    from farmops.farm.supplies import use_supply

    booked = use_supply(desk.store, entry, **desk.hand)
    beyond = 0 if as_json else supply_book(desk.store, supply, entry.day, 1).line.beyond
    tell_use(desk, booked, "", as_json, beyond)


def _amount(desk: Desk, supply: Supply, text: str, *, zero_ok: bool = False) -> Measured:
    return Measured(read_held(supply.held_by, text, desk.measures, zero_ok=zero_ok), text)


for command in (edit, edit_bought, edit_used, remove):
    supplies.add_command(command)
