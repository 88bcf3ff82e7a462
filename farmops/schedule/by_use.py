"""Due by use: what was used since the last doing, and when the limit will be reached at the rate of the last weeks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction
from itertools import accumulate, pairwise

from farmops.model.chores import Settlement
from farmops.model.frozen import dataclass
from farmops.schedule.history import after_last, deferring, done_days, settling
from farmops.schedule.rules import ByUse, Use

RATE_DAYS = 28
FORTY_YEARS = timedelta(days=14_610)


@dataclass(frozen=True, slots=True)
class Used:
    """What a chore by use has behind it: `amount` since the day `since`, the day the limit was `reached`, if it was.

    `booked` is the day of the last record of use; `a_day` the rate that the forecast goes by. Both are None
    where the records do not say.
    """

    since: date
    amount: int
    reached: date | None
    booked: date | None
    a_day: Fraction | None


def used(rule: ByUse, history: Sequence[Settlement]) -> Used:
    """What was used since the last doing, whole records counted strictly after it; from the start when never done."""
    done = done_days(history)
    record = _by_day(rule.record)
    counted = [one for one in record if (one.day > done[-1] if done else one.day >= rule.start)]
    totals = list(accumulate(one.amount for one in counted))
    reached = next((one.day for one, total in zip(counted, totals, strict=True) if total >= rule.limit), None)
    return Used(
        since=done[-1] if done else rule.start,
        amount=totals[-1] if totals else 0,
        reached=reached,
        booked=record[-1].day if record else None,
        a_day=rate(record),
    )


def rate(record: Sequence[Use]) -> Fraction | None:
    """What is used a day over the 28 days that end with the last record.

    `record` holds one entry a day, in order. An amount is spread evenly over the days since the record before.
    The first one is left out, for nobody knows over how many days it came about: where the records began later
    than 28 days before, the rate is that of the days since the first one, and a single record has none.
    """
    if len(record) < 2:
        return None
    last = record[-1].day
    first = max(record[0].day, last - timedelta(days=RATE_DAYS))
    shares = (
        Fraction(one.amount * (one.day - max(before.day, first)).days, (one.day - before.day).days)
        for before, one in pairwise(record)
        if one.day > first
    )
    total = sum(shares, start=Fraction(0))
    return total / (last - first).days


def due_by_use(rule: ByUse, history: Sequence[Settlement]) -> date | None:
    """The day a deferral made after the last doing puts it off to; else the earliest of limit and latest day."""
    deferred = _put_off(history)
    return deferred if deferred is not None else open_by_use(rule, history)


def open_by_use(rule: ByUse, history: Sequence[Settlement]) -> date | None:
    """The day on which the limit was or will be reached, or the latest day allowed when that comes first."""
    found = [day for day in (_limit_reached(rule, history), _latest(rule, history)) if day is not None]
    return min(found, default=None)


def _limit_reached(rule: ByUse, history: Sequence[Settlement]) -> date | None:
    """The day of the record that reached the limit; else the forecast, which looks no further than 40 years ahead."""
    behind = used(rule, history)
    if behind.reached is not None or behind.booked is None or behind.a_day is None:
        return behind.reached
    wait = math.ceil((rule.limit - behind.amount) / behind.a_day)
    return max(behind.booked, behind.since) + timedelta(days=wait) if wait <= FORTY_YEARS.days else None


def _latest(rule: ByUse, history: Sequence[Settlement]) -> date | None:
    if rule.latest is None:
        return None
    done = done_days(history) or [rule.start]
    return after_last(rule.latest.every, rule.latest.unit, done, rule.start.day)


def _put_off(history: Sequence[Settlement]) -> date | None:
    """Until when the latest deferral since the last doing puts the chore off.

    Of a doing and a deferral on one day, the one that names the later occurrence came last; a deferral within the
    day of the doing is over with it.
    """
    last = max(((one.on, one.occurrence) for one in settling(history)), default=(date.min, date.min))
    since = [
        (one.on, until) for one, until in deferring(history) if (one.on, one.occurrence) > last and until > last[0]
    ]
    return max(since)[1] if since else None


def _by_day(record: Sequence[Use]) -> list[Use]:
    """One entry a day, in order."""
    amounts: dict[date, int] = {}
    for one in record:
        amounts[one.day] = amounts.get(one.day, 0) + one.amount
    return [Use(day, amounts[day]) for day in sorted(amounts)]
