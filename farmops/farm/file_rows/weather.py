"""Rows about the weather to come: forecasts."""

from __future__ import annotations

from typing import Any

from farmops.facts import forecasts as forecast_facts
from farmops.farm.file_rows.booking import Booking, agrees, named
from farmops.farm.forecasts import set_forecast
from farmops.farm.operation import Operation
from farmops.model.forecasts import Degrees, NewForecast


def _there(op: Operation, said: NewForecast) -> bool:
    held = forecast_facts.forecast_for(op.reader, said.day)
    if held is None or (held.note != said.note and isinstance(said.note, str)):
        return False
    low, high = (one.c if isinstance(one, Degrees) else None for one in (said.low, said.high))
    return agrees(low, held.low_c) and agrees(high, held.high_c)


BOOKINGS: dict[str, Booking[Any]] = {"forecasts": named(_there, set_forecast.body)}
