"""What a history says to every kind of rule: when a chore was last settled, and what lies so long after a doing."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from datetime import date, timedelta

from farmops.model.chores import SettledAs, Settlement
from farmops.schedule.rules import Span

_SPAN_DAYS = {"day": 1, "week": 7}


def settling(history: Sequence[Settlement]) -> list[Settlement]:
    """The lines that settle an occurrence: done or skipped."""
    return [settlement for settlement in history if settlement.kind is not SettledAs.DEFERRED]


def deferring(history: Sequence[Settlement]) -> list[tuple[Settlement, date]]:
    """The lines that put an occurrence off, each with the day until when."""
    return [(one, one.until) for one in history if one.kind is SettledAs.DEFERRED and one.until is not None]


def last_settled(history: Sequence[Settlement]) -> date | None:
    """The latest occurrence that is settled."""
    return max((settlement.occurrence for settlement in settling(history)), default=None)


def done_days(history: Sequence[Settlement]) -> list[date]:
    """The days of the doings, skipped ones included, in order."""
    return sorted(settlement.on for settlement in settling(history))


def after_last(every: int, unit: Span, done: Sequence[date], anchor: int) -> date:
    """So many days, weeks or months after the last doing; `anchor` is the day of the month that was meant first."""
    if unit != "month":
        return done[-1] + timedelta(days=every * _SPAN_DAYS[unit])
    months = done[-1].year * 12 + done[-1].month - 1 + every
    return _clipped(months // 12, months % 12 + 1, _anchor(anchor, done))


def _anchor(anchor: int, done: Sequence[date]) -> int:
    """The day of the month that is meant: a doing on the last of a short month does not lose the 31st."""
    for day in done:
        if day != _clipped(day.year, day.month, anchor):
            anchor = day.day
    return anchor


def _clipped(year: int, month: int, day: int) -> date:
    """That day of the month, or its last when the month is shorter."""
    return date(year, month, min(day, monthrange(year, month)[1]))
