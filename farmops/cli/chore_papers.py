"""`farmops chores print|calendar`: the round on paper, the chores in a phone."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option
from farmops.cli.output import emit, say
from farmops.cli.printing import give_paper, must_go_somewhere, paper_options
from farmops.exchange.rounds import round_text, written
from farmops.reports import names

replace_option = click.option("--replace", is_flag=True, help="Write over a file that is there.")


@click.command("print")
@click.option("--on", metavar="DAY", help="The day of the round. [today]")
@click.option("--unit", metavar="CODE", help="Only one unit.")
@click.option("--for", "name", metavar="NAME", help="Only what falls to one person who is here.")
@paper_options
@pass_desk
def print_sheet(desk: Desk, /, on: str | None, unit: str | None, name: str | None, **how: Any) -> None:
    """The round as a sheet to carry along: boxes, blanks for readings, cautions, in walking order.

    \b
    Examples: farmops chores print --out round.pdf
              farmops chores print --out tomorrow.pdf --on tomorrow --paper a4
              farmops chores print --text
    """
    from farmops.reports.round import round_of

    must_go_somewhere(how["file"], as_text=how["as_text"])
    day = desk.day(on)
    person = names.person(desk.store, name) if name is not None else None
    found = round_of(desk.store, day, unit=unit, person=person)
    give_paper(lambda: round_text(found, unit), lambda way: written(found, way, unit), **how)


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
