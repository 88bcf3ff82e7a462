"""Rows about power: devices, what meters showed, and what a kilowatt-hour costs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from farmops.facts import power as power_facts
from farmops.farm.file_rows.booking import Booking, Mark, alike, by
from farmops.farm.file_rows.days import Standing, once_a_day
from farmops.farm.operation import Operation
from farmops.farm.power import add_device, read_meter, set_power_price
from farmops.model.power import NewDevice, NewMeterReading, NewPowerPrice
from farmops.quantities.power import ENERGY, PowerRate, show_power_price
from farmops.records.power import MeterRow, PowerPriceRow
from farmops.records.reading import Reader


def _devices_held(reader: Reader, entries: Sequence[NewDevice]) -> list[Mark]:
    return [(alike(one.name), one.unit_id, one.rated_mw, one.from_day) for one in power_facts.devices(reader)]


def _shown(op: Operation, entry: NewMeterReading) -> Standing | None:
    for one in power_facts.meters_around(op.reader, entry.unit_id, entry.day):
        if one.day == entry.day:
            shown = ENERGY.show_exact(one.shown_wh, op.farm.measures)
            words = f"the meter of {one.unit or 'the farm'} showed {shown} on {one.day}"
            return Standing(MeterRow, one.id, one.shown_wh == entry.shown.exact, words)
    return None


def _priced(op: Operation, entry: NewPowerPrice) -> Standing | None:
    for one in power_facts.power_prices(op.reader):
        if one.from_day == entry.from_day:
            same = one.price_minor * entry.per_wh == entry.price_minor * one.per_wh
            price = show_power_price(PowerRate(one.price_minor, one.per_wh), op.farm.measures)
            return Standing(PowerPriceRow, one.id, same, f"power costs {price} from {one.from_day}")
    return None


BOOKINGS: dict[str, Booking[Any]] = {
    "devices": Booking(
        lambda one: (alike(one.name), one.unit_id, one.rated.exact, one.from_day),
        _devices_held,
        by(add_device.body),
        one_by_one=True,
    ),
    "meter readings": once_a_day(_shown, read_meter.body),
    "power prices": once_a_day(_priced, set_power_price.body),
}
