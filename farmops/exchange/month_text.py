"""A month as plain text: seven columns of days, each with how many chores and how many minutes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap

from farmops.model.text import plain
from farmops.reports.month import WEEK, Month, MonthDay

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WIDE = 77
"""Columns from which blank lines part the weeks, and words are taken where numbers are short; else `!` stands for
late, and minutes have no unit."""
WIDEST, NARROWEST = 16, 8
"""Signs of a day."""
KEY = "chores and minutes: done on days behind; > today, still due; ~ expected ahead"
KEY_NARROW = "chores, minutes; ! late; > today, due; ~ expected ahead"


def month_text(month: Month, columns: int) -> str:
    """The whole month, each line at most so many columns wide where there are 56 or more."""
    return "\n".join(line.rstrip() for line in _lines(month, columns)) + "\n"


def _lines(month: Month, columns: int) -> Iterator[str]:
    width = max(NARROWEST, min(WIDEST, columns // WEEK))
    wide = columns >= WIDE and all(
        len(cell) < width for day in month.days for cell in (_dates(day, month)[0], _works(day, month)[0])
    )
    form = 0 if wide else 1
    yield from wrap(heading(month), columns)
    yield "".join(f" {day}".ljust(width) for day in WEEKDAYS)
    for at, week in enumerate(month.weeks):
        if at and columns >= WIDE:
            yield ""
        yield "".join(_cell(_dates(day, month)[form:] if day else (), width) for day in week)
        yield "".join(_cell(_works(day, month)[form:] if day else (), width) for day in week)
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


def _cell(forms: Sequence[str], width: int) -> str:
    """The first form that leaves a blank before the next day, else the shortest; blanks where there is no day."""
    return next((one for one in forms if len(one) < width), forms[-1] if forms else "").ljust(width)


def _dates(day: MonthDay, month: Month) -> tuple[str, ...]:
    """The day and how many were late: in words, with a sign, without their number."""
    number = f"{'>' if day.day == month.on else ' '}{day.day.day}"
    return (f"{number} {day.late} late", f"{number} {day.late}!", f"{number} !") if day.late else (number, number)


def _works(day: MonthDay, month: Month) -> tuple[str, ...]:
    """How many chores and minutes: what was done on a day behind, what is to do from today on."""
    behind = day.day < month.on
    count, minutes = (day.done, day.done_minutes) if behind else (day.expected, day.expected_minutes)
    told = f" {'~' if day.day > month.on else ''}{count}"
    return (f"{told} {minutes}m", f"{told} {minutes}", told) if count else (" -", " -")
