"""What power cost in a span: by the meter where it was read, else by rated watts and hours."""

from __future__ import annotations

from fractions import Fraction

from farmops.economics.power import PowerUse, power_uses
from farmops.facts import power as power_facts
from farmops.facts.reading import Reader
from farmops.figures import Figure
from farmops.model.costs import Category, Product
from farmops.reports.pools import Pool, rounded
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

FORMULA = "watt-hours at the price of their days"


def pool(reader: Reader, span: Span, sharing: Sharing) -> Pool | None:
    """Power of each unit, and what all share; None where nothing tells the use or no price was ever set."""
    prices = power_facts.power_prices(reader)
    uses = power_uses(power_facts.devices(reader), power_facts.meters(reader), prices, span.first, span.last)
    priced = [one for one in uses if one.cost is not None]
    if not priced:
        return None
    units = sorted({one.unit_id for one in priced if one.unit_id is not None})
    shared = [one for one in priced if one.unit_id is None]
    return Pool(
        tuple(
            (unit, Product.JOINT, _figure("power", [one for one in priced if one.unit_id == unit])) for unit in units
        ),
        ((sharing.in_force(Category.POWER, span.last), _figure("shared power", shared)),) if shared else (),
        "Power on days without a price is not counted." if len(priced) < len(uses) else None,
    )


def _figure(name: str, uses: list[PowerUse]) -> Figure:
    return rounded(name, "power", [(0, _words(one), one.cost or Fraction(0)) for one in uses], FORMULA)


def _words(use: PowerUse) -> str:
    told = "by the meter" if use.metered else "by rated watts"
    return f"{use.first} to {use.last}: {float(use.watt_hours / 1000):.1f} kWh {told}"
