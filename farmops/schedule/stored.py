"""Rules as a store keeps them: a kind and a text beside the start day."""

from __future__ import annotations

import re
from datetime import date

from farmops.model.errors import NotUnderstood, Refused
from farmops.model.usage import Counter
from farmops.schedule.rules import AfterDoing, ByUse, OnCalendar, Once, Rule, Span, Wait, WhenHolds

ONCE, CALENDAR, AFTER, USE, WHEN = "once", "calendar", "after", "use", "when"
COUNTED_IN = {
    Counter.PUMP_HOURS: "min of pump hours",
    Counter.FEED: "mg of feed",
    Counter.SIPHON_CYCLES: "siphon cycles",
}
"""A counter as it stands behind its limit in stored text, with the unit in which both are stored."""

LARGEST = {Counter.PUMP_HOURS: 21_038_400, Counter.FEED: 10_000_000_000, Counter.SIPHON_CYCLES: 10_000_000}
"""The largest limits: 40 years of pump minutes, 10,000 kg of feed in milligrams, a siphon cycle every two minutes."""

_COUNTERS = {words: counter for counter, words in COUNTED_IN.items()}
_FORTY_YEARS: dict[Span, int] = {"day": 14_610, "week": 2_087, "month": 480}


def rule_from(kind: str, text: str, start: date) -> Rule:
    """The rule that `rule_text` wrote, from `start` on; calendar text was checked when it was entered.

    The evidence of a rule by use or while something holds is not stored with it, and is empty here.

    Raises:
        NotUnderstood: no such kind, or text that it cannot carry.
        Refused: a rule that cannot be.
    """
    if kind == USE and (found := re.fullmatch(rf"([0-9]{{1,12}}) ({'|'.join(_COUNTERS)})(?: or (.+))?", text)):
        return by_use(int(found[1]), _COUNTERS[found[2]], start, _wait_from(found[3]))
    if kind == WHEN and text:
        return WhenHolds(text, start)
    if kind == CALENDAR:
        return OnCalendar(text, start)
    if kind == AFTER and (found := re.fullmatch(r"([0-9]{1,9}) (day|week|month)s?", text)):
        return after_doing(int(found[1]), found[2], start)
    if kind == ONCE:
        return Once(read_day(text))
    raise NotUnderstood(f"'{kind}: {text}' is no rule; kinds are once, calendar, after, use and when.")


def rule_text(rule: Rule) -> tuple[str, str]:
    """Kind and text of a rule, stored beside its start: a day, canonical RFC 5545 text, or `14 days`."""
    match rule:
        case Once(day):
            return ONCE, day.isoformat()
        case AfterDoing(every, unit, _):
            return AFTER, spell(every, unit)
        case ByUse(limit, counter):
            latest = f" or {spell(rule.latest.every, rule.latest.unit)}" if rule.latest else ""
            return USE, f"{limit} {COUNTED_IN[counter]}{latest}"
        case WhenHolds(condition):
            return WHEN, condition
        case _:
            return CALENDAR, rule.rrule


def start_of(rule: Rule) -> date:
    """The day a rule starts from, which is stored beside its text."""
    return rule.day if isinstance(rule, Once) else rule.start


def after_doing(every: int, unit: str, start: date) -> AfterDoing:
    """The rule `every` days, weeks, months or years after doing; years become months. Refuses over 40."""
    waited = wait(every, unit)
    return AfterDoing(waited.every, waited.unit, start)


def by_use(limit: int, counter: Counter, start: date, latest: Wait | None) -> ByUse:
    """The rule by use, `limit` in the unit of the counter. Refuses nothing at all, and more than can ever be used."""
    if not 1 <= limit <= LARGEST[counter]:
        raise Refused(f"{limit} {COUNTED_IN[counter]}: the limit goes from 1 to {LARGEST[counter]}.")
    return ByUse(limit, counter, start, latest)


def wait(every: int, unit: str) -> Wait:
    """So many days, weeks, months or years, which become months. Refuses none, and more than 40 years."""
    if unit == "year":
        every, unit = every * 12, "month"
    spans: dict[str, Span] = {"day": "day", "week": "week", "month": "month"}
    span = spans[unit]
    if not 1 <= every <= _FORTY_YEARS[span]:
        raise Refused(f"{spell(every, span)} after doing: the wait goes from 1 day to 40 years.")
    return Wait(every, span)


def _wait_from(text: str | None) -> Wait | None:
    if text is None:
        return None
    if not (found := re.fullmatch(r"([0-9]{1,9}) (day|week|month)s?", text)):
        raise NotUnderstood(f"'{text}' is no span of time.")
    return wait(int(found[1]), found[2])


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
