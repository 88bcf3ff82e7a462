"""How power is printed: in JSON's words, and in a line."""

from __future__ import annotations

from farmops.cli.desk import Desk
from farmops.cli.entries import NOTHING
from farmops.cli.trees import whys
from farmops.model.power import Device, MeterReading, PowerPrice
from farmops.model.values import Measured
from farmops.quantities import Dimension
from farmops.quantities.power import A_DAY, POWER
from farmops.reports import names
from farmops.reports.power_used import PlaceUse


def plain_device(one: Device) -> dict[str, object]:
    """A device in JSON's words; until null while it goes on, unit null for all."""
    return {
        "id": one.id,
        "name": one.name,
        "unit": one.unit,
        "rated_mw": one.rated_mw,
        "rated_typed": one.rated_typed,
        "minutes_a_day": one.minutes_a_day,
        "from": one.from_day,
        "until": one.until_day,
        "note": one.note,
    }


def plain_reading(one: MeterReading) -> dict[str, object]:
    """A reading of a meter in JSON's words; unit null for the farm's own."""
    return {
        "id": one.id,
        "date": one.day,
        "unit": one.unit,
        "shown_wh": one.shown_wh,
        "shown_typed": one.shown_typed,
        "note": one.note,
    }


def plain_price(one: PowerPrice) -> dict[str, object]:
    """A price of power in JSON's words: so many cents for so many watt-hours."""
    return {"id": one.id, "from": one.from_day, "cents": one.price_minor, "per_wh": one.per_wh, "typed": one.typed}


def plain_use(one: PlaceUse, with_why: bool = False) -> dict[str, object]:
    """What was used in JSON's words; unit null for what all share, cost null where no price held."""
    return {
        "unit": one.unit,
        "metered_days": one.metered_days,
        "rated_days": one.rated_days,
        "energy_wh": one.watt_hours,
        "cost_cents": one.cost_minor,
        "unpriced_days": one.unpriced_days,
        **whys(with_why, {"energy_wh": one.figures["energy"], "cost_cents": one.figures["cost"]}),
    }


def days_of(one: Device) -> str:
    """From when and until when a device runs."""
    return f"{one.from_day} to {one.until_day}" if one.until_day else f"{one.from_day} on"


def device_words(desk: Desk, one: Device) -> str:
    """A device with its rated power and its hours."""
    rated, hours = POWER.show(one.rated_mw, desk.measures), A_DAY.show(one.minutes_a_day, desk.measures)
    return f"{one.name}, {rated}, {hours} a day"


def measured(desk: Desk, dimension: Dimension, text: str, *, zero_ok: bool = False) -> Measured:
    """An amount as typed, exactly."""
    return Measured(dimension.parse(text, desk.measures, zero_ok=zero_ok), text)


def unit_id(desk: Desk, code: str | None) -> int | None:
    """The unit of that code; None where none is named."""
    return names.unit(desk.store, code).id if code is not None and code != NOTHING else None
