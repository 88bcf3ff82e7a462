"""What a calendar rule holds ahead, as RFC 5545 text that another program can expand without knowing the history."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.model.chores import Settlement
from farmops.model.frozen import dataclass
from farmops.schedule.activity import Activity
from farmops.schedule.due import open_occurrence
from farmops.schedule.occurrences import count_occurrences, latest_occurrence, next_occurrence
from farmops.schedule.parts import Parts, read_parts
from farmops.schedule.rules import OnCalendar


@dataclass(frozen=True, slots=True)
class Ahead:
    """The day a chore stands on, the occurrence it stands for, and the rule that goes on from that occurrence.

    The two days differ when the occurrence was put off, or fell into a time of rest. `rrule` is None when no
    other occurrence follows.
    """

    day: date
    occurrence: date
    rrule: str | None


def ahead(rule: OnCalendar, history: Sequence[Settlement], activity: Activity, due: date, today: date) -> Ahead:
    """What lies ahead of a chore that is due on `due`, or has stood open since then if that is past.

    Late, it stands on its latest occurrence up to today, for doing it settles that one and all before. The rule
    ends with the time in which the chore is known to be active without a break: no day of it can be one on which
    the chore rests, whatever its months, pauses, states or fish. A rule that counts, counts what is left.
    """
    stands = _stands_for(rule, history, max(due, today))
    day = max(due, min(stands, today))
    last = activity.active_until(day)
    following = next_occurrence(rule, stands)
    if following is None or (last is not None and following > last):
        return Ahead(day, stands, None)
    return Ahead(day, stands, _from(rule, stands, last).text())


def _stands_for(rule: OnCalendar, history: Sequence[Settlement], day: date) -> date:
    """The latest occurrence that has come by a day, or the open one where that was put forward."""
    came = latest_occurrence(rule, day)
    opened = open_occurrence(rule, history)
    return max(found for found in (came, opened) if found is not None)


def _from(rule: OnCalendar, first: date, last: date | None) -> Parts:
    """The parts of the rule as they read from one of its days on, not past `last`."""
    parts = read_parts(rule.rrule).explicit(rule.start)
    if parts.count is not None:
        left = parts.count - count_occurrences(rule, rule.start, first - timedelta(days=1))
        return replace(parts, count=left if last is None else min(left, count_occurrences(rule, first, last)))
    ends = [day for day in (parts.until, last) if day is not None]
    return replace(parts, until=min(ends, default=None))
