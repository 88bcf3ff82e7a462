"""Sharing a whole number of cents over several takers without losing or making one."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from fractions import Fraction
from math import lcm
from typing import TypeVar

from farmops.model.errors import Refused

Key = TypeVar("Key", bound=Hashable)


def allot(total: int, weights: Sequence[int | Fraction]) -> list[int]:
    """Share `total` in proportion to `weights` by the largest remainder; the parts always add up to `total`.

    Every part lies less than one whole from its exact share. What rounding down leaves over goes, one by
    one, to the largest remainders; among equal remainders the one named first gets it. A negative total is
    shared like the positive one, with the sign turned. A taker of weight zero gets zero.

    Args:
        total: what is shared, in any whole unit (cents, milligrams); may be negative.
        weights: one per taker, zero or more, at least one above zero.

    Raises:
        Refused: there is no taker, a weight is negative, or all are zero: the caller must choose another
            driver.

    Source:
        Largest-remainder (Hamilton) apportionment.
    """
    wholes = _whole_weights(weights)
    all_weights = sum(wholes)
    shares = [divmod(abs(total) * weight, all_weights) for weight in wholes]
    parts = [floor for floor, _ in shares]
    by_remainder = sorted(range(len(shares)), key=lambda taker: -shares[taker][1])
    for taker in by_remainder[: abs(total) - sum(parts)]:
        parts[taker] += 1
    return parts if total >= 0 else [-part for part in parts]


def allot_by(total: int, weights: Mapping[Key, int | Fraction]) -> dict[Key, int]:
    """Share `total` by the weight of each key, in the order of the keys.

    Args:
        total: what is shared, in any whole unit; may be negative.
        weights: weight of each taker, zero or more, at least one above zero.

    Raises:
        Refused: as `allot`.
    """
    return dict(zip(weights, allot(total, list(weights.values())), strict=True))


def proportion(total: int, part: int, whole: int) -> int:
    """`total * part / whole` to the nearest whole number, halves away from zero.

    Args:
        total: what is measured off, in any whole unit (cents, milligrams); may be negative.
        part: how much of `whole` it is for, zero or more.
        whole: above zero.
    """
    nearest = (2 * abs(total) * part + whole) // (2 * whole)
    return nearest if total >= 0 else -nearest


def _whole_weights(weights: Sequence[int | Fraction]) -> list[int]:
    if not weights:
        raise Refused("There is nobody to share this among.")
    if min(weights) < 0:
        raise Refused("A weight to share by is negative; weights are zero or more.")
    if not any(weights):
        raise Refused("All weights to share by are zero; choose another way to share.")
    scale = lcm(*(weight.denominator for weight in weights))
    return [int(weight * scale) for weight in weights]
