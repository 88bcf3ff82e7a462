"""One cost that made several products at once, as power does fish and plants, split between them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from farmops.economics.allocation import proportion
from farmops.model.costs import JointMethod
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass


@dataclass(frozen=True, slots=True)
class JointProduct:
    """What a joint cost is split by; a method reads only the fields it needs.

    Attributes:
        name: as the words of a refusal call it.
        weight: harvested weight, in the same whole unit for all products [mg].
        sales_value: worth at the point where the products part [cents].
        final_value: worth when sold, after work on this product alone [cents].
        own_cost: cost of this product alone, such as fingerlings or seed [cents].
        share: its fixed share, in any unit common to all products [-].
    """

    name: str
    weight: int = 0
    sales_value: int = 0
    final_value: int = 0
    own_cost: int = 0
    share: int | Fraction = 0


def split_joint_cost(cost: int, products: Sequence[JointProduct], method: JointMethod) -> list[int]:
    """Split a joint cost over the products it made; the parts always add up to the cost.

    Shares are taken at full precision and rounded once to the cent; what rounding leaves over goes to the
    largest share. Only the constant margin can give a product a negative share: one whose own cost is above
    what the common margin leaves it.

    Args:
        cost: the joint cost [cents]; may be negative.
        products: what it made, at least one.
        method: how to split it.

    Returns:
        The part of each product, in the order given [cents].

    Raises:
        Refused: what the method splits by is missing, zero for all products, or negative.

    Source:
        Horngren, Datar, Rajan, Cost Accounting, ch. 16 (weight, sales value, net realisable value, constant
        gross margin percentage).
    """
    if method is JointMethod.CONSTANT_MARGIN:
        exact = _constant_margin(cost, products)
    else:
        exact = _in_proportion(cost, products, method)
    return _whole_cents(cost, exact)


def _in_proportion(cost: int, products: Sequence[JointProduct], method: JointMethod) -> list[Fraction]:
    weights = [_weight(product, method) for product in products]
    _must_be_usable(weights, products, method)
    all_weights = sum(weights)
    return [Fraction(cost * weight, all_weights) for weight in weights]


def _weight(product: JointProduct, method: JointMethod) -> int | Fraction:
    match method:
        case JointMethod.WEIGHT:
            return product.weight
        case JointMethod.SALES_VALUE:
            return product.sales_value
        case JointMethod.NET_REALISABLE_VALUE:
            return product.final_value - product.own_cost
        case _:
            return product.share


def _constant_margin(cost: int, products: Sequence[JointProduct]) -> list[Fraction]:
    """a_i = F_i (1 - g) - s_i, where 1 - g is all cost over all final value."""
    finals = [Fraction(product.final_value) for product in products]
    _must_be_usable(finals, products, JointMethod.CONSTANT_MARGIN)
    all_cost = cost + sum(product.own_cost for product in products)
    cost_share = all_cost / sum(finals, Fraction())
    return [final * cost_share - product.own_cost for final, product in zip(finals, products, strict=True)]


def _must_be_usable(weights: Sequence[int | Fraction], products: Sequence[JointProduct], method: JointMethod) -> None:
    for weight, product in zip(weights, products, strict=True):
        if weight < 0:
            raise Refused(f"A joint cost cannot be split by {method}: that of {product.name} is below zero.")
    if not any(weights):
        raise Refused(f"A joint cost cannot be split by {method}: nothing to split by is booked.")


def _whole_cents(cost: int, exact: list[Fraction]) -> list[int]:
    parts = [proportion(share.numerator, 1, share.denominator) for share in exact]
    largest = max(range(len(exact)), key=lambda product: abs(exact[product]))
    parts[largest] += cost - sum(parts)
    return parts
