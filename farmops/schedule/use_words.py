"""Rules by use in plain words: `2000 pump hours`, `5 kg fed`, `500 siphon cycles or 6 months`, read and written."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction

from farmops.model.errors import NotUnderstood, OutOfRange, Refused
from farmops.model.usage import Counter
from farmops.quantities import MASS, METRIC, US, Measures
from farmops.quantities.numbers import show_decimal
from farmops.quantities.wording import quoted
from farmops.schedule.rules import ByUse, Wait
from farmops.schedule.stored import LARGEST, by_use, spell, wait

MINUTES, GRAM = 60, 1000
_OR = r"(?: or (?:(?P<every>[0-9]{1,6}|an?) )?(?P<unit>day|week|month|year)s?(?: after(?: doing| done)?(?: it)?)?)?"
_COUNTED = rf"(?P<number>[0-9]{{1,3}}(?:[ ,][0-9]{{3}})+|[0-9]{{1,9}}) (?P<what>pump hour|siphon cycle)s?{_OR}"
_FED = rf"(?P<mass>.*[0-9].*?) (?:fed|of feed){_OR}"
_COUNTERS = {"pump hour": (Counter.PUMP_HOURS, MINUTES), "siphon cycle": (Counter.SIPHON_CYCLES, 1)}


def read_use(text: str, start: date, measures: Measures | None) -> ByUse | None:
    """The rule by use that the words mean, None when they mean none.

    A weight without a unit is one of the farm's, where its `measures` are known.

    Raises:
        NotUnderstood: a weight that has no one clear meaning.
        Refused: a limit that cannot be.
    """
    phrase = re.sub(r"^(every|each) ", "", " ".join(text.strip(" .").lower().split()))
    if found := re.fullmatch(_COUNTED, phrase):
        counter, size = _COUNTERS[found["what"]]
        number = int(re.sub("[ ,]", "", found["number"]))
        if not 1 <= number <= LARGEST[counter] // size:
            raise Refused(f"{spell(number, found['what'])}: the limit goes from 1 to {LARGEST[counter] // size}.")
        return by_use(number * size, counter, start, _latest(found))
    if found := re.fullmatch(_FED, phrase):
        return by_use(_mass(found["mass"], measures), Counter.FEED, start, _latest(found))
    return None


def use_words(rule: ByUse) -> str:
    """The rule in words that `read_use` reads back as the same rule, in the units that take the fewest signs."""
    latest = f" or {spell(rule.latest.every, rule.latest.unit)}" if rule.latest else ""
    return f"every {amount_words(rule.counter, rule.limit)}{latest}"


def amount_words(counter: Counter, amount: int, measures: Measures | None = None) -> str:
    """`2000 pump hours`, `5 kg fed`; without the farm's `measures` weights are exact and whole, whatever the unit."""
    if counter is Counter.FEED:
        return f"{_fed(amount, measures)} fed"
    if counter is Counter.PUMP_HOURS:
        return _hours(amount, measures or METRIC)
    return spell(amount, "siphon cycle")


def _hours(minutes: int, measures: Measures) -> str:
    whole, rest = divmod(minutes, MINUTES)
    return f"{show_decimal(Fraction(minutes, MINUTES), 1, measures)} pump hours" if rest else spell(whole, "pump hour")


def _latest(found: re.Match[str]) -> Wait | None:
    if not found["unit"]:
        return None
    every = found["every"] or "1"
    return wait(int(every) if every.isdigit() else 1, found["unit"])


def _mass(text: str, measures: Measures | None) -> int:
    if measures is None and not re.search("[a-z]", text):
        raise NotUnderstood(f"'{text} fed' is not understood: name the unit, such as {text} kg fed.")
    return MASS.parse(text, measures or METRIC)


def _fed(amount: int, measures: Measures | None) -> str:
    if measures is not None:
        return MASS.show(amount, measures)
    exact = (MASS.show_exact(amount, kind) for kind in (METRIC, US))
    whole = [text for text in exact if "." not in text]
    grams, rest = divmod(amount, GRAM)
    return min([*whole, f"{amount} mg" if rest else f"{grams} g"], key=len)


def read_amount(counter: Counter, text: str, measures: Measures) -> int:
    """An amount of use as a person types it: minutes of pump hours, milligrams of feed, or siphon cycles.

    Raises:
        NotUnderstood: the text has no one clear meaning.
        OutOfRange: more than can be used at all.
    """
    if counter is Counter.FEED:
        return MASS.parse(text, measures)
    what, size = ("pump hour", MINUTES) if counter is Counter.PUMP_HOURS else ("siphon cycle", 1)
    decimals = rf"(?:{re.escape(measures.decimal_mark)}([0-9]{{1,3}}))?" if size > 1 else "()"
    found = re.fullmatch(rf"([0-9]{{1,9}}){decimals} *(?:h|hours?|cycles?|{what}s?)?", text.strip().lower())
    if not found:
        example = f"168, 16{measures.decimal_mark}5" if size > 1 else "500"
        raise NotUnderstood(f"{quoted(text)} is no number of {counter}. Understood: {example}.")
    amount = round(Fraction(f"{found[1]}.{found[2] or 0}") * size)
    if not 0 < amount <= LARGEST[counter]:
        raise OutOfRange(f"{quoted(text)} is no number of {counter} to book: it goes up to {LARGEST[counter] // size}.")
    return amount
