"""What power was used and what it cost, day by day, from meters where they were read and from rated watts elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise

from farmops.model.frozen import dataclass
from farmops.model.power import Device, MeterReading, PowerPrice

MWMIN_PER_WH = 60_000
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class PowerUse:
    """Power of one unit, or of what all share (None), over some days in a row.

    Attributes:
        unit_id: the unit, None for what all share.
        first: the first of the days.
        last: the last of them.
        metered: whether a meter told it; else rated watts and hours did.
        watt_hours: energy over all these days [Wh].
        cost: what it cost [minor units]; None where no price held.
        records: ids of the readings of the meter before and after, or of the devices that ran.
    """

    unit_id: int | None
    first: date
    last: date
    metered: bool
    watt_hours: Fraction
    cost: Fraction | None
    records: tuple[int, ...] = ()

    @property
    def days(self) -> int:
        """How many days they are."""
        return (self.last - self.first).days + 1


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Days between two readings of one meter: from the day of the first to the day before the second."""

    unit_id: int | None
    first: date
    last: date
    a_day: Fraction
    readings: tuple[int, int]

    def covers(self, day: date) -> bool:
        return self.first <= day <= self.last


def power_uses(
    devices: Sequence[Device],
    meters: Sequence[MeterReading],
    prices: Sequence[PowerPrice],
    first: date,
    last: date,
) -> list[PowerUse]:
    """Power of every unit, and of what all share, in a span; each day of each place is counted once.

    Where the meter of a unit was read before and after a day, it tells that unit's use; rated watts of the same
    unit do not count then. Where the farm's meter tells a day, what the units' meters leave of it is shared by all,
    and no rated watts count. A meter's use is spread evenly over the days between two readings.

    Args:
        devices: what runs, rated [mW] with its time a day [min].
        meters: what meters showed [Wh], in any order.
        prices: prices from a day on, in any order.
        first: first day of the span.
        last: last day, included.

    Returns:
        Uses of days in a row on which nothing changes, by day and place; places without use are left out.
    """
    stretches = [one for one in _stretches(meters) if one.first <= last and one.last >= first]
    starts = sorted(_changes(devices, stretches, prices, first, last))
    found: list[PowerUse] = []
    for start, following in zip(starts, [*starts[1:], last + DAY], strict=True):
        price = _price_on(prices, start)
        days = (following - start).days
        for one in _on_day(devices, stretches, start):
            energy = one.a_day * days
            cost = None if price is None else energy * price.price_minor / price.per_wh
            found.append(PowerUse(one.unit_id, start, following - DAY, one.metered, energy, cost, one.records))
    return found


def _stretches(meters: Sequence[MeterReading]) -> Iterator[_Stretch]:
    for unit_id in {one.unit_id for one in meters}:
        shown = sorted((one for one in meters if one.unit_id == unit_id), key=lambda one: (one.day, one.shown_wh))
        for one, then in pairwise(shown):
            if then.day > one.day and then.shown_wh >= one.shown_wh:
                a_day = Fraction(then.shown_wh - one.shown_wh, (then.day - one.day).days)
                yield _Stretch(unit_id, one.day, then.day - DAY, a_day, (one.id, then.id))


def _changes(
    devices: Sequence[Device], stretches: Sequence[_Stretch], prices: Sequence[PowerPrice], first: date, last: date
) -> set[date]:
    """The first day, and every later one of the span from which anything is different."""
    days = {one.from_day for one in devices} | {one.until_day + DAY for one in devices if one.until_day}
    days |= {one.first for one in stretches} | {one.last + DAY for one in stretches} | {one.from_day for one in prices}
    return {first} | {day for day in days if first < day <= last}


def _price_on(prices: Sequence[PowerPrice], day: date) -> PowerPrice | None:
    return max((one for one in prices if one.from_day <= day), key=lambda one: one.from_day, default=None)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What a place draws on a day: watt-hours, whether a meter told it, and the records that do."""

    unit_id: int | None
    metered: bool
    a_day: Fraction
    records: tuple[int, ...]


def _on_day(devices: Sequence[Device], stretches: Sequence[_Stretch], day: date) -> list[_Drawn]:
    """What every place with use draws on a day."""
    metered = {one.unit_id: one for one in stretches if one.covers(day)}
    whole_farm = metered.pop(None, None)
    found = [_Drawn(one.unit_id, True, one.a_day, one.readings) for one in metered.values()]
    if whole_farm is not None:
        rest = whole_farm.a_day - sum(one.a_day for one in metered.values())
        records = whole_farm.readings + tuple(id for one in metered.values() for id in one.readings)
        found.append(_Drawn(None, True, max(rest, Fraction(0)), records))
    else:
        found += _rated([one for one in devices if one.unit_id not in metered], day)
    return [one for one in found if one.a_day]


def _rated(devices: Sequence[Device], day: date) -> Iterator[_Drawn]:
    running = [one for one in devices if one.from_day <= day and (one.until_day is None or day <= one.until_day)]
    for unit_id in dict.fromkeys(one.unit_id for one in running):
        own = [one for one in running if one.unit_id == unit_id]
        drawn = sum((Fraction(one.rated_mw * one.minutes_a_day, MWMIN_PER_WH) for one in own), Fraction(0))
        yield _Drawn(unit_id, False, drawn, tuple(one.id for one in own))
