"""An area typed as its two sides: `4 x 6 ft`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from farmops.quantities.grammar import Term, Vocabulary, amount, read_terms
from farmops.quantities.measures import Measures
from farmops.quantities.tables import Unit
from farmops.quantities.wording import UnclearError

UM2_PER_MM2 = 10**6
SHORTEST_BARE_CM = 20


def split_sides(text: str) -> list[str]:
    """The text between the signs that multiply: one piece where there are none."""
    return re.split(r" *(?:x|\*|\bby\b) *", text)


def area_of_sides(sides: Sequence[str], lengths: Vocabulary, measures: Measures) -> Fraction:
    """The area [mm2] of two sides; a side without a unit borrows the other's, or has the farm's.

    Raises:
        UnclearError: not two sides, a side that is no length, or no telling in which unit.
    """
    if len(sides) != 2 or not all(sides):
        raise UnclearError("does not have two sides, as in 4 x 6")
    first, second = (read_terms(side, lengths, measures) for side in sides)
    spoken = Vocabulary(lengths.units, _unit_of_bare_sides([*first, *second], lengths.main))
    return amount(first, spoken) * amount(second, spoken) / UM2_PER_MM2


def _unit_of_bare_sides(terms: Sequence[Term], main: Unit) -> Unit:
    named = {term.unit for term in terms if term.unit}
    if not named:
        _check_not_metres(terms, main)
        return main
    if len(named) > 1 and any(term.unit is None for term in terms):
        raise UnclearError("has a side without a unit; name it on both sides")
    return min(named, key=lambda unit: unit.size)


def _check_not_metres(terms: Sequence[Term], main: Unit) -> None:
    """Refuse `4x6` on a farm that measures in cm: the grower surely thinks in metres."""
    if main.name == "cm" and min(term.number for term in terms) < SHORTEST_BARE_CM:
        raise UnclearError("would be a few centimetres wide; name the unit, m or cm")
