"""What was read off the units of the invented farm, and the weather that was forecast for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from farmops.exchange.demo_files import Cells, rows
from farmops.farm.forecasts import set_forecast
from farmops.farm.readings import record_readings
from farmops.farm.usage import record_usage
from farmops.model.forecasts import Degrees, NewForecast
from farmops.model.readings import NewReadings
from farmops.model.usage import Counter, NewUsage
from farmops.model.values import Measured
from farmops.quantities import TEMPERATURE, Measures
from farmops.quantities.readings import typed_reading
from farmops.records.store import Store
from farmops.schedule.use_words import read_amount


@dataclass(frozen=True, slots=True)
class Gauges:
    """Where readings are booked: the store, its units by code, how the farm measures, and who books."""

    store: Store
    unit_ids: Mapping[str, int]
    measures: Measures
    hand: Callable[..., Mapping[str, Any]]

    def book(self) -> None:
        """Hours of the pumps, times of the siphons, the water, the weather to come."""
        for row in rows("usage"):
            record_usage(self.store, self._usage(row), **self.hand(row["by"]))
        for row in rows("cycles"):
            record_readings(self.store, self._cycle(row), **self.hand(row["by"]))
        for row in rows("water"):
            record_readings(self.store, self._water(row), **self.hand(row["by"]))
        for row in rows("forecasts"):
            set_forecast(self.store, self._forecast(row), **self.hand())

    def _usage(self, row: Cells) -> NewUsage:
        counter = Counter(row["counter"])
        amount = Measured(read_amount(counter, row["amount"], self.measures), row["amount"])
        return NewUsage(self.unit_ids[row["unit"]], counter, date.fromisoformat(row["date"]), amount, row["note"])

    def _cycle(self, row: Cells) -> NewReadings:
        named = (("fill time", row["fill"]), ("drain time", row["drain"]))
        found = tuple(typed_reading(name, typed, self.measures) for name, typed in named)
        return NewReadings(self.unit_ids[row["unit"]], date.fromisoformat(row["date"]), found)

    def _water(self, row: Cells) -> NewReadings:
        apart = ("date", "unit", "by")
        named = ((name, typed) for name, typed in row.items() if typed and name not in apart)
        found = tuple(typed_reading(name, typed, self.measures, sure=True) for name, typed in named)
        return NewReadings(self.unit_ids[row["unit"]], date.fromisoformat(row["date"]), found)

    def _forecast(self, row: Cells) -> NewForecast:
        low, high = (Degrees(TEMPERATURE.parse(row[head], self.measures), row[head]) for head in ("low", "high"))
        return NewForecast(date.fromisoformat(row["date"]), low, high, row["note"])
