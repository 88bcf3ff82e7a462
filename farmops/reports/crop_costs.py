"""What the produce of each crop in each bed cost: a unit's cost of produce, shared among what it brought."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from farmops.economics.allocation import allot_by
from farmops.facts.harvest_totals import HarvestTotal
from farmops.figures import Figure, difference, given, missing, quotient, share, total
from farmops.model.costs import JointMethod, JointSplit
from farmops.reports.returns import UnitReturns

MASS, MONEY, PRICE = "mg", "minor", "minor per mg"
BY_WEIGHT = (JointMethod.WEIGHT, JointMethod.FIXED_SHARES)
NOTHING = "no produce that counts was weighed"
Place = tuple[int, int]
"""A bed and a crop by their ids."""


@dataclass(frozen=True, slots=True)
class CropCosts:
    """The cost of each crop in each bed, and why there is none for a unit, by its id."""

    parts: Mapping[Place, Figure]
    missing: Mapping[int, str]

    def of(self, name: str, own: Sequence[HarvestTotal]) -> Figure:
        """The cost of what some totals weighed together."""
        named = f"cost of {name}"
        counting = [one for one in own if one.counting_mg]
        if not counting:
            return missing(named, MONEY, NOTHING)
        lacking = next((self.missing[one.unit_id] for one in counting if one.unit_id in self.missing), None)
        if lacking is not None:
            return missing(named, MONEY, lacking)
        parts = [self.parts[_place(one)] for one in counting]
        return total(named, MONEY, parts, "its parts of the cost of produce of the units it grew in")


def crop_costs(lines: Mapping[int, UnitReturns], sums: Sequence[HarvestTotal], split: JointSplit) -> CropCosts:
    """Each unit's cost of produce by weight that counts, or by value where the farm splits by value."""
    parts: dict[Place, Figure] = {}
    lacking: dict[int, str] = {}
    for id, line in lines.items():
        own = [one for one in sums if one.unit_id == id and one.crop_id is not None and one.counting_mg]
        whole = line.cost_of_produce
        if whole.value is None:
            lacking[id] = whole.reason or "no costs are booked"
        elif own:
            parts |= _shared(whole, own, split)
    return CropCosts(parts, lacking)


def _shared(whole: Figure, own: Sequence[HarvestTotal], split: JointSplit) -> dict[Place, Figure]:
    by_value = split.method not in BY_WEIGHT and any(one.value_minor for one in own)
    unit, words = (MONEY, "value at list prices") if by_value else (MASS, "weight that counts")
    weights = {_place(one): one.value_minor if by_value else one.counting_mg for one in own}
    everything = given("all produce of the unit", sum(weights.values()), unit, words)
    amounts = allot_by(int(whole.value or 0), weights)
    return {
        _place(one): share(
            f"part of {one.crop}",
            amounts[_place(one)],
            whole,
            (given("its own", weights[_place(one)], unit, words), everything),
            f"the cost of the unit's produce, shared by {words}",
        )
        for one in own
    }


def _place(one: HarvestTotal) -> Place:
    return one.bed_id or 0, one.crop_id or 0


def costs_of_line(name: str, cost: Figure, marketable: Figure, value: Figure) -> Mapping[str, Figure]:
    """Cost, cost of a weight and net return of a bed or a crop, by name."""
    formula = "its part of the cost of produce ÷ weight that counts"
    return {
        "cost": cost,
        "cost_per_mass": quotient(f"cost per weight of {name}", PRICE, cost, marketable, formula, nothing=NOTHING),
        "net": difference(f"net return of {name}", MONEY, value, cost, "value - cost"),
    }
