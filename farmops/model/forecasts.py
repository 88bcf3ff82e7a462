"""Forecasts of the weather that were typed in, one a day."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class Degrees:
    """A temperature in degrees Celsius beside what was typed for it."""

    c: float
    typed: str


@dataclass(frozen=True, slots=True)
class Forecast:
    """The lowest and highest air temperature [deg C] that is forecast for a day; None is not known."""

    id: int
    day: date
    low_c: float | None
    low_typed: str | None
    high_c: float | None
    high_typed: str | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewForecast:
    """What is forecast for a day; what is not named stays as it was forecast before."""

    day: date
    low: Degrees | Keep | None = KEEP
    high: Degrees | Keep | None = KEEP
    note: str | Keep | None = KEEP
