"""Money paid in a span: by the unit, bed or lot it was for, or shared."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from farmops.facts import costs as cost_facts
from farmops.facts.costs import BorneCost, CostTotal
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, RecordLine
from farmops.model.costs import Basis, Category, CostKind, Product
from farmops.reports.pools import Pool, summed
from farmops.reports.spans import Span

Fits = Callable[[CostTotal | BorneCost], bool]
NAMES = {
    Product.JOINT: "direct costs",
    Product.PRODUCE: "direct costs of produce",
    Product.FISH: "direct costs of fish",
}
BILLS_LEFT_OUT = "Power bills are left out: the power that was used counts instead."


def pool(store: Store, reader: Reader, span: Span, basis: Basis, *, power_is_told: bool) -> Pool:
    """What was paid. Beside cash, supplies count when used and power bills only where nothing tells the use."""

    def counts(one: CostTotal | BorneCost) -> bool:
        if basis is Basis.CASH:
            return True
        left_out = one.stocked or (power_is_told and one.category is Category.POWER)
        return one.kind is CostKind.OPERATING and not left_out

    totals = cost_facts.totals(reader, span.first, span.last)
    counting = [one for one in totals if counts(one)]
    formula = "money paid in the span" if basis is Basis.CASH else "operating costs"

    def figure(name: str, chosen: Sequence[CostTotal], fits: Fits) -> Figure:
        amount, entries = sum(one.amount_minor for one in chosen), sum(one.entries for one in chosen)
        return summed(
            name, "costs", amount, entries, formula, _lines(store, span, lambda one: counts(one) and fits(one))
        )

    borne: dict[tuple[int, Product], list[CostTotal]] = {}
    for one in counting:
        if one.unit_id is not None:
            borne.setdefault((one.unit_id, one.product), []).append(one)
    own = []
    for (unit, product), found in sorted(borne.items(), key=lambda item: item[0]):

        def bears(one: CostTotal | BorneCost, unit: int = unit, product: Product = product) -> bool:
            return one.unit_id == unit and one.product is product

        own.append((unit, product, figure(NAMES[product], found, bears)))
    shared = []
    for driver in sorted({one.driver_id for one in counting if one.unit_id is None}, key=lambda id: id or 0):

        def shares(one: CostTotal | BorneCost, driver: int | None = driver) -> bool:
            return one.unit_id is None and one.driver_id == driver

        shared.append((driver, figure("shared costs", [one for one in counting if shares(one)], shares)))
    bills = any(one.category is Category.POWER and not counts(one) and not one.stocked for one in totals)
    return Pool(tuple(own), tuple(shared), BILLS_LEFT_OUT if power_is_told and bills else None)


def _lines(store: Store, span: Span, fits: Fits) -> Callable[[], Sequence[RecordLine]]:
    def fetch() -> Sequence[RecordLine]:
        with store.reading() as reader:
            found = cost_facts.borne(reader, span.first, span.last)
        return [
            RecordLine("costs", one.id, f"{one.day} {one.what} ({one.category})", one.amount_minor)
            for one in found
            if fits(one)
        ]

    return fetch
