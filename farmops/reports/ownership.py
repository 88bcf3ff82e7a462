"""What things bought to last cost in a span: straight line by the day over their life, less their worth at the end."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from farmops.economics.depreciation import straight_line
from farmops.facts import costs as cost_facts
from farmops.facts.costs import BorneCost
from farmops.facts.reading import Reader
from farmops.figures import Figure, RecordLine, Records, of_records
from farmops.reports.pools import MONEY, Pool
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

FORMULA = "straight line by the day over its life, less its worth at the end"


def pool(reader: Reader, span: Span, sharing: Sharing) -> Pool:
    """What each thing costs the unit it was for, or all by the driver in force at the end of the span."""
    charges = charges_of(cost_facts.capital(reader, span.last), span)
    own = {(cost.unit_id, cost.product) for cost, _ in charges if cost.unit_id is not None}
    drivers = {cost.id: sharing.in_force(cost.category, span.last) for cost, _ in charges if cost.unit_id is None}
    return Pool(
        tuple(
            (unit, product, _figure("ownership", [one for one in charges if _of(one[0]) == (unit, product)]))
            for unit, product in sorted(own)
        ),
        tuple(
            (driver, _figure("shared ownership", [one for one in charges if drivers.get(one[0].id, -1) == driver]))
            for driver in sorted(set(drivers.values()), key=lambda id: id or 0)
        ),
    )


def _of(cost: BorneCost) -> tuple[object, object]:
    return cost.unit_id, cost.product


def charges_of(capital: Iterable[BorneCost], span: Span) -> list[tuple[BorneCost, int]]:
    """What each thing bought to last costs in a span, those that cost nothing then left out."""
    found = []
    for cost in capital:
        life = straight_line(cost.amount_minor, cost.salvage_minor or 0, cost.day, cost.life_months or 1)
        charge = life.charge(span.first, span.last)
        if charge:
            found.append((cost, charge))
    return found


def _figure(name: str, charges: Sequence[tuple[BorneCost, int]]) -> Figure:
    lines = [
        RecordLine("costs", cost.id, f"{cost.what}, bought {cost.day}, over {cost.life_months} months", charge)
        for cost, charge in charges
    ]
    value = sum(charge for _, charge in charges)
    return of_records(name, value, MONEY, FORMULA, Records("costs", len(lines), lambda: lines))
