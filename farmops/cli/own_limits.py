"""`farmops water limits`: what the grower wants of the water beside what those who live in it bear."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option
from farmops.cli.output import emit, say, table
from farmops.model.journal import Removal
from farmops.model.limits import NewOwnLimit, OwnLimit
from farmops.model.readings import NITROGEN, READ_IN, Form, measure_called
from farmops.quantities import Measures
from farmops.quantities.readings import show_value, typed_reading
from farmops.reports import lists, names
from farmops.science.judging import as_nitrogen

NONE_YET = "No limit of your own. Set one: farmops water limits set pH --low 6.4 --high 7.2"


@click.group()
def limits() -> None:
    """Limits of your own, from a day on, for one unit or for all.

    They are held beside those of fish, filter and plants, and the stricter counts. A unit's own stands for the farm's.
    """


@limits.command("set")
@click.argument("measure")
@click.option("--low", metavar="VALUE", help="Not below this.")
@click.option("--high", metavar="VALUE", help="Not above this.")
@click.option("--unit", metavar="CODE", help="Only for one unit. [for all]")
@note_option
@on_option
@json_option
@pass_desk
def set_limit(
    desk: Desk,
    measure: str,
    low: str | None,
    high: str | None,
    unit: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Set how low and how high a MEASURE may be, from a day on; nitrogen compounds as N, or say 0.5 ion.

    \b
    Examples: farmops water limits set pH --low 6.4 --high 7.2
              farmops water limits set temperature --high 75F --unit WREN --on "1 jun"
    """
    from farmops.farm.own_limits import set_own_limit

    day, what = desk.day(on), measure_called(measure)
    place = names.unit(desk.store, unit).id if unit is not None else None
    least, most = (_value(measure, text, desk.measures) for text in (low, high))
    one = set_own_limit(desk.store, NewOwnLimit(day, what, least, most, place, note), **desk.hand)
    if as_json:
        emit(plain_limit(one))
    else:
        say(f"Set from {one.from_day}: {one.measure} {span_words(one, desk.measures)} in {one.unit or 'all units'}.")


def _value(measure: str, text: str | None, measures: Measures) -> float | None:
    if text is None:
        return None
    read = typed_reading(measure, text, measures)
    return as_nitrogen(read.measure, read.value, read.form or Form.AS_N)


@limits.command("list")
@answer_options
@pass_desk
def list_limits(desk: Desk, as_json: bool) -> None:
    """List your own limits, the oldest first.

    \b
    Example: farmops water limits list
    """
    lists.farm(desk.store)
    found = lists.own_limits(desk.store)
    if as_json:
        emit({"limits": [plain_limit(one) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        rows = [
            [str(x.id), str(x.from_day), x.unit or "all", x.measure, span_words(x, desk.measures), x.note or ""]
            for x in found
        ]
        table(["no.", "from", "unit", "measure", "wanted", "note"], rows, right=[0])


@limits.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_limit(desk: Desk, number: int) -> None:
    """Remove a limit by its number; what stood before it counts again.

    \b
    Example: farmops water limits remove 1
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    one = numbered(lists.own_limits(desk.store), number, "own limit", "farmops water limits list")
    remove_record(desk.store, Removal("own limits", one.id), **desk.hand)
    say(f"Limit {one.id} of {one.measure} removed. farmops undo brings it back.")


def span_words(one: OwnLimit, measures: Measures) -> str:
    """`6.4 to 7.2`, `at most 7.2`, `at least 6.4`."""
    low, high = (None if value is None else show_value(value, one.measure, measures) for value in (one.low, one.high))
    if low and high:
        return f"{low} to {high}"
    return f"at least {low}" if low else f"at most {high}"


def plain_limit(one: OwnLimit) -> dict[str, object]:
    """An own limit in JSON's words; its values are in the unit that `in` names."""
    return {
        "id": one.id,
        "from": one.from_day,
        "unit": one.unit,
        "measure": one.measure,
        "low": one.low,
        "high": one.high,
        "in": READ_IN[one.measure] + (" as N" if one.measure in NITROGEN else ""),
        "note": one.note,
    }
