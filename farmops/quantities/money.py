"""Sums of money: text to whole minor units and back, decimals as ISO 4217 gives each currency."""

from __future__ import annotations

import re
from fractions import Fraction

from farmops.quantities.currencies import CURRENCIES, SIGN_OF
from farmops.quantities.measures import Measures
from farmops.quantities.numbers import tidy
from farmops.quantities.worded import Worded
from farmops.quantities.wording import TooFarError, UnclearError, not_understood, out_of_range

LARGEST_MINOR = 10**12
SIGN = r"[^0-9\s.,+-]*"
TYPED = rf"(?P<before>{SIGN}) *(?P<number>[0-9][0-9., ']*|[.,][0-9]+) *(?P<after>{SIGN})"


def currency_decimals(measures: Measures) -> int:
    """How many decimals the farm's currency has: 2 for USD, 0 for JPY, 3 for KWD."""
    return CURRENCIES[measures.currency]


def parse_money(text: str, measures: Measures, *, zero_ok: bool = False) -> int:
    """The sum typed, in minor units of the farm's currency.

    Raises:
        NotUnderstood: no one clear meaning, another currency, more decimals than the currency has, nothing.
        OutOfRange: more than 10**12 minor units.
    """
    try:
        return _check(_read(tidy(text), measures), measures, zero_ok=zero_ok)
    except UnclearError as error:
        raise not_understood(text, str(error), money_examples(measures)) from None
    except TooFarError as error:
        raise out_of_range(text, str(error), money_examples(measures)) from None


def money_examples(measures: Measures) -> tuple[str, ...]:
    """What would be understood on this farm."""
    sums = (1200, 1250) if currency_decimals(measures) == 2 else (12, 1250)
    plain = tuple(show_money_exact(minor, measures) for minor in sums)
    return (*plain, show_money(sums[-1], measures), f"{measures.currency} {plain[-1]}")


def _check(minor: int, measures: Measures, *, zero_ok: bool) -> int:
    if minor > LARGEST_MINOR:
        raise TooFarError(f"is more than {show_money(LARGEST_MINOR, measures)}, the largest sum taken")
    if not minor and not zero_ok:
        raise UnclearError("is no sum of money: it comes to nothing")
    return minor


def _read(text: str, measures: Measures) -> int:
    if "-" in text:
        raise UnclearError("has a minus sign; a sum is more than nothing")
    match = re.fullmatch(TYPED, text)
    if match is None:
        raise UnclearError("is no sum of money")
    _check_currency(match["before"], match["after"], measures)
    return _minor(match["number"].strip(), measures)


def _check_currency(before: str, after: str, measures: Measures) -> None:
    own = {"", measures.currency.lower(), SIGN_OF.get(measures.currency, "")}
    for word in (before, after):
        if word not in own:
            raise UnclearError(f"is not in {measures.currency}, in which this farm counts")
    if before and after and before == after:
        raise UnclearError("names the currency twice")


def _minor(number: str, measures: Measures) -> int:
    whole, mark, decimals = number.partition(measures.decimal_mark)
    if measures.grouping_mark in whole and not mark:
        _check_grouping_alone(whole, measures)
    if mark and not decimals.isdigit():
        raise UnclearError("has decimals that are no number")
    places = currency_decimals(measures)
    if len(decimals) > places:
        raise UnclearError(f"has more decimals than {measures.currency}, which has {places or 'none'}")
    return int(_ungrouped(whole, measures) + decimals.ljust(places, "0") or "0")


def _check_grouping_alone(whole: str, measures: Measures) -> None:
    """Refuse `1,234` where it could be thousands as well as three decimals, and `12,50` anywhere."""
    last = whole.rpartition(measures.grouping_mark)[2]
    if len(last) != 3 or (currency_decimals(measures) >= 3 and whole.count(measures.grouping_mark) == 1):
        mark = "comma" if measures.decimal_comma else "point"
        raise UnclearError(f"is ambiguous: this farm writes decimals with a {mark}")


def _ungrouped(whole: str, measures: Measures) -> str:
    for mark in (measures.grouping_mark, " ", "'"):
        if mark in whole:
            first, *groups = whole.split(mark)
            if not (1 <= len(first) <= 3 and all(len(group) == 3 for group in groups)):
                raise UnclearError("has thousands that are not set apart in threes")
            whole = first + "".join(groups)
    if whole and not whole.isdigit():
        raise UnclearError("is no sum of money")
    return whole


def show_money(minor: int, measures: Measures) -> Worded:
    """The sum as a person reads it: `$1,234.50`, `-$3.00`, `1.234,50 €`, `CHF 12.50`."""
    places = currency_decimals(measures)
    whole, rest = divmod(abs(minor), 10**places)
    grouped = f"{whole:,}".replace(",", measures.grouping_mark)
    number = grouped + (f"{measures.decimal_mark}{rest:0{places}d}" if places else "")
    words = ("-" if minor < 0 else "") + with_currency(number, measures)
    return Worded(words, major(minor, measures), measures.currency)


def with_currency(number: str, measures: Measures) -> str:
    """A number with the sign or the code of the farm's currency, where its readers expect it."""
    sign = SIGN_OF.get(measures.currency)
    if measures.decimal_comma:
        return f"{number} {sign or measures.currency}"
    return f"{sign}{number}" if sign else f"{measures.currency} {number}"


def show_money_exact(minor: int, measures: Measures) -> Worded:
    """The sum as `parse_money` reads it back, without currency or thousands: `1234.50`."""
    places = currency_decimals(measures)
    whole, rest = divmod(abs(minor), 10**places)
    decimals = f"{measures.decimal_mark}{rest:0{places}d}" if places else ""
    return Worded(f"{'-' if minor < 0 else ''}{whole}{decimals}", major(minor, measures), measures.currency)


def major(minor: int, measures: Measures) -> Fraction:
    """Minor units in whole currency: 1250 cents are 12.5 dollars, exactly."""
    return Fraction(minor, 10 ** currency_decimals(measures))
