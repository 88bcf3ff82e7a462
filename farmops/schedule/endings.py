"""Rules that end: whether one can, its last day, and the same rule going on for longer."""

from __future__ import annotations

from collections import deque
from dataclasses import replace
from datetime import date

from farmops.schedule.occurrences import occurrences
from farmops.schedule.parts import read_parts
from farmops.schedule.rules import OnCalendar, Once, Rule


def ends(rule: Rule) -> bool:
    """Whether there is a last time to do it."""
    return isinstance(rule, Once) or (isinstance(rule, OnCalendar) and _bounded(rule))


def last_day(rule: Rule) -> date | None:
    """The last day on which the rule falls; None for one that never ends."""
    if isinstance(rule, Once):
        return rule.day
    if isinstance(rule, OnCalendar) and _bounded(rule):
        return deque(occurrences(rule), maxlen=1)[0]
    return None


def lasting(rule: OnCalendar, last: date) -> OnCalendar:
    """The same rule up to a day instead of so many times; as it stands where it has no end, or a later one."""
    own = last_day(rule)
    if own is None or last <= own:
        return rule
    parts = read_parts(rule.rrule).explicit(rule.start)
    return OnCalendar(replace(parts, count=None, until=last).text(), rule.start)


def _bounded(rule: OnCalendar) -> bool:
    parts = read_parts(rule.rrule)
    return parts.count is not None or parts.until is not None
