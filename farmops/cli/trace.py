"""`farmops trace`: a lot from seed or fingerling to the buyer."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options
from farmops.cli.output import emit, line, say, table
from farmops.model.lot_codes import read_lot_code
from farmops.reports.trace import AROUND_DAYS, WORK, Trace
from farmops.reports.trace import trace as trace_of


@click.command()
@click.argument("lot")
@click.option(
    "--around", type=click.IntRange(0, 366), default=AROUND_DAYS, show_default=True, help="Days around a day."
)
@click.option("--work", "with_work", is_flag=True, help="Chores too; without it they are only counted.")
@answer_options
@pass_desk
def trace(desk: Desk, lot: str, around: int, with_work: bool, as_json: bool) -> None:
    """Follow a LOT from seed or fingerling to the buyer, with water, treatments and chores around its days.

    \b
    A code stands on each weighing: WREN-N#41/261014 is what was picked on 14 October 2026 from planting 41 in
    WREN-N, PERCH-24/261014 what was taken that day from a fish lot. Without the day it means all of it.
    Examples: farmops trace WREN-N#41/261014
              farmops trace PERCH-24 --work
    """
    found = trace_of(desk.store, read_lot_code(lot), around)
    if as_json:
        emit(_plain(found))
        return
    line(f"{found.settings.name}, lot {found.code}: {found.what}, {found.where}")
    shown = [one for one in found.lines if with_work or one.kind != WORK]
    table(
        ["day", "", "where", "what", "by"],
        [[str(one.day), one.kind, one.where, one.words, one.by or ""] for one in shown],
    )
    _tell(found, left_out=len(found.lines) - len(shown))


def _tell(found: Trace, left_out: int) -> None:
    if left_out:
        say(f"{left_out} chores around these days are left out; --work shows them.")
    if not found.buyers():
        say("No sale names it yet: farmops sales add")
    say(f"Told from {found.span.first} to {found.span.last}. Keep it with the name and address of the farm.")


def _plain(found: Trace) -> dict[str, object]:
    lines = [
        {"day": one.day, "kind": one.kind, "where": one.where, "words": one.words, "by": one.by} for one in found.lines
    ]
    return {
        "farm": found.settings.name,
        "lot": str(found.code),
        "what": found.what,
        "where": found.where,
        "from": found.span.first,
        "to": found.span.last,
        "lines": lines,
    }
