"""Treatments: what was done against a pest or a disease, and the holds that its label asks for."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from farmops.model.frozen import dataclass
from farmops.model.values import KEEP, Keep

LONGEST_DAYS = 365
"""The longest hold until harvest or until fish are taken that is understood [days]."""
LONGEST_REENTRY_HOURS = 720


@dataclass(frozen=True, slots=True)
class Treatment:
    """Something done against a pest or a disease on a unit, one of its beds or a fish lot.

    `at` is the instant, `day` the day on the farm. People may go in again after `reentry_hours`; produce is held for
    `harvest_days`, fish for `fish_days` (None: nobody said, and it counts as 0).
    """

    id: int
    day: date
    at: datetime
    unit_id: int
    unit: str
    bed_id: int | None
    bed: str | None
    lot_id: int | None
    lot: str | None
    product: str
    active: str | None
    registration: str | None
    against: str | None
    amount_typed: str
    reentry_hours: int
    harvest_days: int
    fish_days: int | None
    actor: str
    note: str | None
    operation: str

    @property
    def where(self) -> str:
        """The bed, the fish lot or the unit that was treated."""
        return self.bed or self.lot or self.unit


@dataclass(frozen=True, slots=True)
class NewTreatment:
    """A treatment as a person books it, on one unit, bed or fish lot; `minute` of the day [min].

    `sure` books what was asked about: harm where fish live, weighings that lie in the hold already.
    """

    day: date
    minute: int
    product: str
    amount_typed: str
    reentry_hours: int
    harvest_days: int
    fish_days: int | None = None
    unit_id: int | None = None
    bed_id: int | None = None
    fish_lot_id: int | None = None
    active: str | None = None
    registration: str | None = None
    against: str | None = None
    actor: str | None = None
    note: str | None = None
    sure: bool = False


@dataclass(frozen=True, slots=True)
class TreatmentChange:
    """A correction of a treatment; where it was done stays."""

    treatment_id: int
    day: date | Keep = KEEP
    minute: int | Keep = KEEP
    product: str | Keep = KEEP
    amount_typed: str | Keep = KEEP
    reentry_hours: int | Keep = KEEP
    harvest_days: int | Keep = KEEP
    fish_days: int | Keep | None = KEEP
    active: str | Keep | None = KEEP
    registration: str | Keep | None = KEEP
    against: str | Keep | None = KEEP
    actor: str | Keep = KEEP
    note: str | Keep | None = KEEP
    sure: bool = False


@dataclass(frozen=True, slots=True)
class TreatmentBooked:
    """A treatment, what is said of it, the weighings that lie in its hold, and the chores it gave."""

    treatment: Treatment
    warnings: tuple[str, ...] = ()
    inside: tuple[str, ...] = ()
    given: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Hold:
    """What a treatment keeps from being eaten, sold, given or fed, from `since` up to the day before `free_day`.

    `free_at` is the instant at which the hold is over, `hour` that instant on the farm's clock.
    """

    treatment: Treatment
    since: date
    free_day: date
    free_at: datetime
    hour: str

    @property
    def until(self) -> str:
        """When it is over, as it is read: `Sat 17 Oct 16:00`."""
        return f"{short_day(self.free_day)} {self.hour}"

    @property
    def words(self) -> str:
        """Until when and after what: `until Sat 17 Oct 16:00 after soap on Sat 10 Oct`."""
        return f"until {self.until} after {self.treatment.product} on {short_day(self.treatment.day)}"

    def covers(self, day: date) -> bool:
        """Whether a day lies in the hold."""
        return self.since <= day < self.free_day


def longest(holds: Iterable[Hold], day: date) -> Hold | None:
    """Of the holds that cover a day, the one that is over last; None where none does."""
    return max((one for one in holds if one.covers(day)), key=lambda one: (one.free_day, one.free_at), default=None)


def short_day(day: date) -> str:
    """`Sat 17 Oct`."""
    return f"{day:%a} {day.day} {day:%b}"
