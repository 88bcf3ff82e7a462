"""What each unit brought and cost in a span: yields, cost per weight, value and net, every number a figure."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from datetime import date

from farmops.facts import beds as bed_facts
from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts import harvest_totals
from farmops.facts import units as unit_facts
from farmops.facts.harvest_totals import HarvestTotal
from farmops.facts.reading import Reader, Store
from farmops.figures import (
    Figure,
    difference,
    given,
    missing,
    quotient,
    total,
)
from farmops.model.beds import Bed
from farmops.model.costs import Basis, JointSplit
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.units import Unit, UnitState
from farmops.reports.costs import CostOf, UnitCosts, farm_cost, unit_costs
from farmops.reports.measures import NO_MINUTES, Bears, measures_of
from farmops.reports.spans import Span, span_of, state_on
from farmops.reports.splitting import split_cost, split_in_force
from farmops.reports.weighed import Weighed
from farmops.reports.worth import Told, sold_in, told

MASS, AREA, MONEY = "mg", "mm2", "minor"
YIELD, PRICE = "mg per mm2", "minor per mg"


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
    cost_of_fish: Figure
    cost_per_mass: Figure
    fish_cost_per_mass: Figure
    value_of_produce: Figure
    value_of_fish: Figure
    value: Figure
    net: Figure
    value_per_area: Figure
    operating_cost: Figure
    over_operating: Figure
    labour: Figure
    minutes: Figure
    per_hour: Figure
    break_even_price: Figure
    break_even_yield: Figure
    bears: CostOf

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
    "cost_of_fish",
    "cost_per_mass",
    "fish_cost_per_mass",
    "value_of_produce",
    "value_of_fish",
    "value",
    "net",
    "value_per_area",
    "operating_cost",
    "over_operating",
    "labour",
    "minutes",
    "per_hour",
    "break_even_price",
    "break_even_yield",
)


@dataclass(frozen=True, slots=True)
class Returns:
    """The whole row in a span on a basis; `farm` adds the units up, `unshared` is cost that no active unit bears,
    `sales` how much of what is marked sold stands in a sale.
    """

    settings: Farm
    span: Span
    basis: Basis
    units: tuple[UnitReturns, ...]
    farm: UnitReturns
    unshared: Figure
    sales: Told


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
    return _by_span(store, asked, Span.months)


def yearly(store: Store, asked: Asked) -> tuple[Returns, ...]:
    """The same for each year of the span."""
    return _by_span(store, asked, Span.years)


def _by_span(store: Store, asked: Asked, cut: Callable[[Span], list[Span]]) -> tuple[Returns, ...]:
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        span = span_of(reader, asked.first, asked.last, asked.today)
        return tuple(in_span(store, reader, farm, part, asked.basis) for part in cut(span))


def in_span(store: Store, reader: Reader, farm: Farm, span: Span, basis: Basis) -> Returns:
    """The same, for a span with both ends and within one snapshot."""
    sums = harvest_totals.totals(reader, span.first, span.last)
    units = unit_facts.units(reader)
    areas = _areas(reader, span, units, {one.bed_id for one in sums})
    costs = unit_costs(store, reader, span, basis)
    split = split_in_force(cost_facts.joint_splits(reader), span.last)
    states = unit_facts.all_states(reader)
    brought: dict[int, list[HarvestTotal]] = {}
    for one in sums:
        brought.setdefault(one.unit_id, []).append(one)
    sold = sold_in(reader, farm.measures, span.first, span.last)
    sales = sold.by_unit()
    lines = []
    for unit in units:
        held = state_on(states.get(unit.id, []), span.last)
        weighed = Weighed(store, span, unit, brought.get(unit.id, []), sales.get(unit.id, sold.none()))
        state = held.state if held else None
        worked = costs.minutes.get(unit.id) or missing(f"minutes on {unit.code}", "minutes", NO_MINUTES)
        bears = Bears(costs.units[unit.id], worked, basis, costs.few_minutes)
        lines.append(_unit_returns(unit.code, state, weighed, areas[unit.id], bears, split))
    farm_line = _farm_returns(lines, costs, split, basis)
    return Returns(farm, span, basis, tuple(lines), farm_line, costs.unshared, told(sums, sold))


def _areas(reader: Reader, span: Span, units: Sequence[Unit], weighed: Collection[int | None]) -> dict[int, Figure]:
    """Bed area of each unit; a bed that was weighed from needs a size, one not sized yet was not there."""
    on = bed_facts.areas_on(reader, span.last)
    beds: dict[int, list[Bed]] = {}
    for bed in bed_facts.beds(reader):
        beds.setdefault(bed.unit_id, []).append(bed)
    sized = bed_facts.sized_ever(reader) - (set(weighed) - set(on))
    return {unit.id: _area(f"bed area of {unit.code}", beds.get(unit.id, []), on, sized, span.last) for unit in units}


def _area(name: str, beds: Sequence[Bed], on: dict[int, int], sized: set[int], day: date) -> Figure:
    unsized = [bed.code for bed in beds if bed.id not in sized]
    if unsized:
        listed = ", ".join(unsized[:3]) + (" and others" if len(unsized) > 3 else "")
        return missing(name, AREA, f"no size is booked for {listed}")
    there = [given(bed.code, on[bed.id], AREA, f"its size on {day}") for bed in beds if bed.id in on]
    if not there:
        return missing(name, AREA, f"it has no bed on {day}")
    return total(name, AREA, there, f"sizes of its beds on {day}")


def _unit_returns(
    code: str, state: UnitState | None, weighed: Weighed, area: Figure, bears: Bears, split: JointSplit
) -> UnitReturns:
    return _assemble(
        code,
        state,
        harvest=weighed.mass(f"produce of {code}, all", fish=False, counting=False),
        marketable=weighed.mass(f"produce of {code} that counts", fish=False, counting=True),
        fish=weighed.mass(f"fish of {code} that counts", fish=True, counting=True),
        area=area,
        bears=bears,
        values=(weighed.value(fish=False), weighed.value(fish=True)),
        split=split,
    )


def _assemble(
    code: str,
    state: UnitState | None,
    *,
    harvest: Figure,
    marketable: Figure,
    fish: Figure,
    area: Figure,
    bears: Bears,
    values: tuple[Figure, Figure],
    split: JointSplit,
) -> UnitReturns:
    cost = bears.cost
    produce_part, fish_part = split_cost(code, cost, (marketable, values[0]), (fish, values[1]), split)
    value, net = value_and_net(code, values, cost.all)
    return UnitReturns(
        unit=code,
        state=state,
        harvest=harvest,
        marketable=marketable,
        fish=fish,
        area=area,
        yield_per_area=yield_of(code, harvest, marketable, area),
        cost=cost.all,
        cost_of_produce=produce_part,
        cost_of_fish=fish_part,
        cost_per_mass=per_mass("produce", code, produce_part, marketable, split),
        fish_cost_per_mass=per_mass("fish", code, fish_part, fish, split),
        value_of_produce=values[0],
        value_of_fish=values[1],
        value=value,
        net=net,
        **measures_of(code, bears, value, values, marketable, area),
        bears=cost,
    )


def value_and_net(code: str, values: tuple[Figure, Figure], cost: Figure) -> tuple[Figure, Figure]:
    """The values of produce and of fish together, and what the cost leaves of them."""
    value = total(f"value of {code}", MONEY, values, "value of produce + value of fish")
    return value, difference(f"net return of {code}", MONEY, value, cost, "value - cost")


def yield_of(name: str, harvest: Figure, marketable: Figure, area: Figure) -> Figure:
    """Produce that counts per area; missing while nothing was weighed."""
    named = f"yield per area of {name}"
    if not harvest.value:
        return missing(named, YIELD, "no harvest", marketable, area)
    return quotient(named, YIELD, marketable, area, "produce that counts ÷ bed area", nothing="no bed area")


def per_mass(product: str, code: str, cost: Figure, mass: Figure, split: JointSplit) -> Figure:
    """What a weight of a product cost, in minor units per mg; missing where none of it counts."""
    name = f"cost per weight of {product}, {code}"
    formula = f"the {product}'s part of the cost ÷ weight that counts"
    note = f"A unit's cost is split between produce and fish by {split.method}."
    return quotient(name, PRICE, cost, mass, formula, nothing=f"no {product} that counts was weighed", note=note)


def _farm_returns(lines: Sequence[UnitReturns], costs: UnitCosts, split: JointSplit, basis: Basis) -> UnitReturns:
    def added(name: str, unit: str, field: str) -> Figure:
        return total(name, unit, [getattr(line, field) for line in lines], "all units")

    sized = [line.area for line in lines if line.marketable.value or line.area.value is not None]
    return _assemble(
        "the farm",
        None,
        harvest=added("produce of the farm, all", MASS, "harvest"),
        marketable=added("produce of the farm that counts", MASS, "marketable"),
        fish=added("fish of the farm that counts", MASS, "fish"),
        area=total("bed area of the farm", AREA, sized, "all units with beds"),
        bears=Bears(farm_cost(costs), _all_minutes(lines), basis, costs.few_minutes),
        values=(
            added("value of produce of the farm", MONEY, "value_of_produce"),
            added("value of fish of the farm", MONEY, "value_of_fish"),
        ),
        split=split,
    )


def _all_minutes(lines: Sequence[UnitReturns]) -> Figure:
    booked = [line.minutes for line in lines if line.minutes.value is not None]
    if not booked:
        return missing("minutes on the farm", "minutes", NO_MINUTES)
    return total("minutes on the farm", "minutes", booked, "all units")
