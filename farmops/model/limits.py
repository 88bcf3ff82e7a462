"""Limits: what those who live in the water want, and how a reading is judged for them."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from farmops.model.frozen import dataclass
from farmops.model.readings import Form, Measure


class Level(StrEnum):
    """How bad a reading is, from good to worst."""

    GOOD = "good"
    WATCH = "watch"
    HARMFUL = "harmful"
    DANGEROUS = "dangerous"

    @property
    def gravity(self) -> int:
        """0 for good, rising."""
        return list(Level).index(self)


class Side(StrEnum):
    """On which side of a limit it is bad."""

    ABOVE = "above"
    BELOW = "below"


@dataclass(frozen=True, slots=True)
class Limit:
    """What `who` cannot do with: a measure above or below a value, in the unit of `READ_IN`.

    A nitrogen limit counts in the `form` its source is taken to mean; one that is `toxic` is on un-ionised ammonia as
    NH3. `why` says what happens beyond it, `first` what to do first. A `remembered` one was not read in its source.
    """

    who: str
    measure: Measure
    side: Side
    at: float
    level: Level
    why: str
    first: str
    source: str
    remembered: bool
    form: Form | None = None
    toxic: bool = False

    @property
    def stops_feed(self) -> bool:
        """Whether what to do first beyond it says not to feed."""
        return "no feed" in self.first


@dataclass(frozen=True, slots=True)
class Verdict:
    """A reading judged. `passed` are the limits it lies beyond, the gravest first; none where it is good.

    `counted` is the value that was held against the first of them, in that limit's form. `lacking` is what would
    have to be read too to judge it whole.
    """

    level: Level
    passed: tuple[Limit, ...] = ()
    counted: float = 0.0
    lacking: tuple[Measure, ...] = ()


@dataclass(frozen=True, slots=True)
class OwnLimit:
    """The grower's own limits of a measure from a day on, of one unit or of all; in the unit of `READ_IN`."""

    id: int
    from_day: date
    unit_id: int | None
    unit: str | None
    measure: Measure
    low: float | None
    high: float | None
    note: str | None


@dataclass(frozen=True, slots=True)
class NewOwnLimit:
    """Own limits as a person sets them, at least one of them; nitrogen compounds as N."""

    from_day: date
    measure: Measure
    low: float | None = None
    high: float | None = None
    unit_id: int | None = None
    note: str | None = None
