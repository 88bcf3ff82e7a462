"""Chores as an iCalendar file of to-dos (RFC 5545) that a phone takes in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from uuid import NAMESPACE_OID, uuid5

from icalendar import Calendar, Todo, vRecur

from farmops import __version__, clock
from farmops.exchange.files import write_file
from farmops.model.chores import Chore, ChoreClass, SettledAs
from farmops.model.errors import Refused
from farmops.model.frozen import dataclass
from farmops.model.text import plain
from farmops.reports.agenda import Agenda, Coming, Past, agenda
from farmops.reports.store import Store

ONE_DAY = timedelta(days=1)
PRIORITIES = dict(zip(ChoreClass, (1, 2, 3, 5, 7, 9), strict=True))
"""RFC 5545, 3.8.1.9: 1 is the highest, 5 in the middle, 9 the lowest."""


@dataclass(frozen=True, slots=True)
class Fed:
    """What was written: how many chores are open or to come, and how many were settled."""

    file: Path
    coming: int
    past: int


def write_feed(store: Store, file: str, *, on: date | None = None, days: int = 14, replace: bool = False) -> Fed:
    """Write the chores as an iCalendar file, mode 0600, with those settled in the last `days`.

    Raises:
        NotFound: no such folder.
        Refused: there is nothing to write, a file is there already, or it cannot be written.
    """
    found = agenda(store, on, days=days)
    if not (found.coming or found.past):
        raise Refused(
            f"Nothing written: no chore is to come, and none was settled in {days} days; "
            "a calendar holds at least one. farmops chores list shows what rests."
        )
    path = write_file(file, calendar_of(found, clock.now()).to_ical(), replace=replace)
    return Fed(path, len(found.coming), len(found.past))


def calendar_of(found: Agenda, now: datetime) -> Calendar:
    """The agenda as a calendar, made at the instant `now`.

    A chore is due on a day, so DTSTART and DUE are dates. RFC 5545 (3.8.2.3) wants DUE later than DTSTART and of
    the same kind, for it is the end before which the work is done: DTSTART is the day, DUE the day after it.

    A rule on the calendar goes out as its RRULE, from the occurrence that is open, as far as the chore is known
    to be active without a break: where active months, pauses or states end, so does the rule, and the next file
    tells the rest. An occurrence that stands on another day (put off, or fallen into a rest) is an instance of
    its own with RECURRENCE-ID. Any other chore is there with its next day alone. UIDs stay the same from file to
    file.
    """
    calendar = Calendar()
    calendar.add("prodid", f"-//farmops//farmops {__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("name", f"{plain(found.farm.name)}, chores")
    for coming in found.coming:
        for todo in _todos(coming, found.identity, now):
            calendar.add_component(todo)
    for past in found.past:
        calendar.add_component(_settled(past, found.identity, now))
    return calendar


def _todos(coming: Coming, identity: str, now: datetime) -> Iterator[Todo]:
    """The to-do of a chore, and the instance that stands on another day than its rule says."""
    chore, ahead = coming.line.chore, coming.ahead
    words = _description(chore, f"Due since {coming.line.due}." if coming.line.due < ahead.day else "")
    moved = ahead.day != ahead.occurrence and ahead.rrule is not None
    todo = _todo(chore, ahead.occurrence if moved else ahead.day, _uid(identity, f"chore {chore.id}"), words, now)
    if ahead.rrule is not None:
        todo.add("rrule", vRecur.from_ical(ahead.rrule))
    yield todo
    if moved:
        instance = _todo(chore, ahead.day, _uid(identity, f"chore {chore.id}"), words, now)
        instance.add("recurrence-id", ahead.occurrence)
        yield instance


def _settled(past: Past, identity: str, now: datetime) -> Todo:
    """What was done, with the instant; what was left out is cancelled, with the reason."""
    settled = past.settled
    done = settled.kind is SettledAs.DONE
    words = "" if done else plain(f"Left out: {settled.reason}")
    todo = _todo(past.chore, settled.occurrence, _uid(identity, f"settlement {settled.id}"), words, now)
    todo.add("status", "COMPLETED" if done else "CANCELLED")
    if done:
        todo.add("completed", past.at.astimezone(UTC))
    return todo


def _todo(chore: Chore, day: date, uid: str, words: str, now: datetime) -> Todo:
    place = chore.bed or chore.unit
    todo = Todo()
    todo.add("uid", uid)
    todo.add("dtstamp", now)
    todo.add("summary", plain(f"{chore.title}, {chore.lot or place}" if place else chore.title))
    todo.add("dtstart", day)
    todo.add("due", day + ONE_DAY)
    todo.add("categories", [chore.grade.value])
    todo.add("priority", PRIORITIES[chore.grade])
    if place:
        todo.add("location", plain(place))
    if words:
        todo.add("description", words)
    return todo


def _description(chore: Chore, first: str) -> str:
    """What is to be known when doing it, the caution before the instructions."""
    lines = (
        first,
        "Adults only." if chore.adults_only else "",
        f"Caution: {chore.caution}" if chore.caution else "",
        chore.instructions or "",
        f"Read: {chore.readings.replace(',', ', ')}" if chore.readings else "",
        f"Not done without: {chore.confirmation}" if chore.confirmation else "",
    )
    return "\n".join(plain(line) for line in lines if line)


def _uid(identity: str, what: str) -> str:
    """An id that no other farm has (RFC 7986, 5.3: a UUID), always the same for the same thing."""
    return str(uuid5(NAMESPACE_OID, f"{identity} {what}"))
