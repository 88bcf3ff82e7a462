"""What people say of readings: new ones, alone or together, and changes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from farmops.model.readings import Form, Measure, Reading
from farmops.model.values import KEEP, Keep


@dataclass(frozen=True, slots=True)
class NewReading:
    """One measured value as a person reads it: `value` in the unit of `READ_IN`, in the `form` of the kit.

    A form of None is the one the measure was booked in last, `as N` the first time. An unlikely value is booked
    when the person is `sure` of it.
    """

    measure: Measure
    value: float
    typed: str
    form: Form | None = None
    note: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class NewReadings:
    """Readings of one unit, booked together; `minute` counts from midnight."""

    unit_id: int
    day: date
    readings: tuple[NewReading, ...]
    minute: int | None = None


@dataclass(frozen=True, slots=True)
class ReadingsBooked:
    """The readings that were booked, in the order they were given."""

    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class ReadingChange:
    """A correction of a reading; `read` is another value of the same measure."""

    reading_id: int
    day: date | Keep = KEEP
    minute: int | Keep | None = KEEP
    read: NewReading | Keep = KEEP
    note: str | Keep | None = KEEP
