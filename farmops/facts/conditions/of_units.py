"""What can hold for a unit: the state it is in, and what is not known of it yet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from farmops.facts import units
from farmops.facts.conditions.registry import Held, by_place, condition, spans_in
from farmops.model.chores import AppliesTo
from farmops.model.frozen import dataclass
from farmops.model.notes import Changed
from farmops.model.readings import Measure
from farmops.model.units import UnitState
from farmops.records.reading import Reader
from farmops.schedule.rules import Holding

BASELINE_READINGS = 10
ALTERS_CYCLES = (Changed.PUMP, Changed.SIPHON, Changed.MEDIA, Changed.FILTER)
WITH_SIPHON = (UnitState.CYCLING, UnitState.RUNNING)
CODES = "SELECT id, code FROM unit"
TIMED = f"""
    WITH filled AS (
        SELECT unit_id, MIN(from_day) AS day FROM unit_state
        WHERE state IN ({", ".join(f"'{state}'" for state in WITH_SIPHON)}) GROUP BY unit_id
    ), altered AS (
        SELECT unit_id, MAX(day) AS day FROM note
        WHERE changed IN ({", ".join(f"'{what}'" for what in ALTERS_CYCLES)}) GROUP BY unit_id
    )
    SELECT unit.id AS unit_id, unit.code, filled.day AS filled_day, altered.day AS altered_day,
        COUNT(reading.id) AS readings
    FROM filled
    JOIN unit ON unit.id = filled.unit_id
    LEFT JOIN altered ON altered.unit_id = filled.unit_id
    LEFT JOIN reading ON reading.unit_id = filled.unit_id AND reading.measure = '{Measure.FILL_TIME}'
        AND (altered.day IS NULL OR reading.day >= altered.day)
    WHERE EXISTS (SELECT 1 FROM bed WHERE bed.unit_id = unit.id AND bed.kind = 'media')
    GROUP BY unit.id, unit.code, filled.day, altered.day
    HAVING COUNT(reading.id) < {BASELINE_READINGS}
    ORDER BY unit.id
"""


@dataclass(frozen=True, slots=True)
class Timed:
    """When a unit first had a siphon at work and was altered last, and how many fill times were read since then."""

    unit_id: int
    code: str
    filled_day: date
    altered_day: date | None
    readings: int


@condition("unit cycling", place=AppliesTo.UNIT, tables=("unit_state",))
def cycling(reader: Reader) -> Held:
    """A unit is cycling, until its next state."""
    return by_place(_cycling(reader))


def _cycling(reader: Reader) -> Iterator[tuple[int, Holding]]:
    codes = {row["id"]: row["code"] for row in reader.rows(CODES)}
    for unit, states in units.all_states(reader).items():
        for since, until in spans_in(states, (UnitState.CYCLING,)):
            yield unit, Holding(since, until, f"{codes[unit]} cycling", "its next state")


@condition("unit without its baseline", place=AppliesTo.UNIT, tables=("unit_state", "bed", "reading", "note"))
def without_baseline(reader: Reader) -> Held:
    """A unit with a media bed is cycling or running with fewer than ten fill times read, counted anew when its pump,
    siphon, media or filter is changed; until the tenth.
    """
    return by_place(_without_baseline(reader))


def _without_baseline(reader: Reader) -> Iterator[tuple[int, Holding]]:
    states = units.all_states(reader)
    for row in reader.all(Timed, TIMED):
        why = f"{row.code} with {row.readings} of {BASELINE_READINGS} fill times read"
        begun = max(row.filled_day, row.altered_day or row.filled_day)
        for since, until in spans_in(states[row.unit_id], WITH_SIPHON):
            if until is None or until >= begun:
                yield row.unit_id, Holding(max(since, begun), until, why, "the tenth fill time")
