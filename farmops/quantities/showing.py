"""How an exact amount is shown: in the farm's units, with only the digits that mean something."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from farmops.quantities.measures import Measures
from farmops.quantities.numbers import show_decimal
from farmops.quantities.tables import Unit


class Step(NamedTuple):
    """From so many of a unit on, an amount is shown in it to so many decimals.

    `smaller` splits off a lesser unit (`1 lb 6 oz`); the decimals are then those of the lesser unit.
    """

    unit: Unit
    at_least: Fraction
    places: int
    strip: bool = False
    smaller: Unit | None = None


def show(value: int, steps: Sequence[Step], measures: Measures) -> str:
    """The amount by the first step it reaches once rounded; the last step takes what is left."""
    chosen = next((step for step in steps if _reaches(value, step)), steps[-1])
    return _show_by(Fraction(value), chosen, measures)


def _reaches(value: int, step: Step) -> bool:
    counted = step.smaller or step.unit
    grain: Fraction = counted.size / 10**step.places
    return round(abs(value) / grain) * grain >= step.at_least * step.unit.size


def show_finer(value: int, steps: Sequence[Step], places: int, measures: Measures) -> str:
    """The amount by the step it reaches unrounded, with so many decimals at the most."""
    step = next((step for step in steps if abs(value) >= step.at_least * step.unit.size), steps[-1])
    return _show_by(Fraction(value), step._replace(places=places, strip=True), measures)


def _show_by(value: Fraction, step: Step, measures: Measures) -> str:
    if step.smaller:
        return _show_split(value, step, step.smaller, measures)
    number = show_decimal(value / step.unit.size, step.places, measures, strip=step.strip)
    return f"{number} {step.unit.name}"


def _show_split(value: Fraction, step: Step, smaller: Unit, measures: Measures) -> str:
    grains = 10**step.places
    rounded = Fraction(round(abs(value) / smaller.size * grains), grains)
    many, rest = divmod(rounded, step.unit.size / smaller.size)
    parts = [f"{many} {step.unit.name}"] if many else []
    if rest or not many:
        parts.append(f"{show_decimal(rest, step.places, measures, strip=True)} {smaller.name}")
    return ("-" if value < 0 and rounded else "") + " ".join(parts)
