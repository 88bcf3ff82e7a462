"""Any number by its name: the figure to open."""

from __future__ import annotations

from farmops.facts.reading import Store
from farmops.figures import Figure
from farmops.model.errors import NotFound
from farmops.reports.returns import Asked, UnitReturns, returns

NAMES = {
    "cost-per-pound": "cost_per_mass",
    "cost-per-kg": "cost_per_mass",
    "fish-cost-per-pound": "fish_cost_per_mass",
    "fish-cost-per-kg": "fish_cost_per_mass",
    "cost": "cost",
    "produce": "marketable",
    "harvest": "harvest",
    "fish": "fish",
    "yield": "yield_per_area",
    "area": "area",
    "value": "value",
    "net": "net",
    "over-operating": "over_operating",
    "per-hour": "per_hour",
    "value-per-area": "value_per_area",
    "break-even-price": "break_even_price",
    "break-even-harvest": "break_even_yield",
    "labour": "labour",
    "minutes": "minutes",
}


def figure(store: Store, name: str, asked: Asked, unit: str | None) -> Figure:
    """The figure of a name, of one unit or of the whole farm. Raises NotFound."""
    if name not in NAMES:
        raise NotFound(f"There is no figure {name}. Known: {', '.join(NAMES)}.")
    found: Figure = getattr(_line(store, asked, unit), NAMES[name])
    return found


def _line(store: Store, asked: Asked, unit: str | None) -> UnitReturns:
    report = returns(store, asked)
    if unit is None:
        return report.farm
    wanted = unit.strip().upper()
    for one in report.units:
        if one.unit == wanted:
            return one
    raise NotFound(f"There is no unit {wanted}. Known: {', '.join(one.unit for one in report.units) or 'none yet'}.")
