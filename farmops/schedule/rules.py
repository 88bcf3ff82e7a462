"""The kinds of rule: once, on the calendar, after doing, by use, and while something holds."""

from __future__ import annotations

from datetime import date
from typing import Literal

from farmops.model.frozen import dataclass
from farmops.model.usage import Counter

Span = Literal["day", "week", "month"]


@dataclass(frozen=True, slots=True)
class Once:
    """Due on one day, and never again once settled."""

    day: date


@dataclass(frozen=True, slots=True)
class OnCalendar:
    """Due on the days of an RFC 5545 rule from `start` on, whenever it was done before.

    `rrule` is canonical text; make one with `rfc.parse_rrule` or `words.parse_words`, which refuse what
    cannot be.
    """

    rrule: str
    start: date


@dataclass(frozen=True, slots=True)
class AfterDoing:
    """Due first on `start`, then `every` days, weeks or months after it was last done or skipped."""

    every: int
    unit: Span
    start: date


@dataclass(frozen=True, slots=True)
class Wait:
    """So many days, weeks or months."""

    every: int
    unit: Span


@dataclass(frozen=True, slots=True)
class Use:
    """How much was used up to a day since the record before, in the unit in which the counter is stored."""

    day: date
    amount: int


@dataclass(frozen=True, slots=True)
class ByUse:
    """Due when what was used since the last doing, or from `start` on, reaches `limit`.

    `limit` and the amounts of `record` are in the unit of the counter: minutes, milligrams or cycles.
    `latest` makes it due so long after the last doing, or after `start`, however little was used.
    """

    limit: int
    counter: Counter
    start: date
    latest: Wait | None = None
    record: tuple[Use, ...] = ()


@dataclass(frozen=True, slots=True)
class Holding:
    """A span of days, both ends included, in which a condition holds; `until` None: it has no end yet.

    `why` and `ends` are parts of a sentence: why it holds, and what would end it.
    """

    since: date
    until: date | None
    why: str
    ends: str


@dataclass(frozen=True, slots=True)
class WhenHolds:
    """Due from `start` on while the named condition holds, once for each holding."""

    condition: str
    start: date
    holdings: tuple[Holding, ...] = ()


Rule = Once | OnCalendar | AfterDoing | ByUse | WhenHolds
