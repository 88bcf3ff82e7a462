"""`farmops chores print|calendar`: the round on paper, the chores in a phone."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option, one_of, word
from farmops.cli.output import emit, line, say
from farmops.exchange.pages.papers import Paper
from farmops.exchange.rounds import Wanted, round_text, write_round
from farmops.reports import names

replace_option = click.option("--replace", is_flag=True, help="Write over a file that is there.")


@click.command("print")
@click.option("--out", "file", metavar="FILE", help="The file to write: a PDF, or plain text with --text.")
@click.option("--text", "as_text", is_flag=True, help="Plain text, 72 columns wide; on stdout without --out.")
@click.option("--on", metavar="DAY", help="The day of the round. [today]")
@click.option("--unit", metavar="CODE", help="Only one unit.")
@click.option("--for", "name", metavar="NAME", help="Only what falls to one person who is here.")
@click.option("--paper", type=one_of(Paper), help="[letter where the farm weighs in lb, a4 where in kg]")
@click.option("--font", metavar="FILE", help="A TrueType font for signs that the packaged one lacks.")
@replace_option
@json_option
@pass_desk
def print_sheet(
    desk: Desk,
    /,
    file: str | None,
    as_text: bool,
    on: str | None,
    unit: str | None,
    name: str | None,
    paper: str | None,
    as_json: bool,
    **how: Any,
) -> None:
    """The round as a sheet to carry along: boxes, blanks for readings, cautions, in walking order.

    \b
    Examples: farmops chores print --out round.pdf
              farmops chores print --out tomorrow.pdf --on tomorrow --paper a4
              farmops chores print --text
    """
    if file is None and not as_text:
        raise click.UsageError("Say where to: --out FILE for a PDF, or --text for plain text.")
    day = desk.day(on)
    person = names.person(desk.store, name) if name is not None else None
    if file is None:
        _print_text(round_text(desk.store, day, unit, person), as_json)
        return
    wanted = Wanted(file, day, unit, person, word(Paper, paper), as_text=as_text, **how)
    written = write_round(desk.store, wanted)
    if as_json:
        told = {"file": str(written.file), "paper": written.paper, "pages": written.pages}
        emit({**told, "not_drawn": written.lacking, "text": None})
    else:
        say(written.told)


def _print_text(text: str, as_json: bool) -> None:
    if as_json:
        emit({"file": None, "paper": None, "pages": None, "not_drawn": "", "text": text})
    else:
        line(text.rstrip("\n"))


@click.command("calendar")
@click.option("--out", "file", metavar="FILE", required=True, help="The iCalendar file to write.")
@click.option(
    "--days", type=click.IntRange(1, 366), default=14, show_default=True, help="Settled ones of so many days."
)
@click.option("--on", metavar="DAY", help="The day that stands for today. [today]")
@replace_option
@json_option
@pass_desk
def write_calendar(desk: Desk, file: str, days: int, on: str | None, replace: bool, as_json: bool) -> None:
    """The chores as to-dos in an iCalendar file, which a phone takes in.

    A rule on the calendar goes along as far as it is sure; any other chore is there with its next day.

    \b
    Examples: farmops chores calendar --out chores.ics
              farmops chores calendar --out chores.ics --replace --days 30
    """
    day = desk.day(on)
    from farmops.exchange.feed import write_feed

    fed = write_feed(desk.store, file, on=day, days=days, replace=replace)
    if as_json:
        emit({"file": str(fed.file), "coming": fed.coming, "settled": fed.past})
    else:
        say(f"{fed.coming} chores to come and {fed.past} settled in {fed.file}.")
