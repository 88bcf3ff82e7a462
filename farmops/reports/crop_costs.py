"""What each crop in each bed, and each fish lot, cost: a unit's cost of a product, shared among what it brought."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from farmops.economics.allocation import allot_by
from farmops.facts.harvest_totals import HarvestTotal, LotTotal
from farmops.figures import Figure, difference, given, missing, quotient, share, total
from farmops.model.costs import JointMethod, JointSplit
from farmops.model.frozen import dataclass

MASS, MONEY, PRICE = "mg", "minor", "minor per mg"
BY_WEIGHT = (JointMethod.WEIGHT, JointMethod.FIXED_SHARES)
NOTHING = "nothing that counts was weighed"
Place = tuple[int, int | None, int | None, int | None]
"""A unit, and a bed and a crop or a fish lot in it, by their ids."""


@dataclass(frozen=True, slots=True)
class CropCosts:
    """The cost of each crop in each bed, or of each lot, and why there is none for a unit, by its id."""

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
        parts = [self.parts[place] for place in dict.fromkeys(map(_place, counting))]
        return total(named, MONEY, parts, "its parts of the cost of the units it was in")


def crop_costs(wholes: Mapping[int, Figure], sums: Sequence[HarvestTotal], split: JointSplit) -> CropCosts:
    """Each unit's cost of produce, or of fish, by weight that counts, or by value where the farm splits by value.

    `wholes` are those costs by unit; `sums` are of produce alone, or of fish alone.
    """
    parts: dict[Place, Figure] = {}
    lacking: dict[int, str] = {}
    for id, whole in wholes.items():
        own = [one for one in sums if one.unit_id == id and one.counting_mg]
        if whole.value is None:
            lacking[id] = whole.reason or "no costs are booked"
        elif own:
            parts |= _shared(whole, own, split)
    return CropCosts(parts, lacking)


def _shared(whole: Figure, own: Sequence[HarvestTotal], split: JointSplit) -> dict[Place, Figure]:
    by_value = split.method not in BY_WEIGHT and any(one.value_minor for one in own)
    unit, words = (MONEY, "value at list prices") if by_value else (MASS, "weight that counts")
    weights: dict[Place, int] = {}
    for one in own:
        weights[_place(one)] = weights.get(_place(one), 0) + (one.value_minor if by_value else one.counting_mg)
    everything = given("all of the unit", sum(weights.values()), unit, words)
    formula = f"the cost of the unit shared by {words}"
    return {
        place: share("its part", amount, whole, (given("its own", weights[place], unit, words), everything), formula)
        for place, amount in allot_by(int(whole.value or 0), weights).items()
    }


def _place(one: HarvestTotal) -> Place:
    return one.unit_id, one.bed_id, one.crop_id, one.lot_id if isinstance(one, LotTotal) else None


def costs_of_line(name: str, cost: Figure, marketable: Figure, value: Figure) -> Mapping[str, Figure]:
    """Cost, cost of a weight and net return of a bed or a crop, by name."""
    formula = "its part of the cost ÷ weight that counts"
    return {
        "cost": cost,
        "cost_per_mass": quotient(f"cost per weight of {name}", PRICE, cost, marketable, formula, nothing=NOTHING),
        "net": difference(f"net return of {name}", MONEY, value, cost, "value - cost"),
    }
