"""The days of a span on which a chore is expected to ask for something, each time done on its day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from itertools import takewhile

from farmops.model.chores import SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.due import occurrence_settled, open_occurrence, standing, to_come
from farmops.schedule.occurrences import occurrences
from farmops.schedule.rules import OnCalendar, Rule


def days_due(rule: Rule, history: Sequence[Settlement], activity: Activity, first: date, last: date) -> Iterator[date]:
    """The days from `first` to `last` on which the chore is due, in order; what is open before asks on the first.

    A chore by use goes by the rate of its last records, one while something holds by what is known to hold.
    """
    day = _first_day(rule, history, activity, first)
    if day is None or day > last:
        return
    yield day
    if isinstance(rule, OnCalendar):
        settled = max(day, open_occurrence(rule, history) or day)
        yield from _on_calendar(rule, activity, day, settled, last)
    else:
        yield from _one_by_one(rule, history, activity, day, last)


def _first_day(rule: Rule, history: Sequence[Settlement], activity: Activity, first: date) -> date | None:
    if standing(rule, history, activity, first) is not None:
        return first
    coming = to_come(rule, history, activity, first)
    return coming.due if coming else None


def _on_calendar(rule: OnCalendar, activity: Activity, asked: date, settled: date, last: date) -> Iterator[date]:
    """Each occurrence after the settled one on its first active day; several of one rest ask once."""
    for occurrence in takewhile(lambda day: day <= last, occurrences(rule, settled)):
        day = activity.first_active(occurrence)
        if day is None or day > last:
            return
        if day > asked:
            yield day
            asked = day


def _one_by_one(rule: Rule, history: Sequence[Settlement], activity: Activity, day: date, last: date) -> Iterator[date]:
    done = list(history)
    while True:
        done.append(Settlement(occurrence_settled(rule, done, day), SettledAs.DONE, day))
        coming = to_come(rule, done, activity, day)
        if coming is None or coming.due > last:
            return
        day = coming.due
        yield day
