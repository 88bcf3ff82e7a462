"""Power: what hangs on it, what a meter showed, and what a kilowatt-hour costs."""

from __future__ import annotations

from datetime import date

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep, Measured


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


@dataclass(frozen=True, slots=True)
class NewDevice:
    """A device as a person enters it: rated milliwatts, minutes it runs a day, for one unit or for all (None)."""

    name: str
    rated: Measured
    from_day: date
    minutes_a_day: int = 1440
    unit_id: int | None = None
    until_day: date | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class DeviceChange:
    """A correction of a device; `until_day` is the last day it runs."""

    device_id: int
    name: str | Keep = KEEP
    rated: Measured | Keep = KEEP
    minutes_a_day: int | Keep = KEEP
    unit_id: int | Keep | None = KEEP
    from_day: date | Keep = KEEP
    until_day: date | Keep | None = KEEP
    note: str | Keep | None = KEEP


@dataclass(frozen=True, slots=True)
class NewMeterReading:
    """What a meter shows at the start of a day, in watt-hours; the same day again corrects it."""

    day: date
    shown: Measured
    unit_id: int | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class NewPowerPrice:
    """What power costs from a day on: minor units for `per_wh` watt-hours; the same day again corrects it."""

    from_day: date
    price_minor: int
    per_wh: int
    typed: str
