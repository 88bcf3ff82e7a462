"""What day and what instant it is; nothing else in the project asks the system clock."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta
from functools import partial
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from farmops.model.errors import NotUnderstood


def now() -> datetime:
    """The present instant in UTC, to the microsecond."""
    return datetime.now(UTC)


def today(zone: str) -> date:
    """The calendar day it is now in an IANA time zone."""
    return datetime.now(time_zone(zone)).date()


def time_zone(name: str) -> ZoneInfo:
    """The zone of that IANA name. Raises NotUnderstood for a name the tz database lacks."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise NotUnderstood(
            f"{name[:80]!r} is no time zone. Understood: names of the IANA database, such as America/New_York, "
            "Europe/Lisbon or Pacific/Auckland."
        ) from None


MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
SHORTEST = 3
DAYS_UNDERSTOOD = "Understood: today, yesterday, -1, +2, mon, 3 may, 3 may 2026, 2026-05-03."


SOON = timedelta(days=31)


def parse_day(text: str, today: date, *, ahead: bool = False, today_too: bool = False) -> date:
    """A day as people type it. Raises NotUnderstood.

    What is booked has happened: a weekday or a day without a year is the last one, or one of the next month
    for a day and month. With `ahead` it is the first one that lies before us; with `today_too` the
    weekday of today is today.
    """
    typed = " ".join(text.lower().replace(",", " ").split())
    weekday = partial(_weekday, ahead=ahead, today_too=today_too)
    readers = (_named_day, _counted_day, _iso_day, weekday, partial(_day_and_month, ahead=ahead))
    try:
        found = next((day for read in readers if (day := read(typed, today)) is not None), None)
    except (ValueError, OverflowError):
        found = None
    if found is None:
        raise NotUnderstood(f"{text!r} is no day. {DAYS_UNDERSTOOD}")
    return found


def parse_month(text: str, today: date) -> date:
    """The first day of a month as typed: `2026-10`, `oct 2026`, or `oct` of this year. Raises NotUnderstood."""
    typed = " ".join(text.lower().split())
    match = re.fullmatch(r"([0-9]{4})-([0-9]{2})|([a-z]{3,9})(?: ([0-9]{4}))?", typed)
    year = int(match[1] or match[4] or today.year) if match else 0
    place = _place_of(match[3], MONTHS) if match and match[3] else int(match[2]) - 1 if match else None
    if place is None or place not in range(12) or year < 1:
        raise NotUnderstood(f"{text!r} is no month. Understood: 2026-10, oct 2026, oct.")
    return date(year, place + 1, 1)


def _named_day(typed: str, today: date) -> date | None:
    ahead = {"today": 0, "yesterday": -1, "tomorrow": 1}.get(typed)
    return today + timedelta(days=ahead) if ahead is not None else None


def _counted_day(typed: str, today: date) -> date | None:
    return today + timedelta(days=int(typed)) if re.fullmatch(r"[+-][0-9]{1,4}", typed) else None


def _iso_day(typed: str, today: date) -> date | None:
    return date.fromisoformat(typed) if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", typed) else None


def _weekday(typed: str, today: date, *, ahead: bool, today_too: bool) -> date | None:
    """The last one of that name, today included; or the next one, after today unless `today_too`."""
    weekday = _place_of(typed, WEEKDAYS)
    if weekday is None:
        return None
    if ahead:
        first = today if today_too else today + timedelta(days=1)
        return first + timedelta(days=(weekday - first.weekday()) % 7)
    return today - timedelta(days=(today.weekday() - weekday) % 7)


def _place_of(typed: str, names: Sequence[str]) -> int | None:
    """Which of the names it is, or the first three letters or more of."""
    found = (place for place, name in enumerate(names) if len(typed) >= SHORTEST and name.startswith(typed))
    return next(found, None)


def _day_and_month(typed: str, today: date, *, ahead: bool) -> date | None:
    match = re.fullmatch(r"(?:([0-9]{1,2}) ([a-z]{3,9})|([a-z]{3,9}) ([0-9]{1,2}))(?: ([0-9]{4}))?", typed)
    if match is None:
        return None
    number, place = int(match[1] or match[4]), _place_of(match[2] or match[3], MONTHS)
    if place is None:
        return None
    month = place + 1
    if match[5]:
        return date(int(match[5]), month, number)
    near = [day for year in range(-8, 9) if (day := _day_or_none(today.year + year, month, number))]
    if ahead:
        return min((day for day in near if day >= today), default=None)
    return max((day for day in near if day <= today + SOON), default=None)


def _day_or_none(year: int, month: int, number: int) -> date | None:
    try:
        return date(year, month, number)
    except ValueError:
        return None


def parse_minute(text: str) -> int:
    """A time of day as minutes from midnight: `7:30`, `07:30`, `1930`. Raises NotUnderstood."""
    match = re.fullmatch(r"([01]?[0-9]|2[0-3])[:.h]?([0-5][0-9])", text.strip())
    if match is None:
        raise NotUnderstood(f"{text!r} is no time of day. Understood: 7:30, 19:30, 1930.")
    return int(match[1]) * 60 + int(match[2])


def show_minute(minute: int) -> str:
    """Minutes from midnight as a time of day: `07:30`."""
    return f"{minute // 60:02d}:{minute % 60:02d}"


def instant_of(day: date, minute: int, zone: str) -> datetime:
    """The instant in UTC at which it is a minute of a day in an IANA time zone; of two, the earlier."""
    local = datetime.combine(day, time(minute // 60, minute % 60), time_zone(zone))
    return local.astimezone(UTC)


def last_time(text: str, now: datetime, zone: str) -> datetime:
    """The latest instant, not after now, at which it was that time of day: `23:50` just after midnight is yesterday's.

    Raises NotUnderstood.
    """
    minute, here = parse_minute(text), now.astimezone(time_zone(zone)).date()
    today = instant_of(here, minute, zone)
    return today if today <= now else instant_of(here - timedelta(days=1), minute, zone)


def same_day(text: str, at: datetime, zone: str) -> datetime:
    """The instant at which it was a time of day, on the day of another instant in a zone. Raises NotUnderstood."""
    return instant_of(at.astimezone(time_zone(zone)).date(), parse_minute(text), zone)


def next_time(text: str, begin: datetime, zone: str) -> datetime:
    """The first instant, not before another, at which it is that time of day. Raises NotUnderstood."""
    minute, day = parse_minute(text), begin.astimezone(time_zone(zone)).date()
    found = instant_of(day, minute, zone)
    return found if found >= begin else instant_of(day + timedelta(days=1), minute, zone)


def days_later(at: datetime, days: int, zone: str) -> datetime:
    """The instant so many days of the calendar after another, at the same time of day in a zone."""
    local = at.astimezone(time_zone(zone))
    return instant_of(local.date() + timedelta(days=days), local.hour * 60 + local.minute, zone)


def hour_of(at: datetime, zone: str) -> str:
    """The time of day of an instant in a zone: `06:10`."""
    return f"{at.astimezone(time_zone(zone)):%H:%M}"
