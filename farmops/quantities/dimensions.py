"""Weight, volume, area and length: text to exact integers and back."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from farmops.model.errors import NotUnderstood, OutOfRange
from farmops.quantities import tables
from farmops.quantities.grammar import Term, Vocabulary, amount, read_terms, spellings
from farmops.quantities.measures import Measures
from farmops.quantities.numbers import example, tidy
from farmops.quantities.showing import Step, show, show_by
from farmops.quantities.tables import Unit
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range, quoted

EXACT_PLACES = 3


@dataclass(frozen=True, slots=True)
class Customs:
    """How farms of one kind speak of a dimension: their unit, how they show it, what they type."""

    vocabulary: Vocabulary
    steps: tuple[Step, ...]
    examples: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Dimension:
    """One kind of amount, kept as a whole number of its base unit.

    `word` names it in a sentence, `base` is the unit of the integers, `largest` the greatest amount taken;
    `choice` is the field of Measures that picks the customs.
    """

    word: str
    base: str
    largest: int
    choice: str
    all_units: tuple[Unit, ...]
    customs: Mapping[str, Customs]
    read_part: Callable[[str, Vocabulary, Measures], Fraction]

    @property
    def units(self) -> Mapping[str, Fraction]:
        """Name of every unit understood and its exact size in base units."""
        return MappingProxyType({unit.name: unit.size for unit in self.all_units})

    def parse(self, text: str, measures: Measures, *, zero_ok: bool = False) -> int:
        """The amount typed, in base units, rounded once, half to even.

        Raises:
            NotUnderstood: the text has no one clear meaning.
            OutOfRange: more than `largest`, or so little that it rounds to nothing.
        """
        return round(self.parse_fraction(text, measures, zero_ok=zero_ok))

    def parse_fraction(self, text: str, measures: Measures, *, zero_ok: bool = False) -> Fraction:
        """The amount typed, exactly, before `parse` rounds it to whole base units; raises as `parse`."""
        try:
            return self._checked(self._read(tidy(text), measures), measures, zero_ok=zero_ok)
        except UnclearError as error:
            raise not_understood(text, str(error), self.examples(measures)) from None
        except TooFarError as error:
            raise out_of_range(text, str(error), self.examples(measures)) from None

    def show(self, value: int, measures: Measures) -> str:
        """The amount as a person reads it, rounded to the digits that mean something."""
        customs = self._customs(measures)
        return show(value, customs.steps, measures) if value else f"0 {customs.vocabulary.main.name}"

    def show_exact(self, value: int, measures: Measures) -> str:
        """The shortest text that `parse` reads back as the very same amount."""
        steps = self._customs(measures).steps
        shown = self.show(value, measures)
        finer = (self._finer(value, steps, places, measures) for places in range(1, EXACT_PLACES + 1))
        return next(
            (text for text in (shown, *finer) if self._reads_as(text, value, measures)), self._plain(value)
        )

    def examples(self, measures: Measures) -> tuple[str, ...]:
        """What would be understood on this farm."""
        return tuple(example(text, measures) for text in self._customs(measures).examples)

    def main_unit(self, measures: Measures) -> str:
        """The unit a bare number means on this farm."""
        return self._customs(measures).vocabulary.main.name

    def unit(self, name: str) -> Unit:
        """The unit of that name or spelling.

        Raises:
            NotUnderstood: this dimension has no such unit.
        """
        known = spellings(self.all_units).get(name.lower().replace(" ", ""))
        if known is None:
            raise NotUnderstood(
                f"{quoted(name)} is no unit of {self.word}. Understood: {', '.join(self.units)}."
            )
        return known

    def _customs(self, measures: Measures) -> Customs:
        return self.customs[getattr(measures, self.choice)]

    def _read(self, text: str, measures: Measures) -> Fraction:
        vocabulary = self._customs(measures).vocabulary
        parts = [part.strip() for part in text.split("+")]
        if not all(parts):
            raise UnclearError("has nothing on one side of a +")
        return sum((self.read_part(part, vocabulary, measures) for part in parts), Fraction(0))

    def _checked(self, exact: Fraction, measures: Measures, *, zero_ok: bool) -> Fraction:
        if exact > self.largest:
            raise TooFarError(
                f"is more than {self.show(self.largest, measures)}, the largest {self.word} taken"
            )
        if exact == 0 and not zero_ok:
            raise UnclearError(f"is no {self.word}: it comes to nothing")
        if exact and not round(exact):
            raise TooFarError(f"is less than 1 {self.base}, the smallest {self.word} kept")
        return exact

    def _finer(self, value: int, steps: Sequence[Step], places: int, measures: Measures) -> str:
        step = next((step for step in steps if abs(value) >= step.at_least * step.unit.size), steps[-1])
        return show_by(Fraction(value), Step(step.unit, step.at_least, places, True, step.smaller), measures)

    def _plain(self, value: int) -> str:
        return f"{value} {self.base}"

    def _reads_as(self, text: str, value: int, measures: Measures) -> bool:
        try:
            return self.parse(text, measures, zero_ok=True) == value
        except (NotUnderstood, OutOfRange):
            return False


def read_amount(text: str, vocabulary: Vocabulary, measures: Measures) -> Fraction:
    """Numbers with units, added up, in base units."""
    return amount(read_terms(text, vocabulary, measures), vocabulary)


SIDES = re.compile(r" *(?:x|\*|\bby\b) *")
SHORTEST_BARE_SIDE_UM = 200_000


def read_area(text: str, vocabulary: Vocabulary, measures: Measures) -> Fraction:
    """An area by its unit, or by its two sides: `4 x 6 ft`."""
    sides = SIDES.split(text)
    if len(sides) == 1:
        return read_amount(text, vocabulary, measures)
    if len(sides) != 2 or not all(sides):
        raise UnclearError("does not have two sides, as in 4 x 6")
    lengths = LENGTH.customs[measures.length].vocabulary
    first, second = (read_terms(side, lengths, measures) for side in sides)
    shared = _shared_unit(first, second)
    product = Fraction(1)
    for side in (first, second):
        product *= _side(side, Vocabulary(lengths.units, shared or lengths.main))
    if shared is None and _all_bare(first, second) and lengths.main.name == "cm":
        _check_bare_sides(first, second, lengths.main)
    return product / 10**6


def _all_bare(*sides: Sequence[Term]) -> bool:
    return all(term.unit is None for side in sides for term in side)


def _shared_unit(first: Sequence[Term], second: Sequence[Term]) -> Unit | None:
    """The unit that a side without one borrows from the other."""
    named = [term.unit for term in (*first, *second) if term.unit]
    return named[0] if len(named) == 1 else None


def _side(terms: Sequence[Term], vocabulary: Vocabulary) -> Fraction:
    return amount(terms, vocabulary)


def _check_bare_sides(first: Sequence[Term], second: Sequence[Term], unit: Unit) -> None:
    """Refuse `4x6` where the farm measures in cm but the grower surely thinks in metres."""
    if min(term.number for term in (*first, *second)) * unit.size < SHORTEST_BARE_SIDE_UM:
        raise UnclearError("would be a few centimetres wide; name the unit, m or cm")


def _by_name(units: tuple[Unit, ...]) -> Mapping[str, Unit]:
    return {unit.name: unit for unit in units}


_M, _V, _A, _L = map(_by_name, (tables.MASSES, tables.VOLUMES, tables.AREAS, tables.LENGTHS))


def _step(
    unit: Unit, at_least: int | str, places: int, smaller: Unit | None = None, *, strip: bool = False
) -> Step:
    return Step(unit, Fraction(at_least), places, strip, smaller)


_GRAMS = (_step(_M["g"], 10, 0), _step(_M["g"], 1, 1, strip=True), _step(_M["mg"], 0, 0))

MASS = Dimension(
    word="weight",
    base="mg",
    largest=10_000 * 10**6,
    choice="mass",
    all_units=tables.MASSES,
    customs={
        "lb_oz": Customs(
            Vocabulary(tables.MASSES, _M["lb"], (_M["lb"], _M["oz"])),
            (_step(_M["lb"], 10, 0, _M["oz"]), _step(_M["lb"], "1/160", 1, _M["oz"]), *_GRAMS),
            ("1 lb 6 oz", "1 6", "22 oz", "1.4 lb", "620 g"),
        ),
        "kg": Customs(
            Vocabulary(tables.MASSES, _M["kg"]),
            (_step(_M["kg"], 1000, 0), _step(_M["kg"], 100, 1), _step(_M["kg"], 1, 2), *_GRAMS),
            ("620 g", "0.62 kg", "1.24", "1 lb 6 oz"),
        ),
    },
    read_part=read_amount,
)

VOLUME = Dimension(
    word="volume",
    base="mL",
    largest=10_000 * 10**6,
    choice="volume",
    all_units=tables.VOLUMES,
    customs={
        "gal": Customs(
            Vocabulary(tables.VOLUMES, _V["gal"]),
            (
                _step(_V["gal"], 100, 0),
                _step(_V["gal"], 1, 1),
                _step(_V["fl oz"], 10, 0),
                _step(_V["fl oz"], 1, 1, strip=True),
                _step(_V["mL"], 0, 0),
            ),
            ("275 gal", "12.5", "3 qt", "8 fl oz", "40 L"),
        ),
        "L": Customs(
            Vocabulary(tables.VOLUMES, _V["L"]),
            (_step(_V["L"], 100, 0), _step(_V["L"], 10, 1), _step(_V["L"], 1, 2), _step(_V["mL"], 0, 0)),
            ("1000 L", "12.5", "350 mL", "1.2 m3", "10 gal"),
        ),
    },
    read_part=read_amount,
)

LENGTH = Dimension(
    word="length",
    base="um",
    largest=10**10,
    choice="length",
    all_units=tables.LENGTHS,
    customs={
        "ft": Customs(
            Vocabulary(tables.LENGTHS, _L["ft"]),
            (_step(_L["ft"], "1/120", 1, _L["in"]), _step(_L["mm"], 0, 2, strip=True)),
            ("3 ft 6 in", "12 in", "3.5", "30 cm"),
        ),
        "cm": Customs(
            Vocabulary(tables.LENGTHS, _L["cm"]),
            (_step(_L["m"], 3, 2), _step(_L["cm"], 1, 1, strip=True), _step(_L["mm"], 0, 2, strip=True)),
            ("30 cm", "30.5", "1.2 m", "12 in"),
        ),
        "m": Customs(
            Vocabulary(tables.LENGTHS, _L["m"]),
            (_step(_L["m"], 1, 2), _step(_L["cm"], 1, 1, strip=True), _step(_L["mm"], 0, 2, strip=True)),
            ("1.2 m", "0.3", "30 cm", "12 in"),
        ),
    },
    read_part=read_amount,
)

AREA = Dimension(
    word="area",
    base="mm2",
    largest=10**12,
    choice="area",
    all_units=tables.AREAS,
    customs={
        "sq_ft": Customs(
            Vocabulary(tables.AREAS, _A["sq ft"]),
            (
                _step(_A["sq ft"], 100, 0),
                _step(_A["sq ft"], "1/2", 1),
                _step(_A["sq in"], "1/10", 1, strip=True),
                _step(_A["mm2"], 0, 0),
            ),
            ("25 sq ft", "25", "4 x 6 ft", "1.2 m2"),
        ),
        "m2": Customs(
            Vocabulary(tables.AREAS, _A["m2"]),
            (
                _step(_A["m2"], 100, 0),
                _step(_A["m2"], 10, 1),
                _step(_A["m2"], "1/10", 2),
                _step(_A["cm2"], 1, 0),
                _step(_A["mm2"], 0, 0),
            ),
            ("1.2 m2", "1.2", "1.2 x 1 m", "25 sq ft"),
        ),
    },
    read_part=read_area,
)


def in_unit(value: int, dimension: Dimension, unit_name: str) -> Fraction:
    """An amount in base units, exactly, in the unit named: milligrams to pounds.

    Raises:
        NotUnderstood: the dimension has no such unit.
    """
    return value / dimension.unit(unit_name).size


def from_unit(number: Fraction | int, dimension: Dimension, unit_name: str) -> int:
    """So many of the unit named, in base units, rounded once, half to even.

    Raises:
        NotUnderstood: the dimension has no such unit.
    """
    return round(number * dimension.unit(unit_name).size)


def main_mass_unit(measures: Measures) -> str:
    """`lb` or `kg`."""
    return MASS.main_unit(measures)


def main_volume_unit(measures: Measures) -> str:
    """`gal` or `L`."""
    return VOLUME.main_unit(measures)


def main_area_unit(measures: Measures) -> str:
    """`sq ft` or `m2`."""
    return AREA.main_unit(measures)


def main_length_unit(measures: Measures) -> str:
    """`ft`, `cm` or `m`."""
    return LENGTH.main_unit(measures)
