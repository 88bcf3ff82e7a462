"""Readings that should hold still, unit by unit, since something was changed that they depend on."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from farmops.economics.drift import Moving, moving
from farmops.facts.readings import MOMENT
from farmops.model.frozen import dataclass
from farmops.model.notes import Changed
from farmops.model.readings import NO_CYCLE, Measure
from farmops.records.reading import Reader, day

CYCLE = (Measure.FILL_TIME, Measure.DRAIN_TIME, Measure.FLOW)
"""What is told from its own baseline: the times of a cycle, and the flow."""
ALTERS_CYCLES = (Changed.PUMP, Changed.SIPHON, Changed.MEDIA, Changed.FILTER)
ALTERS_WATER = (Changed.WATER_SOURCE, Changed.FEED, Changed.FILTER, Changed.MEDIA)
SERIES = f"""
    SELECT reading.unit_id, unit.code, unit.position, reading.measure, reading.day, reading.value
    FROM reading JOIN unit ON unit.id = reading.unit_id
    WHERE reading.day <= :last AND reading.measure IN (:measures)
    ORDER BY unit.position, unit.id, reading.day, {MOMENT.format("reading")}, reading.id
"""
ALTERED = "SELECT unit_id, day, changed FROM note WHERE changed IS NOT NULL AND day <= :last ORDER BY day, id"


@dataclass(frozen=True, slots=True)
class Series:
    """Readings of one measure of a unit, oldest first, since `since`: the day `changed` was altered, None for ever."""

    unit_id: int
    unit: str
    measure: Measure
    days: tuple[date, ...]
    values: tuple[float, ...]
    since: date | None = None
    changed: Changed | None = None

    @property
    def dribbling(self) -> date | None:
        """The day since which no cycle was seen; None where the latest reading was one."""
        if not self.cycling or self.values[-1] != NO_CYCLE:
            return None
        seen = max((at for at, value in enumerate(self.values) if value != NO_CYCLE), default=-1)
        return self.days[seen + 1]

    @property
    def cycling(self) -> bool:
        """Whether it is told from a baseline of its own."""
        return self.measure in CYCLE

    @property
    def timed(self) -> list[tuple[date, float]]:
        """The days and values of what was timed; where no cycle was seen there is nothing to time."""
        return [one for one in zip(self.days, self.values, strict=True) if not self.cycling or one[1] != NO_CYCLE]

    @property
    def moving(self) -> Moving | None:
        """Where its values lie against what is usual; None where that is not told, or not known yet."""
        return moving([value for _, value in self.timed]) if self.cycling else None


def series(reader: Reader, last: date, measures: Collection[Measure] = tuple(Measure)) -> list[Series]:
    """The readings of some measures up to a day, each of a unit since it was last altered, in walking order."""
    listed = ", ".join(f"'{measure.value}'" for measure in measures)
    held: dict[tuple[int, str, Measure], list[tuple[date, float]]] = {}
    for row in reader.rows(SERIES.replace(":measures", listed), last=last):
        key = row["unit_id"], row["code"], Measure(row["measure"])
        held.setdefault(key, []).append((day(row["day"]), row["value"]))
    altered = _altered(reader, last) if held else []
    found = (_since(*key, read, altered) for key, read in held.items())
    return [one for one in found if one.days]


Altered = tuple[int, date, Changed]


def _altered(reader: Reader, last: date) -> list[Altered]:
    return [(row["unit_id"], day(row["day"]), Changed(row["changed"])) for row in reader.rows(ALTERED, last=last)]


def _since(unit_id: int, code: str, measure: Measure, read: list[tuple[date, float]], altered: list[Altered]) -> Series:
    parts = ALTERS_CYCLES if measure in CYCLE else ALTERS_WATER
    own = [(when, what) for unit, when, what in altered if unit == unit_id and what in parts]
    since, changed = own[-1] if own else (None, None)
    kept = [one for one in read if since is None or one[0] >= since]
    return Series(
        unit_id, code, measure, tuple(when for when, _ in kept), tuple(value for _, value in kept), since, changed
    )
