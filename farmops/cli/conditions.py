"""`farmops chores conditions`: what chores can wait for, and what holds now."""

from __future__ import annotations

from textwrap import wrap

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options
from farmops.cli.output import emit, line, terminal_width
from farmops.reports import evidence, lists
from farmops.reports.evidence import ConditionNow, Held
from farmops.reports.reasons import short_day
from farmops.schedule.words import SAID


@click.command()
@click.option("--on", metavar="DAY", help="What holds on that day. [today]")
@answer_options
@pass_desk
def conditions(desk: Desk, on: str | None, as_json: bool) -> None:
    """What chores can wait for (`--every "when NAME"`), and where it holds: since when, why, and what would end it.

    \b
    Example: farmops chores conditions
    """
    lists.farm(desk.store)
    day = desk.day(on)
    found = evidence.conditions(desk.store, day)
    if as_json:
        emit({"on": day, "conditions": [_object(one) for one in found]})
        return
    for one in found:
        line(f"when {SAID.get(one.name, one.name)} ({one.place})")
        _indented(one.words)
        for held in one.holds:
            since = f"since {short_day(held.since, day)}"
            joined = f" It holds {since}" if held.why.endswith(".") else f" {since}"
            _indented(f"{held.where}: {held.why}{joined}, until {held.ends}", ">")


def _indented(words: str, mark: str = " ") -> None:
    line("\n".join(wrap(words, terminal_width(), initial_indent=f"  {mark} ", subsequent_indent="    ")))


def _object(one: ConditionNow) -> dict[str, object]:
    return {
        "name": one.name,
        "place": one.place,
        "means": one.words,
        "holds": [_held(held) for held in one.holds],
    }


def _held(held: Held) -> dict[str, object]:
    return {"where": held.where, "since": held.since, "until": held.until, "why": held.why, "ends": held.ends}
