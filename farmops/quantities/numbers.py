"""Numbers as typed and as read: decimals in the farm's sign, simple fractions, never through float."""

from __future__ import annotations

import re
from fractions import Fraction

from farmops.quantities.measures import Measures
from farmops.quantities.wording import UnclearError

LONGEST_TEXT = 200
_SPACES = dict.fromkeys(map(ord, "\t\u00a0\u2007\u2009\u200a\u202f\u2002\u2003"), " ")
_VARIANTS = {
    **_SPACES,
    ord("²"): "^2",
    ord("³"): "^3",
    ord("×"): "x",
    ord("−"): "-",
    ord("⁄"): "/",
    ord("½"): " 1/2",
    ord("¼"): " 1/4",
    ord("¾"): " 3/4",
    ord("⅓"): " 1/3",
    ord("⅔"): " 2/3",
    ord("⅛"): " 1/8",
    ord("⅜"): " 3/8",
    ord("⅝"): " 5/8",
    ord("⅞"): " 7/8",
}
NUMBER = (
    r"(?P<first>[0-9]+(?:[.,][0-9]+)*|[.,][0-9]+)"
    r"(?: */ *(?P<under>[0-9]+)| +(?P<over>[0-9]+) */ *(?P<below>[0-9]+))?"
)


def tidy(text: str) -> str:
    """The text in lower case with plain blanks and signs.

    Raises:
        UnclearError: empty, longer than anyone types, with digits of another script or a control character.
    """
    if len(text) > LONGEST_TEXT:
        raise UnclearError("is too long")
    plain = text.translate(_VARIANTS).lower().strip()
    if not plain:
        raise UnclearError("is empty")
    if not plain.isprintable():
        raise UnclearError("has a control character in it")
    if any(char.isnumeric() and not char.isascii() for char in plain):
        raise UnclearError("has digits other than 0 to 9")
    return plain


def read_number(match: re.Match[str], measures: Measures) -> Fraction:
    """The number found by NUMBER: `1.4`, `1/2` or `1 1/2`.

    Raises:
        UnclearError: the wrong decimal sign, two of them, or a fraction that is none.
    """
    first = read_decimal(match["first"], measures)
    if match["under"]:
        return _fraction(first, match["under"], None)
    if match["over"]:
        return first + _fraction(Fraction(match["over"]), match["below"], first)
    return first


def _fraction(over: Fraction, under: str, whole: Fraction | None) -> Fraction:
    parts_are_whole = over.denominator == 1 and (whole is None or whole.denominator == 1)
    if not parts_are_whole or int(under) == 0 or (whole is not None and over >= int(under)):
        raise UnclearError("has a fraction that does not work out; a simple one is 1 1/2")
    return over / int(under)


def read_decimal(digits: str, measures: Measures) -> Fraction:
    """A plain decimal number in the farm's sign, exactly.

    Raises:
        UnclearError: it holds the sign this farm does not use, or more than one.
    """
    if measures.grouping_mark in digits:
        mark = "comma" if measures.decimal_comma else "point"
        raise UnclearError(f"is ambiguous: this farm writes decimals with a {mark}, as in {example('1.4', measures)}")
    if digits.count(measures.decimal_mark) > 1:
        raise UnclearError("has two decimal signs in one number")
    return Fraction(digits.replace(",", "."))


def show_decimal(value: Fraction, places: int, measures: Measures, *, strip: bool = False) -> str:
    """The number to so many decimals, rounded half to even, trailing zeros dropped if told so."""
    scaled = round(value * 10**places)
    whole, rest = divmod(abs(scaled), 10**places)
    decimals = f"{rest:0{places}d}" if places else ""
    if strip:
        decimals = decimals.rstrip("0")
    sign = "-" if scaled < 0 else ""
    return f"{sign}{whole}" + (measures.decimal_mark + decimals if decimals else "")


def example(text: str, measures: Measures) -> str:
    """An example written with a point, in the farm's own sign."""
    return text.replace(".", measures.decimal_mark)
