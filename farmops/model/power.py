"""Power: what hangs on it, what a meter showed, and what a kilowatt-hour costs."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Device:
    """Something that runs on power, in one unit or for all (None): rated milliwatts, minutes it runs a day."""

    id: int
    name: str
    unit_id: int | None
    unit: str | None
    rated_mw: int
    rated_typed: str
    minutes_a_day: int
    from_day: date
    until_day: date | None
    note: str | None


@dataclass(frozen=True, slots=True)
class MeterReading:
    """What a meter showed at the start of a day, of one unit or of the whole farm (None), in watt-hours."""

    id: int
    day: date
    unit_id: int | None
    unit: str | None
    shown_wh: int
    shown_typed: str
    note: str | None


@dataclass(frozen=True, slots=True)
class PowerPrice:
    """What power costs from a day on: minor units for `per_wh` watt-hours, never divided."""

    id: int
    from_day: date
    price_minor: int
    per_wh: int
    typed: str
