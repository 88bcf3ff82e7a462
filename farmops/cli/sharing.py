"""`farmops sharing`: what shared costs go to the units by, how produce and fish split a cost, what an hour is worth."""

from __future__ import annotations

from collections.abc import Sequence

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER, numbered
from farmops.cli.options import answer_options, json_option, on_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.model.costs import (
    ALL_SHARED,
    Category,
    Driver,
    DriverFrom,
    JointMethod,
    JointSplit,
    LabourRate,
    NewDriver,
    NewJointSplit,
    NewLabourRate,
)
from farmops.model.journal import Removal
from farmops.model.values import Measured
from farmops.quantities import parse_money, show_money
from farmops.quantities.shares import parse_parts, parse_produce_share
from farmops.reports import lists, names

KINDS = {"driver": "drivers", "split": "splits", "labour": "labour rates"}


@click.group()
def sharing() -> None:
    """How costs are shared: by what, between which products, and at what rate of an hour; each from a day on."""


@sharing.command("list", short_help="List every driver, split and rate.")
@answer_options
@pass_desk
def list_sharing(desk: Desk, as_json: bool) -> None:
    """List every driver, split and rate with the day from which it holds.

    \b
    Example: farmops sharing list
    """
    lists.farm(desk.store)
    codes = {one.unit.id: one.unit.code for one in lists.units(desk.store)}
    found = lists.sharing(desk.store)
    if as_json:
        emit(
            {
                "currency": desk.measures.currency,
                "drivers": [plain_driver(one, codes) for one in found.drivers],
                "splits": [plain_split(one) for one in found.splits],
                "labour": [plain_rate(one) for one in found.rates],
            }
        )
        return
    rows = [
        ["driver", str(one.id), str(one.from_day), one.category, _driver_words(one, codes)] for one in found.drivers
    ]
    rows += [["split", str(one.id), str(one.from_day), "produce and fish", _split_words(one)] for one in found.splits]
    rows += [
        ["labour", str(one.id), str(one.from_day), one.person or "everybody", f"{_money(desk, one)} an hour"]
        for one in found.rates
    ]
    if rows:
        table(["what", "no.", "from", "of", "by"], rows, right=[1])
    else:
        say("Nothing set: shared costs go by active days, produce and fish split by weight, labour is not counted.")
        say("Set one: farmops sharing driver bed-area   farmops sharing split sales-value   farmops sharing labour 15")


@sharing.command("driver")
@click.argument("driver", type=one_of(Driver))
@click.argument("shares", nargs=-1, metavar="[UNIT=PARTS]...")
@click.option("--for", "category", type=one_of(Category), help="Only for costs of one kind. [all]")
@on_option
@json_option
@pass_desk
def add_driver(
    desk: Desk, driver: str, shares: tuple[str, ...], category: str | None, on: str | None, as_json: bool
) -> None:
    """Shared costs go to the units by this from a day on; the days before keep theirs.

    \b
    Examples: farmops sharing driver pump-watt-hours --for power
              farmops sharing driver fixed-shares WREN=2 ROOK=1 --on "1 jan"
    """
    from farmops.farm.sharing import set_driver

    parts = tuple(_share(desk, one) for one in shares)
    entry = NewDriver(desk.day(on), word(Driver, driver), word(Category, category), parts)
    booked = set_driver(desk.store, entry, **desk.hand)
    codes = {one.unit.id: one.unit.code for one in lists.units(desk.store)}
    if as_json:
        emit(plain_driver(booked, codes))
    else:
        what = "Shared costs" if booked.category == ALL_SHARED else f"Shared costs of {booked.category}"
        say(f"{what} go by {_driver_words(booked, codes)} from {booked.from_day}; number {booked.id}.")


def _share(desk: Desk, text: str) -> tuple[int, int]:
    code, parts = parse_parts(text)
    return names.unit(desk.store, code).id, parts


@sharing.command("split", short_help="Set how a cost is split between produce and fish.")
@click.argument("method", type=one_of(JointMethod))
@click.argument("produce", required=False, metavar="[PRODUCE%]")
@on_option
@json_option
@pass_desk
def add_split(desk: Desk, method: str, produce: str | None, on: str | None, as_json: bool) -> None:
    """The cost of a unit is split between its produce and its fish by this method from a day on.

    \b
    Examples: farmops sharing split sales-value
              farmops sharing split fixed-shares 70%
    """
    from farmops.farm.sharing import set_joint_split

    entry = NewJointSplit(desk.day(on), word(JointMethod, method), parse_produce_share(produce) if produce else None)
    booked = set_joint_split(desk.store, entry, **desk.hand)
    if as_json:
        emit(plain_split(booked))
    else:
        told = _split_words(booked)
        say(f"Produce and fish split a unit's cost by {told} from {booked.from_day}; number {booked.id}.")


@sharing.command("labour")
@click.argument("rate")
@click.option("--person", metavar="NAME", help="Only of one person. [everybody]")
@on_option
@json_option
@pass_desk
def add_rate(desk: Desk, rate: str, person: str | None, on: str | None, as_json: bool) -> None:
    """An hour of work is worth RATE from a day on; minutes on chores and weighings count by it.

    \b
    Example: farmops sharing labour 15 --on "1 mar"
    """
    from farmops.farm.sharing import set_labour_rate

    who = names.person(desk.store, person).id if person is not None else None
    amount = Measured(parse_money(rate, desk.measures), rate)
    booked = set_labour_rate(desk.store, NewLabourRate(desk.day(on), amount, who), **desk.hand)
    if as_json:
        emit({"currency": desk.measures.currency, **plain_rate(booked)})
    else:
        whose = booked.person or "everybody"
        say(f"An hour of {whose} is worth {_money(desk, booked)} from {booked.from_day}; number {booked.id}.")


@sharing.command("remove")
@click.argument("what", type=click.Choice(list(KINDS)))
@click.argument("number", type=NUMBER)
@pass_desk
def remove_sharing(desk: Desk, what: str, number: int) -> None:
    """Remove a driver, a split or a rate by its number in the list.

    \b
    Example: farmops sharing remove driver 2
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    found = lists.sharing(desk.store)
    among: dict[str, Sequence[DriverFrom | JointSplit | LabourRate]] = {
        "driver": found.drivers,
        "split": found.splits,
        "labour": found.rates,
    }
    one = numbered(among[what], number, what, "farmops sharing list")
    remove_record(desk.store, Removal(KINDS[what], one.id), **desk.hand)
    say(f"The {what} from {one.from_day} removed. farmops undo brings it back.")


def plain_driver(one: DriverFrom, codes: dict[int, str]) -> dict[str, object]:
    """A driver in JSON's words; shares are parts of them all, by unit."""
    shares = {codes[id]: parts for id, parts in one.shares}
    return {"id": one.id, "from": one.from_day, "category": one.category, "driver": one.driver, "shares": shares}


def plain_split(one: JointSplit) -> dict[str, object]:
    """A split in JSON's words."""
    return {"id": one.id, "from": one.from_day, "method": one.method, "produce_thousandths": one.produce_thousandths}


def plain_rate(one: LabourRate) -> dict[str, object]:
    """A rate in JSON's words: cents an hour; person null for everybody."""
    return {"id": one.id, "from": one.from_day, "person": one.person, "cents_per_hour": one.rate_minor}


def _driver_words(one: DriverFrom, codes: dict[int, str]) -> str:
    shares = ", ".join(f"{codes[id]} {parts}" for id, parts in one.shares)
    return f"{one.driver} ({shares})" if shares else "active days, equal" if one.driver is Driver.EQUAL else one.driver


def _split_words(one: JointSplit) -> str:
    if one.produce_thousandths is None:
        return one.method.value
    return f"{one.method} ({one.produce_thousandths / 10:g} % produce)"


def _money(desk: Desk, one: LabourRate) -> str:
    return show_money(one.rate_minor, desk.measures)
