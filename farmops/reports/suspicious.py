"""What looks wrong in the books of a farm: doubles, weights far from the usual, weeks without a tare."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from enum import StrEnum
from itertools import combinations
from typing import TypeVar

from farmops.facts import chores as chore_facts
from farmops.facts import costs as cost_facts
from farmops.facts import farm as farm_facts
from farmops.facts import weighings
from farmops.facts.doubts import unusual_words, usual_of
from farmops.facts.reading import Reader, Store
from farmops.facts.weighings import BookedWeighing
from farmops.model.chores import Settled, SettledAs
from farmops.model.costs import Cost, same_payment
from farmops.model.frozen import dataclass
from farmops.quantities import MASS, Measures, show_money

R = TypeVar("R")
K = TypeVar("K", bound=Hashable)
TARES_LOOKED_AT, FEWEST_TARES, SHARE_WITH_TARE = 10, 5, 0.8
NEW_HABIT = 10
"""So many weighings in a row without a tare are no slip but how it is weighed now."""
RUN_BROKEN = timedelta(days=7)
SCALE_CHECK = "scale-check"
"""The template of the chore in whose words a scale is found off."""
OFF = re.compile(r"[0-9]+(?:[.,][0-9]+)? ?% ?(?:too )?(?:high|low|heavy|light)", re.IGNORECASE)


class Suspect(StrEnum):
    """Why an entry looks wrong."""

    COST_TWICE = "cost booked twice"
    WEIGHED_TWICE = "weighing booked twice"
    UNUSUAL = "unusual weight"
    NO_TARE = "weighed without a tare"
    SCALE_OFF = "weighed on a scale that was off"


@dataclass(frozen=True, slots=True)
class Suspicion:
    """Entries of one kind (`costs`, `harvests`) that look wrong, by their numbers, and why, in a sentence."""

    suspect: Suspect
    day: date
    kind: str
    ids: tuple[int, ...]
    words: str


def suspicious(store: Store, first: date = date.min, last: date = date.max) -> list[Suspicion]:
    """Every entry of a span that a careful bookkeeper would look at again, in the order of days. Raises NoFarm."""
    with store.reading() as reader:
        return suspicious_in(reader, first, last)


def suspicious_in(reader: Reader, first: date = date.min, last: date = date.max) -> list[Suspicion]:
    """The same, read among other things; what is usual is told by all weighings before, also those of other spans."""
    measures = farm_facts.farm(reader).measures
    weighed = weighings.booked(reader, date.min, last)
    of_costs = _costs_twice(cost_facts.costs(reader, first, last), measures)
    of_weighings = (*_weighed_twice(weighed, measures), *_unusual(weighed, measures), *_without_tare(weighed))
    checks = [one for id in _scale_checks(reader) for one in chore_facts.settled(reader, id)]
    found = [*of_costs, *_scale_off(weighed, checks), *of_weighings]
    found = [one for one in found if one.day >= first]
    return sorted(found, key=lambda one: (one.day, one.kind, one.ids))


def _costs_twice(costs: Sequence[Cost], measures: Measures) -> Iterator[Suspicion]:
    for _, alike in _alike(costs, lambda one: (one.day, one.amount_minor)):
        for one, other in combinations(alike, 2):
            if same_payment(one, other.payee, other.what):
                amount, payee = show_money(one.amount_minor, measures), f" from {one.payee}" if one.payee else ""
                words = f"{amount}{payee} on {one.day} is booked for {one.what} and for {other.what}."
                yield Suspicion(Suspect.COST_TWICE, one.day, "costs", (one.id, other.id), words)


def _weighed_twice(weighed: Sequence[BookedWeighing], measures: Measures) -> Iterator[Suspicion]:
    for _, alike in _alike(weighed, lambda one: (one.day, one.kind, one.mass_mg)):
        for one, other in combinations(alike, 2):
            if one.actor.casefold() != other.actor.casefold():
                what = f"{MASS.show(one.mass_mg, measures)} of {one.what} from {one.where} on {one.day}"
                words = f"{what} is booked by {one.actor} and by {other.actor}."
                yield Suspicion(Suspect.WEIGHED_TWICE, one.day, "harvests", (one.id, other.id), words)


def _unusual(weighed: Sequence[BookedWeighing], measures: Measures) -> Iterator[Suspicion]:
    for _, alike in _alike(weighed, lambda one: one.kind):
        for at, one in enumerate(alike):
            band, measured = usual_of(alike[:at]), one.measured_mg
            if band is not None and measured and one.use.counts and not band.holds(measured):
                words = unusual_words(one, measured, band, one, measures)
                yield Suspicion(Suspect.UNUSUAL, one.day, "harvests", (one.id,), f"{one.day}: {words}")


def _without_tare(weighed: Sequence[BookedWeighing]) -> Iterator[Suspicion]:
    """Runs of weighings of a unit without a tare, of what was weighed with one before."""
    lacking = [one for _, alike in _alike(weighed, lambda one: one.kind) for one in _lacking(alike)]
    for unit, of_unit in _alike(lacking, lambda one: one.unit):
        for run in _runs(sorted(of_unit, key=lambda one: (one.day, one.id))):
            first, last = run[0].day, run[-1].day
            days = f"on {first}" if first == last else f"from {first} to {last}"
            words = f"{unit} was weighed {days} without a tare ({len(run)} weighings); before it had one as a rule."
            yield Suspicion(Suspect.NO_TARE, first, "harvests", tuple(one.id for one in run), words)


def _lacking(alike: Sequence[BookedWeighing]) -> Iterator[BookedWeighing]:
    """Weighings of one kind that lack the tare which those before them had as a rule, until that is the new rule."""
    had: list[bool] = []
    run: list[BookedWeighing] = []
    for one in alike:
        usual = len(had) >= FEWEST_TARES and sum(had) >= SHARE_WITH_TARE * len(had)
        if usual and not one.tare_mg and len(run) < NEW_HABIT:
            run.append(one)
            continue
        yield from run if len(run) < NEW_HABIT else ()
        had = [*had, *(False for _ in run), one.tare_mg > 0][-TARES_LOOKED_AT:]
        run = []
    yield from run if len(run) < NEW_HABIT else ()


def _scale_checks(reader: Reader) -> list[int]:
    return [one.id for one in chore_facts.chores(reader) if one.template_key == SCALE_CHECK]


def _scale_off(weighed: Sequence[BookedWeighing], checks: Iterable[Settled]) -> Iterator[Suspicion]:
    """What was weighed between a check that found the scale true and one whose words say that it reads high or low."""
    true: date | None = None
    for check in sorted((one for one in checks if one.kind is SettledAs.DONE), key=lambda one: (one.on_day, one.id)):
        said = OFF.search(f"{check.reason or ''} {check.confirmed or ''}")
        between = [one for one in weighed if (true is None or true < one.day) and one.day <= check.on_day]
        if said and between:
            since = f"since the check of {true}" if true else "before it"
            number = "1 weighing" if len(between) == 1 else f"{len(between)} weighings"
            days = f"{between[0].day} to {between[-1].day}"
            words = f"The scale was found {said[0]} on {check.on_day}: {number} {since}, {days}, may be off by as much."
            yield Suspicion(Suspect.SCALE_OFF, between[0].day, "harvests", tuple(one.id for one in between), words)
        true = check.on_day


def _runs(lacking: Sequence[BookedWeighing]) -> Iterator[list[BookedWeighing]]:
    run: list[BookedWeighing] = []
    for one in lacking:
        if run and one.day - run[-1].day > RUN_BROKEN:
            yield run
            run = []
        run.append(one)
    if run:
        yield run


def _alike(records: Iterable[R], key: Callable[[R], K]) -> Iterable[tuple[K, list[R]]]:
    """Records in groups of the same key, in their order."""
    groups: dict[K, list[R]] = defaultdict(list)
    for one in records:
        groups[key(one)].append(one)
    return groups.items()
