"""`farmops water cycling`: how far a new unit is, and whether the readings say that fish can come."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import chart_options, on_option
from farmops.cli.output import emit, line, say, table
from farmops.model.errors import Refused
from farmops.quantities.readings import show_value
from farmops.reports import names
from farmops.reports.cycling import CURVES, DAYS_ASKED, NEAR_NOTHING_MG_PER_L, Cycling, cycling_of

if TYPE_CHECKING:
    from farmops.exchange.charts import Chart

LAW_FIRST = "Before fish come: local fish law and permits first, a few hardy fish, tempered slowly, and daily tests."


@click.command("cycling")
@click.argument("unit")
@click.option(
    "--days",
    type=click.IntRange(1, 60),
    default=DAYS_ASKED,
    show_default=True,
    help="For how many days ammonia and nitrite must be near nothing.",
)
@on_option
@chart_options
@pass_desk
def cycling(desk: Desk, unit: str, days: int, on: str | None, as_json: bool) -> None:
    """Ready for fish? Only when the readings say so, with an instrument that passed its check.

    \b
    Example: farmops water cycling SISKIN
    """
    place = names.unit(desk.store, unit)
    found = cycling_of(desk.store, place.id, desk.day(on), days)
    if found is None:
        raise Refused(f"{place.code} is not cycling. Say when it does: farmops units state {place.code} cycling")
    if as_json:
        emit(plain_cycling(found), lambda: _drawn(desk, found))
        return
    line(f"{found.unit}, day {found.day} of cycling, since {found.since}")
    rows = [[str(day), *(_cell(desk, found, day, at) for at in range(len(CURVES)))] for day in days_read(found)]
    if rows:
        table(["day", *CURVES], rows, right=[1, 2, 3])
    for words in verdict_lines(found):
        line(words)
    if not rows:
        say(f"Nothing read yet: farmops water add {found.unit} ammonia 2 nitrite 0 nitrate 0")


def _drawn(desk: Desk, found: Cycling) -> Chart:
    from farmops.exchange.chart_of import cycling_chart

    return cycling_chart(found, desk.measures)


def days_read(found: Cycling) -> list[date]:
    """The days on which something was read."""
    return sorted({one.day for _, curve in found.curves for one in curve})


def _cell(desk: Desk, found: Cycling, day: date, at: int) -> str:
    read = [one for one in found.curves[at][1] if one.day == day]
    return f"{read[-1].bound}{show_value(read[-1].value, read[-1].measure, desk.measures)}" if read else ""


def verdict_lines(found: Cycling) -> list[str]:
    """Whether fish can come, what is missing, what stands still."""
    near = f"ammonia and nitrite at most {NEAR_NOTHING_MG_PER_L} mg/L as N for {found.days_asked} days"
    head = [f"Ready for fish: {near}.", LAW_FIRST] if found.ready else ["Not ready for fish. Missing:"]
    return [*head, *(f"  {words}" for words in found.missing), *(f"Stands still: {words}." for words in found.stalls)]


def plain_cycling(found: Cycling) -> dict[str, object]:
    """A cycling in JSON's words."""
    return {
        "unit": found.unit,
        "on": found.on,
        "since": found.since,
        "day": found.day,
        "days_asked": found.days_asked,
        "ready": found.ready,
        "missing": list(found.missing),
        "stalls": list(found.stalls),
        "curves": {
            measure.value: [{"date": one.day, "mg_per_l": one.value, "doubtful": one.doubtful or None} for one in curve]
            for measure, curve in found.curves
        },
    }
