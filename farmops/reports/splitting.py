"""The cost of a unit between its produce and its fish: what was for one alone, and its part of what made both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from farmops.economics.joint import JointProduct, split_joint_cost
from farmops.figures import Figure, Number, difference, given, missing, share, total
from farmops.model.costs import JointMethod, JointSplit
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.reports.costs import CostOf

MASS, MONEY = "mg", "minor"
NOTHING_WEIGHED = "nothing that counts was weighed"
USUAL = JointSplit(0, date.min, JointMethod.WEIGHT, None)
WEIGHTS = {
    JointMethod.WEIGHT: ("weight of both that counts", MASS, "only to split the cost; never shown as a yield"),
    JointMethod.SALES_VALUE: ("value of both", MONEY, "what counts, at its worth"),
    JointMethod.NET_REALISABLE_VALUE: ("value of both less their own cost", MONEY, "what counts, at its worth"),
    JointMethod.CONSTANT_MARGIN: ("value of both", MONEY, "what counts, at its worth"),
    JointMethod.FIXED_SHARES: ("both shares", "thousandths", "as the farm has set them"),
}


@dataclass(frozen=True, slots=True)
class OfProduct:
    """What one product of a unit weighed that counts, what it was worth, and the costs that were for it alone."""

    name: str
    mass: Figure
    value: Figure
    own: tuple[Figure, ...]

    @property
    def own_cost(self) -> int:
        """Its own costs together, in minor units."""
        return sum(int(one.value or 0) for one in self.own)


def split_in_force(splits: Sequence[JointSplit], day: date) -> JointSplit:
    """The method that holds on a day; by weight while none was chosen."""
    return max((one for one in splits if one.from_day <= day), key=lambda one: one.from_day, default=USUAL)


def split_cost(
    code: str, cost: CostOf, produce: tuple[Figure, Figure], fish: tuple[Figure, Figure], split: JointSplit
) -> tuple[Figure, Figure]:
    """The part of produce and the part of fish, which add up to the cost. Each product comes with mass and value."""
    products = (OfProduct("produce", *produce, cost.produce), OfProduct("fish", *fish, cost.fish))
    names = [f"cost of {one.name}, {code}" for one in products]
    reason = _why_not(cost.all, products, split)
    if reason:
        return missing(names[0], MONEY, reason, cost.all), missing(names[1], MONEY, reason, cost.all)
    joint = total(f"cost that made both, {code}", MONEY, cost.joint, "all but what was for one product alone")
    try:
        parts = _parts(joint, products, split)
    except Refused as refused:
        return missing(names[0], MONEY, str(refused), cost.all), missing(names[1], MONEY, str(refused), cost.all)
    formula = f"its own cost + its part of what made both, split by {split.method}"
    made = [
        total(name, MONEY, [*one.own, part], formula) if one.own else replace(part, name=name)
        for name, one, part in zip(names, products, parts, strict=True)
    ]
    return made[0], made[1]


def _why_not(cost: Figure, products: Sequence[OfProduct], split: JointSplit) -> str | None:
    """Why the cost cannot be split, if it cannot."""
    if cost.value is None:
        return cost.reason
    if not any(one.mass.value for one in products):
        return NOTHING_WEIGHED
    if split.method in (JointMethod.WEIGHT, JointMethod.FIXED_SHARES):
        return None
    unpriced = next((one.value for one in products if one.value.value is None), None)
    return None if unpriced is None else f"it is split by {split.method}, and {unpriced.reason}"


def _parts(joint: Figure, products: Sequence[OfProduct], split: JointSplit) -> list[Figure]:
    """Each product's part of what made both, with the weights it follows from."""
    amounts = split_joint_cost(int(joint.value or 0), [_product(one, split) for one in products], split.method)
    weights = [_weight(one, split) for one in products]
    words, unit, formula = WEIGHTS[split.method]
    both = given(words, sum(weights), unit, formula)
    found = []
    for one, amount, weight in zip(products, amounts, weights, strict=True):
        name = f"part of {one.name} in what made both"
        own = given(f"its own, {one.name}", weight, unit, formula)
        if split.method is JointMethod.CONSTANT_MARGIN:
            found.append(_same_margin(name, joint, one, products, amount, (own, both)))
        else:
            found.append(share(name, amount, joint, (own, both), f"what made both, shared by {split.method}"))
    return found


def _same_margin(
    name: str,
    joint: Figure,
    one: OfProduct,
    products: Sequence[OfProduct],
    amount: int,
    weights: tuple[Figure, Figure],
) -> Figure:
    """All costs by value, so that the margin is the same, less what was for this product alone."""
    everything = total("all costs", MONEY, [joint, *(own for other in products for own in other.own)], "joint and own")
    by_value = share(f"{name}, with its own", amount + one.own_cost, everything, weights, "all costs, shared by value")
    alone = total(f"own cost of {one.name}", MONEY, one.own, "what was for it alone")
    return difference(name, MONEY, by_value, alone, "its part of all costs - its own")


def _product(one: OfProduct, split: JointSplit) -> JointProduct:
    value = int(one.value.value or 0)
    return JointProduct(
        name=one.name,
        weight=int(one.mass.value or 0),
        sales_value=value,
        final_value=value,
        own_cost=one.own_cost,
        share=_thousandths(one, split),
    )


def _thousandths(one: OfProduct, split: JointSplit) -> int:
    produce = split.produce_thousandths or 0
    return produce if one.name == "produce" else 1000 - produce


def _weight(one: OfProduct, split: JointSplit) -> Number:
    match split.method:
        case JointMethod.WEIGHT:
            return one.mass.value or 0
        case JointMethod.FIXED_SHARES:
            return _thousandths(one, split)
        case JointMethod.NET_REALISABLE_VALUE:
            return int(one.value.value or 0) - one.own_cost
        case _:
            return one.value.value or 0
