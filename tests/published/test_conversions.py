"""Exact sizes of units and decimals of currencies against NIST, pint and ISO 4217."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from farmops.quantities import (
    AREA,
    LENGTH,
    MASS,
    METRIC,
    TEMPERATURE,
    US,
    VOLUME,
    Dimension,
    Measures,
    celsius,
    parse_money,
)
from farmops.quantities.currencies import CURRENCIES
from tests.labels import from_memory, published, rows

NIST = "NIST Special Publication 811 (2008), appendix B.8; NIST Handbook 44, appendix C"
DIMENSIONS = (MASS, VOLUME, AREA, LENGTH)
TABLE = rows("unit_conversions.csv", "from_unit", "to_unit", "factor", "standing")
VERIFIED = [row[:3] for row in TABLE if row[3] == "verified"]
REMEMBERED = [row[:3] for row in TABLE if row[3] == "from memory"]

PINT_NAMES = {
    "short ton": "short_ton",
    "lb": "pound",
    "oz": "ounce",
    "t": "tonne",
    "kg": "kilogram",
    "g": "gram",
    "mg": "milligram",
    "gal": "gallon",
    "qt": "quart",
    "pt": "pint",
    "cup": "cup",
    "fl oz": "fluid_ounce",
    "tbsp": "tablespoon",
    "tsp": "teaspoon",
    "cu ft": "foot**3",
    "cu in": "inch**3",
    "m3": "meter**3",
    "L": "liter",
    "cL": "centiliter",
    "mL": "milliliter",
    "acre": "43560 * foot**2",  # pint's own acre still rests on the survey foot
    "sq yd": "yard**2",
    "sq ft": "foot**2",
    "sq in": "inch**2",
    "ha": "hectare",
    "m2": "meter**2",
    "cm2": "centimeter**2",
    "mm2": "millimeter**2",
    "yd": "yard",
    "ft": "foot",
    "in": "inch",
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "um": "micrometer",
}
PINT_BASES = {"mg": "milligram", "mL": "milliliter", "mm2": "millimeter**2", "um": "micrometer"}


def of_both(first: str, second: str) -> Dimension:
    return next(dimension for dimension in DIMENSIONS if {first, second} <= set(dimension.units))


def factor(first: str, second: str) -> Fraction:
    units = of_both(first, second).units
    return units[first] / units[second]


@published(NIST)
@pytest.mark.parametrize(("first", "second", "printed"), VERIFIED)
def test_a_factor_is_the_printed_one_to_the_last_digit(first: str, second: str, printed: str) -> None:
    assert factor(first, second) == Fraction(printed)


@from_memory(NIST)
@pytest.mark.parametrize(("first", "second", "printed"), REMEMBERED)
def test_a_factor_is_the_remembered_one_to_the_last_digit(first: str, second: str, printed: str) -> None:
    assert factor(first, second) == Fraction(printed)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)


@published("pint, its default registry of unit definitions", note="computed in exact fractions")
@pytest.mark.parametrize(
    ("dimension", "name"), [(dimension, name) for dimension in DIMENSIONS for name in dimension.units]
)
def test_every_unit_has_the_size_it_has_elsewhere(registry: pint.UnitRegistry, dimension: Dimension, name: str) -> None:
    elsewhere = registry.Quantity(Fraction(1), registry(PINT_NAMES[name]).units).to(PINT_BASES[dimension.base])
    assert dimension.units[name] == elsewhere.magnitude * Fraction(registry(PINT_NAMES[name]).magnitude)


@published(NIST, note="degree Fahrenheit to degree Celsius: subtract 32, divide by 1.8")
@pytest.mark.parametrize(("fahrenheit", "degrees_c"), [(68, 20), (212, 100), (32, 0), (-40, -40)])
def test_fahrenheit_and_celsius_meet_at_the_fixed_points(fahrenheit: int, degrees_c: int) -> None:
    assert celsius(Fraction(fahrenheit)) == degrees_c
    assert TEMPERATURE.parse(f"{fahrenheit} F", METRIC) == degrees_c
    assert TEMPERATURE.parse(TEMPERATURE.show(degrees_c, US), METRIC) == degrees_c


@published("ISO 4217, list one of 2026-01-01")
def test_every_current_currency_has_its_decimals() -> None:
    printed = rows("iso_4217.csv", "code", "minor_unit_digits")
    assert {code: int(digits) for code, digits in printed} == CURRENCIES


@published("ISO 4217, list one of 2026-01-01")
@pytest.mark.parametrize(("code", "digits"), [("USD", 2), ("JPY", 0), ("KWD", 3), ("CLF", 4)])
def test_one_of_a_currency_is_as_many_minor_units_as_it_has(code: str, digits: int) -> None:
    assert parse_money("1", Measures("kg", "L", "m2", "m", "C", code)) == 10**digits
