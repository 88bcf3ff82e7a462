"""What the units cost in a span: direct, shared, supplies, power, ownership and labour, adding up to the last cent."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, missing, total
from farmops.model.costs import Basis, Product
from farmops.reports import labour, ownership, paid, power, supplies_used
from farmops.reports.pools import MONEY, Pool
from farmops.reports.sharing import Sharing
from farmops.reports.spans import Span

NO_COSTS = "no costs are booked for it in this span"
FORMULAS = {
    Basis.CASH: "money paid in the span, direct and shared",
    Basis.OPERATING: "operating costs, direct and shared: supplies when used, the rest when paid",
    Basis.FULL: "operating costs + ownership by the day + labour, direct and shared",
}


@dataclass(frozen=True, slots=True)
class CostOf:
    """The cost of one unit, or of the farm: all of it, and what of it was for one product alone or for both."""

    all: Figure
    produce: tuple[Figure, ...] = ()
    fish: tuple[Figure, ...] = ()
    joint: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class UnitCosts:
    """The cost of each unit by its id, and what could not be shared out because no unit was active."""

    units: Mapping[int, CostOf]
    unshared: Figure
    notes: tuple[str, ...] = field(default=())


def unit_costs(store: Store, reader: Reader, span: Span, basis: Basis) -> UnitCosts:
    """The cost of every unit in a span on a basis."""
    sharing = Sharing(reader, span)
    pools = list(_pools(store, reader, span, basis, sharing))
    parts: dict[int, list[tuple[Product, Figure]]] = {}
    unshared: list[Figure] = []
    for pool in pools:
        for unit, product, figure in pool.own:
            parts.setdefault(unit, []).append((product, figure))
        for driver, shared in pool.shared:
            shares = sharing.parts(shared, driver)
            for unit, figure in shares.items():
                parts.setdefault(unit, []).append((Product.JOINT, figure))
            if shared.value and not shares:
                unshared.append(shared)
    notes = tuple(pool.note for pool in pools if pool.note)
    units = {unit.id: _cost_of(unit.code, parts.get(unit.id, []), basis, notes) for unit in unit_facts.units(reader)}
    return UnitCosts(
        units, total("cost that no active unit bears", MONEY, unshared, "shared, with no unit active"), notes
    )


def _pools(store: Store, reader: Reader, span: Span, basis: Basis, sharing: Sharing) -> Iterator[Pool]:
    if basis is Basis.CASH:
        yield paid.pool(store, reader, span, basis, power_is_told=False)
        return
    used = power.pool(reader, span, sharing)
    yield paid.pool(store, reader, span, basis, power_is_told=used is not None)
    yield supplies_used.pool(reader, span, sharing)
    if used is not None:
        yield used
    if basis is Basis.FULL:
        yield ownership.pool(reader, span, sharing)
        yield labour.pool(store, reader, span, sharing)


def _cost_of(code: str, parts: Sequence[tuple[Product, Figure]], basis: Basis, notes: Sequence[str]) -> CostOf:
    name = f"cost of {code}"
    if not parts:
        return CostOf(missing(name, MONEY, NO_COSTS))
    whole = total(name, MONEY, [figure for _, figure in parts], FORMULAS[basis], " ".join(notes) or None)
    by = {product: tuple(figure for one, figure in parts if one is product) for product in Product}
    return CostOf(whole, by[Product.PRODUCE], by[Product.FISH], by[Product.JOINT])


def farm_cost(units: Sequence[CostOf], unshared: Figure, notes: Sequence[str]) -> CostOf:
    """The cost of the farm: what its units bear, and what nobody bears."""
    booked = [one for one in units if one.all.value is not None]
    left = (unshared,) if unshared.value else ()
    name = "cost of the farm"
    if not booked and not left:
        return CostOf(missing(name, MONEY, NO_COSTS))
    whole = total(name, MONEY, [*(one.all for one in booked), *left], "all units", " ".join(notes) or None)
    return CostOf(
        whole,
        tuple(figure for one in booked for figure in one.produce),
        tuple(figure for one in booked for figure in one.fish),
        (*(figure for one in booked for figure in one.joint), *left),
    )
