"""`farmops chores done|skip|defer|pause|resume`."""

from __future__ import annotations

import click

from farmops import clock
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import asked
from farmops.cli.fish_rations import fed_of_options, feeding_options
from farmops.cli.options import json_option, on_option
from farmops.cli.output import emit, say
from farmops.cli.readings import form_of_options, form_options, typed_pairs
from farmops.cli.settled import tell_settled
from farmops.model.chores import Chore, NewPause, Resuming, SettledAs, Settling
from farmops.model.errors import Refused
from farmops.model.readings import NewReading
from farmops.quantities.readings import typed_reading
from farmops.reports import lists, names


@click.command()
@click.argument("numbers", type=int, nargs=-1, required=True)
@click.option(
    "--confirm",
    is_flag=False,
    flag_value="",
    metavar="[WORDS]",
    help="What the chore insists on was seen; its words, or none for all chores named.",
)
@click.option("--minutes", type=click.IntRange(0, 1440), help="How long it took.")
@click.option("--reading", "pairs", metavar="MEASURE=VALUE", multiple=True, help="What was read; may be repeated.")
@form_options
@feeding_options
@on_option
@json_option
@pass_desk
def done(
    desk: Desk,
    numbers: tuple[int, ...],
    confirm: str | None,
    minutes: int | None,
    pairs: tuple[str, ...],
    form: str | None,
    sure: bool,
    amounts: tuple[str, ...],
    ate: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Settle chores as done, by their numbers in the round, with what was read and what was fed.

    \b
    Examples: farmops chores done 12 13 --confirm
              farmops chores done 14 --reading pH=7.2 --reading ammonia=0.25 --minutes 6
              farmops chores done 15 --confirm "flow seen"
              farmops chores done 16 --fed "30 g" --ate some
    """
    lists.farm(desk.store)
    if pairs and len(set(numbers)) > 1:
        raise Refused("Not booked: readings are of one unit. Settle this chore alone, by its number.")
    said = form_of_options(form)
    readings = tuple(typed_reading(name, text, desk.measures, said, sure=sure) for name, text in typed_pairs(pairs))
    with asked():
        _settle(
            desk,
            numbers,
            SettledAs.DONE,
            on,
            as_json,
            confirm=confirm,
            minutes=minutes,
            readings=readings,
            feeding=(amounts, ate),
            sure=sure,
        )


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
    confirm: str | None = None,
    minutes: int | None = None,
    readings: tuple[NewReading, ...] = (),
    reason: str | None = None,
    until: str | None = None,
    feeding: tuple[tuple[str, ...], str | None] = ((), None),
    sure: bool = False,
) -> None:
    from farmops.farm.chores import SettlingMany, settle_many

    day = desk.day(on)
    chosen = [names.chore(desk.store, number) for number in dict.fromkeys(numbers)]
    fed = fed_of_options(desk, chosen, day, *feeding)
    entries = tuple(
        Settling(
            one.id,
            kind,
            day,
            until=clock.parse_day(until, day, ahead=True) if until else None,
            reason=reason,
            confirmed=_confirmed(one, confirm),
            minutes=minutes,
            readings=readings,
            fed=fed.get(one.id),
            sure=sure,
        )
        for one in chosen
    )
    settled = settle_many(desk.store, SettlingMany(entries), **desk.hand).settled
    tell_settled(desk, list(zip(chosen, settled, strict=True)), as_json)


def _confirmed(chore: Chore, words: str | None) -> str | None:
    """What the chore insists on, where it was said; other words are refused."""
    if not words:
        return chore.confirmation if words is not None else None
    if not chore.confirmed_by(words):
        raise Refused(f"Not done yet: {chore.title} asks for {chore.confirmation or 'no confirmation'}, not {words}.")
    return chore.confirmation


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
