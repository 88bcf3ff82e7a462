"""Lists of power: devices, what meters showed, and prices."""

from __future__ import annotations

from datetime import date

from farmops.model.power import Device, MeterReading, PowerPrice
from farmops.quantities import Measures, show_money
from farmops.quantities.power import A_DAY, ENERGY, POWER, PowerRate, show_power_price
from farmops.reports.power_used import PlaceUse, power_book
from farmops.reports.store import Store
from farmops.tui.widgets.listing_lines import Column, Heading, Line

DEVICE_COLUMNS = (
    Column("unit", "for"),
    Column("name", "device", grow=True),
    Column("rated", "rated", align="right"),
    Column("hours", "a day", align="right"),
    Column("from", "from", priority=1),
    Column("until", "until", priority=2),
)
METER_COLUMNS = (
    Column("day", "day"),
    Column("unit", "meter of"),
    Column("shown", "shows", align="right"),
    Column("note", "note", grow=True),
)
PRICE_COLUMNS = (Column("from", "from"), Column("price", "price", grow=True))


def devices(store: Store, today: date, unit: str | None) -> list[Device]:
    """What runs where the person stands, and for all."""
    return [one for one in power_book(store).devices if unit is None or one.unit in (unit, None)]


def device_line(one: Device, measures: Measures) -> Line:
    """A device; one that runs no more is quiet."""
    rated, hours = POWER.show(one.rated_mw, measures), A_DAY.show(one.minutes_a_day, measures)
    cells = (one.unit or "all", one.name, rated, hours, str(one.from_day), str(one.until_day or ""))
    return Line(f"devices {one.id}", cells, look="quiet" if one.until_day else "normal", data=one)


def readings(store: Store, today: date, unit: str | None) -> list[MeterReading]:
    """What the meters showed where the person stands, and the farm's own, newest first."""
    found = [one for one in power_book(store).meters if unit is None or one.unit in (unit, None)]
    return sorted(found, key=lambda one: (one.day, one.id), reverse=True)


def reading_line(one: MeterReading, measures: Measures) -> Line:
    """What a meter showed on a day."""
    cells = (str(one.day), one.unit or "farm", ENERGY.show(one.shown_wh, measures), one.note or "")
    return Line(f"meter readings {one.id}", cells, data=one)


def prices(store: Store, today: date, unit: str | None) -> list[PowerPrice]:
    """What power cost from day to day, the newest first."""
    return list(power_book(store).prices[::-1])


def price_line(one: PowerPrice, measures: Measures) -> Line:
    """A price of power."""
    price = show_power_price(PowerRate(one.price_minor, one.per_wh), measures)
    return Line(f"power prices {one.id}", (str(one.from_day), price), data=one)


def used_lines(found: list[PlaceUse], measures: Measures) -> list[Line | Heading]:
    """What power each place used in the last days, in the columns of Money, under a heading."""
    if not found:
        return []
    return [Heading("Power in the last 30 days; e reads the meter"), *(_used_line(one, measures) for one in found)]


def _used_line(one: PlaceUse, measures: Measures) -> Line:
    told = "by the meter" if not one.rated_days else "by rated watts"
    if one.metered_days and one.rated_days:
        told = f"by the meter on {one.metered_days} of {one.metered_days + one.rated_days} days"
    cost = "" if one.cost_minor is None else show_money(one.cost_minor, measures)
    kind = "no price" if one.unpriced_days else "power"
    what = f"{ENERGY.show(one.watt_hours, measures)} {told}"
    return Line(f"power {one.unit}", ("", what, one.unit or "all", cost, kind, ""), data=one)
