"""The three kinds of rule that need nothing but days: once, on the calendar, after doing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

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


Rule = Once | OnCalendar | AfterDoing
