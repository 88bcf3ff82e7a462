"""Power, energy, hours a day and what a kilowatt-hour costs: as typed, as exact integers, as read."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from farmops.model.errors import OutOfRange
from farmops.model.frozen import dataclass
from farmops.quantities.amounts import Customs, Dimension
from farmops.quantities.grammar import Vocabulary, close, read_amount, spellings
from farmops.quantities.measures import CHOICES, Measures
from farmops.quantities.money import currency_decimals, parse_money, show_money_exact, with_currency
from farmops.quantities.numbers import NUMBER, read_decimal, show_decimal, tidy
from farmops.quantities.showing import Step
from farmops.quantities.tables import Unit
from farmops.quantities.wording import UnclearError, not_understood

LARGEST_PRICE = 2**63 - 1
W = Unit("W", "watts", Fraction(1000), "power", ("w", "watt", "watts"))
MW = Unit("mW", "milliwatts", Fraction(1), "power", ("milliwatt", "milliwatts"))
KW = Unit("kW", "kilowatts", Fraction(10**6), "power", ("kw", "kilowatt", "kilowatts"))
WH = Unit("Wh", "watt-hours", Fraction(1), "energy", ("wh", "watt-hour", "watt-hours"))
KWH = Unit("kWh", "kilowatt-hours", Fraction(1000), "energy", ("kwh", "kilowatt-hour", "kilowatt-hours"))
MIN = Unit("min", "minutes", Fraction(1), "time", ("min", "mins", "minute", "minutes"))
H = Unit("h", "hours", Fraction(60), "time", ("h", "hr", "hrs", "hour", "hours"))


def _everywhere(customs: Customs) -> Mapping[str, Customs]:
    """The same for farms that weigh in pounds and those that weigh in kilograms."""
    return dict.fromkeys(CHOICES["mass"], customs)


POWER = Dimension(
    word="power",
    base="mW",
    largest=10**9,
    choice="mass",
    all_units=(KW, W, MW),
    exact_steps=(Step(W, Fraction(1), 3, True), Step(MW, Fraction(0), 0)),
    customs=_everywhere(
        Customs(Vocabulary((KW, W, MW), W), (Step(W, Fraction(0), 1, True),), ("40 W", "40", "1.2 kW"))
    ),
    read_part=read_amount,
)
ENERGY = Dimension(
    word="energy",
    base="Wh",
    largest=10**13,
    choice="mass",
    all_units=(KWH, WH),
    exact_steps=(Step(KWH, Fraction(1), 3, True), Step(WH, Fraction(0), 0)),
    customs=_everywhere(
        Customs(Vocabulary((KWH, WH), KWH), (Step(KWH, Fraction(0), 1),), ("1234.5 kWh", "1234.5", "800 Wh"))
    ),
    read_part=read_amount,
)
A_DAY = Dimension(
    word="time of a day",
    base="min",
    largest=24 * 60,
    choice="mass",
    all_units=(H, MIN),
    exact_steps=(Step(H, Fraction(1), 0, False, MIN), Step(MIN, Fraction(0), 0)),
    customs=_everywhere(
        Customs(
            Vocabulary((H, MIN), H),
            (Step(H, Fraction(1), 0, False, MIN), Step(MIN, Fraction(0), 0)),
            ("24 h", "24", "6.5", "15 min"),
        )
    ),
    read_part=read_amount,
)


@dataclass(frozen=True, slots=True)
class PowerRate:
    """`minor` units of money for `per_wh` watt-hours, never divided."""

    minor: int
    per_wh: int


def parse_power_price(text: str, measures: Measures) -> PowerRate:
    """`0.16`, `0.1625/kWh`, `0.16 per kWh`; the sum may have more decimals than the currency.

    Raises:
        NotUnderstood: the sum or the energy has no one clear meaning.
        OutOfRange: more digits than a price can keep.
    """
    sum_, *energies = re.split(r"\s*/\s*|\s+per\b\s*", text, maxsplit=1, flags=re.IGNORECASE)
    energy_wh = _energy_wh(energies[0].strip(), measures) if energies else KWH.size
    minor = _minor(text, sum_, measures) / energy_wh
    rate = PowerRate(minor.numerator, minor.denominator)
    if max(rate.minor, rate.per_wh) > LARGEST_PRICE:
        raise OutOfRange(f"{text!r} has more digits than a price can keep. Write it with fewer.")
    return rate


def _energy_wh(text: str, measures: Measures) -> Fraction:
    """The energy a price is for, exactly: a unit alone counts one of it."""
    unit = spellings(ENERGY.all_units).get(close(text))
    return unit.size if unit else ENERGY.parse_fraction(text, measures)


def _minor(text: str, typed: str, measures: Measures) -> Fraction:
    """The sum in minor units; decimals beyond those of the currency are taken as they are."""
    try:
        number = re.search(NUMBER, tidy(typed))
        decimals = number and re.fullmatch(rf"[0-9]*\{measures.decimal_mark}[0-9]+", number["first"])
        if number is None or decimals is None:
            return Fraction(parse_money(typed, measures, zero_ok=True))
        whole = read_decimal(number["first"], measures)
        parse_money(tidy(typed).replace(number["first"], str(int(whole)), 1), measures, zero_ok=True)
        return whole * Fraction(10) ** currency_decimals(measures)
    except UnclearError as error:
        raise not_understood(text, str(error), power_price_examples(measures)) from None


def power_price_examples(measures: Measures) -> tuple[str, ...]:
    """What would be understood on this farm."""
    sum_ = show_money_exact(16, measures)
    return (f"{sum_}/kWh", f"{sum_} per kWh", sum_)


def show_power_price(rate: PowerRate, measures: Measures) -> str:
    """The price of a kilowatt-hour: `$0.16 per kWh`, with the decimals that it was typed with, four at most."""
    places = currency_decimals(measures)
    major = rate.minor * KWH.size / rate.per_wh / 10**places
    shown = show_decimal(major, places, measures)
    finer = show_decimal(major, places + 2, measures, strip=True)
    return f"{with_currency(max(shown, finer, key=len), measures)} per kWh"
