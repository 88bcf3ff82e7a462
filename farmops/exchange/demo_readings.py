"""What was read off the units of the invented farm, and the weather that was forecast for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from farmops.exchange.demo_files import Cells, rows
from farmops.farm.forecasts import set_forecast
from farmops.farm.readings import record_readings
from farmops.farm.usage import record_usage
from farmops.model.forecasts import Degrees, NewForecast
from farmops.model.frozen import dataclass
from farmops.model.readings import NewReading, NewReadings
from farmops.model.usage import Counter, NewUsage
from farmops.model.values import Measured
from farmops.quantities import TEMPERATURE, Measures
from farmops.quantities.readings import typed_reading
from farmops.records.store import Store
from farmops.schedule.use_words import read_amount

KIT_READS = ("ammonia", "nitrite", "nitrate")
OLD_KIT, OLD_KIT_UNIT = "Old drop kit", "SISKIN"
READ_WITH = {
    "temperature": "Thermometer",
    "highest temperature": "Thermometer",
    "pH": "pH meter",
    "oxygen": "Oxygen meter",
}


@dataclass(frozen=True, slots=True)
class Gauges:
    """Where readings are booked: the store, its units and instruments by name, how the farm measures, and who books."""

    store: Store
    unit_ids: Mapping[str, int]
    instrument_ids: Mapping[str, int]
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
        found = tuple(self._read(row["unit"], name, typed) for name, typed in named)
        return NewReadings(self.unit_ids[row["unit"]], date.fromisoformat(row["date"]), found)

    def _read(self, unit: str, name: str, typed: str) -> NewReading:
        kit = OLD_KIT if unit == OLD_KIT_UNIT else "Drop kit"
        read_with = self.instrument_ids.get(kit if name in KIT_READS else READ_WITH.get(name, ""))
        return replace(typed_reading(name, typed, self.measures, sure=True), instrument_id=read_with)

    def _forecast(self, row: Cells) -> NewForecast:
        low, high = (Degrees(TEMPERATURE.parse(row[head], self.measures), row[head]) for head in ("low", "high"))
        return NewForecast(date.fromisoformat(row["date"]), low, high, row["note"])
