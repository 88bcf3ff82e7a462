"""Power: devices and how long they run, what meters show, and what a kilowatt-hour costs from a day on."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Any, TypeVar

from farmops.facts import power as power_facts
from farmops.farm.fields import given, mapped, measured
from farmops.farm.operation import Operation, operation, rule
from farmops.model.errors import OutOfRange, Refused
from farmops.model.power import (
    Device,
    DeviceChange,
    MeterReading,
    NewDevice,
    NewMeterReading,
    NewPowerPrice,
    PowerPrice,
)
from farmops.model.text import name_of, note_of
from farmops.quantities.power import A_DAY, ENERGY, POWER
from farmops.records.power import DeviceRow, MeterRow, PowerPriceRow
from farmops.records.units import UnitRow

P = TypeVar("P", Device, MeterReading, PowerPrice)


@operation("add device")
def add_device(op: Operation, entry: NewDevice) -> Device:
    """Enter something that runs on power, in one unit or for all."""
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    row = op.add(
        DeviceRow(
            name=_name(entry.name),
            unit_id=entry.unit_id,
            minutes_a_day=entry.minutes_a_day,
            from_day=op.sensible_day(entry.from_day),
            until_day=op.sensible_end(entry.until_day),
            note=note_of(entry.note),
            **measured(entry.rated, "rated_mw", "rated_typed"),
        )
    )
    return _numbered(power_facts.devices(op.reader), row.id)


@operation("change device")
def change_device(op: Operation, entry: DeviceChange) -> Device:
    """Correct a device, or say when it runs for the last time."""
    row = op.get(DeviceRow, entry.device_id)
    names = ("name", "minutes_a_day", "unit_id", "from_day", "until_day", "note")
    values = mapped(given(entry, *names), name=_name, from_day=op.sensible_day, until_day=op.sensible_end, note=note_of)
    if values.get("unit_id") is not None:
        op.get(UnitRow, values["unit_id"])
    op.change(row, **values, **measured(entry.rated, "rated_mw", "rated_typed"))
    return _numbered(power_facts.devices(op.reader), row.id)


@rule(DeviceRow, alone=True)
def runs_within_the_day(op: Operation, row: DeviceRow) -> None:
    """A device draws something, runs no more than the whole day, and ends no earlier than it began."""
    measures = op.farm.measures
    if not 0 < row.rated_mw <= POWER.largest:
        raise OutOfRange(
            f"Not booked: a device draws more than nothing, at most {POWER.show(POWER.largest, measures)}."
        )
    if not 0 <= row.minutes_a_day <= A_DAY.largest:
        raise OutOfRange("Not booked: a device runs between no time and 24 h a day.")
    if row.until_day is not None and row.until_day < row.from_day:
        raise Refused(f"Not booked: it would run for the last time on {row.until_day}, before {row.from_day}.")


@operation("meter reading")
def read_meter(op: Operation, entry: NewMeterReading) -> MeterReading:
    """Book what a meter shows on a day, of one unit or of the whole farm; the same day again corrects it."""
    if entry.unit_id is not None:
        op.get(UnitRow, entry.unit_id)
    day = op.past_day(entry.day)
    values: dict[str, Any] = {"note": note_of(entry.note), **measured(entry.shown, "shown_wh", "shown_typed")}
    known = _read_on(op, entry.unit_id, day)
    row = op.change(op.get(MeterRow, known.id), **values) if known else _new_reading(op, entry.unit_id, day, values)
    return _numbered(power_facts.meters_around(op.reader, entry.unit_id, day), row.id)


def _read_on(op: Operation, unit_id: int | None, day: date) -> MeterReading | None:
    return next((one for one in power_facts.meters_around(op.reader, unit_id, day) if one.day == day), None)


def _new_reading(op: Operation, unit_id: int | None, day: date, values: dict[str, Any]) -> MeterRow:
    return op.add(MeterRow(day=day, unit_id=unit_id, **values))


@rule(MeterRow, alone=True)
def shows_a_number(op: Operation, row: MeterRow) -> None:
    """A meter shows nothing or more."""
    if not 0 <= row.shown_wh <= ENERGY.largest:
        raise OutOfRange(f"Not booked: a meter shows between 0 and {ENERGY.show(ENERGY.largest, op.farm.measures)}.")


@rule(MeterRow)
def never_runs_backwards(op: Operation, row: MeterRow) -> None:
    """A meter shows no less than it did before, and is read once a day."""
    for before, after in pairwise(power_facts.meters_around(op.reader, row.unit_id, row.day)):
        if before.day == after.day and row.id in (before.id, after.id):
            raise Refused(f"Not booked: the meter is read once a day, and was on {row.day} already.")
        if after.shown_wh < before.shown_wh and row.id in (before.id, after.id):
            raise Refused(_backwards(op, before, after))


def _backwards(op: Operation, before: MeterReading, after: MeterReading) -> str:
    first, then = (ENERGY.show_exact(one.shown_wh, op.farm.measures) for one in (before, after))
    return (
        f"Not booked: a meter never runs backwards, and this one would show {first} on {before.day} and {then} on "
        f"{after.day}. After a new meter was put in, go on from what the old one showed last: add the two."
    )


@operation("power price")
def set_power_price(op: Operation, entry: NewPowerPrice) -> PowerPrice:
    """What power costs from a day on; the days before keep theirs, the same day again corrects it."""
    day = op.sensible_day(entry.from_day)
    values: dict[str, Any] = {"price_minor": entry.price_minor, "per_wh": entry.per_wh, "typed": entry.typed}
    known = next((one for one in power_facts.power_prices(op.reader) if one.from_day == day), None)
    if known is not None:
        row = op.change(op.get(PowerPriceRow, known.id), **values)
    else:
        row = op.add(PowerPriceRow(from_day=day, **values))
    return _numbered(power_facts.power_prices(op.reader), row.id)


@rule(PowerPriceRow, alone=True)
def power_costs_nothing_or_more(op: Operation, row: PowerPriceRow) -> None:
    """Power is free or costs something, for some energy."""
    if row.price_minor < 0 or row.per_wh <= 0:
        raise OutOfRange("Not booked: power costs nothing or more for a kilowatt-hour.")


def _name(text: str) -> str:
    return name_of(text, "name of the device")


def _numbered(found: list[P], id: int) -> P:
    return next(one for one in found if one.id == id)
