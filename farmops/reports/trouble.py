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
    if not any(one.measure in POISONS and one.unit_id in here for one in reading_facts.latest(reader, day)):
        return set()
    from farmops.reports.water import waters_on

    lines = waters_on(reader, farm, day).lines()
    read = {one.reading.unit_id for one in lines if one.reading.measure in POISONS and one.judged.bad}
    return read & here


SIGNS: tuple[Sign, ...] = (poisoned,)
"""What makes a unit troubled; each sign is one function."""
