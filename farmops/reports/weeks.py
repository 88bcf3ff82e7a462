"""Weeks of a span: what each unit, bed or crop brought per area in each of them, as series to compare."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import field
from datetime import date, timedelta
from functools import cached_property

from farmops.facts import beds as bed_facts
from farmops.facts import costs as cost_facts
from farmops.facts import harvests as harvest_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import units as unit_facts
from farmops.facts.reading import Reader
from farmops.model.beds import Bed
from farmops.model.errors import NotFound
from farmops.model.frozen import dataclass
from farmops.model.plantings import Crop, Planting
from farmops.model.units import Unit
from farmops.reports.spans import Span, active_spans
from farmops.reports.worth import no_price

WEEK = 7
Amounts = Mapping[int, Mapping[int, list[float]]]
"""What each bed brought of each crop, week by week."""


@dataclass(frozen=True, slots=True)
class Plot:
    """What is compared: a unit, a bed, or a crop wherever it grows. `beds` are its beds, `crop` the only crop of it."""

    name: str
    beds: frozenset[int]
    crop: int | None = None


@dataclass(frozen=True, slots=True)
class Series:
    """One plot per area and week, by the number of the week in its span; `reason` says why there is nothing.

    A weight is in mg per mm2, a value in minor units per mm2. `made_of` is the amount of each week and its area.
    """

    name: str
    by_week: Mapping[int, float]
    reason: str | None = None
    made_of: Mapping[int, tuple[float, int]] = field(default_factory=dict)

    @property
    def weeks(self) -> tuple[float, ...]:
        """The values, in order."""
        return tuple(self.by_week.values())

    @property
    def total(self) -> float:
        """The sum of all its weeks."""
        return sum(self.weeks)


class Weeks:
    """The whole weeks of a span; what a series needs is read when it is first asked for, from one snapshot."""

    def __init__(self, reader: Reader, span: Span) -> None:
        self.reader = reader
        self.span = span

    @cached_property
    def count(self) -> int:
        """How many whole weeks the span has."""
        return self.span.days // WEEK

    @cached_property
    def units(self) -> list[Unit]:
        """Every unit, in walking order."""
        return unit_facts.units(self.reader)

    @cached_property
    def beds(self) -> list[Bed]:
        """Every bed, in walking order."""
        return bed_facts.beds(self.reader)

    @cached_property
    def crops(self) -> list[Crop]:
        """Every crop, by name."""
        return planting_facts.crops(self.reader)

    @cached_property
    def areas(self) -> dict[int, int]:
        """The area of each bed on the last day, in mm2."""
        return bed_facts.areas_on(self.reader, self.span.last)

    def plot(self, name: str) -> Plot:
        """The unit, bed or crop of a name. Raises NotFound."""
        wanted = " ".join(name.split()).upper()
        for unit in self.units:
            if unit.code == wanted:
                return self.of_unit(unit)
        for bed in self.beds:
            if bed.code == wanted:
                return Plot(bed.code, frozenset({bed.id}))
        for crop in self.crops:
            if crop.name == wanted:
                return Plot(crop.name, frozenset(bed.id for bed in self.beds), crop.id)
        known = ", ".join(unit.code for unit in self.units) or "none yet"
        raise NotFound(f"There is no unit, bed or crop {wanted}. Units: {known}.")

    def of_unit(self, unit: Unit) -> Plot:
        """A unit as a plot."""
        return Plot(unit.code, frozenset(bed.id for bed in self.beds if bed.unit_id == unit.id))

    def crop_called(self, name: str) -> Crop:
        """The crop of a name. Raises NotFound."""
        wanted = " ".join(name.split()).upper()
        for crop in self.crops:
            if crop.name == wanted:
                return crop
        raise NotFound(f"There is no crop {wanted}. Known: {', '.join(one.name for one in self.crops) or 'none yet'}.")

    def grown_in(self, plot: Plot) -> set[int]:
        """The crops that stood in a plot in any whole week of the span."""
        return {one.crop_id for one in self._grown(plot.beds) if plot.crop in (None, one.crop_id) and self._stood(one)}

    def of_crop(self, plot: Plot, crop: int) -> Series:
        """Weight of one crop per area planted with it, in the weeks in which it stood."""
        masses = self._sum((plot.beds, {crop}), self._masses)
        return self._per_area(plot.name, masses, self._planted(plot.beds, crop))

    def value(self, plot: Plot) -> Series:
        """Value of all produce per area: of the beds of a unit while it is active, or planted with a crop."""
        crops = {plot.crop} if plot.crop else {one.id for one in self.crops}
        unpriced = sorted(self._unpriced & {(bed, crop) for bed in plot.beds for crop in crops}, key=lambda key: key[1])
        if unpriced:
            names = {one.id: one.name for one in self.crops}
            return Series(plot.name, {}, no_price(names[unpriced[0][1]]))
        return self._per_area(plot.name, self._sum((plot.beds, crops), self._values), self._areas_of(plot))

    def produce(self, plot: Plot) -> Series:
        """Weight of all produce per area, as `value`."""
        crops = {plot.crop} if plot.crop else {one.id for one in self.crops}
        return self._per_area(plot.name, self._sum((plot.beds, crops), self._masses), self._areas_of(plot))

    def per_sowing(self, plot: Plot) -> Series:
        """Weight of a crop in the weeks in which it stood, per area of all its plantings, each counted once."""
        sown = [one for one in self._grown(plot.beds) if one.crop_id == plot.crop]
        areas = [one.area_mm2 or self.areas.get(one.bed_id) for one in sown if self._stood(one)]
        whole = sum(area for area in areas if area)
        if not whole or None in areas:
            return Series(plot.name, {}, "no bed area was there in any whole week")
        masses, stood = self.masses(plot), {week for one in sown for week in self._stood(one)}
        return Series(plot.name, {week: masses[week] / whole for week in sorted(stood)})

    def masses(self, plot: Plot) -> list[float]:
        """Produce of a plot in each whole week, in mg."""
        crops = {plot.crop} if plot.crop else {one.id for one in self.crops}
        return self._sum((plot.beds, crops), self._masses)

    def _areas_of(self, plot: Plot) -> dict[int, int]:
        if plot.crop is not None:
            return self._planted(plot.beds, plot.crop)
        found: dict[int, int] = {}
        for bed in self.beds:
            if bed.id in plot.beds and self.areas.get(bed.id):
                for week in self._active.get(bed.unit_id, ()):
                    found[week] = found.get(week, 0) + self.areas[bed.id]
        return found

    def _planted(self, beds: Collection[int], crop: int) -> dict[int, int]:
        """Area planted with a crop in each week: the plantings' own areas, or the whole bed, never more than it."""
        found: dict[tuple[int, int], int] = {}
        for one in self._grown(beds):
            bed = self.areas.get(one.bed_id)
            area = one.area_mm2 or bed
            if one.crop_id == crop and area:
                for week in self._stood(one):
                    both = found.get((week, one.bed_id), 0) + area
                    found[week, one.bed_id] = min(both, max(area, bed or both))
        weeks: dict[int, int] = {}
        for (week, _), area in found.items():
            weeks[week] = weeks.get(week, 0) + area
        return weeks

    def _per_area(self, name: str, amounts: Sequence[float], areas: Mapping[int, int]) -> Series:
        if not areas:
            return Series(name, {}, "no bed area was there in any whole week")
        made_of = {week: (amounts[week], areas[week]) for week in sorted(areas)}
        return Series(name, {week: amount / area for week, (amount, area) in made_of.items()}, made_of=made_of)

    def _sum(self, of: tuple[Collection[int], Collection[int]], amounts: Amounts) -> list[float]:
        chosen = [found for bed in of[0] for crop, found in amounts.get(bed, {}).items() if crop in of[1]]
        return [sum(one) for one in zip(*chosen, strict=True)] if chosen else [0.0] * self.count

    def _grown(self, beds: Collection[int]) -> Iterator[Planting]:
        return (one for bed in sorted(beds) for one in self._plantings.get(bed, ()))

    @cached_property
    def _plantings(self) -> dict[int, list[Planting]]:
        found: dict[int, list[Planting]] = {}
        for one in planting_facts.plantings(self.reader):
            found.setdefault(one.bed_id, []).append(one)
        return found

    def _stood(self, one: Planting) -> range:
        """The weeks on any day of which a planting stood."""
        first = max(self._week(one.started_day), 0)
        last = self.count - 1 if one.cleared_day is None else min(self._week(one.cleared_day), self.count - 1)
        return range(first, last + 1)

    def _week(self, day: date) -> int:
        return (day - self.span.first).days // WEEK

    @cached_property
    def _active(self) -> dict[int, list[int]]:
        """The weeks on any day of which each unit was active."""
        whole = Span(self.span.first, self.span.first + timedelta(days=max(self.count * WEEK, 1) - 1))
        found = {}
        for unit, states in unit_facts.all_states(self.reader).items():
            weeks = {
                week
                for one in active_spans(states, whole)
                for week in range(self._week(one.first), min(self._week(one.last), self.count - 1) + 1)
            }
            found[unit] = sorted(weeks)
        return found

    @cached_property
    def _picked(self) -> list[harvest_facts.Picked]:
        found = harvest_facts.picked(self.reader, self.span.first, self.span.last)
        return [one for one in found if self._week(one.day) < self.count]

    @cached_property
    def _masses(self) -> Amounts:
        return self._by_week(lambda one: one.mass_mg)

    @cached_property
    def _values(self) -> Amounts:
        return self._by_week(lambda one: one.mass_mg * (self._price(one.crop_id, one.day) or 0.0))

    def _by_week(self, amount: Callable[[harvest_facts.Picked], float]) -> Amounts:
        found: dict[int, dict[int, list[float]]] = {}
        for one in self._picked:
            weeks = found.setdefault(one.bed_id, {}).setdefault(one.crop_id, [0.0] * self.count)
            weeks[self._week(one.day)] += amount(one)
        return found

    @cached_property
    def _unpriced(self) -> set[tuple[int, int]]:
        return {(one.bed_id, one.crop_id) for one in self._picked if self._price(one.crop_id, one.day) is None}

    @cached_property
    def _prices(self) -> dict[int, list[tuple[date, float]]]:
        found: dict[int, list[tuple[date, float]]] = {}
        for one in cost_facts.prices(self.reader):
            if one.crop_id is not None:
                found.setdefault(one.crop_id, []).append((one.from_day, one.price_minor / one.per_mg))
        return found

    def _price(self, crop: int, day: date) -> float | None:
        """The list price of a crop on a day, in minor units per mg; None where it had none."""
        held = [price for since, price in self._prices.get(crop, ()) if since <= day]
        return held[-1] if held else None
