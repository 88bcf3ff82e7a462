"""`farmops undo`, `redo` and `journal`."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, json_option
from farmops.cli.output import emit, say, table
from farmops.model.journal import JournalLine, Through, Undone, Which
from farmops.reports import lists


@click.command()
@click.argument("operation", required=False)
@json_option
@pass_desk
def undo(desk: Desk, operation: str | None, as_json: bool) -> None:
    """Take back the last thing you booked, or any OPERATION by its id (see farmops journal).

    \b
    Examples: farmops undo
              farmops undo 01a211c6
    """
    from farmops.farm.undo import undo as take_back

    lists.farm(desk.store)
    _told(take_back(desk.store, Which(operation), **desk.hand), "Undone", as_json)


@click.command()
@click.argument("operation", required=False)
@json_option
@pass_desk
def redo(desk: Desk, operation: str | None, as_json: bool) -> None:
    """Do again what you undid last, or any undone OPERATION by its id.

    \b
    Example: farmops redo
    """
    from farmops.farm.undo import redo as do_again

    lists.farm(desk.store)
    _told(do_again(desk.store, Which(operation), **desk.hand), "Done again", as_json)


@click.command()
@click.option("--most", type=click.IntRange(1), default=30, show_default=True, help="How many of the newest.")
@answer_options
@pass_desk
def journal(desk: Desk, most: int, as_json: bool) -> None:
    """Who did what, when, newest first.

    \b
    Example: farmops journal --most 10
    """
    found = lists.journal(desk.store, most)
    if as_json:
        emit({"journal": [_plain(one) for one in found]})
        return
    rows = [
        [str(one.seq), f"{one.at:%Y-%m-%d %H:%M:%S}Z", one.by, one.through, _words(one), one.operation] for one in found
    ]
    table(["no.", "when", "who", "through", "what", "operation"], rows, right=[0])


def _words(one: JournalLine) -> str:
    about = one.undoes or one.redoes
    return f"{one.name} {about}" if about else f"{one.name} (undone)" if one.undone else one.name


def _plain(one: JournalLine) -> dict[str, object]:
    return {
        "seq": one.seq,
        "operation": one.operation,
        "at": one.at,
        "by": one.by,
        "through": one.through,
        "name": one.name,
        "undoes": one.undoes,
        "redoes": one.redoes,
        "undone": one.undone,
    }


def _told(done: Undone, word: str, as_json: bool) -> None:
    if as_json:
        emit({"operation": done.operation, "name": done.name, "by": done.by, "rows": done.rows})
    else:
        rows = "1 row" if done.rows == 1 else f"{done.rows} rows"
        through = "" if done.through is Through.COMMAND else f" by {done.through}"
        say(f"{word}: {done.name} of {done.by}{through}{', ' + done.about if done.about else ''}; {rows}.")
