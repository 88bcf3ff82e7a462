"""What each unit brought and cost in a span: yields, cost per weight, value and net, every number a figure."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date

from farmops.economics.joint import JointProduct, split_joint_cost
from farmops.facts import beds as bed_facts
from farmops.facts import farm as farm_facts
from farmops.facts import harvest_totals
from farmops.facts import harvests as harvest_facts
from farmops.facts import units as unit_facts
from farmops.facts.harvest_totals import HarvestTotal
from farmops.facts.harvests import ValuedHarvest
from farmops.facts.reading import Reader, Store
from farmops.figures import (
    Figure,
    RecordLine,
    Records,
    difference,
    given,
    missing,
    of_records,
    quotient,
    share,
    total,
)
from farmops.model.beds import Bed
from farmops.model.costs import Basis, JointMethod
from farmops.model.farm import Farm
from farmops.model.units import Unit, UnitState
from farmops.reports.costs import NO_COSTS, unit_costs
from farmops.reports.spans import Span, span_of, state_on

MASS, AREA, MONEY = "mg", "mm2", "minor"
YIELD, PRICE = "mg per mm2", "minor per mg"
METHOD = JointMethod.WEIGHT


@dataclass(frozen=True, slots=True)
class UnitReturns:
    """One unit in a span. Masses in mg, areas in mm2, money in minor units; a figure without value says why."""

    unit: str
    state: UnitState | None
    harvest: Figure
    marketable: Figure
    fish: Figure
    area: Figure
    yield_per_area: Figure
    cost: Figure
    cost_of_produce: Figure
    cost_per_mass: Figure
    fish_cost_per_mass: Figure
    value: Figure
    net: Figure

    def figures(self) -> dict[str, Figure]:
        """Every figure by its name."""
        return {name: getattr(self, name) for name in FIGURES}


FIGURES = (
    "harvest",
    "marketable",
    "fish",
    "area",
    "yield_per_area",
    "cost",
    "cost_of_produce",
    "cost_per_mass",
    "fish_cost_per_mass",
    "value",
    "net",
)


@dataclass(frozen=True, slots=True)
class Returns:
    """The whole row in a span on a basis; `farm` adds the units up, `unshared` is cost that no active unit bears."""

    settings: Farm
    span: Span
    basis: Basis
    units: tuple[UnitReturns, ...]
    farm: UnitReturns
    unshared: Figure


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for: a span with open ends, a basis, and the day that stands for today."""

    today: date
    first: date | None = None
    last: date | None = None
    basis: Basis = Basis.FULL


def returns(store: Store, asked: Asked) -> Returns:
    """Yields, costs and returns of every unit, and of the farm as their sum."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        return in_span(store, reader, farm, span, asked.basis)


def monthly(store: Store, asked: Asked) -> tuple[Returns, ...]:
    """The same for each month of the span."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        return tuple(in_span(store, reader, farm, month, asked.basis) for month in span.months())


def in_span(store: Store, reader: Reader, farm: Farm, span: Span, basis: Basis) -> Returns:
    """The same, for a span with both ends and within one snapshot."""
    sums = harvest_totals.totals(reader, span.first, span.last)
    areas = _areas(reader, span, {one.bed_id for one in sums})
    costs = unit_costs(store, reader, span, basis)
    states = unit_facts.all_states(reader)
    lines = []
    for unit in unit_facts.units(reader):
        held = state_on(states.get(unit.id, []), span.last)
        own = [one for one in sums if one.unit_id == unit.id]
        weighed = _Weighed(store, span, unit, own)
        lines.append(
            _unit_returns(unit.code, held.state if held else None, weighed, areas[unit.id], costs.units[unit.id])
        )
    return Returns(farm, span, basis, tuple(lines), _farm_returns(lines, costs.unshared), costs.unshared)


@dataclass(frozen=True, slots=True)
class _Weighed:
    """What was weighed from one unit, as figures down to the weighings."""

    store: Store
    span: Span
    unit: Unit
    sums: Sequence[HarvestTotal]

    def mass(self, name: str, *, fish: bool, counting: bool) -> Figure:
        """Mass of produce or of fish, all of it or what counts."""
        chosen = [one for one in self.sums if (one.species is not None) is fish]
        value = sum(one.counting_mg if counting else one.mass_mg for one in chosen)
        count = sum(one.counting_weighings if counting else one.weighings for one in chosen)
        formula = "weighings sold, eaten at home or given" if counting else "all weighings"

        def fits(one: ValuedHarvest) -> bool:
            return (one.species is not None) is fish and (one.use.counts or not counting)

        records = Records("harvests", count, self._lines(fits, lambda one: one.mass_mg))
        return of_records(name, value, MASS, formula, records, self._left_out(chosen) if counting else None)

    def _left_out(self, chosen: Sequence[HarvestTotal]) -> str | None:
        wasted = sum(one.weighings - one.counting_weighings for one in chosen)
        return f"{wasted} weighings went to waste or to feed and are left out." if wasted else None

    def value(self) -> Figure:
        """What the counting weighings were worth at the list price of their days."""
        unpriced = [one for one in self.sums if one.unpriced]
        if unpriced:
            names = ", ".join(sorted({one.crop or one.species or "" for one in unpriced}))
            return missing(f"value of {self.unit.code}", MONEY, f"no list price for {names} on some days")
        count = sum(one.counting_weighings for one in self.sums)
        value = sum(one.value_minor for one in self.sums)
        records = Records("harvests", count, self._lines(lambda one: one.use.counts, lambda one: one.value_minor))
        formula = "each weighing that counts at the list price of its day"
        return of_records(f"value of {self.unit.code}", value, MONEY, formula, records)

    def _lines(
        self, fits: Callable[[ValuedHarvest], bool], amount: Callable[[ValuedHarvest], int]
    ) -> Callable[[], Sequence[RecordLine]]:
        def fetch() -> Sequence[RecordLine]:
            with self.store.reading() as reader:
                found = harvest_facts.valued(reader, self.unit.id, self.span.first, self.span.last)
            return [
                RecordLine("harvests", one.id, f"{one.day} {one.what} {one.mass_typed} ({one.use})", amount(one))
                for one in found
                if fits(one)
            ]

        return fetch


def _areas(reader: Reader, span: Span, weighed: Collection[int | None]) -> dict[int, Figure]:
    """Bed area of each unit; a bed that was weighed from needs a size, one not sized yet was not there."""
    on = bed_facts.areas_on(reader, span.last)
    beds: dict[int, list[Bed]] = {}
    for bed in bed_facts.beds(reader):
        beds.setdefault(bed.unit_id, []).append(bed)
    sized = bed_facts.sized_ever(reader) - (set(weighed) - set(on))
    return {
        unit.id: _area(f"bed area of {unit.code}", beds.get(unit.id, []), on, sized, span.last)
        for unit in unit_facts.units(reader)
    }


def _area(name: str, beds: Sequence[Bed], on: dict[int, int], sized: set[int], day: date) -> Figure:
    unsized = [bed.code for bed in beds if bed.id not in sized]
    if unsized:
        listed = ", ".join(unsized[:3]) + (" and others" if len(unsized) > 3 else "")
        return missing(name, AREA, f"no size is booked for {listed}")
    there = [given(bed.code, on[bed.id], AREA, f"its size on {day}") for bed in beds if bed.id in on]
    if not there:
        return missing(name, AREA, f"it has no bed on {day}")
    return total(name, AREA, there, f"sizes of its beds on {day}")


def _unit_returns(code: str, state: UnitState | None, weighed: _Weighed, area: Figure, cost: Figure) -> UnitReturns:
    return _assemble(
        code,
        state,
        harvest=weighed.mass(f"produce of {code}, all", fish=False, counting=False),
        marketable=weighed.mass(f"produce of {code} that counts", fish=False, counting=True),
        fish=weighed.mass(f"fish of {code} that counts", fish=True, counting=True),
        area=area,
        cost=cost,
        value=weighed.value(),
    )


def _assemble(
    code: str,
    state: UnitState | None,
    *,
    harvest: Figure,
    marketable: Figure,
    fish: Figure,
    area: Figure,
    cost: Figure,
    value: Figure,
) -> UnitReturns:
    produce_part, fish_part = _split(code, cost, marketable, fish)
    return UnitReturns(
        unit=code,
        state=state,
        harvest=harvest,
        marketable=marketable,
        fish=fish,
        area=area,
        yield_per_area=yield_of(code, harvest, marketable, area),
        cost=cost,
        cost_of_produce=produce_part,
        cost_per_mass=_per_mass("produce", code, produce_part, marketable),
        fish_cost_per_mass=_per_mass("fish", code, fish_part, fish),
        value=value,
        net=difference(f"net return of {code}", MONEY, value, cost, "value - cost"),
    )


def yield_of(name: str, harvest: Figure, marketable: Figure, area: Figure) -> Figure:
    """Produce that counts per area; missing while nothing was weighed."""
    named = f"yield per area of {name}"
    if not harvest.value:
        return missing(named, YIELD, "no harvest yet", marketable, area)
    return quotient(named, YIELD, marketable, area, "produce that counts ÷ bed area", nothing="no bed area")


def _per_mass(product: str, code: str, cost: Figure, mass: Figure) -> Figure:
    name = f"cost per weight of {product}, {code}"
    formula = f"the {product}'s part of the cost ÷ weight that counts"
    note = f"A unit's cost is split between produce and fish by {METHOD}."
    return quotient(name, PRICE, cost, mass, formula, nothing=f"no {product} that counts was weighed", note=note)


def _split(code: str, cost: Figure, produce: Figure, fish: Figure) -> tuple[Figure, Figure]:
    """The cost of a unit between its two products by weight; the parts add up to the cost."""
    names = (f"cost of produce, {code}", f"cost of fish, {code}")
    weights = (int(produce.value or 0), int(fish.value or 0))
    reason = cost.reason if cost.value is None else None if any(weights) else "nothing that counts was weighed"
    if reason:
        return missing(names[0], MONEY, reason, cost), missing(names[1], MONEY, reason, cost)
    products = [JointProduct(name="produce", weight=weights[0]), JointProduct(name="fish", weight=weights[1])]
    parts = split_joint_cost(int(cost.value or 0), products, METHOD)
    both = given("weight of both that counts", sum(weights), MASS, "only to split the cost; never shown as a yield")
    formula = f"cost of the unit shared by {METHOD}"
    return (
        share(names[0], parts[0], cost, (produce, both), formula),
        share(names[1], parts[1], cost, (fish, both), formula),
    )


def _farm_returns(lines: Sequence[UnitReturns], unshared: Figure) -> UnitReturns:
    def added(name: str, unit: str, field: str) -> Figure:
        return total(name, unit, [getattr(line, field) for line in lines], "all units")

    booked = [line.cost for line in lines if line.cost.value is not None] + ([unshared] if unshared.value else [])
    sized = [line.area for line in lines if line.marketable.value or line.area.value is not None]
    cost = "cost of the farm"
    return _assemble(
        "the farm",
        None,
        harvest=added("produce of the farm, all", MASS, "harvest"),
        marketable=added("produce of the farm that counts", MASS, "marketable"),
        fish=added("fish of the farm that counts", MASS, "fish"),
        area=total("bed area of the farm", AREA, sized, "all units with beds"),
        cost=total(cost, MONEY, booked, "all units") if booked else missing(cost, MONEY, NO_COSTS),
        value=added("value of the farm", MONEY, "value"),
    )
