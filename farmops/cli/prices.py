"""`farmops prices`: what a crop, or fish of a species, is worth from a day on."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, numbered
from farmops.cli.options import answer_options, json_option, on_option
from farmops.cli.output import emit, say, table
from farmops.model.costs import ListPrice, NewPrice, PriceChange
from farmops.model.errors import OutOfRange
from farmops.model.journal import Removal
from farmops.model.text import plain
from farmops.quantities import Price, parse_price, show_price
from farmops.reports import lists
from farmops.reports.products import product

MG_PER_G = 1_000
MOST_KEPT = 2**63 - 1


@click.group()
def prices() -> None:
    """What produce and fish are worth, from a day on."""


@prices.command("list")
@answer_options
@pass_desk
def list_prices(desk: Desk, as_json: bool) -> None:
    """List every price, by crop or species and day.

    \b
    Example: farmops prices list
    """
    lists.farm(desk.store)
    found = lists.prices(desk.store)
    if as_json:
        emit({"currency": desk.measures.currency, "prices": [plain_price(desk, one) for one in found]})
    elif not found:
        say("No price yet. First a crop (farmops crops add CHARD), then its price: farmops prices add CHARD 3.50/lb")
    else:
        rows = [[str(one.id), one.what, str(one.from_day), _shown(desk, one)] for one in found]
        table(["no.", "what", "from", "price"], rows, right=[0])


@prices.command("add")
@click.argument("what")
@click.argument("price")
@on_option
@json_option
@pass_desk
def add_price(desk: Desk, what: str, price: str, on: str | None, as_json: bool) -> None:
    """A crop, or fish of a species, is worth this PRICE from a day on; the days before keep theirs.

    \b
    Examples: farmops prices add CHARD 3.50/lb
              farmops prices add "yellow perch" "6 per lb" --on "1 jan"
    """
    from farmops.farm.costs import set_price

    day = desk.day(on)
    worth = _kept(price, parse_price(price, desk.measures))
    crop_id, species = product(desk.store, what)
    entry = NewPrice(day, worth.minor, worth.per_mg, price, crop_id=crop_id, species=species)
    booked = set_price(desk.store, entry, **desk.hand)
    if as_json:
        emit(plain_price(desk, booked))
    else:
        say(f"{booked.what} is worth {_shown(desk, booked)} from {booked.from_day}; number {booked.id}.")


def _kept(text: str, price: Price) -> Price:
    """The price, unless its two whole numbers are greater than a store can keep."""
    if max(price.minor, price.per_mg) > MOST_KEPT:
        raise OutOfRange(f"{plain(text)!r} has more digits than a price can keep. Write it with fewer.")
    return price


@prices.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--price", metavar="PRICE", help="What it is worth.")
@click.option("--on", metavar="DAY", help="The day it holds from.")
@json_option
@pass_desk
def edit_price(desk: Desk, number: int, price: str | None, on: str | None, as_json: bool) -> None:
    """Correct a price by its number in the list; the days before it keep theirs.

    \b
    Example: farmops prices edit 2 --price 3.75/lb --on "1 jun"
    """
    from farmops.farm.costs import change_price

    given = changes(price=price, from_day=desk.day_or_none(on))
    one = _numbered(desk, number)
    if price is not None:
        worth = _kept(price, parse_price(price, desk.measures))
        given |= {"price_minor": worth.minor, "per_mg": worth.per_mg, "typed": given.pop("price")}
    booked = change_price(desk.store, PriceChange(one.id, **given), **desk.hand)
    if as_json:
        emit(plain_price(desk, booked))
    else:
        say(f"Changed: {booked.what} is worth {_shown(desk, booked)} from {booked.from_day}; number {booked.id}.")


@prices.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_price(desk: Desk, number: int) -> None:
    """Remove a price by its number in the list.

    \b
    Example: farmops prices remove 2
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("prices", one.id), **desk.hand)
    say(f"The price of {one.what} from {one.from_day} removed. farmops undo brings it back.")


def _numbered(desk: Desk, number: int) -> ListPrice:
    lists.farm(desk.store)
    return numbered(lists.prices(desk.store), number, "price", "farmops prices list")


def plain_price(desk: Desk, one: ListPrice) -> dict[str, object]:
    """A price in JSON's words: so many minor units of the currency for so many grams, never divided."""
    return {
        "id": one.id,
        "what": one.what,
        "kind": "crop" if one.crop_id is not None else "fish",
        "from": one.from_day,
        "price_cents": one.price_minor,
        "per_g": one.per_mg / MG_PER_G,
        "currency": desk.measures.currency,
        "typed": one.typed,
    }


def _shown(desk: Desk, one: ListPrice) -> str:
    return show_price(Price(one.price_minor, one.per_mg), desk.measures)
