"""Files about the weather to come: forecasts."""

from __future__ import annotations

from farmops.exchange.cells import Cells, in_column
from farmops.exchange.columns import Column
from farmops.exchange.file_kinds.kind import DATE, NOTE, Kind, Take, each
from farmops.model.errors import NotUnderstood
from farmops.model.forecasts import Degrees, NewForecast
from farmops.model.text import plain
from farmops.model.values import KEEP, Keep
from farmops.quantities import TEMPERATURE
from farmops.quantities.temperature import SCALES


def _forecast(cells: Cells, _: Take) -> NewForecast:
    return NewForecast(cells.day(), _degrees(cells, "low"), _degrees(cells, "high"), cells.note() or KEEP)


def _degrees(cells: Cells, column: str) -> Degrees | Keep:
    if cells.empty(column):
        return KEEP
    typed = cells.with_unit(column)
    with in_column(column):
        return Degrees(TEMPERATURE.parse(typed, cells.customs.measures), typed)


def _scale(text: str) -> str:
    """The scale that a head names. Raises NotUnderstood."""
    if text.lower() not in SCALES:
        raise NotUnderstood(f"{plain(text)!r} is no scale of temperatures. Understood: C, F.")
    return text


FORECASTS = (
    DATE,
    Column("low", also=("lowest", "min"), unit_of=_scale),
    Column("high", also=("highest", "max"), unit_of=_scale),
    NOTE,
)
KINDS = (Kind("forecasts", FORECASTS, each(_forecast)),)
