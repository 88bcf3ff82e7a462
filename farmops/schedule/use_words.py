"""Rules by use in plain words: `2000 pump hours`, `5 kg fed`, `500 siphon cycles or 6 months`, read and written."""

from __future__ import annotations

import re
from datetime import date

from farmops.model.errors import NotUnderstood, Refused
from farmops.model.usage import Counter
from farmops.quantities import MASS, METRIC, US, Measures
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
        return spell(round(amount / MINUTES), "pump hour")
    return spell(amount, "siphon cycle")


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
