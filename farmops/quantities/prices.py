"""Prices by weight, kept as so much money for so much weight, never as a rounded quotient."""

from __future__ import annotations

import re
from fractions import Fraction

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.quantities.dimensions import MASS
from farmops.quantities.grammar import close, spellings
from farmops.quantities.measures import Measures
from farmops.quantities.money import (
    currency_decimals,
    parse_money,
    show_money,
    show_money_exact,
    with_currency,
)
from farmops.quantities.numbers import show_decimal, tidy
from farmops.quantities.wording import UnclearError, not_understood

FEW_MINOR = 10


@dataclass(frozen=True, slots=True)
class Price:
    """`minor` units of money for `per_mg` milligrams.

    A price per pound is kept for the 100 lb that are a whole number of milligrams.

    Raises:
        OutOfRange: the weight is not more than nothing.
    """

    minor: int
    per_mg: int

    def __post_init__(self) -> None:
        if self.per_mg <= 0:
            raise OutOfRange("A price needs a weight that is more than nothing.")

    def amount(self, mass_mg: int) -> int:
        """What so much weight costs, in minor units, rounded once, half to even."""
        return round(Fraction(self.minor * mass_mg, self.per_mg))

    def per(self, unit_name: str) -> Fraction:
        """Minor units for one of the unit of weight named, exactly."""
        return Fraction(self.minor, self.per_mg) * MASS.unit(unit_name).size


def parse_price(text: str, measures: Measures, *, zero_ok: bool = False) -> Price:
    """`3.50/lb`, `3.50 per lb`, `2 / 100 g`; `3.50` alone is per main unit of weight of the farm.

    Raises:
        NotUnderstood: the sum or the weight has no one clear meaning.
        OutOfRange: the sum or the weight is too large.
    """
    money, *weights = re.split(r"\s*/\s*|\s+per\b\s*", text, maxsplit=1, flags=re.IGNORECASE)
    try:
        tidy(text)
        if not money.strip() or (weights and not weights[0].strip()):
            raise UnclearError("is no price: it needs a sum and a weight")
    except UnclearError as error:
        raise not_understood(text, str(error), price_examples(measures)) from None
    minor = parse_money(money, measures, zero_ok=zero_ok)
    weight = weights[0].strip() if weights else MASS.main_unit(measures)
    return _priced(minor, _weight_mg(weight, measures))


def _weight_mg(weight: str, measures: Measures) -> Fraction:
    """The weight a price is for, exactly: a unit alone counts one of it."""
    unit = spellings(MASS.all_units).get(close(weight))
    return unit.size if unit else MASS.parse_fraction(weight, measures)


def _priced(minor: int, weight_mg: Fraction) -> Price:
    return Price(minor * weight_mg.denominator, weight_mg.numerator)


def price_examples(measures: Measures) -> tuple[str, ...]:
    """What would be understood on this farm."""
    money = show_money_exact(350 if currency_decimals(measures) else 3, measures)
    unit = MASS.main_unit(measures)
    return (f"{money}/{unit}", f"{money} per {unit}", f"{money} / 100 g", money)


def show_price(price: Price, measures: Measures) -> str:
    """The price per main unit of weight as a person reads it: `$3.50 per lb`."""
    unit = MASS.main_unit(measures)
    return f"{_show_minor(price.per(unit), measures)} per {unit}"


def _show_minor(minor: Fraction, measures: Measures) -> str:
    """To the minor unit; a price of less than ten of them to two digits more."""
    if minor.denominator == 1 or abs(minor) >= FEW_MINOR:
        return show_money(round(minor), measures)
    places = currency_decimals(measures)
    number = show_decimal(abs(minor) / 10**places, places + 2, measures)
    return ("-" if minor < 0 else "") + with_currency(number, measures)


def show_price_exact(price: Price, measures: Measures) -> str:
    """The price as `parse_price` reads it back: `7.13 / 1234567 mg`."""
    return f"{show_money_exact(price.minor, measures)} / {price.per_mg} mg"
