"""The load: what is expected to be due on each of the days ahead, and how many minutes that takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import presence as presence_facts
from farmops.facts.reading import Reader, Store
from farmops.model.chores import Chore
from farmops.model.farm import Farm, Person
from farmops.model.frozen import dataclass
from farmops.model.presence import Crew
from farmops.reports.crew import Doer, doer_of, falls_to
from farmops.reports.places import chores_in
from farmops.reports.round_lines import where_of
from farmops.schedule.due import standing
from farmops.schedule.forecast import days_due

ANYONE, ADULT = "anyone", "an adult"


@dataclass(frozen=True, slots=True)
class Expected:
    """A chore that is expected on a day, and who does it then; `late` when it is open since an earlier day."""

    chore: Chore
    doer: Doer
    late: bool = False

    @property
    def where(self) -> str:
        """The place it belongs to, `all` for the farm's own."""
        return where_of(self.chore)


@dataclass(frozen=True, slots=True)
class DayLoad:
    """What is expected on one day."""

    day: date
    expected: tuple[Expected, ...]

    @property
    def minutes(self) -> int:
        """Minutes of them all."""
        return sum(one.chore.minutes for one in self.expected)

    @property
    def late(self) -> int:
        """How many are open since an earlier day."""
        return sum(one.late for one in self.expected)

    @property
    def by_person(self) -> Mapping[str, int]:
        """Minutes by who does it: a name, anyone who is here, or an adult where none is here."""
        minutes: Counter[str] = Counter()
        for one in self.expected:
            minutes[_who(one.doer)] += one.chore.minutes
        return minutes


def _who(doer: Doer) -> str:
    return ADULT if doer.waits else doer.person.name if doer.person else ANYONE


@dataclass(frozen=True, slots=True)
class Load:
    """The days from a day on; `person` where it is what falls to one person."""

    farm: Farm
    days: tuple[DayLoad, ...]
    person: Person | None = None

    @property
    def minutes(self) -> int:
        """Minutes of all the days."""
        return sum(one.minutes for one in self.days)

    @property
    def people(self) -> tuple[str, ...]:
        """Who has something to do on any of the days, by name, then anyone and an adult."""
        named = {name for one in self.days for name in one.by_person}
        return tuple(sorted(named, key=lambda name: (name in (ANYONE, ADULT), name)))


def load_of(
    store: Store,
    on: date | None = None,
    *,
    first: date | None = None,
    days: int = 14,
    unit: str | None = None,
    person: Person | None = None,
) -> Load:
    """What is expected as it stands `on` a day, each chore done on its day; all that is late falls on that day.

    The days begin with `first`, which is that day too unless told otherwise; one before it stands in for it.
    """
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        today = on or farm.today()
        begin = first or today
        ahead = _days(begin, begin + timedelta(days=days - 1))
        crews = {day: presence_facts.crew_on(reader, day) for day in _days(min(begin, today), ahead[-1])}
        found = expected_on(reader, chores_in(reader, unit), crews)
        return Load(farm, tuple(DayLoad(day, tuple(_for(found[day], person, crews[day]))) for day in ahead), person)


def _days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=at) for at in range((last - first).days + 1)]


def _for(expected: Iterable[Expected], person: Person | None, crew: Crew) -> Iterator[Expected]:
    return (one for one in expected if person is None or falls_to(person, one.chore, one.doer, crew))


def expected_on(reader: Reader, chores: Iterable[Chore], crews: Mapping[date, Crew]) -> dict[date, list[Expected]]:
    """What is expected on each day that a crew is given for, which follow each other; in walking order."""
    first, last = min(crews), max(crews)
    found: dict[date, list[Expected]] = {day: [] for day in crews}
    open_chores = {one.id: one for one in chores if one.next_due is not None and one.next_due <= last}
    for plan in chore_facts.plans(reader, open_chores):
        chore = open_chores[plan.chore_id]
        since = standing(plan.rule, plan.history, plan.activity, first)
        for day in days_due(plan.rule, plan.history, plan.activity, first, last):
            late = day == first and since is not None and since.due < first and not chore.is_never_late
            found[day].append(Expected(chore, doer_of(chore, crews[day]), late))
    return found
