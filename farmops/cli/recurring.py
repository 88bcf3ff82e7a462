"""`farmops costs recurring`: costs that come again; each time is booked by a person."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.cost_edits import asked_again
from farmops.cli.cost_output import tell_cost
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.model.costs import Category
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.journal import Removal
from farmops.model.recurring import NewRecurring, NewTime, RecurringChange, RecurringCost
from farmops.quantities import show_money
from farmops.reports import names
from farmops.reports.recurring import Recurrence
from farmops.reports.recurring import recurring as standing

LISTED = "farmops costs recurring list"


@click.group()
def recurring() -> None:
    """Costs that come again by a rule: rent, insurance, a contract. What is due waits until you book it."""


@recurring.command("list")
@on_option
@answer_options
@pass_desk
def list_recurring(desk: Desk, on: str | None, as_json: bool) -> None:
    """List what comes again, what is due first.

    \b
    Example: farmops costs recurring list
    """
    found = standing(desk.store, desk.day(on))
    if as_json:
        emit({"currency": desk.measures.currency, "recurring": [plain_standing(one) for one in found]})
    elif not found:
        say(
            'Nothing comes again. Say what does: farmops costs recurring add "stall rent" 25 --every "month on the 1st"'
        )
    else:
        rows = [
            [
                str(one.id),
                one.cost.what,
                show_money(one.cost.amount_minor, desk.measures),
                one.cost.unit or "shared",
                one.cost.payee or "",
                one.cost.rule_words,
                due_words(one),
            ]
            for one in found
        ]
        table(["no.", "what", "amount", "for", "to whom", "comes", "next"], rows, right=[0, 2])


def due_words(one: Recurrence) -> str:
    """When it is due, or that it is over."""
    if one.next is None:
        return "over"
    more = f" and {len(one.due) - 1} more" if len(one.due) > 1 else ""
    return f"due {one.due[0]}{more}" if one.due else str(one.next)


@recurring.command("add")
@click.argument("what")
@click.argument("amount")
@click.option("--every", metavar="WORDS", help='When: "month on the 1st", "year on 3 may", "3 months on the 15th".')
@click.option("--rule", metavar="RRULE", help="When, as the text of an RFC 5545 rule, taken literally.")
@click.option("--from", "first", metavar="DAY", help="The first day it can fall on. [today]")
@click.option("--until", metavar="DAY", help="The last day. [no end]")
@click.option("--category", type=one_of(Category), default=Category.OTHER.value, show_default=True)
@click.option("--unit", metavar="CODE", help="The unit that bears it alone. [shared by all active units]")
@click.option("--from-whom", "payee", metavar="NAME", help="Who is paid.")
@click.option("--label", metavar="LABEL", help="Its label of a set that was loaded.")
@note_option
@json_option
@pass_desk
def add(
    desk: Desk, /, what: str, amount: str, first: str | None, until: str | None, as_json: bool, **typed: Any
) -> None:
    """Describe a cost that comes again; nothing is booked until you do.

    \b
    Examples: farmops costs recurring add "stall rent" 25 --every "month on the 1st" --category fees-and-permits
              farmops costs recurring add insurance 180 --every "year on 3 may" --category insurance
    """
    from farmops.farm.recurring import add_recurring

    start = desk.day_or_none(first, ahead=True) or desk.today
    every, text, unit = typed["every"], typed["rule"], typed["unit"]
    if (every is None) == (text is None):
        raise NotUnderstood('Say when it comes, once: --every "month on the 1st", or --rule FREQ=MONTHLY.')
    entry = NewRecurring(
        what,
        desk.money(amount),
        every or text,
        start,
        word(Category, typed["category"]),
        typed["payee"],
        names.unit(desk.store, unit).id if unit is not None else None,
        desk.day_or_none(until, ahead=True),
        typed["label"],
        typed["note"],
        literal=every is None,
    )
    _told(desk, add_recurring(desk.store, entry, **desk.hand), as_json)


@recurring.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--what", metavar="TEXT")
@click.option("--amount", metavar="AMOUNT")
@click.option("--category", type=one_of(Category))
@click.option("--from-whom", "payee", metavar="NAME", help="Who is paid; - clears it.")
@click.option("--label", metavar="LABEL", help="Its label; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct what comes again, by its number; what is booked stays as it is.

    \b
    Example: farmops costs recurring edit 1 --amount 27.50
    """
    given = emptied(changes(**typed), "payee", "label", "note")
    if "amount" in given:
        given["amount"] = desk.money(given["amount"])
    if "category" in given:
        given["category"] = word(Category, given["category"])
    _change(desk, RecurringChange(_numbered(desk, number).id, **given), as_json)


@recurring.command("end")
@click.argument("number", type=NUMBER)
@on_option
@json_option
@pass_desk
def end(desk: Desk, number: int, on: str | None, as_json: bool) -> None:
    """It comes for the last time on a day; what fell due before stays to be booked.

    \b
    Example: farmops costs recurring end 1 --on "31 dec"
    """
    _change(desk, RecurringChange(_numbered(desk, number).id, until_day=desk.day(on)), as_json)


def _change(desk: Desk, entry: RecurringChange, as_json: bool) -> None:
    from farmops.farm.recurring import change_recurring

    _told(desk, change_recurring(desk.store, entry, **desk.hand), as_json)


@recurring.command("book")
@click.argument("number", type=NUMBER)
@click.option("--amount", metavar="AMOUNT", help="How much it was this time. [as described]")
@click.option("--early", is_flag=True, help="Book the next time although it is not due yet.")
@click.option("--again", is_flag=True, help="Book it although the same was paid to the same that day.")
@click.option("--on", metavar="DAY", help="The day it was paid. [the day it fell due]")
@json_option
@pass_desk
def book(desk: Desk, number: int, amount: str | None, early: bool, again: bool, on: str | None, as_json: bool) -> None:
    """Book the time that is open first, by the number of what comes again.

    \b
    Example: farmops costs recurring book 1 --amount 26.10
    """
    from farmops.farm.recurring import book_time

    one = _numbered(desk, number)
    if one.next is None:
        raise Refused(f"Not booked: {one.cost.what} is over.")
    if not one.due and not early:
        early_words = f"Paid already? farmops costs recurring book {number} --early"
        raise Refused(f"Not booked: {one.cost.what} is due on {one.next}. {early_words}")
    paid = desk.money(amount) if amount is not None else None
    entry = NewTime(one.id, one.next, desk.day_or_none(on), paid, again)
    with asked_again():
        booked = book_time(desk.store, entry, **desk.hand)
    tell_cost(desk, booked, "Booked", as_json=as_json)


@recurring.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove what comes again by its number; refused once a time of it is booked, then end it.

    \b
    Example: farmops costs recurring remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("recurring", one.id), **desk.hand)
    say(f"{one.cost.what} comes no more. farmops undo brings it back.")


def _numbered(desk: Desk, number: int) -> Recurrence:
    return numbered(standing(desk.store, desk.today), number, "recurring cost", LISTED)


def plain_recurring(one: RecurringCost) -> dict[str, object]:
    """A recurring cost in JSON's words."""
    return {
        "id": one.id,
        "what": one.what,
        "amount_cents": one.amount_minor,
        "category": one.category,
        "unit": one.unit,
        "from_whom": one.payee,
        "rule": one.rule_text,
        "rule_words": one.rule_words,
        "from": one.start_day,
        "until": one.until_day,
        "label": one.label,
        "note": one.note,
        "booked": one.booked,
    }


def plain_standing(one: Recurrence) -> dict[str, object]:
    """A recurring cost with the times that are due."""
    return {**plain_recurring(one.cost), "due": list(one.due), "next": one.next}


def _told(desk: Desk, one: RecurringCost, as_json: bool) -> None:
    if as_json:
        emit(plain_recurring(one))
        return
    until = f" until {one.until_day}" if one.until_day else ""
    amount, days = show_money(one.amount_minor, desk.measures), f"{one.rule_words}, from {one.start_day}{until}"
    say(f"{amount} for {one.what} comes {days}; number {one.id}. Book it when it is paid.")
