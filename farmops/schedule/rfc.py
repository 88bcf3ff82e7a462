"""Calendar rules from RFC 5545 text, taken literally, refused at once when they cannot be."""

from __future__ import annotations

from datetime import date

from farmops.model.errors import Refused
from farmops.schedule.occurrences import ever_occurs, next_occurrence
from farmops.schedule.parts import Parts, read_parts
from farmops.schedule.rules import OnCalendar

_YEARS = range(1900, 9900)


def parse_rrule(text: str, start: date, zone: str | None = None) -> OnCalendar:
    """The rule that RFC 5545 text (with or without `RRULE:`) means from `start` on.

    A start that the rule does not fall on is no occurrence. `zone` is the farm's IANA time zone, needed when
    UNTIL is given in UTC.

    Raises:
        Refused: not allowed by RFC 5545, finer than a day, or without any day to fall on.
    """
    return calendar_rule(read_parts(text, zone), start)


def calendar_rule(parts: Parts, start: date) -> OnCalendar:
    """The checked rule of these parts from `start` on. Raises Refused when it falls on no day."""
    if start.year not in _YEARS:
        raise Refused(f"A chore cannot start on {start}; the year is before 1900 or after 9899.")
    if parts.until is not None and parts.until < start:
        raise Refused(f"The rule ends on {parts.until}, before it starts on {start}.")
    if not ever_occurs(parts, start):
        raise Refused(f"{parts.text()} from {start} does not fall on any day in the next 40 years.")
    rule = OnCalendar(parts.text(), start)
    if next_occurrence(rule, None) is None:
        raise Refused(f"The rule ends before the first day it falls on: {parts.text()} from {start}.")
    return rule
