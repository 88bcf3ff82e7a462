"""Which of the daily backups stay: closer together the younger they are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta

DAYS, WEEKS, MONTHS = 14, 13, 24


def kept(days: Iterable[date], today: date) -> set[date]:
    """Of the days that have a backup, those whose backup stays.

    Each of the last 14; before that the first of each of 13 weeks (Monday to Sunday), the first of each of 24 months,
    the first of each year for ever. Weeks and months without a backup do not count, so that a farm at rest keeps its
    own, and a clock that once ran far ahead takes next to nothing away. A day that lies ahead stays.
    """
    found = sorted(set(days), reverse=True)
    ahead = [day for day in found if day > today]
    left = found[len(ahead) :]
    staying = {*ahead, *left[:DAYS]}
    left = left[DAYS:]
    for span, most in ((_week, WEEKS), (_month, MONTHS), (_year, len(left))):
        first, left = _first_of_each(left, span, most)
        staying |= first
    return staying


def _first_of_each(days: Sequence[date], span: Callable[[date], date], most: int) -> tuple[set[date], list[date]]:
    """The first day of each of the last spans, and the days before those; `days` begin with the last."""
    first = {span(day): day for day in days}
    taken = list(first)[:most]
    return {first[one] for one in taken}, [day for day in days if span(day) not in taken]


def _week(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _month(day: date) -> date:
    return day.replace(day=1)


def _year(day: date) -> date:
    return day.replace(month=1, day=1)
