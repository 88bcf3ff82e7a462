"""`farmops chores done|skip|defer|pause|resume|history`."""

from __future__ import annotations

import click

from farmops import clock
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option, on_option
from farmops.cli.output import emit, line, say, table
from farmops.model.chores import NewPause, Resuming, Settled, SettledAs, Settling
from farmops.reports import lists, names


@click.command()
@click.argument("numbers", type=int, nargs=-1, required=True)
@click.option("--confirm", is_flag=True, help="What the chore insists on was seen, such as `flow seen`.")
@click.option("--minutes", type=click.IntRange(0, 1440), help="How long it took.")
@on_option
@json_option
@pass_desk
def done(
    desk: Desk, numbers: tuple[int, ...], confirm: bool, minutes: int | None, on: str | None, as_json: bool
) -> None:
    """Settle chores as done, by their numbers in the round.

    \b
    Example: farmops chores done 12 13 --confirm
    """
    _settle(desk, numbers, SettledAs.DONE, on, as_json, confirm=confirm, minutes=minutes)


@click.command()
@click.argument("numbers", type=int, nargs=-1, required=True)
@click.option("--why", "reason", metavar="TEXT", required=True, help="Why it is left out this time.")
@on_option
@json_option
@pass_desk
def skip(desk: Desk, numbers: tuple[int, ...], reason: str, on: str | None, as_json: bool) -> None:
    """Leave chores out this time, and say why.

    \b
    Example: farmops chores skip 14 --why "no fish this week"
    """
    _settle(desk, numbers, SettledAs.SKIPPED, on, as_json, reason=reason)


@click.command()
@click.argument("numbers", type=int, nargs=-1, required=True)
@click.option("--until", metavar="DAY", required=True, help="Put off until this day.")
@on_option
@json_option
@pass_desk
def defer(desk: Desk, numbers: tuple[int, ...], until: str, on: str | None, as_json: bool) -> None:
    """Put chores off until a day; life support can only wait within the day.

    \b
    Example: farmops chores defer 15 --until +2
    """
    _settle(desk, numbers, SettledAs.DEFERRED, on, as_json, until=until)


def _settle(
    desk: Desk,
    numbers: tuple[int, ...],
    kind: SettledAs,
    on: str | None,
    as_json: bool,
    *,
    confirm: bool = False,
    minutes: int | None = None,
    reason: str | None = None,
    until: str | None = None,
) -> None:
    from farmops.farm.chores import SettlingMany, settle_many

    day = desk.day(on)
    chosen = [names.chore(desk.store, number) for number in dict.fromkeys(numbers)]
    entries = tuple(
        Settling(
            one.id,
            kind,
            day,
            until=clock.parse_day(until, day, ahead=True) if until else None,
            reason=reason,
            confirmed=one.confirmation if confirm else None,
            minutes=minutes,
        )
        for one in chosen
    )
    settled = settle_many(desk.store, SettlingMany(entries), **desk.hand).settled
    if as_json:
        emit({"settled": [settled_object(one) for one in settled]})
        return
    for one, result in zip(chosen, settled, strict=True):
        after = names.chore(desk.store, one.id).next_due
        further = f"next {after}" if after else "settled for good"
        until_words = f" until {result.until_day}" if result.until_day else ""
        say(f"{result.kind}{until_words}: {one.title}, {one.bed or one.lot or one.unit or 'all units'}; {further}.")


def settled_object(one: Settled) -> dict[str, object]:
    """One settling in JSON's words."""
    return {
        "chore": one.chore_id,
        "occurrence": one.occurrence,
        "settled": one.kind,
        "on": one.on_day,
        "until": one.until_day,
        "reason": one.reason,
        "confirmed": one.confirmed,
        "minutes": one.minutes,
        "by": one.actor,
        "operation": one.operation,
    }


@click.command()
@click.argument("number", type=int)
@json_option
@pass_desk
def history(desk: Desk, number: int, as_json: bool) -> None:
    """How a chore was settled, newest first.

    \b
    Example: farmops chores history 12
    """
    chore = names.chore(desk.store, number)
    found = lists.settled(desk.store, number)
    if as_json:
        emit({"chore": number, "title": chore.title, "history": [settled_object(one) for one in found]})
    elif not found:
        say(f"{chore.title} was never settled; due {chore.next_due or 'on no day'}.")
    else:
        line(f"{chore.title}, {chore.rule_words}, next {chore.next_due or 'on no day'}")
        rows = [
            [
                one.on_day.isoformat(),
                one.kind + (f" until {one.until_day}" if one.until_day else ""),
                one.occurrence.isoformat(),
                one.actor,
                one.reason or one.confirmed or "",
            ]
            for one in found
        ]
        table(["day", "how", "was due", "who", "why"], rows)


@click.command()
@click.argument("number", type=int)
@click.option("--from", "first", metavar="DAY", help="First day it rests. [today]")
@click.option("--until", metavar="DAY", help="Last day it rests. [until it is resumed]")
@json_option
@pass_desk
def pause(desk: Desk, number: int, first: str | None, until: str | None, as_json: bool) -> None:
    """Let a chore rest; what falls due meanwhile is due once when it goes on.

    \b
    Example: farmops chores pause 12 --until "1 mar"
    """
    from farmops.farm.chores import pause as pause_chore

    chore = names.chore(desk.store, number)
    day = desk.day(first)
    rest = pause_chore(desk.store, NewPause(number, day, desk.day_or_none(until, ahead=True)), **desk.hand)
    if as_json:
        emit({"chore": number, "from": rest.from_day, "until": rest.until})
    else:
        until_words = f"until {rest.until}" if rest.until else "until it is resumed"
        say(f"{chore.title} rests from {rest.from_day} {until_words}.")


@click.command()
@click.argument("number", type=int)
@on_option
@json_option
@pass_desk
def resume(desk: Desk, number: int, on: str | None, as_json: bool) -> None:
    """Let a paused chore go on from a day.

    \b
    Example: farmops chores resume 12
    """
    from farmops.farm.chores import resume as resume_chore

    chore = names.chore(desk.store, number)
    day = desk.day(on)
    resume_chore(desk.store, Resuming(number, day), **desk.hand)
    after = names.chore(desk.store, number).next_due
    if as_json:
        emit({"chore": number, "from": day, "next_due": after})
    else:
        say(f"{chore.title} goes on from {day}; next {after or 'on no day'}.")
