"""When a chore is due, from its rule and its history alone; what a doing settles; how much was missed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import islice, takewhile

from farmops.model.chores import SettledAs, Settlement
from farmops.model.frozen import dataclass
from farmops.schedule.activity import Activity
from farmops.schedule.by_use import due_by_use, open_by_use
from farmops.schedule.history import after_last, deferring, done_days, last_settled
from farmops.schedule.holding import Called, calls, first_to_come, holding_open, holding_settled, on_the_day
from farmops.schedule.occurrences import latest_occurrence, next_occurrence, occurrences
from farmops.schedule.rules import AfterDoing, ByUse, Holding, OnCalendar, Once, Rule, WhenHolds


def due(rule: Rule, history: Sequence[Settlement]) -> date | None:
    """The day on which the rule is due next, None when it never is again, or nothing says when. Does not know today.

    Done and skipped settle; the order of `history` does not matter. A deferral moves only the occurrence it
    names, the latest made (then the later day) if there are several; a chore by use, whose occurrence moves with
    every record, it moves whenever it was made after the last doing.
    """
    match rule:
        case ByUse():
            return due_by_use(rule, history)
        case WhenHolds():
            return next((day for day, _ in calls(rule, history)), None)
        case _:
            return _put_off(history, open_occurrence(rule, history))


def _put_off(history: Sequence[Settlement], day: date | None) -> date | None:
    """The day until when the occurrence of that day was put off, or the day itself."""
    deferrals = [(one.on, until) for one, until in deferring(history) if one.occurrence == day]
    return max(deferrals)[1] if deferrals else day


def next_due(rule: Rule, history: Sequence[Settlement], activity: Activity) -> date | None:
    """The due day moved to the first active day: what falls in a gap is due once, when the gap ends.

    What holds no longer when the gap ends is not due at all.
    """
    if isinstance(rule, WhenHolds):
        return next((day for day, _ in calls(rule, history, activity)), None)
    day = due(rule, history)
    return None if day is None else activity.first_active(day)


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands open on a day: due since when, and how many occurrences went by besides on active days.

    None go by of work due once, after doing, by use or while something holds: only one doing stands open, however
    late it is. `holdings` are those that call for it.
    """

    due: date
    missed: int
    holdings: tuple[Holding, ...] = ()


def standing(rule: Rule, history: Sequence[Settlement], activity: Activity, today: date) -> Standing | None:
    """What a chore that fell due by `today` still asks for; None while it is suspended or not due yet.

    One that was suspended after it fell due is due again from the day it is active once more. What has ceased to
    hold asks for nothing.
    """
    called: list[Called] = []
    if isinstance(rule, WhenHolds):
        called = on_the_day(calls(rule, history, activity), today)
        day = called[0][0] if called else None
    else:
        day = next_due(rule, history, activity)
    since = activity.active_since(today, day) if day is not None and day <= today else None
    if since is None:
        return None
    return Standing(since, _went_by(rule, activity, since, today), _holdings(called))


def to_come(rule: Rule, history: Sequence[Settlement], activity: Activity, today: date) -> Standing | None:
    """What a chore that asks for nothing on a day will ask for next, and from when; None when nothing is to come."""
    if isinstance(rule, WhenHolds):
        called = first_to_come(calls(rule, history, activity), today)
        return Standing(called[0][0], 0, _holdings(called)) if called else None
    day = next_due(rule, history, activity)
    later = None if day is None else activity.first_active(max(day, today + timedelta(days=1)))
    return None if later is None else Standing(later, 0)


def _holdings(called: Sequence[Called]) -> tuple[Holding, ...]:
    return tuple(holding for _, holding in called)


def _went_by(rule: Rule, activity: Activity, first: date, today: date) -> int:
    if not isinstance(rule, OnCalendar):
        return 0
    later = takewhile(lambda other: other < today, occurrences(rule, after=first))
    return sum(1 for other in later if activity.active(other))


def occurrence_settled(rule: Rule, history: Sequence[Settlement], on: date) -> date:
    """Which occurrence a doing on day `on` settles when the person names none.

    On the calendar: early, the one that is due; late, the latest that has come, and with it all before; booked into
    the past, the latest that had come by then. After doing and by use: the one that is due, or `on` itself when
    booked into the past, or when nothing says when it is due. While something holds: the latest that has come.
    """
    match rule:
        case Once(day):
            return day
        case AfterDoing() | ByUse():
            done = done_days(history)
            return on if done and on <= done[-1] else open_occurrence(rule, history) or on
        case WhenHolds():
            return holding_settled(rule, history, on)
        case _:
            return _calendar_occurrence(rule, history, on)


def _calendar_occurrence(rule: OnCalendar, history: Sequence[Settlement], on: date) -> date:
    last, open_day = last_settled(history), open_occurrence(rule, history)
    if open_day is not None and on < open_day and (last is None or on > last):
        return open_day
    return latest_occurrence(rule, on) or next_occurrence(rule, None) or on


def open_occurrence(rule: Rule, history: Sequence[Settlement]) -> date | None:
    """The occurrence that is open, whatever it was deferred to; None when it is settled for good."""
    match rule:
        case Once(day):
            return None if last_settled(history) else day
        case AfterDoing():
            done = done_days(history)
            return after_last(rule.every, rule.unit, done, rule.start.day) if done else rule.start
        case ByUse():
            return open_by_use(rule, history)
        case WhenHolds():
            return min((holding.since for _, holding in calls(rule, history)), default=None)
        case _:
            return next_occurrence(rule, last_settled(history))


def occurrence_skipped(rule: Rule, history: Sequence[Settlement], on: date) -> date:
    """Which occurrence is left out on day `on` when the person names none: as with a doing, but also one to come."""
    here = holding_open(rule, history, on) if isinstance(rule, WhenHolds) else None
    return here or occurrence_settled(rule, history, on)


def occurrence_put_off(rule: Rule, history: Sequence[Settlement], on: date) -> date | None:
    """Which occurrence a deferral made on day `on` puts off; None when nothing asks for the chore."""
    match rule:
        case WhenHolds():
            return holding_open(rule, history, on)
        case ByUse():
            return open_occurrence(rule, history) or on
        case _:
            return open_occurrence(rule, history)


def upcoming(rule: Rule, most: int) -> list[date]:
    """The next days from the rule's start, at most `most`, each done on the day it is due."""
    history: list[Settlement] = []
    days: list[date] = []
    if isinstance(rule, OnCalendar):
        return list(islice(occurrences(rule), most))
    while len(days) < most and (day := due(rule, history)) is not None:
        days.append(day)
        history.append(Settlement(occurrence_settled(rule, history, day), SettledAs.DONE, day))
    return days
