"""Rules in plain words: `2 weeks on Mon`, `14 days after`, `2000 pump hours`, read and written.

Plain words fall on the last day of shorter months; RFC 5545 text, understood here too, is taken literally.
Weeks are counted from the start, months and years from the month and year of the start.
"""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.model.text import plain
from farmops.schedule.calendar_words import ending_words, phrase_of, read_calendar
from farmops.schedule.parts import read_parts
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import AfterDoing, ByUse, OnCalendar, Once, Rule, WhenHolds
from farmops.schedule.stored import after_doing, read_day, spell
from farmops.schedule.use_words import read_use, use_words

if TYPE_CHECKING:
    from farmops.quantities import Measures

UNDERSTOOD = (
    "once, 2026-05-01",
    "day, 2 days, weekday, Mon Thu, week, 2 weeks on Mon",
    "month, month on the 31st, month on the 1st and 15th, month on the last day",
    "month on the last Friday, month on the 2nd Tuesday, 3 months on the 1st",
    "year, year on 1 Nov",
    "14 days after, 2 weeks after, 3 months after (after doing)",
    "2000 pump hours, 5 kg fed, 500 siphon cycles (by use), with 'or 6 months' behind it",
    "when planting ready (while a condition holds)",
    "any of the calendar ones with 'until 2026-09-30' or '10 times' behind it",
    "the text of an RFC 5545 rule, FREQ=...",
)
"""What `parse_words` understands, by example."""


SAID = {"unit without its baseline": "a unit has no baseline yet", "paper running out": "a paper runs out"}
"""Conditions whose names make no sentence behind `when`; both are understood."""


class NoRule(NotUnderstood):
    """Words that have no meaning as a rule; what would have one stands in the message."""


def parse_words(text: str, start: date, measures: Measures | None = None) -> Rule:
    """The rule that plain words mean from `start` on, weights without a unit in the farm's `measures`.

    Which conditions there are, is not known here.

    Raises:
        NoRule: the words have no meaning here; the message lists what would have.
        Refused: understood, but a rule that cannot be.
    """
    if "FREQ=" in text.upper():
        return parse_rrule(text, start)
    phrase = re.sub(r"[\s,]+", " ", text.strip(" .").lower())
    phrase = re.sub(r"^(every|each) ", "", phrase)
    if (by_use := read_use(text, start, measures)) is not None:
        return by_use
    for read in (_once, _when, _after, read_calendar):
        if (rule := read(phrase, start)) is not None:
            return rule
    raise _puzzled(text)


def in_words(rule: Rule) -> str:
    """The rule in words that `parse_words` reads back as the same rule; RFC 5545 text where no words fit."""
    match rule:
        case Once(day):
            return f"once on {day}"
        case AfterDoing(every, unit, _):
            return f"{spell(every, unit)} after doing"
        case ByUse():
            return use_words(rule)
        case WhenHolds(condition):
            return f"when {SAID.get(condition, condition)}"
        case _:
            return _calendar_words(rule)


def _puzzled(text: str) -> NoRule:
    return NoRule(f"'{plain(text[:200])}' is not understood. What is: {'; '.join(UNDERSTOOD)}.")


def _once(phrase: str, start: date) -> Once | None:
    found = re.fullmatch(r"once|(?:once )?(?:on )?([0-9]{4}-[0-9]{2}-[0-9]{2})", phrase)
    if not found:
        return None
    return Once(read_day(found[1]) if found[1] else start)


def _when(phrase: str, start: date) -> WhenHolds | None:
    found = re.fullmatch(r"(?:when|while) (?:a |an |the )?([a-z][a-z -]*)", phrase)
    if found is None:
        return None
    named = {said.removeprefix("a "): name for name, said in SAID.items()}
    return WhenHolds(named.get(found[1], found[1]), start)


def _after(phrase: str, start: date) -> AfterDoing | None:
    found = re.fullmatch(r"(?:([0-9]{1,6}) )?(day|week|month|year)s? after(?: doing| done)?(?: it)?", phrase)
    return after_doing(int(found[1] or 1), found[2], start) if found else None


def _calendar_words(rule: OnCalendar) -> str:
    """Words for a calendar rule when they mean the very same days, else its RFC 5545 text."""
    parts = read_parts(rule.rrule)
    phrase = phrase_of(parts.explicit(rule.start))
    if phrase is None:
        return rule.rrule
    phrase = f"every {phrase}{ending_words(parts)}"
    try:
        read_back = parse_words(phrase, rule.start)
    except FarmopsError:
        return rule.rrule
    same = isinstance(read_back, OnCalendar) and read_parts(read_back.rrule) == parts.explicit(rule.start)
    return phrase if same else rule.rrule
