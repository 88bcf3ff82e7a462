"""The care sheet: what a stand-in does on each day, what is in the bags of feed, what never to do, whom to call."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import absences as absence_facts
from farmops.facts import chores as chore_facts
from farmops.facts import contacts as contact_facts
from farmops.facts import farm as farm_facts
from farmops.facts import incidents as incident_facts
from farmops.facts import readings as reading_facts
from farmops.facts.live_fish import live_on
from farmops.facts.rations import rations
from farmops.facts.reading import Reader, Store
from farmops.library.care_rules import RuleKind, rules_of
from farmops.model.absences import Absence
from farmops.model.chores import Chore, PartOfDay
from farmops.model.contacts import Contact
from farmops.model.errors import Refused
from farmops.model.farm import Farm
from farmops.model.frozen import dataclass
from farmops.model.readings import Measure
from farmops.model.units import Unit
from farmops.reports.care_feed import Feed, feed_of
from farmops.schedule.away import on_sheet
from farmops.schedule.forecast import days_due

LONGEST_DAYS = 31
"""A sheet longer than a month is one that nobody reads."""
FEEDING = "feed"
PARTS = (PartOfDay.MORNING, PartOfDay.MIDDAY, PartOfDay.EVENING, PartOfDay.NONE)
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class UnitCare:
    """A unit as a stand-in meets it: its fish in words, its feed, and where its power and its water are shut off."""

    unit: Unit
    fish: str
    feed: Feed | None


@dataclass(frozen=True, slots=True)
class Due:
    """A day on which a chore is due, and the places where it is."""

    day: date
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CareLine:
    """A chore of the sheet, once for all places in which it is the same, and when it is due where."""

    chore: Chore
    due: tuple[Due, ...]

    @property
    def everywhere(self) -> tuple[str, ...] | None:
        """The places, where they are the same on each of its days; None where they are not."""
        return self.due[0].places if len({one.places for one in self.due}) == 1 else None

    def on(self, day: date) -> Due | None:
        """Where it is due on a day."""
        return next((one for one in self.due if one.day == day), None)


@dataclass(frozen=True, slots=True)
class Bag:
    """A bag of feed, filled before leaving: its number, for which unit and day, and how many grams."""

    number: int
    unit: str
    day: date
    grams: int | None

    @property
    def label(self) -> str:
        """What is written on it: `bag 3: WREN Tue 38 g`."""
        grams = f"{self.grams} g" if self.grams is not None else "____ g"
        return f"bag {self.number}: {self.unit} {self.day:%a} {grams}"


@dataclass(frozen=True, slots=True)
class CareSheet:
    """What a stand-in needs for some days; `absences` are of those whose work it is."""

    farm: Farm
    first: date
    last: date
    absences: tuple[Absence, ...]
    lines: tuple[CareLine, ...]
    units: tuple[UnitCare, ...]
    bags: tuple[Bag, ...]
    contacts: tuple[Contact, ...]
    stop: tuple[str, ...]
    never: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def days(self) -> tuple[date, ...]:
        """The days of the sheet."""
        return tuple(self.first + ahead * DAY for ahead in range((self.last - self.first).days + 1))

    def minutes_on(self, day: date) -> int:
        """How many minutes the chores of a day take."""
        return sum(one.chore.minutes * len(due.places) for one in self.lines if (due := one.on(day)))

    @property
    def weeks(self) -> tuple[CareSheet, ...]:
        """The sheet in parts of at most seven days, each of which stands alone."""
        starts = [self.first + ahead * DAY for ahead in range(0, len(self.days), 7)]
        return tuple(_part(self, start, min(start + 6 * DAY, self.last)) for start in starts)

    @property
    def lacking(self) -> tuple[str, ...]:
        """What a stand-in would look for in vain, in words."""
        return tuple(_lacking(self))


def care_sheet(store: Store, first: date | None = None, last: date | None = None) -> CareSheet:
    """The sheet of a span of days; of the absence that lasts or comes next where no day is named, else of today.

    Raises:
        Refused: the span ends before it begins, or is longer than a month.
    """
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        begin, end = _span(farm, _coming(reader, farm) if first is None else None, first, last)
        absences = absence_facts.absences_in(reader, begin, end)
        lines, feeding = _lines(reader, farm, begin, end, {one.stand_in_id for one in absences})
        units = tuple(_unit_care(reader, farm))
        return CareSheet(
            farm=farm,
            first=begin,
            last=end,
            absences=tuple(absences),
            lines=tuple(lines),
            units=units,
            bags=tuple(_bags(units, begin, end, feeding)),
            contacts=tuple(contact_facts.contacts(reader)),
            stop=rules_of(RuleKind.STOP),
            never=rules_of(RuleKind.NEVER),
            cautions=rules_of(RuleKind.CAUTION),
        )


def _coming(reader: Reader, farm: Farm) -> Absence | None:
    """The first absence that is not over."""
    coming = [one for one in absence_facts.absences(reader) if one.until_day >= farm.today()]
    return min(coming, key=lambda one: (one.from_day, one.id), default=None)


def _span(farm: Farm, absence: Absence | None, first: date | None, last: date | None) -> tuple[date, date]:
    today = farm.today()
    if first is None:
        first = max(absence.from_day, today) if absence else today
        last = absence.until_day if absence else first
    last = last or first
    if last < first:
        raise Refused(f"The sheet would end on {last}, before it begins on {first}.")
    if (last - first).days >= LONGEST_DAYS:
        raise Refused(f"A care sheet is for at most {LONGEST_DAYS} days; write one a week: --from and --to.")
    return first, last


def _lines(
    reader: Reader, farm: Farm, first: date, last: date, stand_ins: set[int | None]
) -> tuple[list[CareLine], dict[int, set[date]]]:
    """The lines of the sheet, and the days on which units with a chore for their feed are fed, by unit id."""
    every = chore_facts.chores(reader)
    chores = {one.id: one for one in every if one.next_due}
    folded: dict[tuple[object, ...], list[tuple[Chore, set[date]]]] = {}
    feeding: dict[int, set[date]] = {one.unit_id: set() for one in every if one.template_key == FEEDING and one.unit_id}
    start = min(farm.today(), first)
    for plan in chore_facts.plans(reader, chores):
        chore = chores[plan.chore_id]
        if not any(on_sheet(chore, plan.rule, id) for id in stand_ins or {None}):
            continue
        days = {day for day in days_due(plan.rule, plan.history, plan.activity, start, last) if day >= first}
        if chore.template_key == FEEDING and chore.unit_id is not None:
            feeding[chore.unit_id] |= days
        if days:
            folded.setdefault(_same(chore), []).append((chore, days))
    return sorted((_line(own) for own in folded.values()), key=_order), feeding


def _same(chore: Chore) -> tuple[object, ...]:
    words = (chore.title, chore.instructions, chore.caution, chore.confirmation, chore.readings)
    return (*words, chore.adults_only, chore.minutes, chore.part, chore.grade)


def _line(own: Sequence[tuple[Chore, set[date]]]) -> CareLine:
    days = sorted(set().union(*(days for _, days in own)))
    due = (Due(day, tuple(_where(chore) for chore, asked in own if day in asked)) for day in days)
    return CareLine(own[0][0], tuple(due))


def _where(chore: Chore) -> str:
    return chore.bed or chore.lot or chore.unit or "all"


def _order(line: CareLine) -> tuple[object, ...]:
    """The most frequent first, so that what is done every day stands together; then the hour, then how grave it is."""
    chore = line.chore
    return (-len(line.due), PARTS.index(chore.part), chore.grade.gravity, line.due[0].day, chore.id)


def _unit_care(reader: Reader, farm: Farm) -> Iterator[UnitCare]:
    """Each unit that holds water which is kept alive, in walking order."""
    today = farm.today()
    lots = live_on(reader, today)
    warmth = {one.unit_id: one for one in reading_facts.latest(reader, today, Measure.TEMPERATURE)}
    out = {one.unit_id: one.out for one in rations(reader, today)}
    for one in incident_facts.units_at_stake(reader, today):
        own = [lot for lot in lots if lot.unit_id == one.unit.id]
        fish = ", ".join(f"{lot.number} {lot.species}" for lot in own)
        feed = feed_of(own, warmth.get(one.unit.id), out.get(one.unit.id), farm.measures, today) if own else None
        yield UnitCare(one.unit, fish, feed)


def _bags(units: Sequence[UnitCare], first: date, last: date, feeding: dict[int, set[date]]) -> Iterator[Bag]:
    """The bags, day by day along the row; a unit without a chore for its feed has one every day."""
    number = 0
    for ahead in range((last - first).days + 1):
        day = first + ahead * DAY
        for one in units:
            fed = one.feed is not None and one.feed.grams != 0 and day in feeding.get(one.unit.id, {day})
            if fed and one.feed is not None:
                number += 1
                yield Bag(number, one.unit.code, day, one.feed.grams)


def _part(sheet: CareSheet, first: date, last: date) -> CareSheet:
    lines = (replace(one, due=tuple(due for due in one.due if first <= due.day <= last)) for one in sheet.lines)
    bags = tuple(one for one in sheet.bags if first <= one.day <= last)
    return replace(sheet, first=first, last=last, lines=tuple(one for one in lines if one.due), bags=bags)


def _lacking(sheet: CareSheet) -> Iterator[str]:
    if not sheet.contacts:
        yield 'nobody to call: farmops people contacts add "Dr Reed" "555 0100" --for vet'
    for one in sheet.units:
        code = one.unit.code
        if one.unit.breaker is None:
            yield f"where the breaker of {code} is: farmops units edit {code} --breaker WORDS"
        if one.unit.valve is None:
            yield f"where the valve of {code} is: farmops units edit {code} --valve WORDS"
        if one.feed is not None and one.feed.grams is None:
            yield f"how much {code} is fed: {one.feed.why}"
