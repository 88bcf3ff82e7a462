"""Forecasts of the weather that were typed in."""

from __future__ import annotations

from datetime import date

from farmops.model.forecasts import Forecast
from farmops.records.reading import Reader

FORECASTS = "SELECT id, day, low_c, low_typed, high_c, high_typed, note FROM forecast"


def forecasts(reader: Reader, first: date) -> list[Forecast]:
    """What is forecast for a day and those after it, in their order."""
    return reader.all(Forecast, f"{FORECASTS} WHERE day >= :first ORDER BY day", first=first)


def forecast_for(reader: Reader, on: date) -> Forecast | None:
    """What is forecast for a day."""
    return reader.one(Forecast, f"{FORECASTS} WHERE day = :on_day", on_day=on)
