"""What power cost in a span: by the meter where it was read, else by rated watts and hours."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from farmops.economics.power import PowerUse, power_uses
from farmops.facts import power as power_facts
from farmops.facts.reading import Reader
from farmops.figures import Figure
from farmops.model.costs import Category, Product
from farmops.model.frozen import dataclass
from farmops.model.power import Device, MeterReading
from farmops.reports.pools import Pool, rounded
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

FORMULA = "watt-hours at the price of their days"


def pool(reader: Reader, span: Span, sharing: Sharing) -> Pool | None:
    """Power of each unit, and what all share; None where nothing tells the use or no price was ever set."""
    prices = power_facts.power_prices(reader)
    devices, meters = power_facts.devices(reader), power_facts.meters(reader)
    uses = power_uses(devices, meters, prices, span.first, span.last)
    priced = [one for one in uses if one.cost is not None]
    if not priced:
        return None
    words = PowerWords({one.id: one for one in devices}, {one.id: one for one in meters})
    units = sorted({one.unit_id for one in priced if one.unit_id is not None})
    shared = [one for one in priced if one.unit_id is None]
    return Pool(
        tuple(
            (unit, Product.JOINT, _figure("power", [one for one in priced if one.unit_id == unit], words))
            for unit in units
        ),
        ((sharing.in_force(Category.POWER, span.last), _figure("shared power", shared, words)),) if shared else (),
        "Power on days without a price is not counted." if len(priced) < len(uses) else None,
    )


def _figure(name: str, uses: list[PowerUse], words: PowerWords) -> Figure:
    return rounded(name, "power", [(0, words.of(one), one.cost or Fraction(0)) for one in uses], FORMULA)


@dataclass(frozen=True, slots=True)
class PowerWords:
    """Says of a use which readings or devices tell it."""

    devices: Mapping[int, Device]
    meters: Mapping[int, MeterReading]

    def of(self, use: PowerUse) -> str:
        days = f"{use.first} to {use.last}" if use.days > 1 else f"{use.first}"
        return f"{days}: {float(use.watt_hours / 1000):.1f} kWh {self._told(use)}"

    def _told(self, use: PowerUse) -> str:
        if use.metered:
            readings = ", ".join(f"{_shown(self.meters[id])}" for id in use.records)
            return f"by the meter ({readings})"
        return f"by rated watts ({', '.join(_rated(self.devices[id]) for id in use.records)})"


def _shown(one: MeterReading) -> str:
    return f"{one.unit or 'farm'} {one.shown_wh / 1000:.1f} on {one.day}"


def _rated(one: Device) -> str:
    return f"{one.name} {one.rated_mw / 1000:g} W, {one.minutes_a_day / 60:g} h a day"
