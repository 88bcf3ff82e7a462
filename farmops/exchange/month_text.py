"""A month as plain text: seven columns of days, each with how many chores and how many minutes."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from farmops.model.text import plain
from farmops.reports.month import Month, MonthDay

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WIDE = 77
"""Columns that the words take; below that, `!` stands for late, and minutes have no unit."""
WIDEST, NARROWEST = 11, 8
KEY = "chores and minutes: done on days behind; > today, still due; ~ expected ahead"
KEY_NARROW = "chores, minutes; ! late; > today, due; ~ expected ahead"


def month_text(month: Month, columns: int) -> str:
    """The whole month, each line at most so many columns wide where there are 56 or more."""
    return "\n".join(line.rstrip() for line in _lines(month, columns)) + "\n"


def _lines(month: Month, columns: int) -> Iterator[str]:
    wide = columns >= WIDE
    width = WIDEST if wide else NARROWEST
    yield from wrap(heading(month), columns)
    yield "".join(f" {day}".ljust(width) for day in WEEKDAYS)
    for week in month.weeks:
        yield "".join(_date(day, month, wide=wide).ljust(width) for day in week)
        yield "".join(_work(day, month, wide=wide).ljust(width) for day in week)
    yield KEY if wide else KEY_NARROW


def heading(month: Month) -> str:
    """The month, what it is of, and how much was done and is to come."""
    done, minutes = sum(day.done for day in month.days), sum(day.done_minutes for day in month.days)
    ahead, to_come = sum(day.expected for day in month.days), sum(day.expected_minutes for day in month.days)
    parts = [f"{done} done, {hours(minutes)}" if done else "", f"{ahead} to come, {hours(to_come)}" if ahead else ""]
    told = "; ".join(part for part in parts if part) or "nothing"
    return f"{month.days[0].day:%B %Y}, {plain(month.unit or month.farm.name)}: {told}"


def hours(minutes: int) -> str:
    """`45 min`, `3 h`, `3 h 5 min`."""
    whole, rest = divmod(minutes, 60)
    return " ".join(
        part for part in (f"{whole} h" if whole else "", f"{rest} min" if rest or not whole else "") if part
    )


def _date(day: MonthDay | None, month: Month, *, wide: bool) -> str:
    if day is None:
        return ""
    number = f"{'>' if day.day == month.on else ' '}{day.day.day}"
    return f"{number} {_late(day.late, wide=wide)}" if day.late else number


def _late(count: int, *, wide: bool) -> str:
    """How many were late; beside two digits there is no room for a blank."""
    return f"{count}!" if not wide else f"{count} late" if count < 10 else f"{count}late"


def _work(day: MonthDay | None, month: Month, *, wide: bool) -> str:
    """How many chores and minutes: what was done on a day behind, what is to do from today on."""
    if day is None:
        return ""
    behind = day.day < month.on
    count, minutes = (day.done, day.done_minutes) if behind else (day.expected, day.expected_minutes)
    mark = "~" if day.day > month.on else ""
    return f" {mark}{count} {minutes}{'m' if wide else ''}" if count else " -"
