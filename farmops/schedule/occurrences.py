"""The days on which a calendar rule falls: listed lazily, the next, the latest, how many."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import dropwhile, groupby, islice, takewhile
from typing import TYPE_CHECKING

from farmops.schedule.parts import FREQUENCIES, Parts, read_parts
from farmops.schedule.rules import OnCalendar

if TYPE_CHECKING:
    from dateutil.rrule import weekday

_PERIOD_DAYS = dict(zip(FREQUENCIES, (1, 7, 31, 366), strict=True))
_LOOK_BACK_GROWS = 4
_LAST_CLEAN_YEARS = range(9932, 9960)


def occurrences(rule: OnCalendar, after: date | None = None) -> Iterator[date]:
    """The days of the rule in order, lazily; with `after`, only those strictly later."""
    parts = read_parts(rule.rrule)
    if after is None or after < rule.start:
        begin = rule.start
    elif after < date.max:
        begin = after + timedelta(days=1)
    else:
        return iter(())
    return _from(parts, rule.start, begin)


def next_occurrence(rule: OnCalendar, after: date | None) -> date | None:
    """The first day of the rule strictly after `after`; the very first when `after` is None."""
    return next(occurrences(rule, after), None)


def latest_occurrence(rule: OnCalendar, on_or_before: date) -> date | None:
    """The last day of the rule that is not later than `on_or_before`."""
    parts = read_parts(rule.rrule)
    for begin in _look_back(parts, rule.start, on_or_before):
        latest = None
        for day in takewhile(lambda day: day <= on_or_before, _from(parts, rule.start, begin)):
            latest = day
        if latest is not None:
            return latest
    return None


def count_occurrences(rule: OnCalendar, first: date, last: date) -> int:
    """How many days of the rule lie from `first` to `last`, both included."""
    days = _from(read_parts(rule.rrule), rule.start, max(first, rule.start))
    return sum(1 for _ in takewhile(lambda day: day <= last, days))


def ever_occurs(parts: Parts, start: date) -> bool:
    """Whether the endless rule falls on any day of the 40 years from `start` on, answered in milliseconds.

    dateutil searches to the year 9999 before it gives up, so the question is put to a start on the same
    weekday, day and month, at the same place in the cycle of leap years, in the last decades before that.
    """
    years = (year for year in _LAST_CLEAN_YEARS if (year - start.year) % 4 == 0)
    twins = (date.fromordinal(_ordinal(year, start)) for year in years)
    twin = next(twin for twin in twins if twin.weekday() == start.weekday())
    return next(_from(parts.endless.explicit(start), twin, twin), None) is not None


def _ordinal(year: int, day: date) -> int:
    """The ordinal of the same day and month in another year."""
    return date(year, day.month, day.day).toordinal()


def _look_back(parts: Parts, start: date, day: date) -> Iterator[date]:
    """Where to begin a search that must reach `day`: ever earlier, at last at `start`."""
    span = _PERIOD_DAYS[parts.freq] * parts.interval
    begin = max(start.toordinal(), day.toordinal() - span) if parts.count is None else start.toordinal()
    while begin > start.toordinal():
        yield date.fromordinal(begin)
        span *= _LOOK_BACK_GROWS
        begin = max(start.toordinal(), day.toordinal() - span)
    if day >= start:
        yield start


def _from(parts: Parts, start: date, begin: date) -> Iterator[date]:
    """The days of the rule from `begin` (not before `start`) on, COUNT and UNTIL honoured."""
    explicit = parts.explicit(start)
    if parts.count is not None:
        counted = islice(_endless(explicit, start, start), parts.count)
        return (day for day in counted if day >= begin)
    until = parts.until
    if until is None:
        return _endless(explicit, start, begin)
    if begin > until:
        return iter(())
    return takewhile(lambda day: day <= until, _endless(explicit, start, begin))


def _endless(parts: Parts, start: date, begin: date) -> Iterator[date]:
    """The days from `begin` on, expanded from the period in phase with `start` that `begin` lies in."""
    # dateutil runs into the end of the calendar in the last week of the year 9999.
    with suppress(OverflowError, ValueError):
        period = _period_in_phase(parts, start, begin)
        days = _days_in_weeks(parts, period) if parts.by_week_number else _expanded(parts, period)
        yield from dropwhile(lambda day: day < begin, days)


def _period_in_phase(parts: Parts, start: date, begin: date) -> date:
    """First day of the latest day, week, month or year in step with INTERVAL that begins by `begin`."""
    every = parts.interval
    if parts.freq == "YEARLY":
        return date(begin.year - (begin.year - start.year) % every, 1, 1)
    if parts.freq == "MONTHLY":
        months = begin.year * 12 + begin.month - 1
        months -= (months - start.year * 12 - start.month + 1) % every
        return date(months // 12, months % 12 + 1, 1)
    if parts.freq == "WEEKLY":
        start -= timedelta(days=(start.weekday() - parts.week_start) % 7)
        every *= 7
    return begin - timedelta(days=(begin - start).days % every)


def _expanded(parts: Parts, period: date) -> Iterator[date]:
    from dateutil import rrule as rr

    moments = rr.rrule(
        getattr(rr, parts.freq),
        dtstart=datetime(period.year, period.month, period.day),  # noqa: DTZ001
        interval=parts.interval,
        wkst=parts.week_start,
        bymonth=parts.by_month or None,
        byyearday=parts.by_year_day or None,
        bymonthday=parts.by_month_day or None,
        byweekday=_weekdays(parts) or None,
        bysetpos=parts.by_position or None,
    )
    return (moment.date() for moment in moments)


def _days_in_weeks(parts: Parts, period: date) -> Iterator[date]:
    """The days of a rule with BYWEEKNO, sieved here: dateutil misplaces 1 and 2 January of some years."""
    candidates = _expanded(replace(parts, by_week_number=(), by_position=()), period)
    for _, year in groupby(candidates, key=lambda day: day.year):
        days = [day for day in year if _in_weeks(parts, day)]
        yield from _at_positions(days, parts.by_position) if parts.by_position else days


def _in_weeks(parts: Parts, day: date) -> bool:
    """Whether the day lies in a week of BYWEEKNO; a week belongs to the year that holds four of its days."""
    midweek = day + timedelta(days=3 - (day.weekday() - parts.week_start) % 7)
    number = (midweek.timetuple().tm_yday - 1) // 7 + 1
    following = midweek + timedelta(days=7 * (53 - number))
    weeks = 53 if following.year == midweek.year else 52
    return number in parts.by_week_number or number - weeks - 1 in parts.by_week_number


def _at_positions(days: list[date], positions: tuple[int, ...]) -> list[date]:
    places = {n - 1 if n > 0 else len(days) + n for n in positions}
    return [day for place, day in enumerate(days) if place in places]


def _weekdays(parts: Parts) -> list[weekday]:
    """BYDAY for dateutil, all numbered if some are: it reads `MO,1TU` as days that are both at once."""
    from dateutil.rrule import weekday

    days = parts.by_day
    if len({n != 0 for n, _ in days}) > 1:
        most = 5 if parts.freq == "MONTHLY" or parts.by_month else 53
        days = tuple((n, day) for given, day in days for n in ((given,) if given else range(1, most + 1)))
    return [weekday(day, n or None) for n, day in days]
