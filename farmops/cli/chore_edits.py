"""`farmops chores add|edit|list|show|remove|preview`: describing chores and trying rules out."""

from __future__ import annotations

from typing import Any

import click

from farmops import clock
from farmops.cli.chore_output import chore_object
from farmops.cli.desk import Desk, changes, cleared, pass_desk
from farmops.cli.options import answer_options, json_option, one_of, word
from farmops.cli.output import emit, line, say, table
from farmops.model.chores import Chore, ChoreChange, ChoreClass, NewChore, PartOfDay
from farmops.model.errors import NotUnderstood
from farmops.model.journal import Removal
from farmops.model.units import UnitState
from farmops.reports import lists, names
from farmops.reports.reasons import next_of, next_words

NO_DAY = "on no day: it rests or is settled for good"
CLASS_HELP = "How grave it is when it is missed."


@click.command("list")
@click.option("--unit", metavar="CODE", help="Only one unit.")
@answer_options
@pass_desk
def list_chores(desk: Desk, unit: str | None, as_json: bool) -> None:
    """Every chore, due or not, with its rule and next day.

    \b
    Example: farmops chores list --unit WREN
    """
    code = names.unit(desk.store, unit).code if unit else None
    lists.farm(desk.store)
    found = [one for one in lists.chores(desk.store) if code in (None, one.unit)]
    if as_json:
        emit({"chores": [chore_object(one) for one in found]})
    elif not found:
        say('No chore yet. Add one: farmops chores add "Sweep the path" --every "14 days after"')
    else:
        told = next_words(desk.store, found)
        rows = [[str(one.id), _place(one), one.title, one.rule_words, told[one.id]] for one in found]
        table(["no.", "where", "chore", "rule", "next"], rows, right=[0])


def _place(one: Chore) -> str:
    return one.bed or one.lot or one.unit or "all"


@click.command()
@click.argument("number", type=int)
@answer_options
@pass_desk
def show(desk: Desk, number: int, as_json: bool) -> None:
    """One chore with its instructions and caution.

    \b
    Example: farmops chores show 12
    """
    one = names.chore(desk.store, number)
    if as_json:
        emit(chore_object(one))
        return
    line(f"{one.title} ({_place(one)}), {one.grade}, {one.minutes} min{', adults only' if one.adults_only else ''}")
    line(f"{one.rule_words}; next {next_of(desk.store, one, NO_DAY)}")
    for words in (one.instructions, one.caution):
        if words:
            line(words)
    if one.readings:
        line(f"Read: {one.readings.replace(',', ', ')}")
    if one.confirmation:
        line(f"Not done without: {one.confirmation}")
    if one.person:
        line(f"By {one.person} as a rule")


@click.command()
@click.argument("title")
@click.option(
    "--every",
    metavar="WORDS",
    help='When: "day", "14 days after", "month on the 31st", "2000 pump hours", "when frost to come".',
)
@click.option("--rule", metavar="RRULE", help="When, as the text of an RFC 5545 rule, taken literally.")
@click.option("--from", "first", metavar="DAY", help="First day it can be due. [today]")
@click.option("--unit", metavar="CODE", help="The unit it belongs to. [the farm]")
@click.option("--bed", metavar="BED", help="The bed it belongs to.")
@click.option("--lot", metavar="CODE", help="The fish lot it belongs to.")
@click.option("--class", "grade", type=one_of(ChoreClass), default="upkeep", show_default=True, help=CLASS_HELP)
@click.option("--part", type=one_of(PartOfDay), default="none", show_default=True, help="Part of the day.")
@click.option("--minutes", type=click.IntRange(0, 1440), default=5, show_default=True)
@click.option("--instructions", metavar="TEXT")
@click.option("--caution", metavar="TEXT")
@click.option("--reading", "readings", metavar="NAME", multiple=True, help="A reading it asks for; may be repeated.")
@click.option("--confirmation", metavar="TEXT", help="What must be confirmed, such as `flow seen`.")
@click.option("--adults-only", is_flag=True)
@click.option("--person", metavar="NAME", help="Who does it as a rule. [whoever is here]")
@click.option("--month", "months", type=click.IntRange(1, 12), multiple=True, help="Only in this month; repeatable.")
@click.option("--in-state", "states", type=one_of(UnitState), multiple=True, help="Only in this state; repeatable.")
@click.option("--with-fish", is_flag=True, help="Only while live fish are in the unit.")
@json_option
@pass_desk
def add(
    desk: Desk,
    /,
    title: str,
    every: str | None,
    rule: str | None,
    first: str | None,
    unit: str | None,
    bed: str | None,
    lot: str | None,
    person: str | None,
    as_json: bool,
    **rest: Any,
) -> None:
    """Add a chore of your own, for the farm or for one unit, bed or fish lot.

    \b
    Examples: farmops chores add "Oil the door" --every "month on the last Friday"
              farmops chores add "Net the pond side" --unit WREN --every "14 days after" --minutes 10
    """
    from farmops.farm.chores import add_chore

    entry = NewChore(
        title,
        _rule(every, rule),
        desk.day(first),
        literal=rule is not None,
        unit_id=names.unit(desk.store, unit).id if unit else None,
        bed_id=names.bed(desk.store, bed).id if bed else None,
        fish_lot_id=names.lot(desk.store, lot).id if lot else None,
        person_id=names.person(desk.store, person).id if person else None,
        **_typed(rest),
    )
    _told(desk, add_chore(desk.store, entry, **desk.hand), "added", as_json)


def _person(desk: Desk, person: str | None, anyone: bool) -> int | None:
    """The number of whoever it falls to as a rule; 0 for anyone, None where nothing was said."""
    if person is not None and anyone:
        raise click.UsageError("Either --person NAME or --anyone.")
    return 0 if anyone else names.person(desk.store, person).id if person else None


def _rule(every: str | None, rule: str | None) -> str:
    if (every is None) == (rule is None):
        raise click.UsageError("Say when it is due: either --every WORDS or --rule RRULE.")
    return every if every is not None else str(rule)


def _typed(rest: dict[str, Any]) -> dict[str, Any]:
    """Words of choices as members of their enums, repeated options as tuples."""
    kinds = {"grade": ChoreClass, "part": PartOfDay}
    typed = {name: word(kinds[name], value) if name in kinds else value for name, value in rest.items()}
    if typed.get("states") is not None:
        typed["states"] = tuple(word(UnitState, state) for state in typed["states"])
    return typed


@click.command()
@click.argument("number", type=int)
@click.option("--title", metavar="TEXT")
@click.option("--every", metavar="WORDS", help="A new rule in plain words.")
@click.option("--rule", metavar="RRULE", help="A new rule as RFC 5545 text.")
@click.option("--from", "first", metavar="DAY", help="First day it can be due.")
@click.option("--class", "grade", type=one_of(ChoreClass))
@click.option("--part", type=one_of(PartOfDay))
@click.option("--minutes", type=click.IntRange(0, 1440))
@click.option("--instructions", metavar="TEXT", help="- clears it.")
@click.option("--caution", metavar="TEXT", help="- clears it.")
@click.option("--confirmation", metavar="TEXT", help="- clears it.")
@click.option("--adults-only/--anybody", default=None)
@click.option("--person", metavar="NAME", help="Who does it as a rule; --anyone: whoever is here.")
@click.option("--anyone", is_flag=True, help="It falls to whoever is here.")
@json_option
@pass_desk
def edit(
    desk: Desk,
    /,
    number: int,
    every: str | None,
    rule: str | None,
    first: str | None,
    person: str | None,
    anyone: bool,
    as_json: bool,
    **rest: Any,
) -> None:
    """Change a chore; what was settled stays settled.

    \b
    Examples: farmops chores edit 12 --every "21 days after"
              farmops chores edit 12 --person Ada
              farmops chores edit 12 --anyone
    """
    from farmops.farm.chores import change_chore

    names.chore(desk.store, number)
    start = desk.day_or_none(first)
    new_rule = _rule(every, rule) if every or rule else None
    given = changes(rule=new_rule, start_day=start, person_id=_person(desk, person, anyone), **_typed(rest))
    for name in ("instructions", "caution", "confirmation"):
        if name in given:
            given[name] = cleared(given[name])
    if anyone:
        given["person_id"] = None
    entry = ChoreChange(number, literal=rule is not None, **given)
    _told(desk, change_chore(desk.store, entry, **desk.hand), "changed", as_json)


@click.command()
@click.argument("number", type=int)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a chore that was never settled; pause one that has a history.

    \b
    Example: farmops chores remove 12
    """
    from farmops.farm.removal import remove_record

    chore = names.chore(desk.store, number)
    remove_record(desk.store, Removal("chores", number), **desk.hand)
    say(f"{chore.title} removed. farmops undo brings it back.")


@click.command()
@click.option("--every", metavar="WORDS", help="When, in plain words.")
@click.option("--rule", metavar="RRULE", help="When, as the text of an RFC 5545 rule, taken literally.")
@click.option("--from", "first", metavar="DAY", required=True, help="First day it can be due.")
@click.option("--count", "number", type=click.IntRange(1, 1000), default=10, show_default=True)
@click.option("--tz", "zone", metavar="ZONE", help="IANA zone in which an UNTIL in UTC becomes a day. [UTC]")
@answer_options
def preview(every: str | None, rule: str | None, first: str, number: int, zone: str | None, as_json: bool) -> None:
    """The next days of a rule, each done when due. Needs no farm.

    \b
    Examples: farmops chores preview --every "month on the 31st" --from 2026-01-31 --count 4
              farmops chores preview --rule "FREQ=MONTHLY;BYDAY=-1FR" --from 2026-01-01
    """
    from farmops.schedule.preview import foreseen
    from farmops.schedule.rfc import parse_rrule
    from farmops.schedule.words import parse_words

    text = _rule(every, rule)
    used = zone or "UTC"
    start = clock.parse_day(first, clock.today(used))
    days = foreseen(parse_rrule(text, start, used) if rule else parse_words(text, start), number)
    if not days:
        raise NotUnderstood(f"{text} falls on no day from {start} on.")
    if as_json:
        emit({"dates": days})
    else:
        for day in days:
            line(f"{day}  {day:%a}")


def _told(desk: Desk, chore: Chore, done: str, as_json: bool) -> None:
    if as_json:
        emit(chore_object(chore))
    else:
        following = next_of(desk.store, chore, "on no day")
        say(f"{chore.title} {done}, number {chore.id}: {chore.rule_words}; next {following}.")
