"""Readings as kits and meters give them: text to the unit each measure is stored in, and back to the farm's."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from farmops.model.errors import FarmopsError, NotUnderstood, OutOfRange
from farmops.model.readings import (
    LIKELY,
    NITROGEN,
    NO_CYCLE,
    READ_IN,
    TEMPERATURES,
    Form,
    Measure,
    NewReading,
    measure_called,
    possible,
)
from farmops.quantities.dimensions import VOLUME
from farmops.quantities.measures import Measures
from farmops.quantities.numbers import example, read_decimal, show_decimal, tidy
from farmops.quantities.temperature import TEMPERATURE
from farmops.quantities.worded import Worded
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range, quoted

BOUNDS = ("<", ">")
NUMBER = re.compile(r"(?P<number>[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+) *(?P<unit>.*)")
CLOCK = re.compile(r"(?P<minutes>[0-9]{1,4}):(?P<seconds>[0-5][0-9])(?: *min)?")
PER_LITRE = re.compile(r"(?:mg */ *l|ppm)?[ ,]*(?P<form>.*)")
SIGNIFICANT = 3
FINEST = 6

ONE = Fraction(1)
DEGREE_OF_HARDNESS = Fraction("17.848")
"""mg/L as CaCO3 in a German degree: 10 mg CaO per litre, times the ratio of the molar masses."""
ML_PER_L = 1000
MINUTES_PER_HOUR = 60

CONCENTRATION = {"": ONE, "mg/l": ONE, "ppm": ONE}
DEGREES = dict.fromkeys(("dkh", "dgh", "dh", "°dh", "°", "kh", "gh"), DEGREE_OF_HARDNESS)
CONDUCTIVITY = {
    **dict.fromkeys(("", "us/cm", "µs/cm", "μs/cm", "us", "µs", "μs"), ONE),
    **{word: Fraction(1000) for word in ("ms/cm", "ms", "ds/m")},
}
MINUTES = {
    **dict.fromkeys(("", "min", "mins", "minute", "minutes", "m"), ONE),
    **{word: Fraction(1, 60) for word in ("s", "sec", "secs", "second", "seconds")},
}
FLOWS = {
    **dict.fromkeys(("l/h", "lph", "l/hr", "l/hour"), ("L", 1)),
    **dict.fromkeys(("l/min", "lpm"), ("L", MINUTES_PER_HOUR)),
    **dict.fromkeys(("gal/h", "gph", "gal/hr", "gal/hour"), ("gal", 1)),
    **dict.fromkeys(("gal/min", "gpm"), ("gal", MINUTES_PER_HOUR)),
}
UNITS: Mapping[Measure, Mapping[str, Fraction]] = {
    Measure.PH: {"": ONE, "ph": ONE},
    Measure.ALKALINITY: CONCENTRATION | DEGREES,
    Measure.HARDNESS: CONCENTRATION | DEGREES,
    Measure.CONDUCTIVITY: CONDUCTIVITY,
    Measure.FILL_TIME: MINUTES,
    Measure.DRAIN_TIME: MINUTES,
}
IONS = {Measure.AMMONIA: ("nh4", "nh4+"), Measure.NITRITE: ("no2", "no2-"), Measure.NITRATE: ("no3", "no3-")}
NITROGEN_IN = {
    Measure.AMMONIA: ("nh4-n", "nh3-n", "tan"),
    Measure.NITRITE: ("no2-n",),
    Measure.NITRATE: ("no3-n",),
}
TIMES = (Measure.FILL_TIME, Measure.DRAIN_TIME)
NO_CYCLE_WORDS = ("no cycle", "none", "dribbles", "never")
"""What is typed where the siphon does not cycle."""


class Read(NamedTuple):
    """What was typed for a reading: `value` in the unit of storage, in the `form` named beside it, None for no word.

    A kit that gives only a limit, `<0.25`, is counted at that limit; `bound` keeps its sign.
    """

    value: float
    form: Form | None
    bound: str


def parse_reading(text: str, measure: Measure, measures: Measures) -> Read:
    """The reading typed, on a farm of those measures.

    `7.2`, `0,25` with a decimal comma, `72F`, `11.5` or `11:30` minutes, `no cycle`, `<0.25`, `0.5 ion`, `4 dKH`,
    `1.2 mS/cm`.

    Raises:
        NotUnderstood: the text has no one clear meaning.
        OutOfRange: no such reading can be, whatever the water.
    """
    try:
        return _read(text, measure, measures)
    except UnclearError as error:
        unclear: FarmopsError = not_understood(text, str(error), examples(measure, measures))
    except TooFarError as error:
        unclear = out_of_range(text, str(error), examples(measure, measures))
    except (NotUnderstood, OutOfRange) as error:
        unclear = error
    raise type(unclear)(f"{measure}: {unclear}")


def typed_reading(
    name: str, text: str, measures: Measures, form: Form | None = None, *, sure: bool = False
) -> NewReading:
    """A reading by the name of its measure; `form` is what its kit reports where the text does not say.

    Raises:
        NotUnderstood: the measure or the value has no one clear meaning, or two forms are named.
        OutOfRange: no such reading can be.
    """
    measure = measure_called(name)
    read = parse_reading(text, measure, measures)
    wanted = form if measure in NITROGEN else None
    if read.form is not None and wanted not in (None, read.form):
        raise NotUnderstood(f"{measure}: {quoted(text)} says {read.form}, not {wanted}. Say one of them.")
    return NewReading(measure, read.value, text.strip(), read.form or wanted, sure=sure)


def _read(text: str, measure: Measure, measures: Measures) -> Read:
    plain = tidy(text)
    bound = plain[0] if plain[0] in BOUNDS else ""
    value, form = _value_and_form(plain.removeprefix(bound).strip(), measure, measures)
    return Read(_checked(value, measure, measures), form, bound)


def _value_and_form(text: str, measure: Measure, measures: Measures) -> tuple[float, Form | None]:
    if measure in TEMPERATURES:
        return TEMPERATURE.parse(text, measures), None
    if measure in TIMES and text in NO_CYCLE_WORDS:
        return NO_CYCLE, None
    clock = CLOCK.fullmatch(text) if measure in TIMES else None
    if clock is not None:
        return int(clock["minutes"]) + int(clock["seconds"]) / 60, None
    found = NUMBER.fullmatch(text)
    if found is None:
        raise UnclearError("is not more than nothing" if text.startswith("-") else "is no number")
    number, unit = read_decimal(found["number"], measures), found["unit"].strip()
    if measure in NITROGEN:
        return float(number), _form(unit, measure)
    return float(number * _size(unit, measure, measures)), None


def _form(words: str, measure: Measure) -> Form | None:
    match = PER_LITRE.fullmatch(words)
    word = (match["form"] if match else words).removeprefix("as ").strip()
    if not word:
        return None
    if word == "n" or word in NITROGEN_IN[measure]:
        return Form.AS_N
    if word == "ion" or word in IONS[measure]:
        return Form.AS_ION
    raise UnclearError(f"names {quoted(word)}, neither N nor the ion")


def _size(unit: str, measure: Measure, measures: Measures) -> Fraction:
    word = unit.replace(" ", "").rstrip(".")
    if measure is Measure.FLOW:
        return _flow(word, measures)
    size = UNITS.get(measure, CONCENTRATION).get(word)
    if size is None:
        raise UnclearError(f"is in {quoted(unit)}, which is not known here")
    return size


def _flow(word: str, measures: Measures) -> Fraction:
    if word and word not in FLOWS:
        raise UnclearError(f"is in {quoted(word)}, which is not known here")
    name, times = FLOWS[word] if word else (measures.volume, 1)
    return VOLUME.unit(name).size * times / ML_PER_L


def _checked(value: float, measure: Measure, measures: Measures) -> float:
    low, high = possible(measure)
    if not (math.isfinite(value) and low <= value <= high):
        span = f"{_shown(low, measure, measures)} to {_shown(high, measure, measures)}"
        raise TooFarError(f"cannot be: {measure} lies within {span}")
    return value


def check_possible(value: float, measure: Measure, measures: Measures) -> None:
    """Raises OutOfRange in words for a value, in the unit of storage, that no reading can have."""
    try:
        _checked(value, measure, measures)
    except TooFarError as error:
        refused = out_of_range(f"{value:g}", str(error), examples(measure, measures))
        raise OutOfRange(f"{measure}: {refused}") from None


def question(value: float, measure: Measure, measures: Measures) -> str:
    """What to ask about a stored value that can be, but hardly is; nothing for a likely one."""
    low, high = LIKELY[measure]
    if low <= value <= high or (measure in TIMES and value == NO_CYCLE):
        return ""
    span = f"{show_value(low, measure, measures)} to {show_value(high, measure, measures)}"
    return f"{measure.value} {show_value(value, measure, measures)}, is that right? Readings are {span} as a rule."


def show_value(value: float, measure: Measure, measures: Measures) -> str:
    """A stored value with its unit, in the farm's where there is a choice, to the digits that mean something."""
    return "no cycle" if measure in TIMES and value == NO_CYCLE else _shown(value, measure, measures)


def _shown(value: float, measure: Measure, measures: Measures) -> str:
    if measure in TEMPERATURES:
        return TEMPERATURE.show(value, measures)
    if measure is Measure.FLOW:
        hourly = Fraction(value) / (VOLUME.unit(measures.volume).size / ML_PER_L)
        return Worded(f"{_digits(hourly, measures)} {measures.volume}/h", hourly, f"{measures.volume}/h")
    unit = READ_IN[measure] + (" as N" if measure in NITROGEN else "")
    return Worded(f"{_digits(Fraction(value), measures)} {unit}".strip(), value, unit)


def show_number(value: float, measures: Measures) -> str:
    """A number without its unit, to the digits that mean something."""
    return _digits(Fraction(value), measures)


def _digits(value: Fraction, measures: Measures) -> str:
    """Three digits that mean something, more where the whole number has more; nothing finer than a millionth."""
    size = math.floor(math.log10(abs(value))) if value else 0
    return show_decimal(value, min(FINEST, max(0, SIGNIFICANT - 1 - size)), measures, strip=True)


def examples(measure: Measure, measures: Measures) -> tuple[str, ...]:
    """What would be understood for a measure on this farm."""
    if measure in TEMPERATURES:
        return TEMPERATURE.examples(measures)
    return tuple(example(text, measures) for text in EXAMPLES.get(measure, ("0.25", "0.25 mg/L", "<0.25")))


EXAMPLES: Mapping[Measure, tuple[str, ...]] = {
    Measure.PH: ("7.2", "<6"),
    **dict.fromkeys(NITROGEN, ("0.25", "<0.25", "0.25 N", "0.5 ion")),
    **dict.fromkeys((Measure.ALKALINITY, Measure.HARDNESS), ("80", "80 mg/L", "4 dKH")),
    Measure.CONDUCTIVITY: ("820", "820 uS/cm", "1.2 mS/cm"),
    Measure.FLOW: ("500", "500 L/h", "130 gal/h"),
    **dict.fromkeys(TIMES, ("11.5", "11:30", "90 s")),
}
