"""Temperatures: text to degrees Celsius and back to the farm's scale."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from farmops.quantities.measures import Measures
from farmops.quantities.numbers import example, read_decimal, show_decimal, tidy
from farmops.quantities.worded import Worded
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range

COLDEST_C, HOTTEST_C = -60, 100
TYPED = (
    r"(?P<sign>[-+]?) *(?P<number>[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+)"
    r" *(?:°|deg(?:rees?)?\.?)? *(?P<scale>.*)"
)
SCALES = {"c": "C", "celsius": "C", "f": "F", "fahrenheit": "F", "℃": "C", "℉": "F"}


class Temperature:
    """Reads and shows temperatures of air and water, kept in degrees Celsius."""

    def parse(self, text: str, measures: Measures) -> float:
        """The temperature typed, in degrees Celsius; a bare number is in the farm's scale.

        Raises:
            NotUnderstood: the text has no one clear meaning.
            OutOfRange: colder than -60 C or hotter than 100 C.
        """
        try:
            return _check(_read(tidy(text), measures), measures)
        except UnclearError as error:
            raise not_understood(text, str(error), self.examples(measures)) from None
        except TooFarError as error:
            raise out_of_range(text, str(error), self.examples(measures)) from None

    def show(self, c: float, measures: Measures) -> str:
        """The temperature `c` [deg C] in the farm's scale, to a tenth of a degree."""
        if not math.isfinite(c):
            return "no temperature"
        degrees = Fraction(c) if measures.temperature == "C" else Fraction(c) * 9 / 5 + 32
        unit = f"°{measures.temperature}"
        return Worded(f"{show_decimal(degrees, 1, measures)} {unit}", degrees, unit)

    def examples(self, measures: Measures) -> tuple[str, ...]:
        """What would be understood on this farm."""
        own = ("24.5 C", "24.5", "76 F") if measures.temperature == "C" else ("76.1 F", "76", "24.5 C")
        return tuple(example(text, measures) for text in own)


def _read(text: str, measures: Measures) -> Fraction:
    match = re.fullmatch(TYPED, text)
    if match is None:
        raise UnclearError("is no temperature")
    scale = SCALES.get(match["scale"], "") if match["scale"] else measures.temperature
    if not scale:
        raise UnclearError("names no scale known here: C or F")
    degrees = read_decimal(match["number"], measures) * (-1 if match["sign"] == "-" else 1)
    return degrees if scale == "C" else celsius(degrees)


def celsius(fahrenheit: Fraction) -> Fraction:
    """Degrees Fahrenheit in degrees Celsius, exactly: (F - 32) / 1.8 (NIST SP 811, appendix B.8)."""
    return (fahrenheit - 32) * 5 / 9


def _check(degrees_c: Fraction, measures: Measures) -> float:
    if not COLDEST_C <= degrees_c <= HOTTEST_C:
        low, high = TEMPERATURE.show(COLDEST_C, measures), TEMPERATURE.show(HOTTEST_C, measures)
        raise TooFarError(f"lies outside {low} to {high}")
    return float(degrees_c)


TEMPERATURE = Temperature()
