"""`farmops usage`: how much pumps, feed and siphons worked, from which chores by use fall due."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, word
from farmops.cli.output import emit, say, table
from farmops.model.journal import Removal
from farmops.model.usage import Counter, NewUsage, Usage, UsageChange
from farmops.model.values import Measured
from farmops.reports import evidence, lists, names
from farmops.schedule.use_words import amount_words, read_amount

UNIT_OF = {Counter.PUMP_HOURS: "min", Counter.FEED: "mg", Counter.SIPHON_CYCLES: "cycles"}
NONE_YET = "No use is booked yet. Book some: farmops usage add WREN pump-hours 168"


@click.group()
def usage() -> None:
    """How much pumps, feed and siphons worked: chores by use fall due by it.

    Each record is what was used since the one before, not what a meter shows.
    """


@usage.command("add")
@click.argument("unit")
@click.argument("counter", type=one_of(Counter))
@click.argument("amount")
@on_option
@note_option
@json_option
@pass_desk
def add(desk: Desk, unit: str, counter: str, amount: str, on: str | None, note: str | None, as_json: bool) -> None:
    """Book what was used in a unit up to a day, since the record before.

    \b
    Examples: farmops usage add WREN pump-hours 168
              farmops usage add WREN feed "2 lb 4 oz" --on yesterday
              farmops usage add WREN siphon-cycles 640
    """
    from farmops.farm.usage import record_usage

    place, what = names.unit(desk.store, unit), word(Counter, counter)
    entry = NewUsage(place.id, what, desk.day(on), _amount(desk, what, amount), note)
    _told(desk, record_usage(desk.store, entry, **desk.hand), "booked", as_json)


@usage.command("list")
@click.option("--unit", metavar="CODE", help="Only one unit.")
@answer_options
@pass_desk
def list_usage(desk: Desk, unit: str | None, as_json: bool) -> None:
    """List what was used, newest first.

    \b
    Example: farmops usage list --unit WREN
    """
    lists.farm(desk.store)
    found = evidence.usages(desk.store, names.unit(desk.store, unit).id if unit else None)
    if as_json:
        emit({"usage": [usage_object(one) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        rows = [[str(one.id), str(one.day), one.unit, _words(desk, one), one.note or ""] for one in found]
        table(["no.", "day", "unit", "used", "note"], rows, right=[0])


@usage.command("edit")
@click.argument("number", type=int)
@click.option("--amount", metavar="AMOUNT", help="Another amount of the same.")
@click.option("--on", metavar="DAY", help="Another day.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(desk: Desk, number: int, amount: str | None, on: str | None, note: str | None, as_json: bool) -> None:
    """Correct a record of use.

    \b
    Example: farmops usage edit 3 --amount 172
    """
    from farmops.farm.usage import change_usage

    one = _numbered(desk, number)
    given = changes(
        amount=_amount(desk, one.counter, amount) if amount is not None else None,
        day=desk.day_or_none(on),
        note=note,
    )
    entry = UsageChange(one.id, **emptied(given, "note"))
    _told(desk, change_usage(desk.store, entry, **desk.hand), "changed", as_json)


@usage.command("remove")
@click.argument("number", type=int)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a record of use.

    \b
    Example: farmops usage remove 3
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("usage", one.id), **desk.hand)
    say(f"{_words(desk, one)} in {one.unit}, {one.day}, removed. farmops undo brings it back.")


def usage_object(one: Usage) -> dict[str, object]:
    """A record of use in JSON's words; `amount` in the unit that `amount_in` names."""
    return {
        "id": one.id,
        "day": one.day,
        "unit": one.unit,
        "counter": one.counter,
        "amount": one.amount,
        "amount_in": UNIT_OF[one.counter],
        "typed": one.typed,
        "note": one.note,
    }


def _amount(desk: Desk, counter: Counter, text: str) -> Measured:
    return Measured(read_amount(counter, text, desk.measures), text)


def _numbered(desk: Desk, number: int) -> Usage:
    lists.farm(desk.store)
    return numbered(evidence.usages(desk.store), number, "record of use", "farmops usage list")


def _words(desk: Desk, one: Usage) -> str:
    return amount_words(one.counter, one.amount, desk.measures)


def _told(desk: Desk, one: Usage, done: str, as_json: bool) -> None:
    if as_json:
        emit(usage_object(one))
    else:
        say(f"{_words(desk, one)} in {one.unit} up to {one.day}, number {one.id}, {done}.")
