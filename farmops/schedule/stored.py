"""Rules as a store keeps them: a kind and a text beside the start day."""

from __future__ import annotations

import re
from datetime import date

from farmops.model.errors import NotUnderstood, Refused
from farmops.schedule.rules import AfterDoing, OnCalendar, Once, Rule, Span

ONCE, CALENDAR, AFTER = "once", "calendar", "after"

_FORTY_YEARS: dict[Span, int] = {"day": 14_610, "week": 2_087, "month": 480}


def rule_from(kind: str, text: str, start: date) -> Rule:
    """The rule that `rule_text` wrote, from `start` on; calendar text was checked when it was entered.

    Raises:
        NotUnderstood: no such kind, or text that it cannot carry.
        Refused: a rule that cannot be.
    """
    if kind == CALENDAR:
        return OnCalendar(text, start)
    if kind == AFTER and (found := re.fullmatch(r"([0-9]{1,9}) (day|week|month)s?", text)):
        return after_doing(int(found[1]), found[2], start)
    if kind == ONCE:
        return Once(read_day(text))
    raise NotUnderstood(f"'{kind}: {text}' is no rule; kinds are once, calendar and after.")


def rule_text(rule: Rule) -> tuple[str, str]:
    """Kind and text of a rule, stored beside its start: a day, canonical RFC 5545 text, or `14 days`."""
    match rule:
        case Once(day):
            return ONCE, day.isoformat()
        case AfterDoing(every, unit, _):
            return AFTER, spell(every, unit)
        case _:
            return CALENDAR, rule.rrule


def start_of(rule: Rule) -> date:
    """The day a rule starts from, which is stored beside its text."""
    return rule.day if isinstance(rule, Once) else rule.start


def after_doing(every: int, unit: str, start: date) -> AfterDoing:
    """The rule `every` days, weeks, months or years after doing; years become months. Refuses over 40."""
    if unit == "year":
        every, unit = every * 12, "month"
    spans: dict[str, Span] = {"day": "day", "week": "week", "month": "month"}
    span = spans[unit]
    if not 1 <= every <= _FORTY_YEARS[span]:
        raise Refused(f"{spell(every, span)} after doing: the wait goes from 1 day to 40 years.")
    return AfterDoing(every, span, start)


def read_day(text: str) -> date:
    """A day written as 2026-05-01. Raises NotUnderstood for any other text."""
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            return date.fromisoformat(text)
    except ValueError:
        raise NotUnderstood(f"{text} is not a day of the calendar.") from None
    raise NotUnderstood(f"'{text}' is not a day; write it as 2026-05-01.")


def spell(number: int, unit: str) -> str:
    """`1 day`, `14 days`."""
    return f"{number} {unit}" if number == 1 else f"{number} {unit}s"
