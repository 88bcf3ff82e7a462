"""The agenda: each chore with the days ahead of it, and what was settled lately, for calendars outside."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from farmops import clock
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import journal as journal_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore, Settled, SettledAs
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.round import RoundLine, lines_on
from farmops.schedule.ahead import Ahead, ahead
from farmops.schedule.rules import OnCalendar

NOON = time(12)


@dataclass(frozen=True, slots=True)
class Coming:
    """A chore that is open or to come, and the days ahead of it."""

    line: RoundLine
    ahead: Ahead


@dataclass(frozen=True, slots=True)
class Past:
    """A chore that was done or left out, and the instant (UTC) at which that was."""

    chore: Chore
    settled: Settled
    at: datetime


@dataclass(frozen=True, slots=True)
class Agenda:
    """What is ahead and what is behind on a day. `identity` belongs to this farm alone."""

    farm: Farm
    on: date
    identity: str
    coming: tuple[Coming, ...]
    past: tuple[Past, ...]


def agenda(store: Store, on: date | None = None, *, days: int = 14) -> Agenda:
    """What is ahead of every chore that does not rest, and what was settled in the `days` up to today."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = on or farm.today()
        identity = journal_facts.opening(reader) or ""
        return Agenda(farm, day, identity, _coming(reader, day), _past(reader, farm, day, days))


def _coming(reader: Reader, day: date) -> tuple[Coming, ...]:
    """In walking order. A chore that rests without a known end has no day, and is left out."""
    lines = lines_on(reader, [one for one in chore_facts.chores(reader) if one.next_due], day, date.max)
    plans = {plan.chore_id: plan for plan in chore_facts.plans(reader, (line.chore.id for line in lines))}
    return tuple(Coming(line, _ahead(plans[line.chore.id], line, day)) for line in lines)


def _ahead(plan: chore_facts.Plan, line: RoundLine, today: date) -> Ahead:
    """On the calendar, all that is known; of any other rule, the next day alone, for the rest follows from doing."""
    if isinstance(plan.rule, OnCalendar):
        return ahead(plan.rule, plan.history, plan.activity, line.due, today)
    return Ahead(line.due, line.due, None)


def _past(reader: Reader, farm: Farm, day: date, days: int) -> tuple[Past, ...]:
    first = day - timedelta(days=days - 1)
    found = [one for one in chore_facts.settled_between(reader, first, day) if one.kind is not SettledAs.DEFERRED]
    booked = chore_facts.booked_between(reader, first, day)
    chores = {chore.id: chore for chore in chore_facts.with_ids(reader, (one.chore_id for one in found))}
    return tuple(Past(chores[one.chore_id], one, _instant(farm, one.on_day, booked[one.id])) for one in found)


def _instant(farm: Farm, day: date, booked: datetime) -> datetime:
    """When it was booked, if that was on its day; else noon of the day, for nobody noted the hour."""
    zone = clock.time_zone(farm.time_zone)
    return booked if booked.astimezone(zone).date() == day else datetime.combine(day, NOON, zone).astimezone(UTC)
