"""Kinds of values typed after an option: each names its unit, and what is refused is refused in words."""

from __future__ import annotations

import re
from abc import abstractmethod
from collections.abc import Callable
from fractions import Fraction
from typing import Any, Generic, TypeVar

import click

from farmops.model.errors import FarmopsError, NotUnderstood, OutOfRange
from farmops.quantities import AREA, LENGTH, MASS, METRIC, TEMPERATURE, US, VOLUME, Dimension, Measures
from farmops.quantities.numbers import read_decimal, tidy
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range

T = TypeVar("T")
LARGEST_NUMBER = 10**9
PLAIN_NUMBER = r"(?P<sign>[-+]?) *(?P<digits>[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+) *(?P<rest>.*)"
MINUTES_OF = {"h": 60, "hr": 60, "hour": 60, "min": 1, "minute": 1}
SHORT_FLOWS = {"gph": "gal/h", "gpm": "gal/min", "lph": "l/h", "lpm": "l/min"}
HPA_OF = {
    "hpa": 1.0,
    "mbar": 1.0,
    "kpa": 10.0,
    "mmhg": 1.333224,
    "inhg": 33.86389,
}
"""Units of air pressure [hPa]: NIST SP 811, appendix B.8, conventional inch and millimetre of mercury."""


class Typed(click.ParamType[T], Generic[T]):
    """A value as typed. Refusals are errors of the farm, so that a command ends on 1 and not on 2."""

    def __init__(self, name: str, *examples: str) -> None:
        self.name = name
        self.examples = examples

    @abstractmethod
    def read(self, text: str) -> T:
        """The value, in the unit of science. Raises UnclearError, TooFarError or a FarmopsError."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> T:
        """Read what was typed; a refusal names the option and what would be understood."""
        if not isinstance(value, str):
            return value  # type: ignore[no-any-return]
        try:
            return self.read(value)
        except UnclearError as error:
            refusal: FarmopsError = not_understood(value, str(error), self.examples)
        except TooFarError as error:
            refusal = out_of_range(value, str(error), self.examples)
        except (NotUnderstood, OutOfRange) as error:
            refusal = type(error)(f"{_reason(error)} Understood: {', '.join(self.examples)}.")
        raise type(refusal)(f"{param.opts[0]}: {refusal}" if param and param.opts else str(refusal))


def _reason(error: FarmopsError) -> str:
    """A refusal without its examples, which would name numbers without a unit."""
    words = str(error)
    return words.rpartition(" Understood: ")[0] or words


class Named(Typed[float]):
    """A number that must name its unit: one that a US and a metric farm would read alike."""

    def __init__(self, name: str, parse: Callable[[str, Measures], float], *examples: str) -> None:
        super().__init__(name, *examples)
        self._parse = parse

    def read(self, text: str) -> float:
        """The value in the unit of science."""
        metric, us = self._parse(text, METRIC), self._parse(text, US)
        if metric != us:
            raise UnclearError("does not name its unit")
        return metric


def _in(dimension: Dimension, unit: str) -> Callable[[str, Measures], float]:
    size = dimension.unit(unit).size

    def parse(text: str, measures: Measures) -> float:
        return float(dimension.parse_fraction(text, measures, zero_ok=True) / size)

    return parse


class Altitude(Named):
    """Height above the sea [m]; a minus sign lies below it."""

    def read(self, text: str) -> float:
        """Metres."""
        plain = tidy(text)
        return -super().read(plain[1:]) if plain.startswith("-") else super().read(plain)


class Number(Typed[float]):
    """A plain decimal number, with or without its one unit behind it."""

    def __init__(self, name: str, *examples: str, endings: tuple[str, ...] = (), signs: str = "") -> None:
        super().__init__(name, *examples)
        self._endings = ("", *endings)
        self._signs = signs

    def read(self, text: str) -> float:
        """The number as it stands; what range it may have is for the formula to say."""
        found = re.fullmatch(PLAIN_NUMBER, tidy(text).lstrip(self._signs))
        if found is None:
            raise UnclearError("is no number")
        if found["rest"] not in self._endings:
            raise UnclearError(f'has "{found["rest"][:20]}" behind the number')
        number = read_decimal(found["digits"], METRIC) * (-1 if found["sign"] == "-" else 1)
        return float(self._checked(number))

    def _checked(self, number: Fraction) -> Fraction:
        if abs(number) > LARGEST_NUMBER:
            raise TooFarError("is further from 0 than any number here can be")
        return number


class Percent(Number):
    """A part of a whole [%]. Less than 1 needs the sign: 0.98 could be a share or a percentage."""

    def __init__(self, name: str, *examples: str) -> None:
        super().__init__(name, *examples, endings=("%",))

    def read(self, text: str) -> float:
        """Percent, 0 to 100."""
        percent = super().read(text)
        if not 0 <= percent <= 100:
            raise TooFarError("is outside 0 to 100 %")
        if 0 < percent < 1 and "%" not in text:
            raise UnclearError("could be a share or a percentage")
        return percent


class Whole(Number):
    """A count."""

    def _checked(self, number: Fraction) -> Fraction:
        if number.denominator != 1:
            raise UnclearError("is no whole number")
        if number < 0:
            raise TooFarError("is less than none")
        return super()._checked(number)


class Flow(Typed[float]):
    """Water per time [L/h]."""

    def read(self, text: str) -> float:
        """Litres per hour."""
        plain = tidy(text)
        for short, long in SHORT_FLOWS.items():
            plain = re.sub(rf"{short}$", long, plain)
        volume, _, time = plain.replace(" per ", "/").rpartition("/")
        minutes = MINUTES_OF.get(time.strip())
        if minutes is None or not volume.strip():
            raise UnclearError("does not say how much in an hour or a minute")
        return VOLUME_L.read(volume) * 60 / minutes


class Pressure(Typed[float]):
    """Air pressure at the place [hPa]."""

    def read(self, text: str) -> float:
        """Hectopascals."""
        found = re.fullmatch(PLAIN_NUMBER, tidy(text))
        size = HPA_OF.get(found["rest"].replace(" ", "")) if found else None
        if found is None or found["sign"] or size is None:
            raise UnclearError("is no pressure with its unit")
        return float(read_decimal(found["digits"], METRIC)) * size


class Density(Typed[float]):
    """Plants per area [1/m2]."""

    def read(self, text: str) -> float:
        """Plants per square metre."""
        plants, mark, area = tidy(text).replace(" per ", "/").partition("/")
        if not mark or not area.strip() or area.strip()[0].isdigit():
            raise UnclearError("does not say on what area")
        return PLAIN.read(plants) / AREA_M2.read(f"1 {area}")


class Point(Typed[tuple[float, float]]):
    """A point of a pump's curve: flow [L/h] at a head [m]."""

    def read(self, text: str) -> tuple[float, float]:
        """Litres per hour and metres."""
        flow, mark, head = tidy(text).replace(" at ", "@").partition("@")
        if not mark:
            raise UnclearError("does not say which flow at which height")
        return (0.0 if flow.strip() == "0" else FLOW.read(flow)), LENGTH_M.read(head)


MASS_G = Named("weight", _in(MASS, "g"), "125g", "4.4oz", "1 lb 6 oz", "2kg")
MASS_KG = Named("weight", _in(MASS, "kg"), "10kg", "22lb", "1 lb 6 oz")
VOLUME_L = Named("volume", _in(VOLUME, "L"), "1000L", "275gal")
AREA_M2 = Named("area", _in(AREA, "m2"), "1.2m2", "25sqft", '"4 x 6 ft"')
LENGTH_M = Named("length", _in(LENGTH, "m"), "25cm", "10in", "1.5m", '"3 ft 6 in"')
ALTITUDE_M = Altitude("altitude", _in(LENGTH, "m"), "1500m", "4900ft", "0")
WATER_C = Named("temperature", TEMPERATURE.parse, "24C", "75F")
PLAIN = Number("number", "1.5", "20")
MG_PER_L = Number("mg/l", "1.5", '"1.5 mg/L"', endings=("mg/l", "ppm"))
PH = Number("ph", "7.2")
PERCENT = Percent("percent", "32", "0.5%")
PERCENT_A_DAY = Number("percent", "1.7", "1.7%", endings=("%",))
COUNT = Whole("count", "40")
DAYS = Number("days", "60", endings=("d", "days", "day"))
HOURS = Number("hours", "24", endings=("h", "hours", "hour"))
WATTS = Number("watts", "24", "24W", endings=("w", "watt", "watts"))
PRICE = Number("price", "0.16", "$0.16", endings=("/kwh", "per kwh"), signs="$€£ ")
WEEKS = Number("weeks", "4", endings=("weeks", "week"))
FLOW = Flow("flow", "500L/h", "130gph", '"2 gal/min"')
PRESSURE = Pressure("pressure", "1013hPa", "29.9inHg", "760mmHg", "101.3kPa")
DENSITY = Density("density", "25/m2", '"2.3/sq ft"')
POINT = Point("point", "1000L/h@1.5m", '"260gph at 5ft"')
