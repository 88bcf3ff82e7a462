"""The grammar of a measured amount: numbers with units, the larger first, `+` between weighings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from farmops.quantities.measures import Measures
from farmops.quantities.numbers import NUMBER, read_number
from farmops.quantities.tables import HINTS, KINDS, Unit
from farmops.quantities.wording import UnclearError, quoted


class Term(NamedTuple):
    """One number and the unit behind it, None when there was none."""

    number: Fraction
    unit: Unit | None
    mixed: bool = False


class Vocabulary(NamedTuple):
    """The units of one dimension and what a number without a unit means.

    `pair` is what two bare numbers mean (`1 6` is 1 lb 6 oz), None where they mean nothing.
    """

    units: tuple[Unit, ...]
    main: Unit
    pair: tuple[Unit, Unit] | None = None


@cache
def spellings(units: tuple[Unit, ...]) -> dict[str, Unit]:
    """Every spelling in lower case without blanks, and the unit it means."""
    return {close(word): unit for unit in units for word in unit.spellings}


def close(word: str) -> str:
    """A spelling as it is looked up: lower case, no blanks, no points."""
    return word.lower().replace(" ", "").replace(".", "")


@cache
def _unit_pattern(units: tuple[Unit, ...]) -> re.Pattern[str]:
    words = sorted((word for unit in units for word in unit.spellings), key=len, reverse=True)
    return re.compile(" *(" + "|".join(map(_word_pattern, words)) + ")")


def _word_pattern(word: str) -> str:
    """Blanks are optional; a name ends where its letters end, `m2` not before another digit."""
    pattern = re.escape(word.lower()).replace(r"\ ", r"\.? *")
    if word[-1].isdigit():
        return pattern + r"(?![0-9.,])"
    return pattern + r"(?![a-z^])\.?" if word[-1].isalpha() else pattern


def read_terms(text: str, vocabulary: Vocabulary, measures: Measures) -> list[Term]:
    """All numbers with their units, in the order typed.

    Raises:
        UnclearError: anything that is neither a number nor a unit of this dimension.
    """
    terms: list[Term] = []
    position = 0
    while position < len(text):
        term, position = _read_term(text, position, vocabulary, measures)
        terms.append(term)
    return terms


def _read_term(text: str, position: int, vocabulary: Vocabulary, measures: Measures) -> tuple[Term, int]:
    number = re.compile(NUMBER).match(text, position)
    if number is None:
        raise UnclearError(_stray(text[position:], vocabulary.units))
    value = read_number(number, measures)
    mixed = number["over"] is not None
    unit = _unit_pattern(vocabulary.units).match(text, number.end())
    if unit is None:
        return Term(value, None, mixed), _next_number(text, number.end(), vocabulary.units)
    name = close(unit[1])
    return Term(value, spellings(vocabulary.units)[name], mixed), _skip_blanks(text, unit.end())


def _skip_blanks(text: str, position: int) -> int:
    return len(text) - len(text[position:].lstrip(" "))


def _next_number(text: str, position: int, units: tuple[Unit, ...]) -> int:
    following = _skip_blanks(text, position)
    if following < len(text) and re.compile(NUMBER).match(text, following) is None:
        raise UnclearError(_stray(text[following:], units))
    return following


def _stray(rest: str, units: tuple[Unit, ...]) -> str:
    """What is wrong with a rest that starts with no number."""
    if rest.startswith("-"):
        return "has a minus sign; an amount is more than nothing"
    word = re.match(r"[^\W\d_]+", rest)
    if word is None:
        return f"has {quoted(rest[0])} where a number or a unit should be"
    return HINTS.get(word[0]) or f"has {quoted(word[0])} {_what_is_wrong_with(word[0], units)}"


def _what_is_wrong_with(word: str, units: tuple[Unit, ...]) -> str:
    if close(word) in spellings(units):
        return "without a number before it"
    kind = next((kind for kind, others in KINDS.items() if close(word) in spellings(others)), None)
    return f"in it, a unit of {kind}" if kind else "where a number or a unit known here should be"


def amount(terms: Sequence[Term], vocabulary: Vocabulary) -> Fraction:
    """What the terms come to in base units.

    Raises:
        UnclearError: bare numbers that mean nothing, units in the wrong order, repeated or of two systems.
    """
    named = _named(terms, vocabulary)
    for larger, smaller in pairwise(named):
        _check_pair(larger, smaller)
    return sum((number * unit.size for number, unit in named), Fraction(0))


def _named(terms: Sequence[Term], vocabulary: Vocabulary) -> list[tuple[Fraction, Unit]]:
    named = [(term.number, term.unit) for term in terms if term.unit is not None]
    if len(named) == len(terms):
        return named
    if named:
        raise UnclearError("has a number without a unit")
    return _bare([term.number for term in terms], terms[0].mixed, vocabulary)


def _bare(numbers: Sequence[Fraction], mixed: bool, vocabulary: Vocabulary) -> list[tuple[Fraction, Unit]]:
    if mixed and vocabulary.pair:
        large, small = vocabulary.pair
        raise UnclearError(f"could count {large.plural} only, or {large.plural} and {small.plural}; name the unit")
    if len(numbers) == 1:
        return [(numbers[0], vocabulary.main)]
    if vocabulary.pair is None or len(numbers) > 2:
        raise UnclearError("has several numbers without a unit")
    return list(zip(numbers, vocabulary.pair, strict=True))


def _check_pair(larger: tuple[Fraction, Unit], smaller: tuple[Fraction, Unit]) -> None:
    (number, unit), (next_number, next_unit) = larger, smaller
    if unit == next_unit:
        raise UnclearError(f"has {unit.plural} twice; amounts are joined with +")
    if unit.system != next_unit.system:
        raise UnclearError(f"mixes {unit.plural} and {next_unit.plural}; join them with +")
    if unit.size < next_unit.size:
        raise UnclearError(f"puts {unit.plural} before {next_unit.plural}")
    if number.denominator != 1:
        raise UnclearError(f"has a fraction of {unit.plural} before {next_unit.plural}")
    if next_number * next_unit.size >= unit.size:
        ratio = unit.size / next_unit.size
        raise UnclearError(f"has {ratio} {next_unit.plural} or more, but {ratio} {next_unit.plural} are 1 {unit.name}")


def read_amount(text: str, vocabulary: Vocabulary, measures: Measures) -> Fraction:
    """Numbers with units, added up, in base units."""
    return amount(read_terms(text, vocabulary, measures), vocabulary)
