"""Work around an absence: the days on which nobody is left, what would fall due on them, what can be done before."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, timedelta

from farmops.model.chores import Chore, ChoreClass, SettledAs, Settlement
from farmops.model.frozen import dataclass
from farmops.schedule.activity import Activity
from farmops.schedule.due import next_due, occurrence_settled
from farmops.schedule.parts import read_parts
from farmops.schedule.rules import AfterDoing, OnCalendar, Rule

DAY = timedelta(days=1)
CANNOT_WAIT = (ChoreClass.LIFE_SUPPORT, ChoreClass.FISH_CARE, ChoreClass.FOOD_SAFETY)
NO_CONDITION = ("once", "calendar", "after", "use")
"""The kinds of rule that no ripe crop and no frost to come stands behind."""


@dataclass(frozen=True, slots=True)
class Gone:
    """Somebody is away, both days included, and somebody may stand in."""

    person_id: int
    first: date
    last: date
    stand_in_id: int | None = None

    def on(self, day: date) -> bool:
        """Whether they are away on a day."""
        return self.first <= day <= self.last


@dataclass(frozen=True, slots=True)
class Alone:
    """Days, both included, on which nobody is left to do the work, and the day on which somebody is back."""

    first: date
    last: date
    back: date


def here_on(people: Collection[int], gone: Sequence[Gone], day: date) -> set[int]:
    """Who is there to do the work on a day: neither away nor standing in for somebody, which is a work of its own."""
    away = [one for one in gone if one.on(day)]
    busy = {one.person_id for one in away} | {one.stand_in_id for one in away}
    return set(people) - busy


def left_alone(people: Collection[int], gone: Sequence[Gone], first: date, last: date) -> list[Alone]:
    """The stretches of a span, both ends included, in which nobody is left, in order."""
    found: list[Alone] = []
    day = first
    while day <= last:
        if here_on(people, gone, day):
            day += DAY
            continue
        back = _back(people, gone, day)
        found.append(Alone(day, min(last, back - DAY), back))
        day = back
    return found


def _back(people: Collection[int], gone: Sequence[Gone], day: date) -> date:
    end = max((one.last for one in gone), default=day)
    while day <= end and not here_on(people, gone, day):
        day += DAY
    return day


@dataclass(frozen=True, slots=True)
class Falling:
    """A chore that is due by the end of a stretch in which nobody is left.

    It `waits` when it is due within the stretch, else it is due before. Done on the last day before they leave it
    `stays_away` until somebody is back; done today it `comes_again` by the end of the stretch.
    """

    due: date
    waits: bool
    stays_away: bool
    comes_again: bool


def falling(rule: Rule, history: Sequence[Settlement], activity: Activity, alone: Alone, today: date) -> Falling | None:
    """How a chore stands to a stretch in which nobody is left; None when it asks for nothing by the end of it."""
    due, active = next_due(rule, history, activity), activity.first_active(alone.first)
    if due is None or active is None or max(due, active) > alone.last:
        return None
    soonest, latest = (_after_doing(rule, history, activity, day) for day in (today, max(today, alone.first - DAY)))
    return Falling(
        due,
        waits=due >= alone.first,
        stays_away=latest is None or latest > alone.last,
        comes_again=soonest is not None and soonest <= alone.last,
    )


def _after_doing(rule: Rule, history: Sequence[Settlement], activity: Activity, on: date) -> date | None:
    """When it is due next if it is done on a day."""
    done = Settlement(occurrence_settled(rule, history, on), SettledAs.DONE, on)
    return next_due(rule, [*history, done], activity)


def on_sheet(chore: Chore, rule: Rule, stand_in_id: int | None) -> bool:
    """Whether a chore stands on the care sheet: what cannot wait, and of the rest what the stand-in does by the way.

    That is what falls to the stand-in as a rule, and daily crop work that is not for adults only.
    """
    if chore.grade in CANNOT_WAIT:
        return True
    if stand_in_id is None:
        return False
    by_the_way = chore.grade is ChoreClass.CROP and every_day(rule) and not chore.adults_only
    return by_the_way or chore.person_id == stand_in_id


def can_wait(chore: Chore) -> bool:
    """Whether a chore may be put off while nobody is there: upkeep, paperwork, and crop work that nothing calls for."""
    if chore.grade in CANNOT_WAIT:
        return False
    return chore.grade is not ChoreClass.CROP or chore.rule_kind in NO_CONDITION


def every_day(rule: Rule) -> bool:
    """Whether the rule is to come every single day."""
    match rule:
        case OnCalendar():
            parts = read_parts(rule.rrule)
            return parts.freq == "DAILY" and parts.interval == 1 and parts.text().count("BY") == 0
        case AfterDoing(every, unit, _):
            return (every, unit) == (1, "day")
        case _:
            return False
