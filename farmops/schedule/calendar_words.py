"""Rules by the calendar as phrases: `2 weeks on mon`, `month on the 1st and 15th`, read and written."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date

from farmops.model.errors import Refused
from farmops.schedule.parts import Parts
from farmops.schedule.rfc import calendar_rule
from farmops.schedule.rules import OnCalendar
from farmops.schedule.stored import read_day, spell

_DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTH_NAMES = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_LONGEST = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_FREQ = {"day": "DAILY", "week": "WEEKLY", "month": "MONTHLY", "year": "YEARLY"}
_UNITS = {freq: unit for unit, freq in _FREQ.items()}
_SAME = {
    "daily": "day",
    "weekly": "week",
    "fortnight": "2 weeks",
    "fortnightly": "2 weeks",
    "monthly": "month",
    "yearly": "year",
    "weekday": "week on mon tue wed thu fri",
    "weekdays": "week on mon tue wed thu fri",
    "weekend": "week on sat sun",
    "weekends": "week on sat sun",
}
_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}
_WORKING_WEEK = tuple((0, day) for day in range(5))
_ALWAYS_THERE = 28


def read_calendar(phrase: str, start: date) -> OnCalendar | None:
    """The rule that `2 weeks on mon` or `month on the last day until 2026-09-30` means, None where it means none.

    Raises:
        Refused: understood, but a rule that cannot be.
    """
    phrase, until, count = _ending(phrase)
    parts = _calendar_parts(_SAME.get(phrase, phrase), start)
    return calendar_rule(replace(parts, until=until, count=count), start) if parts else None


def _ending(phrase: str) -> tuple[str, date | None, int | None]:
    """The phrase without its end, UNTIL and COUNT."""
    if found := re.fullmatch(r"(.+) until ([0-9-]+)", phrase):
        return found[1], read_day(found[2]), None
    if found := re.fullmatch(r"(.+) ([1-9][0-9]{0,5}) times?", phrase):
        return found[1], None, int(found[2])
    return phrase, None, None


def _calendar_parts(phrase: str, start: date) -> Parts | None:
    if _weekdays(phrase):
        phrase = f"week on {phrase}"
    found = re.fullmatch(r"(?:([0-9]{1,6}|other) )?(day|week|month|year)s?(?: on (?:the )?(.+))?", phrase)
    if not found:
        return None
    every = 2 if found[1] == "other" else int(found[1] or 1)
    if every < 1:
        raise Refused(f"every {phrase}: the number is 1 or more.")
    parts = Parts(_FREQ[found[2]], every)
    return _READERS[found[2]](parts, found[3] or "", start)


def _on_days(parts: Parts, on: str, start: date) -> Parts | None:
    return None if on else parts


def _on_weekdays(parts: Parts, on: str, start: date) -> Parts | None:
    days = _weekdays(on) if on else [start.weekday()]
    if not days:
        return None
    # The seven days that begin with the start are the first week, so that its days to come are not put off.
    turns = parts.interval > 1 and min(days) < start.weekday()
    by_day = tuple((0, day) for day in sorted(set(days)))
    return replace(parts, by_day=by_day, week_start=start.weekday() if turns else 0)


def _on_month_days(parts: Parts, on: str, start: date) -> Parts | None:
    groups = _groups(on) if on else [([start.day], "day")]
    if not groups:
        return None
    month_days = {n for numbers, noun in groups if noun == "day" for n in numbers}
    by_day = {(n, _weekdays(noun)[0]) for numbers, noun in groups if noun != "day" for n in numbers}
    if month_days and by_day:
        raise Refused("Days of the month and weekdays do not go into one rule; make two chores.")
    if by_day:
        return replace(parts, by_day=_checked_numbers(by_day))
    return _clipped(parts, month_days)


def _on_year_day(parts: Parts, on: str, start: date) -> Parts | None:
    day, month = _day_and_month(on) if on else (start.day, start.month)
    if not month:
        return None
    longest = _LONGEST[month - 1]
    if not 1 <= day <= longest:
        raise Refused(f"{_MONTH_NAMES[month - 1]} has {longest} days; there is no {day} {_MONTH_NAMES[month - 1]}.")
    parts = replace(parts, by_month=(month,))
    return _clipped(parts, {day}) if month == 2 else replace(parts, by_month_day=(day,))


_READERS: dict[str, Callable[[Parts, str, date], Parts | None]] = {
    "day": _on_days,
    "week": _on_weekdays,
    "month": _on_month_days,
    "year": _on_year_day,
}


def _clipped(parts: Parts, days: set[int]) -> Parts:
    """The parts on these days of the month, one that a short month lacks falling on its last day instead."""
    wrong = [day for day in days if not (day == -1 or 1 <= day <= 31)]
    if wrong:
        raise Refused(f"No month has a day {wrong[0]}; days go from the 1st to the 31st, or the last day.")
    kept = sorted(day for day in days if 1 <= day <= _ALWAYS_THERE)
    late = sorted(days - set(kept))
    if len(late) > 1:
        raise Refused("The 29th, 30th, 31st and the last day meet in short months; name only one of them.")
    if not late or late == [-1]:
        return replace(parts, by_month_day=(*kept, *late))
    longest = 29 if parts.by_month else 31
    clip = range(_ALWAYS_THERE, min(late[0], longest) + 1)
    places = (*range(1, len(kept) + 1), -1)
    return replace(parts, by_month_day=tuple(sorted({*kept, *clip})), by_position=places)


def _checked_numbers(days: set[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    for n, weekday in days:
        if n != -1 and not 1 <= n <= 4:
            raise Refused(f"Not every month has a {_nth(n)} {_DAY_NAMES[weekday]}; name the 1st to 4th or the last.")
    return tuple(sorted(days, key=lambda day: (day[0] < 0, day)))


def _tokens(text: str) -> list[str]:
    return [token for token in text.split() if token not in ("and", "the", "of", "on")]


def _weekdays(text: str) -> list[int]:
    """Weekdays named in the text, short or in full, empty when any word is something else."""
    found = [_named(token, _DAY_NAMES) for token in _tokens(text)]
    return [day for day in found if day is not None] if None not in found else []


def _named(token: str, names: tuple[str, ...]) -> int | None:
    """Place of the name that the token is, or shortens to three letters or more."""
    whole = (name.lower() for name in names)
    return next((i for i, name in enumerate(whole) if len(token) >= 3 and f"{name}s".startswith(token)), None)


def _ordinal(token: str) -> int | None:
    found = re.fullmatch(r"([0-9]{1,2})(?:st|nd|rd|th)?", token)
    return int(found[1]) if found else _ORDINALS.get(token)


def _groups(text: str) -> list[tuple[list[int], str]]:
    """Numbers with what they count: `1st and 3rd monday last day` is ([1, 3], monday), ([-1], day).

    Empty when a word is something else.
    """
    groups: list[tuple[list[int], str]] = []
    numbers: list[int] = []
    for word in _tokens(text):
        if (number := _ordinal(word)) is not None:
            numbers.append(number)
        elif numbers and (word == "day" or _weekdays(word)):
            groups.append((numbers, word))
            numbers = []
        else:
            return []
    if -1 in numbers:
        return []
    return [*groups, (numbers, "day")] if numbers else groups


def _day_and_month(text: str) -> tuple[int, int]:
    """Day and month of `1 nov` or `nov 1`; (0, 0) when it is neither."""
    tokens = _tokens(text)
    if len(tokens) == 2:
        for number, name in (tokens, tokens[::-1]):
            day, month = _ordinal(number), _named(name, _MONTH_NAMES)
            if day is not None and day > 0 and month is not None:
                return day, month + 1
    return 0, 0


def ending_words(parts: Parts) -> str:
    """The end of a rule in words, with a blank before it; nothing where it has none."""
    if parts.until is not None:
        return f" until {parts.until}"
    return f" {spell(parts.count, 'time')}" if parts.count is not None else ""


def phrase_of(parts: Parts) -> str | None:
    """Words for parts that name each day by itself; None where no words fit."""
    unit = _UNITS[parts.freq]
    period = unit if parts.interval == 1 else spell(parts.interval, unit)
    if parts.freq == "DAILY":
        return period
    if parts.freq == "WEEKLY":
        return _week_phrase(parts, period)
    if parts.freq == "MONTHLY":
        on = [f"{_nth(n)} {_DAY_NAMES[day]}" for n, day in parts.by_day] or _month_days_in_words(parts)
        return f"{period} on the {' and '.join(on)}"
    if len(parts.by_month) == 1 and parts.by_month_day:
        return f"{period} on {parts.by_month_day[-1]} {_MONTH_NAMES[parts.by_month[0] - 1][:3]}"
    return None


def _week_phrase(parts: Parts, period: str) -> str:
    if parts.interval == 1 and parts.by_day == _WORKING_WEEK:
        return "weekday"
    days = " and ".join(_DAY_NAMES[day][:3] for _, day in parts.by_day)
    return days if parts.interval == 1 else f"{period} on {days}"


def _month_days_in_words(parts: Parts) -> list[str]:
    kept = max(len(parts.by_position) - 1, 0)
    days = (*parts.by_month_day[:kept], parts.by_month_day[-1]) if parts.by_position else parts.by_month_day
    return ["last day" if day == -1 else _nth(day) for day in days]


def _nth(number: int) -> str:
    if number == -1:
        return "last"
    teens = 10 < number % 100 < 14
    return f"{number}{'th' if teens else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"
