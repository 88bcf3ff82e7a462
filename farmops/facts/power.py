"""Power: devices, what meters showed, and prices."""

from __future__ import annotations

from datetime import date

from farmops.model.power import Device, MeterReading, PowerPrice
from farmops.records.reading import Reader

DEVICES = """
    SELECT device.id, device.name, device.unit_id, unit.code AS unit, device.rated_mw, device.rated_typed,
        device.minutes_a_day, device.from_day, device.until_day, device.note
    FROM device LEFT JOIN unit ON unit.id = device.unit_id
    ORDER BY COALESCE(unit.position, -1), unit.id, device.from_day, device.id
"""
METERS = """
    SELECT meter.id, meter.day, meter.unit_id, unit.code AS unit, meter.shown_wh, meter.shown_typed, meter.note
    FROM meter LEFT JOIN unit ON unit.id = meter.unit_id
"""
OWN = "COALESCE(meter.unit_id, 0) = :unit"
AROUND = f"""
    WHERE {OWN} AND meter.day IN (
        :day,
        (SELECT MAX(day) FROM meter WHERE {OWN} AND day < :day),
        (SELECT MIN(day) FROM meter WHERE {OWN} AND day > :day)
    )
    ORDER BY meter.day, meter.id
"""
PRICES = "SELECT id, from_day, price_minor, per_wh, typed FROM power_price ORDER BY from_day"


def devices(reader: Reader) -> list[Device]:
    """Everything that runs on power, the farm's own first, then in walking order."""
    return reader.all(Device, DEVICES)


def meters(reader: Reader) -> list[MeterReading]:
    """What meters showed, the farm's own first, then in walking order, by day."""
    order = "ORDER BY COALESCE(unit.position, -1), unit.id, meter.day, meter.id"
    return reader.all(MeterReading, f"{METERS} {order}")


def meters_around(reader: Reader, unit_id: int | None, day: date) -> list[MeterReading]:
    """What the meter of a unit, or of the farm (None), showed on a day, when it was read before and when after."""
    return reader.all(MeterReading, f"{METERS} {AROUND}", unit=unit_id or 0, day=day)


def power_prices(reader: Reader) -> list[PowerPrice]:
    """What power cost from day to day."""
    return reader.all(PowerPrice, PRICES)
