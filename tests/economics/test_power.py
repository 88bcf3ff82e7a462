"""Power is counted once a day: by the meter where it was read, by rated watts and hours elsewhere."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from farmops.economics.power import power_uses
from farmops.model.power import Device, MeterReading, PowerPrice

START = date(2026, 3, 1)
END = date(2026, 3, 31)


def on(days: int) -> date:
    return START + timedelta(days=days)


def device(unit: int | None, watts: int, hours: int = 24, first: int = -9, last: int | None = None) -> Device:
    until = None if last is None else on(last)
    return Device(1, "pump", unit, None, watts * 1000, f"{watts} W", hours * 60, on(first), until, None)


def meter(unit: int | None, day: int, wh: int) -> MeterReading:
    return MeterReading(1, on(day), unit, None, wh, str(wh), None)


PRICE = PowerPrice(1, on(-9), 20, 1000, "0.20")


def energy(uses, unit):
    return sum((one.watt_hours for one in uses if one.unit_id == unit), Fraction(0))


def test_rated_watts_run_their_hours_on_every_day_they_are_there():
    uses = power_uses([device(1, 40), device(1, 10, hours=12, first=10, last=19)], [], [PRICE], START, END)
    assert energy(uses, 1) == 31 * 24 * 40 + 10 * 12 * 10
    assert sum(one.cost for one in uses) == Fraction((31 * 24 * 40 + 1200) * 20, 1000)
    assert not any(one.metered for one in uses)


def test_a_meter_that_was_read_stands_in_for_rated_watts_between_its_readings():
    uses = power_uses([device(1, 40)], [meter(1, 10, 5000), meter(1, 20, 12_000)], [PRICE], START, END)
    assert energy(uses, 1) == 7000 + 21 * 24 * 40
    assert sum(one.days for one in uses if one.metered) == 10


def test_what_the_farms_meter_shows_beyond_the_units_is_shared_and_no_rated_watts_count():
    meters = [meter(None, 0, 0), meter(None, 31, 31_000), meter(1, 0, 0), meter(1, 31, 10_000)]
    uses = power_uses([device(1, 40), device(2, 40), device(None, 5)], meters, [PRICE], START, END)
    assert {one.unit_id: one.watt_hours for one in uses} == {1: 10_000, None: 21_000}


def test_a_price_holds_from_its_day_and_before_the_first_there_is_none():
    prices = [PowerPrice(1, on(10), 20, 1000, "0.20"), PowerPrice(2, on(20), 30, 1000, "0.30")]
    uses = power_uses([device(1, 1000, hours=1)], [], prices, START, END)
    assert [(one.days, one.cost) for one in uses] == [(10, None), (10, 200), (11, 330)]


@st.composite
def places(draw):
    day = st.integers(-5, 40)
    devices = [
        device(unit, draw(st.integers(1, 90)), draw(st.integers(0, 24)), first)
        for unit in (None, 1, 2)
        for first in draw(st.lists(day, max_size=2))
    ]
    meters = []
    for unit in (None, 1, 2):
        shown = 0
        for read in sorted(draw(st.sets(day, max_size=4))):
            shown += draw(st.integers(0, 9000))
            meters.append(meter(unit, read, shown))
    return devices, meters


@given(places())
def test_each_day_of_each_place_is_counted_once_and_months_add_up_to_the_year(found):
    devices, meters = found
    uses = power_uses(devices, meters, [PRICE], START, END)
    counted = [(one.unit_id, one.first + timedelta(days=day)) for one in uses for day in range(one.days)]
    assert len(counted) == len(set(counted))
    halves = [
        *power_uses(devices, meters, [PRICE], START, on(14)),
        *power_uses(devices, meters, [PRICE], on(15), END),
    ]
    for unit in (None, 1, 2):
        assert energy(uses, unit) == energy(halves, unit)
