"""`farmops forecast`: the weather to come as it was forecast, from which frost and heat call for chores."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, emptied
from farmops.cli.options import answer_options, json_option
from farmops.cli.output import emit, say, table
from farmops.model.errors import NotFound
from farmops.model.forecasts import Degrees, Forecast, NewForecast
from farmops.model.journal import Removal
from farmops.quantities import TEMPERATURE
from farmops.reports import evidence, lists

NONE_YET = "No forecast for the days to come. Type one in: farmops forecast set tomorrow --low 28 --high 45"
ABSENT = "-"


@click.group()
def forecast() -> None:
    """The lowest and highest air temperature that is forecast, day by day.

    Frost and heat to come call for chores. What was typed last for a day counts.
    """


@forecast.command("set")
@click.argument("day")
@click.option("--low", metavar="DEGREES", help="The lowest of the day, in the farm's scale; - for not known.")
@click.option("--high", metavar="DEGREES", help="The highest of the day; - for not known.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def set_forecast(desk: Desk, day: str, low: str | None, high: str | None, note: str | None, as_json: bool) -> None:
    """What is forecast for a day; what is not named stays as it was.

    \b
    Examples: farmops forecast set tomorrow --low 28 --high 45
              farmops forecast set fri --low "-2 C"
    """
    from farmops.farm.forecasts import set_forecast as set_it

    on = desk.day_or_none(day, ahead=True) or desk.today
    given = emptied(changes(low=_degrees(desk, low), high=_degrees(desk, high), note=note), "low", "high", "note")
    told = set_it(desk.store, NewForecast(on, **given), **desk.hand)
    if as_json:
        emit(forecast_object(told))
    else:
        say(f"{told.day:%a} {told.day}: low {_shown(desk, told.low_c)}, high {_shown(desk, told.high_c)}.")


@forecast.command("list")
@click.option("--from", "first", metavar="DAY", help="From which day on. [today]")
@answer_options
@pass_desk
def list_forecasts(desk: Desk, first: str | None, as_json: bool) -> None:
    """List what is forecast for the days to come.

    \b
    Example: farmops forecast list --from -7
    """
    lists.farm(desk.store)
    found = evidence.forecasts(desk.store, desk.day_or_none(first))
    if as_json:
        emit({"forecasts": [forecast_object(one) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        table(["day", "", "low", "high", "note"], [_row(desk, one) for one in found], right=[2, 3])


@forecast.command("remove")
@click.argument("day")
@pass_desk
def remove(desk: Desk, day: str) -> None:
    """Take back what is forecast for a day.

    \b
    Example: farmops forecast remove fri
    """
    from farmops.farm.removal import remove_record

    on = desk.day_or_none(day, ahead=True) or desk.today
    one = next((one for one in evidence.forecasts(desk.store, on) if one.day == on), None)
    if one is None:
        raise NotFound(f"Nothing is forecast for {on}. See: farmops forecast list")
    remove_record(desk.store, Removal("forecasts", one.id), **desk.hand)
    say(f"The forecast for {on} removed. farmops undo brings it back.")


def forecast_object(one: Forecast) -> dict[str, object]:
    """A forecast in JSON's words."""
    return {
        "id": one.id,
        "day": one.day,
        "low_c": one.low_c,
        "low_typed": one.low_typed,
        "high_c": one.high_c,
        "high_typed": one.high_typed,
        "note": one.note,
    }


def _degrees(desk: Desk, text: str | None) -> Degrees | str | None:
    if text is None or text == NOTHING:
        return text
    return Degrees(TEMPERATURE.parse(text, desk.measures), text)


def _row(desk: Desk, one: Forecast) -> list[str]:
    return [str(one.day), f"{one.day:%a}", _shown(desk, one.low_c), _shown(desk, one.high_c), one.note or ""]


def _shown(desk: Desk, degrees_c: float | None) -> str:
    return ABSENT if degrees_c is None else TEMPERATURE.show(degrees_c, desk.measures)
