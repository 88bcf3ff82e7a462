"""An iCalendar file as another program reads it: to-dos, and the days on which each falls, expanded by dateutil."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime
from itertools import islice

from dateutil.rrule import rrulestr
from icalendar import Calendar, Todo


def todos(content: bytes) -> list[Todo]:
    """The to-dos of a file, in its order."""
    return list(Calendar.from_ical(content).walk("VTODO"))


def open_todos(content: bytes) -> list[Todo]:
    """Those that are neither done nor left out."""
    return [todo for todo in todos(content) if "STATUS" not in todo]


def titled(content: bytes, summary: str) -> list[Todo]:
    """The to-dos of a summary: a master, and the instances that stand on another day."""
    return [todo for todo in todos(content) if str(todo["SUMMARY"]) == summary]


def days_of(found: list[Todo], most: int) -> list[date]:
    """The first days of the to-do that these make together: one master, and its instances of their own."""
    (master,) = (todo for todo in found if "RECURRENCE-ID" not in todo)
    moved = {todo["RECURRENCE-ID"].dt: todo["DTSTART"].dt for todo in found if "RECURRENCE-ID" in todo}
    return [moved.get(day, day) for day in islice(_expanded(master), most)]


def _expanded(todo: Todo) -> Iterator[date]:
    first = todo["DTSTART"].dt
    if "RRULE" not in todo:
        return iter([first])
    rule = rrulestr(todo["RRULE"].to_ical().decode(), dtstart=datetime(first.year, first.month, first.day))  # noqa: DTZ001
    return (moment.date() for moment in rule)
