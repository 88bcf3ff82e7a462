"""`farmops demo`: an invented farm to look around on."""

from __future__ import annotations

import shlex
import tempfile
from datetime import date
from pathlib import Path

import click

from farmops.cli.chore_output import print_round
from farmops.cli.desk import Desk, pass_desk
from farmops.cli.output import line, say
from farmops.cli.returns import print_returns
from farmops.model.costs import Basis
from farmops.reports.returns import Asked, returns
from farmops.reports.round import round_of

SINCE = date(2026, 3, 1)


@click.command()
@click.option("--print", "printed", is_flag=True, help="Print its round and its returns.")
@click.option(
    "--keep", "kept", metavar="PLACE", help="Leave the copy there, to work on: a file that does not exist yet."
)
@pass_desk
def demo(desk: Desk, printed: bool, kept: str | None) -> Desk | None:
    """Look around on an invented farm whose clock stands still: six units, two years of weighings and receipts.

    Without an option it opens the interface on a fresh copy, which is thrown away afterwards.

    \b
    Examples: farmops demo
              farmops demo --print
              farmops demo --keep quillet.db
    """
    if kept is None and not printed:
        folder = tempfile.mkdtemp(prefix="farmops-demo-")
        copy = _made(desk, str(Path(folder) / "farm.db"))
        copy.thrown_away = folder
        return copy
    if kept is None:
        with tempfile.TemporaryDirectory(prefix="farmops-demo-") as folder:
            _print(_made(desk, str(Path(folder) / "farm.db")))
        return None
    copy = _made(desk, kept)
    if printed:
        _print(copy)
    say(f"The invented farm is kept in {copy.store.place}. Work on it: farmops --farm {shlex.quote(kept)}")
    return None


def _print(desk: Desk) -> None:
    """The round of its day and its returns."""
    print_round(round_of(desk.store))
    line()
    print_returns(desk, returns(desk.store, Asked(desk.today, SINCE, desk.today, Basis.FULL)))
    line()
    line(f"{desk.farm.name} is invented. Your own farm: farmops farm open NAME --zone ZONE")


def _made(desk: Desk, place: str) -> Desk:
    """The demo made in a place where nothing is yet."""
    from farmops.exchange.demo import keep_demo

    copy = Desk(place, desk.by, None)
    say("Making the invented farm ...")
    try:
        keep_demo(copy.store)
    finally:
        copy.store.close()
    return copy
