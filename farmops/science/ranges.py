"""The one check that a number lies within the range for which an equation holds."""

from __future__ import annotations

import math

from farmops.model.errors import OutOfRange

KELVIN = 273.15
"""What turns degrees Celsius into kelvin [K]."""

UNIT_SUFFIXES = {
    "_mg_per_l": "mg/L",
    "_l_per_h": "L/h",
    "_g_per_m2_day": "g/m2/day",
    "_kg_per_m3": "kg/m3",
    "_mg_per_kg_h": "mg/kg/h",
    "_m2": "m2",
    "_m3": "m3",
    "_mm": "mm",
    "_cm": "cm",
    "_kg": "kg",
    "_mg": "mg",
    "_kw": "kW",
    "_hpa": "hPa",
    "_kpa": "kPa",
    "_atm": "atm",
    "_days": "days",
    "_hours": "hours",
    "_minutes": "minutes",
    "_percent": "%",
    "_c": "C",
    "_m": "m",
    "_g": "g",
    "_l": "L",
    "_w": "W",
}
"""Endings of argument names and the unit they stand for, the longest match first."""

SPELLED = {"ph": "pH", "tan": "TAN", "tgc": "TGC"}
"""Words of argument names that are not written in small letters."""


def check_range(**limits: tuple[float, float, float]) -> None:
    """Raise OutOfRange in words unless every value lies within its limits, both included.

    Args:
        limits: argument name = (value, lowest, highest), in the unit the name ends on; an infinite
            limit leaves that side open. NaN and infinite values are refused always.

    Raises:
        OutOfRange: such as "pH 12 is outside 5 to 11, the range of this equation".
    """
    for name, (value, low, high) in limits.items():
        if not (math.isfinite(value) and low <= value <= high):
            raise OutOfRange(_complaint(name, value, low, high))


def check_positive(**values: float) -> None:
    """Raise OutOfRange in words unless every value is a finite number above 0."""
    for name, value in values.items():
        if not (math.isfinite(value) and value > 0):
            words, unit = in_words(name)
            raise OutOfRange(f"{words} {_with_unit(value, unit)} is not above 0")


def in_words(name: str) -> tuple[str, str]:
    """An argument name as words and unit: `temperature_c` is ("temperature", "C"), `ph` is ("pH", "")."""
    ending = max((s for s in UNIT_SUFFIXES if name.endswith(s)), key=len, default="")
    bare = name.removesuffix(ending)
    words = " ".join(SPELLED.get(word, word) for word in bare.split("_"))
    return words, UNIT_SUFFIXES.get(ending, "")


def _complaint(name: str, value: float, low: float, high: float) -> str:
    words, unit = in_words(name)
    if math.isfinite(low) and math.isfinite(high):
        span = f"outside {_number(low)} to {_with_unit(high, unit)}"
    elif math.isfinite(low):
        span = f"outside {_with_unit(low, unit)} and more"
    else:
        span = f"outside {_with_unit(high, unit)} and less"
    return f"{words} {_with_unit(value, unit)} is {span}, the range of this equation"


def _with_unit(value: float, unit: str) -> str:
    if math.isnan(value):
        return "(not a number)"
    return f"{_number(value)} {unit}".rstrip()


def _number(value: float) -> str:
    return f"{value:.6g}"
