"""What can hold for a unit by its cycle times: the bed fills or drains slower or faster than usual, or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.facts.conditions.registry import Held, by_place, condition
from farmops.facts.drifting import CYCLE, Series, series
from farmops.facts.farm import farm
from farmops.model.chores import AppliesTo
from farmops.model.readings import Measure
from farmops.quantities.drifting import NO_CYCLE_WORDS, drift_words
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

CONFIRMED_BY = 2
"""From which reading in a row on a drift holds: one alone may be a slip. Common practice, no source."""
TABLES = ("reading", "note")
ENDS = "a reading as usual again, or a note that pump, siphon, media or filter was changed"


@condition("filling slower", place=AppliesTo.UNIT, tables=TABLES)
def filling_slower(reader: Reader) -> Held:
    """A bed fills slower than usual, two readings running or more, or less flows: pump or intake; until a reading as
    usual, or a note that the pump, the siphon, the media or the filter was changed.

    What is usual is told by the first readings, six to ten, since the last such note.
    """
    slower = _drifting(reader, Measure.FILL_TIME, 1)
    return by_place([*slower, *_drifting(reader, Measure.FLOW, -1)])


@condition("filling faster", place=AppliesTo.UNIT, tables=TABLES)
def filling_faster(reader: Reader) -> Held:
    """A bed fills faster than usual, two readings running or more: it clogs and holds less; until a reading as usual,
    or a note that the pump, the siphon, the media or the filter was changed.
    """
    return by_place(_drifting(reader, Measure.FILL_TIME, -1))


@condition("draining slower", place=AppliesTo.UNIT, tables=TABLES)
def draining_slower(reader: Reader) -> Held:
    """A bed drains slower than usual, two readings running or more: roots in the siphon; until a reading as usual, or a
    note that the pump, the siphon, the media or the filter was changed.
    """
    return by_place(_drifting(reader, Measure.DRAIN_TIME, 1))


@condition("siphon dribbling", place=AppliesTo.UNIT, tables=TABLES)
def dribbling(reader: Reader) -> Held:
    """The siphon was seen not to cycle (a fill or drain time of `no cycle`), until one is timed again."""
    return by_place(_not_cycling(reader))


def _drifting(reader: Reader, measure: Measure, side: int) -> Iterator[tuple[int, Holding]]:
    for one in series(reader, date.max, (measure,)):
        found = one.moving
        if found is not None and found.side == side and found.running >= CONFIRMED_BY and one.dribbling is None:
            since = one.timed[len(one.timed) - found.running + CONFIRMED_BY - 1][0]
            yield one.unit_id, Holding(since, None, _words(reader, one), ENDS)


def _words(reader: Reader, one: Series) -> str:
    found = one.moving
    assert found is not None  # noqa: S101 - it was looked at a moment ago
    usual = (found.usual.low, found.usual.high)
    value = one.timed[-1][1]
    return drift_words(one.measure, value, usual, found.side, found.running, farm(reader).measures)


def _not_cycling(reader: Reader) -> Iterator[tuple[int, Holding]]:
    since: dict[int, date] = {}
    for one in series(reader, date.max, CYCLE):
        if one.dribbling is not None:
            since[one.unit_id] = min(one.dribbling, since.get(one.unit_id, date.max))
    for unit, first in since.items():
        yield unit, Holding(first, None, NO_CYCLE_WORDS, "a fill or drain time that was timed")
