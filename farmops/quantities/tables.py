"""Units with their exact sizes: the table every conversion rests on.

Sizes are in base units: weight in mg, volume in mL, area in mm2, length in um. Sources:

- yard and pound: agreement of 1959, exact; NIST Special Publication 811 (2008), appendix B.8, footnote.
- US gallon (231 cu in), quart, pint, cup, fluid ounce, acre (43,560 sq ft of the international foot),
  short ton (2,000 lb): NIST Handbook 44, appendix C, general tables of units of measurement.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple


class Unit(NamedTuple):
    """One unit: how it is shown, its name in a sentence, its exact size, whose company it keeps.

    Units of one `system` may stand beside each other, the larger first: `1 lb 6 oz`.
    """

    name: str
    plural: str
    size: Fraction
    system: str
    spellings: tuple[str, ...]

    def __hash__(self) -> int:
        """By name: units are looked up at every parse, and hashing fractions is slow."""
        return hash(self.name)


def _unit(name: str, plural: str, size: Fraction | int, system: str, spellings: str) -> Unit:
    return Unit(name, plural, Fraction(size), system, tuple(word.strip() for word in spellings.split("|")))


# Lengths in micrometres.
INCH = Fraction(25_400)  # SP 811: 1 in = 25.4 mm exactly
FOOT = 12 * INCH
YARD = 3 * FOOT

LENGTHS = (
    _unit("yd", "yards", YARD, "us", "yd|yds|yard|yards"),
    _unit("ft", "feet", FOOT, "us", "ft|foot|feet|'|′|’"),
    _unit("in", "inches", INCH, "us", 'in|ins|inch|inches|"|″|”'),
    _unit("m", "metres", 10**6, "metric", "m|metre|metres|meter|meters"),
    _unit("cm", "centimetres", 10**4, "metric", "cm|centimetre|centimetres|centimeter|centimeters"),
    _unit("mm", "millimetres", 10**3, "metric", "mm|millimetre|millimetres|millimeter|millimeters"),
    _unit("um", "micrometres", 1, "metric", "um|µm|micrometre|micrometres|micrometer|micrometers"),
)

# Weights in milligrams.
POUND = Fraction(45_359_237, 100)  # SP 811: 1 lb = 0.453 592 37 kg exactly
OUNCE = POUND / 16

MASSES = (
    _unit("short ton", "short tons", 2000 * POUND, "us", "short ton|short tons"),
    _unit("lb", "pounds", POUND, "us", "lb|lbs|pound|pounds|#"),
    _unit("oz", "ounces", OUNCE, "us", "oz|ozs|ounce|ounces"),
    _unit("t", "tonnes", 10**9, "metric", "t|tonne|tonnes|metric ton|metric tons"),
    _unit("kg", "kilograms", 10**6, "metric", "kg|kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"),
    _unit("g", "grams", 10**3, "metric", "g|gm|gms|gram|grams|gramme|grammes"),
    _unit("mg", "milligrams", 1, "metric", "mg|mgs|milligram|milligrams|milligramme|milligrammes"),
)

# Areas in square millimetres: the square of a length in micrometres, over 10**6.
SQUARE_FOOT = FOOT**2 / 10**6

AREAS = (
    _unit("acre", "acres", 43_560 * SQUARE_FOOT, "us", "acre|acres|ac"),
    _unit("sq yd", "square yards", YARD**2 / 10**6, "us", "sq yd|sq yds|square yard|square yards|yd2|yd^2"),
    _unit("sq ft", "square feet", SQUARE_FOOT, "us", "sq ft|sqft|square foot|square feet|sf|ft2|ft^2|feet^2"),
    _unit("sq in", "square inches", INCH**2 / 10**6, "us", "sq in|sqin|square inch|square inches|in2|in^2"),
    _unit("ha", "hectares", 10**10, "metric", "ha|hectare|hectares"),
    _unit(
        "m2",
        "square metres",
        10**6,
        "metric",
        "m2|m^2|sq m|sqm|qm|square metre|square metres|square meter|square meters",
    ),
    _unit("cm2", "square centimetres", 100, "metric", "cm2|cm^2|sq cm|square centimetres|square centimeters"),
    _unit("mm2", "square millimetres", 1, "metric", "mm2|mm^2|sq mm|square millimetres|square millimeters"),
)

# Volumes in millilitres.
CUBIC_INCH = INCH**3 / 10**12
GALLON = 231 * CUBIC_INCH  # Handbook 44, appendix C: the US gallon is 231 cubic inches
FLUID_OUNCE = GALLON / 128

VOLUMES = (
    _unit("gal", "gallons", GALLON, "us", "gal|gals|gallon|gallons|us gal|us gallon|us gallons"),
    _unit("qt", "quarts", GALLON / 4, "us", "qt|qts|quart|quarts"),
    _unit("pt", "pints", GALLON / 8, "us", "pt|pts|pint|pints"),
    _unit("cup", "cups", GALLON / 16, "us", "cup|cups"),
    _unit("fl oz", "fluid ounces", FLUID_OUNCE, "us", "fl oz|floz|fl. oz|fluid ounce|fluid ounces"),
    _unit("tbsp", "tablespoons", FLUID_OUNCE / 2, "us", "tbsp|tablespoon|tablespoons"),
    _unit("tsp", "teaspoons", FLUID_OUNCE / 6, "us", "tsp|teaspoon|teaspoons"),
    _unit("cu ft", "cubic feet", 1728 * CUBIC_INCH, "cubic", "cu ft|cuft|cubic foot|cubic feet|ft3|ft^3"),
    _unit("cu in", "cubic inches", CUBIC_INCH, "cubic", "cu in|cuin|cubic inch|cubic inches|in3|in^3"),
    _unit("m3", "cubic metres", 10**6, "metric", "m3|m^3|cu m|cubic metre|cubic metres|cubic meter|cubic meters"),
    _unit("L", "litres", 1000, "metric", "l|lt|ltr|litre|litres|liter|liters"),
    _unit("cL", "centilitres", 10, "metric", "cl|centilitre|centilitres|centiliter|centiliters"),
    _unit("mL", "millilitres", 1, "metric", "ml|mls|cc|cm3|cm^3|millilitre|millilitres|milliliter|milliliters"),
)

KINDS: Mapping[str, tuple[Unit, ...]] = {
    "weight": MASSES,
    "volume": VOLUMES,
    "area": AREAS,
    "length": LENGTHS,
}

_IMPERIAL = "names an imperial measure; only US measures are known here. An imperial gallon is 4.54609 L: type litres"
_WHICH_TON = "does not say which ton: short ton (2,000 lb) or tonne (1,000 kg)"

# What people type that is known, but not one unit here; the words follow what was typed.
HINTS: Mapping[str, str] = {
    "ton": _WHICH_TON,
    "tons": _WHICH_TON,
    "imperial": _IMPERIAL,
    "imp": _IMPERIAL,
    "uk": _IMPERIAL,
    "e": "has an exponent; write the number out",
}
