"""Power: a meter never runs backwards, is read once a day, and what is entered can be."""

from __future__ import annotations

from typing import Any

import pytest

from farmops.farm.farm import change_farm
from farmops.farm.operation import Operation, operation
from farmops.farm.power import add_device, change_device, read_meter, set_power_price
from farmops.farm.removal import remove_record
from farmops.farm.undo import undo
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.model.farm import FarmChange
from farmops.model.journal import Removal, Which
from farmops.model.power import DeviceChange, NewDevice, NewMeterReading, NewPowerPrice
from farmops.model.values import Measured
from farmops.quantities import METRIC
from farmops.records.power import MeterRow
from farmops.records.store import Store
from tests.farmhand import ADA, a_unit, everything_stored, last_operation, on


def shown(kwh: int, month: int, unit: int | None = 1) -> NewMeterReading:
    """What a meter shows on the first of a month."""
    return NewMeterReading(on(month, 1), Measured(kwh * 1000, str(kwh)), unit)


def a_pump(**more: Any) -> NewDevice:
    """A pump of 40 W from May, unless told otherwise."""
    return NewDevice(**{"name": "pump", "rated": Measured(40_000, "40 W"), "from_day": on(5, 1), **more})


@pytest.fixture
def powered(farm_store: Store) -> Store:
    """A unit with a pump, whose meter was read in May and July."""
    a_unit(farm_store)
    add_device(farm_store, a_pump(unit_id=1), by=ADA)
    read_meter(farm_store, shown(100, 5), by=ADA)
    read_meter(farm_store, shown(160, 7), by=ADA)
    return farm_store


def test_the_same_day_again_corrects_what_a_meter_showed(powered: Store) -> None:
    again = read_meter(powered, NewMeterReading(on(7, 1), Measured(161_000, "161"), 1, "glare"), by=ADA)
    assert (again.id, again.shown_wh, again.note) == (2, 161_000, "glare")
    other = read_meter(powered, shown(9, 7, None), by=ADA)
    assert (other.id, other.unit) == (3, None)


@pytest.mark.parametrize(("kwh", "month"), [(99, 6), (161, 6), (159, 8), (101, 4), (161, 5), (99, 7)])
def test_a_meter_never_runs_backwards_between_any_two_readings(powered: Store, kwh: int, month: int) -> None:
    before = everything_stored(powered)
    with pytest.raises(Refused, match=r"a meter never runs backwards.* After a new meter was put in"):
        read_meter(powered, shown(kwh, month), by=ADA)
    assert everything_stored(powered) == before
    read_meter(powered, shown(kwh, month, None), by=ADA)


def test_undoing_a_removal_may_not_make_it_run_backwards(powered: Store) -> None:
    remove_record(powered, Removal("meter readings", 2), by=ADA)
    gone = last_operation(powered)
    read_meter(powered, shown(120, 8), by=ADA)
    with pytest.raises(Refused, match="would break a rule"):
        undo(powered, Which(gone), by=ADA)


def test_the_farms_own_meter_has_one_reading_a_day_whoever_writes_it(powered: Store) -> None:
    @operation("twice")
    def twice(op: Operation, entry: int) -> int:
        """Two readings of the farm's meter on one day."""
        for _ in range(2):
            op.add(MeterRow(day=on(5, 1), unit_id=None, shown_wh=entry, shown_typed="x"))
        return entry

    with pytest.raises(Refused, match="read once a day, and was on 2026-05-01 already"):
        twice(powered, 5, by=ADA)


@pytest.mark.parametrize(
    ("function", "entry", "kind", "said"),
    [
        (add_device, a_pump(rated=Measured(0, "0")), OutOfRange, "draws more than nothing"),
        (add_device, a_pump(minutes_a_day=1441), OutOfRange, "between no time and 24 h a day"),
        (add_device, a_pump(until_day=on(4, 30)), Refused, "for the last time on 2026-04-30, before 2026-05-01"),
        (add_device, a_pump(unit_id=9), NotFound, "no unit 9"),
        (add_device, a_pump(name=" "), Exception, "name of the device is empty"),
        (change_device, DeviceChange(1, until_day=on(4, 30)), Refused, "for the last time"),
        (change_device, DeviceChange(9), NotFound, "no device 9"),
        (read_meter, shown(1, 9, 9), NotFound, "no unit 9"),
        (read_meter, NewMeterReading(on(9, 1), Measured(-1, "-1")), OutOfRange, "a meter shows between 0 and"),
        (set_power_price, NewPowerPrice(on(9, 1), -1, 1000, "-1"), OutOfRange, "costs nothing or more"),
    ],
)
def test_what_cannot_be_is_refused_in_words(
    powered: Store, function: Any, entry: Any, kind: type[Exception], said: str
) -> None:
    before = everything_stored(powered)
    with pytest.raises(kind, match=said):
        function(powered, entry, by=ADA)
    assert everything_stored(powered) == before


def test_a_price_of_power_keeps_the_currency(powered: Store) -> None:
    set_power_price(powered, NewPowerPrice(on(5, 1), 16, 1000, "0.16"), by=ADA)
    with pytest.raises(Refused, match="booked in USD"):
        change_farm(powered, FarmChange(measures=METRIC), by=ADA)
