"""The parts of an RFC 5545 recurrence rule: read from text, checked against section 3.3.10, written back."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import lru_cache

from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.model.text import plain

LONGEST_SHOWN = 60

FREQUENCIES = ("DAILY", "WEEKLY", "MONTHLY", "YEARLY")
WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
FORTY_YEARS = {"DAILY": 14_610, "WEEKLY": 2_087, "MONTHLY": 480, "YEARLY": 40}

_FINER_FREQUENCIES = ("HOURLY", "MINUTELY", "SECONDLY")
_FINER_PARTS = ("BYHOUR", "BYMINUTE", "BYSECOND")
_LISTS = {"BYMONTH": 12, "BYWEEKNO": 53, "BYYEARDAY": 366, "BYMONTHDAY": 31, "BYSETPOS": 366}
_KNOWN = ("FREQ", "INTERVAL", "COUNT", "UNTIL", "WKST", "BYDAY", *_LISTS, *_FINER_PARTS)
_MOST_WEEKS_IN_A_MONTH = 5


@dataclass(frozen=True, slots=True)
class Parts:
    """A rule taken apart. `by_day` holds (n, weekday): n is 0 for every one, weekday 0 is Monday."""

    freq: str
    interval: int = 1
    count: int | None = None
    until: date | None = None
    by_month: tuple[int, ...] = ()
    by_week_number: tuple[int, ...] = ()
    by_year_day: tuple[int, ...] = ()
    by_month_day: tuple[int, ...] = ()
    by_day: tuple[tuple[int, int], ...] = ()
    by_position: tuple[int, ...] = ()
    week_start: int = 0

    @property
    def endless(self) -> Parts:
        """The same rule without COUNT and UNTIL."""
        return replace(self, count=None, until=None)

    def explicit(self, start: date) -> Parts:
        """With the month, day or weekday that the rule leaves to `start` written out (RFC 5545, 3.3.10)."""
        if self.by_year_day or self.by_month_day or self.by_day:
            return self
        if self.by_week_number or self.freq == "WEEKLY":
            return replace(self, by_day=((0, start.weekday()),))
        if self.freq == "MONTHLY":
            return replace(self, by_month_day=(start.day,))
        if self.freq == "YEARLY":
            return replace(self, by_month=self.by_month or (start.month,), by_month_day=(start.day,))
        return self

    def text(self) -> str:
        """The canonical text: fixed order, defaults left out, UNTIL as a day."""
        return ";".join(f"{name}={value}" for name, value in self._written() if value)

    def _written(self) -> Iterator[tuple[str, str]]:
        yield "FREQ", self.freq
        yield "INTERVAL", str(self.interval) if self.interval != 1 else ""
        yield "COUNT", str(self.count) if self.count is not None else ""
        yield "UNTIL", self.until.isoformat().replace("-", "") if self.until else ""
        yield "BYMONTH", _joined(self.by_month)
        yield "BYWEEKNO", _joined(self.by_week_number)
        yield "BYYEARDAY", _joined(self.by_year_day)
        yield "BYMONTHDAY", _joined(self.by_month_day)
        yield "BYDAY", ",".join(f"{n or ''}{WEEKDAYS[day]}" for n, day in self.by_day)
        yield "BYSETPOS", _joined(self.by_position)
        yield "WKST", WEEKDAYS[self.week_start] if self.week_start else ""


def _joined(numbers: tuple[int, ...]) -> str:
    return ",".join(map(str, numbers))


@lru_cache(maxsize=2048)
def read_parts(text: str, zone: str | None = None) -> Parts:
    """Read RFC 5545 text, with or without `RRULE:`; `zone` (IANA) is where a UTC UNTIL becomes a day.

    Raises:
        Refused: the text breaks RFC 5545, 3.3.10, or is finer than a day.
    """
    given = _split(text)
    parts = Parts(
        freq=_frequency(given),
        interval=_whole(given, "INTERVAL") or 1,
        count=_whole(given, "COUNT"),
        until=_until(given["UNTIL"], zone) if "UNTIL" in given else None,
        by_month=_numbers(given, "BYMONTH"),
        by_week_number=_numbers(given, "BYWEEKNO"),
        by_year_day=_numbers(given, "BYYEARDAY"),
        by_month_day=_numbers(given, "BYMONTHDAY"),
        by_day=_days(given["BYDAY"]) if "BYDAY" in given else (),
        by_position=_numbers(given, "BYSETPOS"),
        week_start=_weekday(given["WKST"]) if "WKST" in given else 0,
    )
    for objection in _objections(parts):
        raise Refused(objection)
    return parts


def _split(text: str) -> dict[str, str]:
    given: dict[str, str] = {}
    for piece in re.sub(r"^RRULE:", "", text.strip().upper()).split(";"):
        name, equals, value = piece.partition("=")
        shown = plain(piece[:LONGEST_SHOWN])
        if not equals or not value:
            raise Refused(f"'{shown}' is not a part of a recurrence rule; parts look like FREQ=WEEKLY, joined by ';'.")
        if name in given:
            raise Refused(f"{plain(name)} stands twice in the rule; RFC 5545 allows it once.")
        if name not in _KNOWN:
            raise Refused(f"{plain(name[:LONGEST_SHOWN])} is not a part that RFC 5545 knows.")
        if name in _FINER_PARTS:
            raise Refused(f"{name} is finer than a day; a chore is due on a day, with a part of the day beside it.")
        given[name] = value
    return given


def _frequency(given: dict[str, str]) -> str:
    freq = given.get("FREQ")
    if freq in FREQUENCIES:
        return freq
    if freq in _FINER_FREQUENCIES:
        raise Refused(f"{freq} is finer than a day; a chore is due on a day, with a part of the day beside it.")
    raise Refused("The rule needs FREQ=DAILY, WEEKLY, MONTHLY or YEARLY.")


def _number(name: str, text: str) -> int:
    if not re.fullmatch(r"[+-]?[0-9]{1,9}", text):
        raise Refused(f"{name}={text}: '{text}' is not a whole number that a rule can use.")
    return int(text)


def _whole(given: dict[str, str], name: str) -> int | None:
    if name not in given:
        return None
    number = _number(name, given[name])
    if number < 1:
        raise Refused(f"{name}={given[name]}: {name} is 1 or more.")
    return number


def _numbers(given: dict[str, str], name: str) -> tuple[int, ...]:
    if name not in given:
        return ()
    numbers = {_number(name, text) for text in given[name].split(",")}
    largest, signed = _LISTS[name], name != "BYMONTH"
    for number in numbers:
        if not 1 <= (abs(number) if signed else number) <= largest:
            backwards = f" or -{largest} to -1" if signed else ""
            raise Refused(f"{name}={number}: {name} goes from 1 to {largest}{backwards}.")
    return tuple(sorted(numbers, key=lambda number: (number < 0, number)))


def _weekday(text: str) -> int:
    if text not in WEEKDAYS:
        raise Refused(f"'{text}' is not a weekday; a rule writes MO, TU, WE, TH, FR, SA, SU.")
    return WEEKDAYS.index(text)


def _days(text: str) -> tuple[tuple[int, int], ...]:
    days = {_numbered_day(piece) for piece in text.split(",")}
    return tuple(sorted(days, key=lambda day: (day[0] < 0, day)))


def _numbered_day(text: str) -> tuple[int, int]:
    weekday = _weekday(text[-2:])
    if not (number := text[:-2]):
        return 0, weekday
    n = _number("BYDAY", number)
    if not 1 <= abs(n) <= 53:
        raise Refused(f"BYDAY={text}: the number goes from 1 to 53 or -53 to -1.")
    return n, weekday


def _until(text: str, zone: str | None) -> date:
    if not re.fullmatch(r"[0-9]{8}(T[0-9]{6}Z?)?", text):
        raise Refused(f"UNTIL={text}: write a day as 20261231, or a moment as 20261231T235959Z.")
    try:
        moment = datetime.strptime(text[:15], "%Y%m%dT%H%M%S" if "T" in text else "%Y%m%d").replace(tzinfo=UTC)
    except ValueError:
        raise Refused(f"UNTIL={text} is not a day of the calendar.") from None
    return _local(moment, zone, text).date() if text.endswith("Z") else moment.date()


def _local(moment: datetime, zone: str | None, text: str) -> datetime:
    from zoneinfo import ZoneInfo

    if zone is None:
        raise Refused(f"UNTIL={text} is in UTC; which day that is depends on the farm's time zone, which is not known.")
    try:
        return moment.astimezone(ZoneInfo(zone))
    except (KeyError, ValueError, OSError, OverflowError):
        raise Refused(f"UNTIL={text} cannot be turned into a day in the time zone '{zone}'.") from None


def _objections(parts: Parts) -> Iterator[str]:
    """What RFC 5545, 3.3.10 does not allow together, in words."""
    yield from _length_objections(parts)
    yield from _day_objections(parts)
    if parts.by_week_number and parts.freq != "YEARLY":
        yield "BYWEEKNO belongs to FREQ=YEARLY only."
    if parts.by_year_day and parts.freq != "YEARLY":
        yield f"BYYEARDAY does not go with FREQ={parts.freq}; it belongs to YEARLY."
    if parts.by_month_day and parts.freq == "WEEKLY":
        yield "BYMONTHDAY does not go with FREQ=WEEKLY; it belongs to MONTHLY, YEARLY or DAILY."
    if parts.by_position and not _picks_days(parts):
        yield "BYSETPOS chooses among days that another BY part gives; name one."


def _length_objections(parts: Parts) -> Iterator[str]:
    if parts.count is not None and parts.until is not None:
        yield "COUNT and UNTIL do not go together; keep one."
    if parts.interval > FORTY_YEARS[parts.freq]:
        yield f"INTERVAL={parts.interval} is longer than 40 years; make it a chore that is due once."


def _day_objections(parts: Parts) -> Iterator[str]:
    largest = max((abs(n) for n, _ in parts.by_day), default=0)
    if not largest:
        return
    if parts.freq not in ("MONTHLY", "YEARLY"):
        yield f"A numbered weekday such as 2MO does not go with FREQ={parts.freq}; use MONTHLY or YEARLY."
    if parts.by_week_number:
        yield "A numbered weekday such as 2MO does not go with BYWEEKNO."
    if largest > _MOST_WEEKS_IN_A_MONTH and (parts.freq == "MONTHLY" or parts.by_month):
        yield f"No month has {largest} of one weekday; the number goes from 1 to 5 or -5 to -1."


def _picks_days(parts: Parts) -> bool:
    return bool(parts.by_month or parts.by_week_number or parts.by_year_day or parts.by_month_day or parts.by_day)
