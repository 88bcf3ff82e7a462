"""What every dimension does: text to an exact integer, the integer to text, refusals in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from farmops.model.errors import NotUnderstood, OutOfRange
from farmops.quantities.grammar import Vocabulary, close, spellings
from farmops.quantities.measures import Measures
from farmops.quantities.numbers import example, tidy
from farmops.quantities.showing import Step, show, show_finer
from farmops.quantities.tables import Unit
from farmops.quantities.worded import Worded
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range, quoted

EXACT_PLACES = 3


class Customs(NamedTuple):
    """How farms of one kind speak of a dimension: their unit, how they show it, what they type."""

    vocabulary: Vocabulary
    steps: tuple[Step, ...]
    examples: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False, repr=False)
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
    exact_steps: tuple[Step, ...]
    customs: Mapping[str, Customs]
    read_part: Callable[[str, Vocabulary, Measures], Fraction]

    def __repr__(self) -> str:
        return f"<Dimension {self.word}>"

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

    def show(self, value: int, measures: Measures) -> Worded:
        """The amount as a person reads it, rounded to the digits that mean something."""
        customs = self._customs(measures)
        main = customs.vocabulary.main
        words = show(value, customs.steps, measures) if value else f"0 {main.name}"
        return Worded(words, value / main.size, main.name)

    def show_exact(self, value: int, measures: Measures) -> str:
        """A text, in the farm's units where they can, that `parse` reads back as the very same amount."""
        steps = self._customs(measures).steps
        finer = (show_finer(value, steps, places, measures) for places in range(1, EXACT_PLACES + 1))
        candidates = (self.show(value, measures), *finer)
        to_the_digit = show(value, self.exact_steps, measures)
        return next((text for text in candidates if self._reads_as(text, value, measures)), to_the_digit)

    def examples(self, measures: Measures) -> tuple[str, ...]:
        """What would be understood on this farm."""
        return tuple(example(text, measures) for text in self._customs(measures).examples)

    def main_unit(self, measures: Measures) -> str:
        """The unit a bare number means on this farm."""
        return self._customs(measures).vocabulary.main.name

    def vocabulary(self, measures: Measures) -> Vocabulary:
        """The units understood on this farm and what bare numbers mean there."""
        return self._customs(measures).vocabulary

    def unit(self, name: str) -> Unit:
        """The unit of that name or spelling.

        Raises:
            NotUnderstood: this dimension has no such unit.
        """
        known = spellings(self.all_units).get(close(name))
        if known is None:
            raise NotUnderstood(f"{quoted(name)} is no unit of {self.word}. Understood: {', '.join(self.units)}.")
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
            raise TooFarError(f"is more than {self.show(self.largest, measures)}, the largest {self.word} taken")
        if exact == 0 and not zero_ok:
            raise UnclearError(f"is no {self.word}: it comes to nothing")
        if exact and not round(exact):
            raise TooFarError(f"is less than 1 {self.base}, the smallest {self.word} kept")
        return exact

    def _reads_as(self, text: str, value: int, measures: Measures) -> bool:
        try:
            return self.parse(text, measures, zero_ok=True) == value
        except (NotUnderstood, OutOfRange):
            return False
