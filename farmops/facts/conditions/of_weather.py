"""What can hold for the whole farm: frost or heat in the forecasts that were typed in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.farm import farm
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.quantities import TEMPERATURE
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

FROST_MARGIN_C = 2.0
"""How far above freezing a forecast low counts as frost. Common practice, no source: leaves on a clear night are
colder than the air two metres up that forecasts speak of."""

HEAT_FROM_C = 30.0
"""From which forecast high on a day counts as hot. Common practice, no source."""

COLD = "SELECT day, low_c AS degrees_c FROM forecast WHERE low_c <= :limit ORDER BY day"
HOT = "SELECT day, high_c AS degrees_c FROM forecast WHERE high_c >= :limit ORDER BY day"


@dataclass(frozen=True, slots=True)
class Foretold:
    """A temperature that is forecast for a day."""

    day: date
    degrees_c: float


@condition("frost to come", place=AppliesTo.FARM, tables=("forecast",))
def frost(reader: Reader) -> Held:
    """A low of 2 °C (36 °F) or less is forecast: from the day before until that day has gone by."""
    return by_place(_foretold(reader, "frost", "low", COLD, FROST_MARGIN_C))


@condition("heat to come", place=AppliesTo.FARM, tables=("forecast",))
def heat(reader: Reader) -> Held:
    """A high of 30 °C (86 °F) or more is forecast: from the day before until that day has gone by."""
    return by_place(_foretold(reader, "heat", "high", HOT, HEAT_FROM_C))


def _foretold(reader: Reader, what: str, which: str, query: str, limit: float) -> Iterator[tuple[None, Holding]]:
    found = reader.all(Foretold, query, limit=limit)
    measures = farm(reader).measures if found else None
    for one in found:
        assert measures is not None  # noqa: S101 - it was read for what was found
        degrees = TEMPERATURE.show(one.degrees_c, measures)
        why = f"{what} to come, {which} of {degrees} on {one.day:%a} {one.day.day} {one.day:%b}"
        yield None, Holding(one.day - timedelta(days=1), one.day, why, "the end of that day, or another forecast")
