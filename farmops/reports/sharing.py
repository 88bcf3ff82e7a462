"""What shared costs go to the units by: the driver in force, weighted by the days each unit was active."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from fractions import Fraction
from functools import cached_property

from farmops.economics.allocation import allot_by
from farmops.economics.power import power_uses
from farmops.facts import beds as bed_facts
from farmops.facts import costs as cost_facts
from farmops.facts import fish as fish_facts
from farmops.facts import labour as labour_facts
from farmops.facts import power as power_facts
from farmops.facts import units as unit_facts
from farmops.facts.labour import Worked
from farmops.facts.populations import lives
from farmops.facts.reading import Reader
from farmops.figures import Figure, given, share
from farmops.model.costs import ALL_SHARED, Category, Driver, DriverFrom
from farmops.model.frozen import dataclass
from farmops.reports.spans import Span, active_spans

Weight = int | Fraction


@dataclass(frozen=True, slots=True)
class Weights:
    """What each active unit bears shared costs by; `note` says what had to be left out or done instead."""

    words: str
    unit: str
    of: Mapping[int, Weight]
    note: str | None = None


class Sharing:
    """The drivers of a farm over one span; what a driver needs is read when it is first asked for."""

    def __init__(self, reader: Reader, span: Span) -> None:
        self.reader = reader
        self.span = span
        self._weights: dict[int | None, Weights] = {}

    @cached_property
    def active(self) -> dict[int, list[Span]]:
        """When each unit that was active at all was so within the span."""
        states = unit_facts.all_states(self.reader)
        found = {id: active_spans(held, self.span) for id, held in states.items()}
        return {id: spans for id, spans in found.items() if spans}

    @cached_property
    def days(self) -> dict[int, int]:
        """On how many days of the span each unit was active."""
        return {id: sum(one.days for one in spans) for id, spans in self.active.items()}

    @cached_property
    def worked(self) -> list[Worked]:
        """Minutes booked in the span and what they were worth, by unit."""
        return labour_facts.worked(self.reader, self.span.first, self.span.last)

    @cached_property
    def days_with_minutes(self) -> int:
        """On how many days of the span minutes were booked."""
        return labour_facts.days_with_minutes(self.reader, self.span.first, self.span.last) if self.worked else 0

    @cached_property
    def drivers(self) -> dict[int, DriverFrom]:
        """Every driver by its id."""
        return {one.id: one for one in cost_facts.drivers(self.reader)}

    def in_force(self, category: Category, day: date) -> int | None:
        """The driver of a category on a day; None is equal parts for every active day."""
        for named in (category.value, ALL_SHARED):
            held = [one for one in self.drivers.values() if one.category == named and one.from_day <= day]
            if held:
                return max(held, key=lambda one: one.from_day).id
        return None

    def weights(self, driver_id: int | None) -> Weights:
        """What a driver makes each active unit bear."""
        if driver_id not in self._weights:
            self._weights[driver_id] = self._weigh(self.drivers.get(driver_id) if driver_id else None)
        return self._weights[driver_id]

    def parts(self, shared: Figure, driver_id: int | None) -> dict[int, Figure]:
        """Each active unit's part of a shared figure, adding up to it; none where there is nothing or nobody."""
        weights = self.weights(driver_id)
        if not shared.value or not weights.of:
            return {}
        everyone = given("all units together", sum(weights.of.values()), weights.unit, weights.words)
        return {
            id: share(
                f"part of the {shared.name}{self._told(driver_id)}",
                value,
                shared,
                (given("its own", weights.of[id], weights.unit, weights.words), everyone),
                f"shared by {weights.words}",
                weights.note,
            )
            for id, value in allot_by(int(shared.value), weights.of).items()
        }

    def _told(self, driver_id: int | None) -> str:
        """Of which costs a driver of its own tells, so that the parts of one unit are told apart."""
        held = self.drivers.get(driver_id) if driver_id else None
        if held is None:
            return ""
        alike = sum(one.category == held.category for one in self.drivers.values())
        since = f" from {held.from_day}" if alike > 1 or held.category == ALL_SHARED else ""
        return since if held.category == ALL_SHARED else f" for {held.category}{since}"

    def _weigh(self, held: DriverFrom | None) -> Weights:
        if held is None or held.driver is Driver.EQUAL:
            return self._by_days()
        words, unit, measure = MEASURES[held.driver]
        found = {id: weight for id, weight in measure(self, held).items() if id in self.days and weight > 0}
        if not found:
            return self._by_days(f"There is no {held.driver} to share by, so it is shared by active days.")
        without = len(self.days) - len(found)
        return Weights(words, unit, found, f"{without} active units have no {held.driver}." if without else None)

    def _by_days(self, note: str | None = None) -> Weights:
        return Weights("the days each unit was active", "days", self.days, note)


def _bed_area(sharing: Sharing, _: DriverFrom) -> dict[int, Weight]:
    found: dict[int, Weight] = {}
    sizes = bed_facts.all_sizes(sharing.reader)
    for bed in bed_facts.beds(sharing.reader):
        steps = [(one.from_day, one.area_mm2) for one in sizes if one.bed_id == bed.id]
        spans = sharing.active.get(bed.unit_id, [])
        found[bed.unit_id] = found.get(bed.unit_id, 0) + sum(
            area * _days_in(spans, first, last) for first, last, area in _held(steps)
        )
    return found


def _tank_volume(sharing: Sharing, _: DriverFrom) -> dict[int, Weight]:
    units = unit_facts.units(sharing.reader)
    return {one.id: (one.tank_ml or 0) * sharing.days.get(one.id, 0) for one in units}


def _biomass(sharing: Sharing, _: DriverFrom) -> dict[int, Weight]:
    found: dict[int, Weight] = {}
    stays = fish_facts.stays(sharing.reader)
    known = lives(sharing.reader, {stay.lot_id for stay in stays})
    for stay in stays:
        spans = _within(sharing.active.get(stay.unit_id, []), stay.first, stay.last)
        steps = [(step.event.day, step.after.biomass_mg) for step in known[stay.lot_id].steps]
        mass_days = sum(mass * _days_in(spans, first, last) for first, last, mass in _held(steps))
        found[stay.unit_id] = found.get(stay.unit_id, 0) + mass_days
    return found


def _minutes(sharing: Sharing, _: DriverFrom) -> dict[int, Weight]:
    return {one.unit_id: one.minutes for one in sharing.worked if one.unit_id is not None}


def _watt_hours(sharing: Sharing, _: DriverFrom) -> dict[int, Weight]:
    devices = power_facts.devices(sharing.reader)
    found: dict[int, Weight] = {}
    for one in power_uses(devices, (), (), sharing.span.first, sharing.span.last):
        if one.unit_id is not None:
            found[one.unit_id] = found.get(one.unit_id, 0) + one.watt_hours
    return found


def _fixed_shares(sharing: Sharing, held: DriverFrom) -> dict[int, Weight]:
    return {unit: parts * sharing.days.get(unit, 0) for unit, parts in held.shares}


MEASURES: dict[Driver, tuple[str, str, Callable[[Sharing, DriverFrom], dict[int, Weight]]]] = {
    Driver.BED_AREA: ("bed area times active days", "mm2 days", _bed_area),
    Driver.TANK_VOLUME: ("tank volume times active days", "ml days", _tank_volume),
    Driver.BIOMASS: ("weight of live fish times active days", "mg days", _biomass),
    Driver.MINUTES: ("minutes worked", "minutes", _minutes),
    Driver.WATT_HOURS: ("rated watt-hours", "Wh", _watt_hours),
    Driver.FIXED_SHARES: ("fixed shares times active days", "parts", _fixed_shares),
}


def _held(steps: Sequence[tuple[date, int]]) -> Iterable[tuple[date, date | None, int]]:
    """From-dated values as spans, both ends included; None is open."""
    for (first, value), following in zip(steps, [*steps[1:], None], strict=True):
        yield first, following[0] - timedelta(days=1) if following else None, value


def _within(spans: Sequence[Span], first: date, last: date | None) -> list[Span]:
    """What of some spans lies between two days, both included; None is open."""
    cut = ((max(one.first, first), one.last if last is None else min(one.last, last)) for one in spans)
    return [Span(begin, end) for begin, end in cut if begin <= end]


def _days_in(spans: Sequence[Span], first: date, last: date | None) -> int:
    """How many days of some spans lie between two days, both included; None is open."""
    return sum(one.days for one in _within(spans, first, last))
