"""What the units cost in a span: direct, shared, supplies, power, ownership and labour, adding up to the last cent."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from enum import StrEnum

from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, missing, total
from farmops.model.costs import Basis, Product
from farmops.model.frozen import dataclass
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


class Kind(StrEnum):
    """What a cost is made up of."""

    PAID = "money paid"
    SUPPLIES = "supplies used"
    POWER = "power"
    OWNERSHIP = "ownership"
    LABOUR = "labour"


OPERATING = (Kind.PAID, Kind.SUPPLIES, Kind.POWER)


@dataclass(frozen=True, slots=True)
class CostOf:
    """The cost of one unit, or of the farm: all, what was for one product alone or for both, and by kind."""

    all: Figure
    produce: tuple[Figure, ...] = ()
    fish: tuple[Figure, ...] = ()
    joint: tuple[Figure, ...] = ()
    kinds: tuple[tuple[Kind, Figure], ...] = ()

    def of(self, *kinds: Kind) -> tuple[Figure, ...]:
        """The parts of some kinds."""
        return tuple(figure for kind, figure in self.kinds if kind in kinds)

    def sum_of(self, *kinds: Kind) -> int:
        """What the parts of some kinds come to, in minor units."""
        return sum(int(figure.value or 0) for figure in self.of(*kinds))


@dataclass(frozen=True, slots=True)
class UnitCosts:
    """The cost of each unit by its id, and what could not be shared out because no unit was active."""

    units: Mapping[int, CostOf]
    unshared: Figure
    unshared_kinds: tuple[tuple[Kind, Figure], ...] = ()
    notes: tuple[str, ...] = field(default=())
    minutes: Mapping[int, Figure] = field(default_factory=dict)
    few_minutes: str | None = None


def unit_costs(store: Store, reader: Reader, span: Span, basis: Basis) -> UnitCosts:
    """The cost of every unit in a span on a basis."""
    sharing = Sharing(reader, span)
    pools = list(_pools(store, reader, span, basis, sharing))
    parts: dict[int, list[tuple[Kind, Product, Figure]]] = {}
    unshared: list[tuple[Kind, Figure]] = []
    for kind, pool in pools:
        for unit, product, figure in pool.own:
            parts.setdefault(unit, []).append((kind, product, figure))
        for driver, shared in pool.shared:
            shares = sharing.parts(shared, driver)
            for unit, figure in shares.items():
                parts.setdefault(unit, []).append((kind, Product.JOINT, figure))
            if shared.value and not shares:
                unshared.append((kind, shared))
    notes = tuple(pool.note for _, pool in pools if pool.note)
    units = {unit.id: _cost_of(unit.code, parts.get(unit.id, []), basis, notes) for unit in unit_facts.units(reader)}
    left = [figure for _, figure in unshared]
    return UnitCosts(
        units,
        total("cost that no active unit bears", MONEY, left, "shared, with no unit active"),
        tuple(unshared),
        notes,
        labour.minutes(store, span, sharing),
        labour.too_few(span, sharing),
    )


def _pools(store: Store, reader: Reader, span: Span, basis: Basis, sharing: Sharing) -> Iterator[tuple[Kind, Pool]]:
    if basis is Basis.CASH:
        yield Kind.PAID, paid.pool(store, reader, span, basis, power_is_told=False)
        return
    used = power.pool(reader, span, sharing)
    yield Kind.PAID, paid.pool(store, reader, span, basis, power_is_told=used is not None)
    yield Kind.SUPPLIES, supplies_used.pool(reader, span, sharing)
    if used is not None:
        yield Kind.POWER, used
    if basis is Basis.FULL:
        yield Kind.OWNERSHIP, ownership.pool(reader, span, sharing)
        yield Kind.LABOUR, labour.pool(store, reader, span, sharing)


def _cost_of(code: str, parts: Sequence[tuple[Kind, Product, Figure]], basis: Basis, notes: Sequence[str]) -> CostOf:
    name = f"cost of {code}"
    if not parts:
        return CostOf(missing(name, MONEY, NO_COSTS))
    whole = total(name, MONEY, [figure for _, _, figure in parts], FORMULAS[basis], " ".join(notes) or None)
    by = {product: tuple(figure for _, one, figure in parts if one is product) for product in Product}
    kinds = tuple((kind, figure) for kind, _, figure in parts)
    return CostOf(whole, by[Product.PRODUCE], by[Product.FISH], by[Product.JOINT], kinds)


def farm_cost(found: UnitCosts) -> CostOf:
    """The cost of the farm: what its units bear, and what nobody bears."""
    booked = [one for one in found.units.values() if one.all.value is not None]
    left = (found.unshared,) if found.unshared.value else ()
    name = "cost of the farm"
    if not booked and not left:
        return CostOf(missing(name, MONEY, NO_COSTS))
    whole = total(name, MONEY, [*(one.all for one in booked), *left], "all units", " ".join(found.notes) or None)
    return CostOf(
        whole,
        tuple(figure for one in booked for figure in one.produce),
        tuple(figure for one in booked for figure in one.fish),
        (*(figure for one in booked for figure in one.joint), *left),
        (*(kind for one in booked for kind in one.kinds), *found.unshared_kinds),
    )
