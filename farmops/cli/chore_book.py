"""`farmops chores book`: a sheet that comes back from the round, booked in one go."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option, on_option
from farmops.cli.output import emit, say
from farmops.cli.readings import form_of_options, form_options
from farmops.cli.settled import say_settled, told_objects
from farmops.model.errors import NotUnderstood
from farmops.reports import lists

if TYPE_CHECKING:
    from farmops.exchange.booking_back import Outcome, Row


@click.command()
@click.argument("file", required=False)
@click.option("--row", "typed", metavar="TEXT", multiple=True, help="A line of the sheet; may be repeated.")
@click.option("--all-or-nothing", is_flag=True, help="Book nothing when one line is refused.")
@form_options
@on_option
@json_option
@pass_desk
def book(
    desk: Desk,
    file: str | None,
    typed: tuple[str, ...],
    all_or_nothing: bool,
    form: str | None,
    sure: bool,
    on: str | None,
    as_json: bool,
) -> int:
    """Book a sheet back, from a FILE, from what is piped in (-), or from --row.

    \b
    A line for each chore, by its number on the sheet:
      NUMBER [done | skip REASON | defer DAY] [6 min] [measure=value ...] [the words it insists on]
    One undo takes all of it back. Exit 1: nothing was booked. Exit 4: some lines booked, some refused.
    Examples: farmops chores book sheet.txt --on yesterday
              farmops chores book --row "12 6 min pH=7.1 ammonia=0.25" --row "13 flow seen" --row "14 skip rain"
    """
    from farmops.exchange.booking_back import book_back

    lists.farm(desk.store)
    found = book_back(
        desk.store,
        _rows(file, typed),
        on=desk.day(on),
        **desk.hand,
        all_or_nothing=all_or_nothing,
        form=form_of_options(form),
        sure=sure,
    )
    _tell(desk, found, as_json)
    return found.exit_code


def _rows(file: str | None, typed: tuple[str, ...]) -> list[Row]:
    from farmops.exchange.booking_back import rows_of, text_of

    if (file is None) == (not typed):
        raise NotUnderstood("Name a file, - for what is piped in, or lines with --row; one of them.")
    if file is None:
        return rows_of("\n".join(" ".join(one.splitlines()) for one in typed))
    return rows_of(text_of(file))


def _tell(desk: Desk, found: Outcome, as_json: bool) -> None:
    done = [(found.chores[one.settled.chore_id], one.settled) for one in found.booked]
    if as_json:
        numbers = [{"line": one.number} for one in found.booked]
        booked = [{**number, **told} for number, told in zip(numbers, told_objects(desk, done), strict=True)]
        refused = [{"line": one.number, "chore": one.chore_id, "reason": one.reason} for one in found.refused]
        emit({"booked": booked, "refused": refused})
        return
    say_settled(desk, done)
    for one in found.refused:
        say(f"line {one.number}: {one.reason}")
    words = f"{len(found.booked)} booked, {len(found.refused)} refused."
    say(f"{words} farmops undo takes the whole sheet back." if found.booked else words)
