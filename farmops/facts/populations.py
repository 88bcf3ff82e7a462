"""How many fish a lot holds on any day and how heavy they are, followed through all that happened to it."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from datetime import date
from itertools import groupby

from farmops.facts import fish_events
from farmops.model.fish_events import FishEvent, Happened
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

ORDER = (Happened.STOCKED, Happened.SAMPLED, Happened.MOVED_OUT, Happened.DIED, Happened.HARVESTED)
"""What comes first on one day. A lot that was made by a transfer is weighed after it."""


@dataclass(frozen=True, slots=True)
class Population:
    """A lot after something happened: number, weight of all [mg], and the weighing that this weight rests on.

    Between weighings no growth is assumed. `se_mg` is the standard error of the mean of `sampled` fish weighed one by
    one [mg]; None where they were weighed together, or where others have joined them or were picked out since.
    """

    number: int
    biomass_mg: int
    weighed_day: date
    sampled: int = 0
    se_mg: float | None = None

    @property
    def mean_mg(self) -> int | None:
        """Weight of one fish [mg]; None when none is left."""
        return round(self.biomass_mg / self.number) if self.number > 0 else None


@dataclass(frozen=True, slots=True)
class Step:
    """Something that happened to a lot, the weight that came or went with it [mg], and what was there after it."""

    event: FishEvent
    mass_mg: int
    after: Population


@dataclass(frozen=True, slots=True)
class Life:
    """All that happened to a lot, in order."""

    lot_id: int
    steps: tuple[Step, ...]

    def until(self, on: date) -> tuple[Step, ...]:
        """What had happened at the end of a day."""
        return self.steps[: bisect_right(self.steps, on, key=lambda step: step.event.day)]

    def on(self, on: date) -> Population | None:
        """What was there at the end of a day; None before anything was."""
        steps = self.until(on)
        return steps[-1].after if steps else None


def lives(reader: Reader, lots: Collection[int]) -> dict[int, Life]:
    """The lives of some lots, and of all lots that they gave fish to or had them from."""
    if not lots:
        return {}
    family = fish_events.kin(reader, lots)
    walk = _Walk(fish_events.weighed_singly(reader, family))
    return walk.through(fish_events.events(reader, family))


class _Walk:
    """Goes through the events of lots in order and keeps what each holds."""

    def __init__(self, singly: Mapping[int, tuple[int, ...]]) -> None:
        self.singly = singly
        self.now: dict[int, Population] = {}
        self.steps: dict[int, list[Step]] = defaultdict(list)

    def through(self, events: Iterable[FishEvent]) -> dict[int, Life]:
        """All events, day by day; samples of one lot on one day count as one."""
        found = list(events)
        born = {one.lot_id: one.day for one in found if one.kind is Happened.STOCKED and not one.number}
        ordered = sorted(found, key=lambda one: _when(one, born))
        for (lot, day, kind), group in groupby(ordered, key=lambda one: (one.lot_id, one.day, one.kind)):
            same = list(group)
            if kind is Happened.SAMPLED:
                self._weigh(lot, day, same)
            else:
                for one in same:
                    self._take(one)
        return {lot: Life(lot, tuple(steps)) for lot, steps in self.steps.items()}

    def _take(self, one: FishEvent) -> None:
        if one.kind is Happened.STOCKED:
            self._note(one, one.mass_mg or 0, Population(one.number or 0, one.mass_mg or 0, one.day))
        elif one.kind is Happened.MOVED_OUT:
            self._move(one)
        else:
            self._lose(one)

    def _weigh(self, lot: int, day: date, samples: list[FishEvent]) -> None:
        from farmops.science.fish import mean_weight

        held = self._held(lot, day)
        number, mass = (
            sum(values) for values in zip(*((one.number or 0, one.mass_mg or 0) for one in samples), strict=True)
        )
        each = [mg for one in samples for mg in self.singly.get(one.id, ())]
        se = mean_weight([mg / 1000 for mg in each]).se_g if len(each) == number else None
        whole = round(held.number * mass / number)
        after = Population(held.number, whole, day, number, None if se is None else 1000 * se)
        for one in samples:
            self._note(one, one.mass_mg or 0, after)

    def _lose(self, one: FishEvent) -> None:
        held = self._held(one.lot_id, one.day)
        mass = _part(held, one.number or 0)
        self._note(one, mass, _less(held, one.number or 0, mass))

    def _move(self, one: FishEvent) -> None:
        number, there = one.number or 0, one.other_id or 0
        held, joined = self._held(one.lot_id, one.day), self._held(there, one.day)
        weighed = one.mass_mg is not None
        mass = one.mass_mg if one.mass_mg is not None else _part(held, number)
        left = _less(held, number, mass)
        if weighed:
            left = replace(left, biomass_mg=left.biomass_mg if left.number else 0, sampled=0, se_mg=None)
        self._note(one, mass, left)
        day = one.day if weighed else held.weighed_day
        together = Population(joined.number + number, joined.biomass_mg + mass, day)
        if not joined.number and not weighed:
            together = replace(together, sampled=held.sampled, se_mg=held.se_mg)
        came = replace(one, lot_id=there, kind=Happened.MOVED_IN, other_id=one.lot_id)
        self._note(came, mass, together)

    def _held(self, lot: int, day: date) -> Population:
        return self.now.get(lot, Population(0, 0, day))

    def _note(self, event: FishEvent, mass: int, after: Population) -> None:
        self.now[event.lot_id] = after
        self.steps[event.lot_id].append(Step(event, mass, after))


def _when(one: FishEvent, born: Mapping[int, date]) -> tuple[object, ...]:
    late = one.kind is Happened.SAMPLED and born.get(one.lot_id) == one.day
    at = ORDER.index(Happened.MOVED_OUT if late else one.kind)
    grouped = one.lot_id if one.kind is Happened.SAMPLED else 0
    return one.day, at, late, grouped, one.id, one.lot_id


def _part(held: Population, number: int) -> int:
    """The weight of some of the fish, as heavy as the others are."""
    return round(held.biomass_mg * number / held.number) if held.number > 0 else 0


def _less(held: Population, number: int, mass: int) -> Population:
    return replace(held, number=held.number - number, biomass_mg=held.biomass_mg - mass)
