"""Units whose fish may be ill: they come last in the round, so that nothing is carried from them to the others."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from farmops.facts import fish as fish_facts
from farmops.facts import readings as reading_facts
from farmops.facts.reading import Reader
from farmops.model.farm import Farm
from farmops.model.readings import Measure

POISONS = (Measure.AMMONIA, Measure.NITRITE)
Sign = Callable[[Reader, Farm, date], set[int]]


def troubled_units(reader: Reader, farm: Farm, day: date) -> frozenset[int]:
    """The units that any sign speaks of on a day."""
    return frozenset(unit for sign in SIGNS for unit in sign(reader, farm, day))


def poisoned(reader: Reader, farm: Farm, day: date) -> set[int]:
    """The units with live fish whose latest ammonia or nitrite is past a limit of theirs."""
    fish = fish_facts.fish_spans(reader)
    here = {unit for unit, spans in fish.items() if any(first <= day <= (last or day) for first, last in spans)}
    latest = reading_facts.latest(reader, day)
    read = [one for one in latest if one.measure in POISONS and one.unit_id in here]
    if not read:
        return set()
    from farmops.facts.limits import limits_on
    from farmops.facts.verdicts import Beside, verdict_of

    limits, beside = limits_on(reader, day), Beside(latest)
    judged = [(one.unit_id, verdict_of(one, beside, limits[one.unit_id])) for one in read]
    return {unit for unit, verdict in judged if verdict is not None and verdict.passed}


SIGNS: tuple[Sign, ...] = (poisoned,)
"""What makes a unit troubled; each sign is one function."""
