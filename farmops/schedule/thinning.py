"""Which of the daily backups stay: closer together the younger they are."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

ALL_DAYS = 14
WEEKLY_DAYS = 91
MONTHLY_DAYS = 731


def kept(days: Iterable[date], today: date) -> set[date]:
    """Of the days that have a backup, those whose backup stays.

    Every one of the last 14 days; before that the first of each week (Monday to Sunday) for 13 weeks, the first of each
    month for two years, the first of each year for ever. A day that lies ahead stays: the clock may have been wrong.
    """
    first: dict[tuple[int, ...], date] = {}
    for day in sorted(days):
        first.setdefault(_span_of(day, today), day)
    return set(first.values())


def _span_of(day: date, today: date) -> tuple[int, ...]:
    """What a day shares its one place with."""
    age = today - day
    if age < timedelta(days=ALL_DAYS):
        return (day.year, day.month, day.day)
    if age < timedelta(days=WEEKLY_DAYS):
        return (day - timedelta(days=day.weekday())).timetuple()[:3]
    return (day.year, day.month) if age < timedelta(days=MONTHLY_DAYS) else (day.year,)
