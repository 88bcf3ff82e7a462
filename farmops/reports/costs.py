"""What the units cost in a span: direct, shared and ownership, as figures that add up to the last cent."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from farmops.economics.allocation import allot_by
from farmops.economics.depreciation import straight_line
from farmops.facts import costs as cost_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader, Store
from farmops.figures import Figure, RecordLine, Records, given, missing, of_records, share, total
from farmops.model.costs import Basis, Cost, CostKind
from farmops.reports.spans import Span, active_days

NO_COSTS = "no costs are booked for it in this span"
LABOUR_NOTE = "Labour is not counted yet: no minutes carry a rate."
MONEY = "minor"
KINDS = {
    Basis.CASH: (CostKind.OPERATING, CostKind.CAPITAL),
    Basis.OPERATING: (CostKind.OPERATING,),
    Basis.FULL: (CostKind.OPERATING,),
}
PAID = {
    Basis.CASH: "money paid in the span",
    Basis.OPERATING: "operating costs",
    Basis.FULL: "operating costs",
}


@dataclass(frozen=True, slots=True)
class Pool:
    """A kind of cost over the whole farm: each unit's own part, and what all share."""

    name: str
    own: dict[int, Figure]
    shared: Figure


@dataclass(frozen=True, slots=True)
class UnitCosts:
    """The cost of each unit by its id, and what could not be shared out because no unit was active."""

    units: dict[int, Figure]
    unshared: Figure


def unit_costs(store: Store, reader: Reader, span: Span, basis: Basis) -> UnitCosts:
    """The cost of every unit in a span on a basis."""
    days = {id: active_days(states, span) for id, states in unit_facts.all_states(reader).items()}
    units = {unit.id: unit.code for unit in unit_facts.units(reader)}
    pools = [_paid(store, reader, span, basis)]
    if basis is Basis.FULL:
        pools.append(_ownership(store, reader, span))
    shares = {pool.name: _shares(pool, days, span) for pool in pools}
    note = LABOUR_NOTE if basis is Basis.FULL else None
    figures = {}
    for id, code in units.items():
        parts = [part for pool in pools for part in (pool.own.get(id), shares[pool.name].get(id)) if part is not None]
        name = f"cost of {code}"
        figures[id] = total(name, MONEY, parts, _formula(basis), note) if parts else missing(name, MONEY, NO_COSTS)
    unshared = [pool.shared for pool in pools if pool.shared.value and not shares[pool.name]]
    return UnitCosts(figures, total("cost that no active unit bears", MONEY, unshared, "shared, with no unit active"))


def _formula(basis: Basis) -> str:
    if basis is Basis.FULL:
        return "operating costs + ownership by the day, direct and shared"
    return f"{PAID[basis]}, direct and shared"


def _paid(store: Store, reader: Reader, span: Span, basis: Basis) -> Pool:
    kinds = KINDS[basis]
    found: dict[int | None, tuple[int, int]] = {}
    for one in cost_facts.totals(reader, span.first, span.last):
        if one.kind in kinds:
            amount, entries = found.get(one.unit_id, (0, 0))
            found[one.unit_id] = (amount + one.amount_minor, entries + one.entries)

    def figure(name: str, unit: int | None) -> Figure:
        amount, entries = found.get(unit, (0, 0))
        records = Records("costs", entries, _paid_lines(store, span, unit, kinds))
        return of_records(name, amount, MONEY, f"{PAID[basis]}, {counted(entries)}", records)

    own = {unit: figure("direct costs", unit) for unit in found if unit is not None}
    return Pool("paid", own, figure("shared costs", None))


def counted(entries: int) -> str:
    """How many entries a sum has, in words."""
    return "1 entry" if entries == 1 else f"{entries} entries"


def _paid_lines(
    store: Store, span: Span, unit: int | None, kinds: Sequence[CostKind]
) -> Callable[[], Sequence[RecordLine]]:
    def fetch() -> Sequence[RecordLine]:
        with store.reading() as reader:
            found = cost_facts.costs(reader, span.first, span.last)
        return [_line(one, one.amount_minor) for one in found if one.unit_id == unit and one.kind in kinds]

    return fetch


def _line(cost: Cost, amount: int) -> RecordLine:
    return RecordLine("costs", cost.id, f"{cost.day} {cost.what} ({cost.category})", amount)


def _ownership(store: Store, reader: Reader, span: Span) -> Pool:
    charges = charges_of(cost_facts.capital(reader, span.last), span)
    units = {cost.unit_id for cost, _ in charges}

    def figure(name: str, unit: int | None) -> Figure:
        lines = [_charge_line(cost, charge) for cost, charge in charges if cost.unit_id == unit]
        records = Records("costs", len(lines), lambda: lines)
        value = sum(charge for cost, charge in charges if cost.unit_id == unit)
        return of_records(
            name, value, MONEY, "straight line by the day over its life, less its worth at the end", records
        )

    own = {unit: figure("ownership", unit) for unit in units if unit is not None}
    return Pool("ownership", own, figure("shared ownership", None))


def charges_of(capital: Iterable[Cost], span: Span) -> list[tuple[Cost, int]]:
    """What each thing bought to last costs in a span, those that cost nothing then left out."""
    found = []
    for cost in capital:
        life = straight_line(cost.amount_minor, cost.salvage_minor or 0, cost.day, cost.life_months or 1)
        charge = life.charge(span.first, span.last)
        if charge:
            found.append((cost, charge))
    return found


def _charge_line(cost: Cost, charge: int) -> RecordLine:
    return RecordLine("costs", cost.id, f"{cost.what}, bought {cost.day}, over {cost.life_months} months", charge)


def _shares(pool: Pool, days: dict[int, int], span: Span) -> dict[int, Figure]:
    """Each active unit's part of a shared pool by its active days; none where there is nothing or nobody."""
    active = {id: count for id, count in days.items() if count}
    pooled = int(pool.shared.value or 0)
    if not pooled or not active:
        return {}
    parts = allot_by(pooled, active)
    everyone = given("active days of all units", sum(active.values()), "days", f"within {span.days} days")
    return {
        id: share(
            f"part of the {pool.shared.name}",
            parts[id],
            pool.shared,
            (given("active days", active[id], "days", "days cycling, running or wintering"), everyone),
            "shared by the days each unit was active",
        )
        for id in active
    }
