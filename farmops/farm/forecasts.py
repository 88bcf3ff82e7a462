"""Forecasts of the weather: typed in, one a day, the newest word counting."""

from __future__ import annotations

from typing import Any

from farmops.facts import forecasts as forecast_facts
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import Refused
from farmops.model.forecasts import Degrees, Forecast, NewForecast
from farmops.model.text import name_of, note_of
from farmops.model.values import KEEP, Keep
from farmops.records.readings import ForecastRow


@operation("forecast")
def set_forecast(op: Operation, entry: NewForecast) -> Forecast:
    """What is forecast for a day, in place of what was said before; what is not named stays."""
    day = op.sensible_day(entry.day)
    values = {**_degrees(entry.low, "low"), **_degrees(entry.high, "high")}
    if entry.note is not KEEP:
        values["note"] = note_of(entry.note)
    held = forecast_facts.forecast_for(op.reader, day)
    if held is None:
        nothing = dict.fromkeys(("low_c", "low_typed", "high_c", "high_typed", "note"))
        op.add(ForecastRow(day=day, **{**nothing, **values}))
    else:
        op.change(op.get(ForecastRow, held.id), **values)
    return _forecast(op, entry)


@rule(ForecastRow, alone=True)
def says_something(op: Operation, row: ForecastRow) -> None:
    """A forecast names a low or a high, and the low is not above the high."""
    if row.low_c is None and row.high_c is None:
        raise Refused("Not booked: a forecast names the low or the high of the day, or both.")
    if row.low_c is not None and row.high_c is not None and row.low_c > row.high_c:
        raise Refused(f"Not booked: the low of {row.low_typed} is above the high of {row.high_typed}.")


def _degrees(value: Degrees | Keep | None, name: str) -> dict[str, Any]:
    if isinstance(value, Keep):
        return {}
    typed = name_of(value.typed, "temperature") if value else None
    return {f"{name}_c": value.c if value else None, f"{name}_typed": typed}


def _forecast(op: Operation, entry: NewForecast) -> Forecast:
    found = forecast_facts.forecast_for(op.reader, entry.day)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
