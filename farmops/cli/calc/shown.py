"""Numbers as a grower reads them: three digits, both systems of units side by side."""

from __future__ import annotations

import math

from farmops.quantities import AREA, LENGTH, MASS, METRIC, TEMPERATURE, US, VOLUME
from farmops.science.balance import Place

SMALLEST = 0.0005
HEAVY_G = 10_000
"""From this weight on ounces mean nothing beside pounds."""
G_PER_POUND = float(MASS.unit("lb").size / MASS.unit("g").size)
L_PER_GALLON = float(VOLUME.unit("gal").size / VOLUME.unit("L").size)


def few(value: float, digits: int = 3) -> str:
    """The number to so many digits that mean something, never with an exponent."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else "no number"
    if abs(value) < SMALLEST:
        return "less than 0.001" if value > 0 else "nearly 0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def grams(mass_g: float) -> str:
    """A weight in metric units to three digits, in US units beside it."""
    if 0 < mass_g < SMALLEST:
        return "less than 1 mg"
    if mass_g >= HEAVY_G:
        return f"{few(mass_g / 1000)} kg ({few(mass_g / G_PER_POUND)} lb)"
    metric = f"{few(mass_g / 1000)} kg" if mass_g >= 1000 else f"{few(mass_g)} g"
    return _beside(metric, MASS.show(round(mass_g * 1000), US))


def litres(volume_l: float) -> str:
    """A volume in litres and in US units."""
    return _beside(f"{few(volume_l)} L", VOLUME.show(round(volume_l * 1000), US))


def area(area_m2: float) -> str:
    """An area in square metres and in US units."""
    return _beside(f"{few(area_m2)} m2", AREA.show(round(area_m2 * 1e6), US))


def length(length_m: float) -> str:
    """A length in metres or centimetres and in US units."""
    size, unit = (1, "m") if length_m >= 1 else (100, "cm") if length_m >= 0.01 else (1000, "mm")
    metric = f"{few(length_m * size)} {unit}"
    return _beside(metric, LENGTH.show(round(length_m * 1e6), US))


def temperature(water_c: float) -> str:
    """A temperature in both scales."""
    return _beside(TEMPERATURE.show(water_c, METRIC), TEMPERATURE.show(water_c, US))


def flow(l_per_h: float) -> str:
    """A flow in litres and gallons an hour."""
    return f"{few(l_per_h)} L/h ({few(l_per_h / L_PER_GALLON)} gal/h)"


def span(low: float, high: float) -> str:
    """`10 to 20`, or the one number where both are alike."""
    return few(low) if few(low) == few(high) else f"{few(low)} to {few(high)}"


def verdict(place: Place, below: str, within: str, above: str) -> str:
    """The words for where a value lies."""
    return {Place.BELOW: below, Place.WITHIN: within, Place.ABOVE: above}[place]


def _beside(metric: str, us: str) -> str:
    us_unit = us.rpartition(" ")[2]
    return metric if us_unit in ("g", "mg", "mL", "mm", "mm2") else f"{metric} ({us})"
