"""`farmops water drift`: what should hold still and moves."""

from __future__ import annotations

from itertools import groupby

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import answer_options, on_option
from farmops.cli.output import emit, line, say
from farmops.model.readings import NITROGEN, READ_IN
from farmops.reports import lists
from farmops.reports.drift import DriftLine, drift_of

NONE_READ = "No reading to compare yet. Time a cycle: farmops water add WREN fill-time 11:30 drain-time 3:20"


@click.command("drift")
@click.option("--unit", metavar="CODE", help="Only of one unit.")
@click.option("--all", "everything", is_flag=True, help="What holds still, too.")
@on_option
@answer_options
@pass_desk
def drift(desk: Desk, unit: str | None, everything: bool, on: str | None, as_json: bool) -> None:
    """What should hold still and moves: fill and drain times and flow against what was usual, the rest by its trend.

    \b
    The first readings, six to ten, tell what is usual. A note that the pump, siphon, media or filter was changed
    begins anew: farmops notes add --at WREN --changed pump. A siphon that does not cycle: fill-time "no cycle".
    Example: farmops water drift --unit WREN
    """
    lists.farm(desk.store)
    found = drift_of(desk.store, desk.day(on), unit)
    if as_json:
        emit({"on": desk.day(on), "measures": [plain_drift(one) for one in found]})
        return
    shown = [one for one in found if one.moves or everything]
    if not found:
        say(NONE_READ)
    elif not shown:
        say("All that was read holds still, as far as the readings tell. All of it: --all")
    for code, lines in groupby(shown, key=lambda one: one.unit):
        line(code)
        for one in lines:
            _print(one)


def _print(one: DriftLine) -> None:
    line(f"  {one.measure:<13} {one.told or 'too few readings yet.'}")
    if one.since is not None:
        line(f"  {'':<13} Counted since {one.since}, when the {one.changed} was changed.")


def plain_drift(one: DriftLine) -> dict[str, object]:
    """A measure in JSON's words; values are in the unit that `in` names."""
    return {
        "unit": one.unit,
        "measure": one.measure,
        "in": READ_IN[one.measure] + (" as N" if one.measure in NITROGEN else ""),
        "day": one.day,
        "value": one.value,
        "readings": one.readings,
        "since": one.since,
        "changed": one.changed,
        "usual_low": one.usual[0] if one.usual else None,
        "usual_high": one.usual[1] if one.usual else None,
        "side": one.side,
        "running": one.running,
        "per_week": one.per_week,
        "says": one.words,
        "trend": one.trend,
    }
