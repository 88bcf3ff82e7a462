"""The balance of a unit in words, the same for the command and the screen."""

from __future__ import annotations

from fractions import Fraction

from farmops.quantities import Measures
from farmops.reports.balance import Balance, BalanceLine
from farmops.reports.shown import shown_value
from farmops.science.balance import Place

PLACES = {Place.BELOW: "too little", Place.WITHIN: "good", Place.ABOVE: "too much"}


def range_words(one: BalanceLine, measures: Measures) -> str:
    """`too little: 40.0 to 50.0 g per m2 a day is published`; nothing where nothing is."""
    if one.place is None or one.low is None or one.high is None:
        return ""
    low, high = (shown_value(Fraction(end), one.figure.unit, measures) for end in (one.low, one.high))
    return f"{PLACES[one.place]}: {_number(low)} to {high} is usual ({one.source})"


def _number(words: str) -> str:
    return words.split(" ")[0]


def verdict_words(found: Balance) -> str:
    """What is out of its range, in a sentence, and how much cannot be told."""
    names = [one.figure.name for one in found.outside]
    outside = f"Out of range: {', '.join(names)}." if names else "Nothing that can be told is out of range."
    missing = len(found.untold)
    rest = f" {missing} of {len(found.lines)} cannot be told: a record is missing." if missing else ""
    return outside + rest
