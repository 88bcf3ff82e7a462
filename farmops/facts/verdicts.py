"""Readings held against the limits of those who live in the water, by the pH and the temperature of their time."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Protocol

from farmops.model.limits import Limit, Verdict
from farmops.model.readings import FRESH_DAYS, Measure
from farmops.science.judging import judge

DECIDES_AMMONIA = (Measure.PH, Measure.TEMPERATURE)


class Read(Protocol):
    """As much of a reading as is judged."""

    @property
    def unit_id(self) -> int:
        """The unit it was taken in."""
        ...

    @property
    def day(self) -> date:
        """When."""
        ...

    @property
    def measure(self) -> Measure:
        """What was read."""
        ...

    @property
    def value(self) -> float:
        """In the unit of storage."""
        ...


class Beside:
    """Readings of pH and temperature by their unit and day."""

    def __init__(self, readings: Iterable[Read]) -> None:
        self._held: dict[tuple[int, Measure], list[Read]] = {}
        for one in readings:
            self._held.setdefault((one.unit_id, one.measure), []).append(one)

    def nearest(self, unit_id: int, measure: Measure, day: date) -> float | None:
        """The value read nearest to a day, the earlier of two as near; None when none is fresh."""
        held = self._held.get((unit_id, measure), [])
        at = bisect_right(held, day, key=lambda one: one.day)
        near = sorted(held[max(0, at - 1) : at + 1], key=lambda one: abs((one.day - day).days))
        return near[0].value if near and abs((near[0].day - day).days) <= FRESH_DAYS else None


def verdict_of(one: Read, beside: Beside, limits: Sequence[Limit]) -> Verdict | None:
    """A reading judged by the pH and the temperature that were read nearest to it in its unit."""
    ph, warm = (
        (beside.nearest(one.unit_id, measure, one.day) for measure in DECIDES_AMMONIA)
        if one.measure is Measure.AMMONIA
        else (None, None)
    )
    return judge(one.measure, one.value, limits, ph=ph, temperature_c=warm)
