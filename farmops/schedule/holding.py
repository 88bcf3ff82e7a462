"""Due while something holds: which holdings are not settled, and which of them stand on a day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from farmops.model.chores import Settlement
from farmops.schedule.activity import Activity
from farmops.schedule.history import deferring, last_settled
from farmops.schedule.rules import Holding, WhenHolds

Called = tuple[date, Holding]
"""A holding and the day from which it calls for the chore."""


def calls(rule: WhenHolds, history: Sequence[Settlement], activity: Activity | None = None) -> list[Called]:
    """The holdings that are not settled, each from the first (active) day on which it calls for the chore, in order.

    A holding is settled with an occurrence on or after its first day. One that ends before it would call is
    left out.
    """
    last = last_settled(history)
    found = []
    for holding in rule.holdings:
        if last is None or holding.since > last:
            wanted = _wanted(rule, history, holding)
            day = activity.first_active(wanted) if activity else wanted
            if day is not None and lasts(holding, day):
                found.append((day, holding))
    return sorted(found, key=lambda called: (called[0], called[1].since, called[1].why))


def lasts(holding: Holding, day: date) -> bool:
    """Whether the holding has not ended before a day."""
    return holding.until is None or day <= holding.until


def on_the_day(called: Sequence[Called], today: date) -> list[Called]:
    """Those that have come by a day and have not ended before it."""
    return [(day, holding) for day, holding in called if day <= today and lasts(holding, today)]


def first_to_come(called: Sequence[Called], today: date) -> list[Called]:
    """Those that come next after a day, all on one day."""
    later = [(day, holding) for day, holding in called if day > today]
    return [(day, holding) for day, holding in later if day == later[0][0]]


def holding_settled(rule: WhenHolds, history: Sequence[Settlement], on: date) -> date:
    """The first day of the holding that a doing on day `on` settles: the latest that has come, and with it all before.

    Where nothing called for it, it is the day before. So what begins on the day itself, after the doing, still asks
    for one, and so does what is to come: a bed that is weighed, then ticked off, is picked again.
    """
    here = holding_open(rule, history, on)
    return here if here is not None and here <= on else on - timedelta(days=1)


def holding_open(rule: WhenHolds, history: Sequence[Settlement], on: date) -> date | None:
    """The first day of the latest holding that has come by a day, if any is open on it; else of the one to come.

    None when nothing is open and nothing is to come.
    """
    last = last_settled(history)
    unsettled = [one for one in rule.holdings if last is None or one.since > last]
    came = [one for one in unsettled if one.since <= on]
    if any(lasts(one, on) for one in came):
        return max(one.since for one in came)
    return min((one.since for one in unsettled if one.since > on), default=None)


def _wanted(rule: WhenHolds, history: Sequence[Settlement], holding: Holding) -> date:
    """The day on which the holding is due: its first, not before the rule's start, or the one it was put off to.

    A deferral puts off whatever had come by the day on which it was made; the latest one counts.
    """
    made = [(one.on, until) for one, until in deferring(history) if holding.since <= max(one.occurrence, one.on)]
    wanted = max(made)[1] if made else rule.start
    return max(wanted, holding.since)
