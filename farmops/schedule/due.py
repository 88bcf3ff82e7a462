"""When a chore is due, from its rule and its history alone; what a doing settles; how much was missed."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice, takewhile

from farmops.model.chores import SettledAs, Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.occurrences import latest_occurrence, next_occurrence, occurrences
from farmops.schedule.rules import AfterDoing, OnCalendar, Once, Rule

_SPAN_DAYS = {"day": 1, "week": 7}


def due(rule: Rule, history: Sequence[Settlement]) -> date | None:
    """The day on which the rule is due next, None when it never is again. Does not know today.

    Done and skipped settle; the order of `history` does not matter. A deferral moves only the occurrence it
    names, the latest made (then the later day) if there are several.
    """
    day = open_occurrence(rule, history)
    deferrals = [
        (settlement.on, settlement.until)
        for settlement in history
        if settlement.kind is SettledAs.DEFERRED and settlement.occurrence == day and settlement.until is not None
    ]
    return max(deferrals)[1] if deferrals else day


def next_due(rule: Rule, history: Sequence[Settlement], activity: Activity) -> date | None:
    """The due day moved to the first active day: what falls in a gap is due once, when the gap ends."""
    day = due(rule, history)
    return None if day is None else activity.first_active(day)


@dataclass(frozen=True, slots=True)
class Standing:
    """What stands open on a day: due since when, and how many occurrences went by besides on active days.

    None go by of work due once or after doing: only one doing stands open, however late it is.
    """

    due: date
    missed: int


def standing(rule: Rule, history: Sequence[Settlement], activity: Activity, today: date) -> Standing | None:
    """What a chore that fell due by `today` still asks for; None while it is suspended or not due yet.

    One that was suspended after it fell due is due again from the day it is active once more.
    """
    day = next_due(rule, history, activity)
    since = activity.active_since(today, day) if day is not None and day <= today else None
    if day is None or since is None:
        return None
    return Standing(since, _went_by(rule, activity, since, today))


def _went_by(rule: Rule, activity: Activity, first: date, today: date) -> int:
    if not isinstance(rule, OnCalendar):
        return 0
    later = takewhile(lambda other: other < today, occurrences(rule, after=first))
    return sum(1 for other in later if activity.active(other))


def occurrence_settled(rule: Rule, history: Sequence[Settlement], on: date) -> date:
    """Which occurrence a doing (or skipping) on day `on` settles when the person names none.

    On the calendar: early, the one that is due; late, the latest that has come, and with it all before;
    booked into the past, the latest that had come by then. After doing: the one that is due, or `on` itself
    when booked into the past.
    """
    match rule:
        case Once(day):
            return day
        case AfterDoing():
            done = _done_days(history)
            return on if done and on <= done[-1] else _after_last_doing(rule, history)
        case _:
            return _calendar_occurrence(rule, history, on)


def _calendar_occurrence(rule: OnCalendar, history: Sequence[Settlement], on: date) -> date:
    last, open_day = _last_settled(history), open_occurrence(rule, history)
    if open_day is not None and on < open_day and (last is None or on > last):
        return open_day
    return latest_occurrence(rule, on) or next_occurrence(rule, None) or on


def open_occurrence(rule: Rule, history: Sequence[Settlement]) -> date | None:
    """The occurrence that is open, whatever it was deferred to; None when it is settled for good."""
    match rule:
        case Once(day):
            return None if _last_settled(history) else day
        case AfterDoing():
            return _after_last_doing(rule, history)
        case _:
            return next_occurrence(rule, _last_settled(history))


def _settling(history: Sequence[Settlement]) -> list[Settlement]:
    return [settlement for settlement in history if settlement.kind is not SettledAs.DEFERRED]


def _last_settled(history: Sequence[Settlement]) -> date | None:
    return max((settlement.occurrence for settlement in _settling(history)), default=None)


def _done_days(history: Sequence[Settlement]) -> list[date]:
    return sorted(settlement.on for settlement in _settling(history))


def _after_last_doing(rule: AfterDoing, history: Sequence[Settlement]) -> date:
    done = _done_days(history)
    if not done:
        return rule.start
    if rule.unit != "month":
        return done[-1] + timedelta(days=rule.every * _SPAN_DAYS[rule.unit])
    months = done[-1].year * 12 + done[-1].month - 1 + rule.every
    return _clipped(months // 12, months % 12 + 1, _anchor(rule.start.day, done))


def _anchor(anchor: int, done: Sequence[date]) -> int:
    """The day of the month that is meant: a doing on the last of a short month does not lose the 31st."""
    for day in done:
        if day != _clipped(day.year, day.month, anchor):
            anchor = day.day
    return anchor


def _clipped(year: int, month: int, day: int) -> date:
    """That day of the month, or its last when the month is shorter."""
    return date(year, month, min(day, monthrange(year, month)[1]))


def upcoming(rule: Rule, most: int) -> list[date]:
    """The next days from the rule's start, at most `most`, each done on the day it is due."""
    history: list[Settlement] = []
    days: list[date] = []
    if isinstance(rule, OnCalendar):
        return list(islice(occurrences(rule), most))
    while len(days) < most and (day := due(rule, history)) is not None:
        days.append(day)
        history.append(Settlement(day, SettledAs.DONE, day))
    return days
