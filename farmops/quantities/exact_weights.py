"""Weights as they were typed, before they were rounded to whole milligrams: a price is of what was typed."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from farmops.model.errors import FarmopsError
from farmops.quantities.dimensions import MASS
from farmops.quantities.measures import METRIC, US

READ_BY = (US, METRIC, replace(US, decimal_comma=True), replace(METRIC, decimal_comma=True))
"""Every way in which a farm may read a weight: its settings may have changed since one was typed."""
FINEST = 100
"""The finest part of an ounce that is typed."""


@lru_cache(maxsize=4096)
def as_typed(typed: str, mg: int) -> Fraction:
    """A weight [mg] as it was typed; what is kept where nothing typed reads as that."""
    for measures in READ_BY:
        with suppress(FarmopsError):
            exact = MASS.parse_fraction(typed, measures)
            if round(exact) == mg:
                return exact
    return Fraction(mg)


def in_ounces(mg: int) -> Fraction:
    """The parts of an ounce [mg] that were rounded to a weight; the weight itself where no such parts were."""
    ounce = MASS.unit("oz").size
    exact = (mg / ounce).limit_denominator(FINEST) * ounce
    return exact if round(exact) == mg else Fraction(mg)
