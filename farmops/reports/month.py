"""A month at a glance: what was done on each day behind, what is due today, what is expected on each day ahead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import presence as presence_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore, SettledAs
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.reports.load import Expected, expected_on
from farmops.reports.places import chores_in
from farmops.schedule.past import Past

WEEK = 7


@dataclass(frozen=True, slots=True)
class MonthDay:
    """One day: what was done on it, and from today on what is expected, with the minutes of both.

    Minutes of what was done are those booked, else the estimate. `late` counts, for a day behind, what was due and not
    settled on the day; for today, what is open since an earlier day.
    """

    day: date
    done: int = 0
    done_minutes: int = 0
    expected: int = 0
    expected_minutes: int = 0
    late: int = 0


@dataclass(frozen=True, slots=True)
class Month:
    """The days of one month, as they stand `on` a day; `unit` where it is that of one unit."""

    farm: Farm
    on: date
    days: tuple[MonthDay, ...]
    unit: str | None = None

    @property
    def weeks(self) -> tuple[tuple[MonthDay | None, ...], ...]:
        """The days in weeks that begin on Monday; None for what lies in another month."""
        before = [None] * self.days[0].day.weekday()
        cells = [*before, *self.days]
        cells += [None] * (-len(cells) % WEEK)
        return tuple(tuple(cells[at : at + WEEK]) for at in range(0, len(cells), WEEK))


def month_of(store: Store, month: date | None = None, on: date | None = None, *, unit: str | None = None) -> Month:
    """The month that a day lies in, as it stands `on` a day; both are today unless told otherwise."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        today = on or farm.today()
        days = _days_of(month or today)
        chores = chores_in(reader, unit)
        done, late = _behind(reader, chores, days, today)
        ahead = _ahead(reader, chores, days, today)
        found = tuple(_day(day, done.get(day, []), ahead.get(day, []), late[day]) for day in days)
        return Month(farm, today, found, unit.strip().upper() if unit else None)


def _days_of(day: date) -> list[date]:
    first = day.replace(day=1)
    days = (first + timedelta(days=at) for at in range(31))
    return [one for one in days if one.month == day.month]


def _day(day: date, done: Sequence[int], expected: Sequence[Expected], late: int) -> MonthDay:
    return MonthDay(
        day,
        done=len(done),
        done_minutes=sum(done),
        expected=len(expected),
        expected_minutes=sum(one.chore.minutes for one in expected),
        late=late + sum(one.late for one in expected),
    )


def _behind(
    reader: Reader, chores: Sequence[Chore], days: Sequence[date], today: date
) -> tuple[dict[date, list[int]], Counter[date]]:
    """The minutes of every doing by its day, and how many chores were not settled on the day they were due."""
    if days[0] > today:
        return {}, Counter()
    by_id = {one.id: one for one in chores}
    done: dict[date, list[int]] = {}
    for one in chore_facts.settled_between(reader, days[0], min(days[-1], today)):
        if one.kind is SettledAs.DONE and one.chore_id in by_id:
            minutes = by_id[one.chore_id].minutes if one.minutes is None else one.minutes
            done.setdefault(one.on_day, []).append(minutes)
    late = Counter(
        day
        for plan in chore_facts.plans(reader, by_id)
        for day in _past(by_id[plan.chore_id], plan).days_not_kept(days[0], today)
    )
    return done, late


def _past(chore: Chore, plan: chore_facts.Plan) -> Past:
    return Past(plan.rule, plan.history, plan.activity, never_late=chore.is_never_late)


def _ahead(reader: Reader, chores: Sequence[Chore], days: Sequence[date], today: date) -> dict[date, list[Expected]]:
    """What is expected from today on, reckoned day by day from today, however far ahead the month lies."""
    if days[-1] < today:
        return {}
    span = [today + timedelta(days=at) for at in range((days[-1] - today).days + 1)]
    found = expected_on(reader, chores, {day: presence_facts.crew_on(reader, day) for day in span})
    return {day: found[day] for day in days if day in found}
