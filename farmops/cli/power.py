"""`farmops power`: what runs, what meters show, what a kilowatt-hour costs, and what power was used."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NOTHING, NUMBER, emptied, numbered
from farmops.cli.options import json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.model.journal import Removal
from farmops.model.power import (
    Device,
    DeviceChange,
    MeterReading,
    NewDevice,
    NewMeterReading,
    NewPowerPrice,
    PowerPrice,
)
from farmops.model.values import Measured
from farmops.quantities import show_money
from farmops.quantities.power import A_DAY, ENERGY, POWER, PowerRate, parse_power_price, show_power_price
from farmops.reports import lists, names
from farmops.reports.power_used import PlaceUse, power_book, power_used

KINDS = {"device": "devices", "reading": "meter readings", "price": "power prices"}
NONE_YET = 'Nothing is known of power yet. Begin: farmops power device add pump "40 W" --unit WREN'
FARM = "the whole farm"


@click.group()
def power() -> None:
    """Power by the meter or by rated watts and hours, never both for the same days; and what it costs.

    Power near water kills: work on it is for a licensed electrician, behind a ground-fault device.
    """


@power.command("list")
@json_option
@pass_desk
def list_power(desk: Desk, as_json: bool) -> None:
    """List every device, reading of a meter and price with its number.

    \b
    Example: farmops power list
    """
    book = power_book(desk.store)
    if as_json:
        emit(
            {
                "currency": desk.measures.currency,
                "devices": [plain_device(one) for one in book.devices],
                "readings": [plain_reading(one) for one in book.meters],
                "prices": [plain_price(one) for one in book.prices],
            }
        )
        return
    rows = [["device", str(one.id), _days(one), one.unit or "all", _device_words(desk, one)] for one in book.devices]
    rows += [
        ["reading", str(one.id), str(one.day), one.unit or "farm", ENERGY.show(one.shown_wh, desk.measures)]
        for one in book.meters
    ]
    rows += [["price", str(one.id), str(one.from_day), "", _price_words(desk, one)] for one in book.prices]
    if rows:
        table(["what", "no.", "day", "of", ""], rows, right=[1])
    else:
        say(NONE_YET)


@power.command("show")
@span_options
@json_option
@pass_desk
def show_power(desk: Desk, first: str | None, last: str | None, as_json: bool) -> None:
    """What power each unit used and what it cost, in the 30 days to today or in a span.

    \b
    Example: farmops power show --from "1 sep" --to "30 sep"
    """
    from datetime import timedelta

    lists.farm(desk.store)
    until = desk.day(last)
    since = desk.day_or_none(first) or until - timedelta(days=29)
    found = power_used(desk.store, since, until)
    if as_json:
        emit(
            {
                "currency": desk.measures.currency,
                "from": since,
                "to": until,
                "places": [plain_use(one) for one in found],
            }
        )
        return
    line(f"Power from {since} to {until}")
    if not found:
        say(NONE_YET)
        return
    rows = [[one.unit or "shared", _energy(desk, one), _cost(desk, one), _told_by(one)] for one in found]
    table(["unit", "used", "cost", "told by"], rows, right=[1, 2])
    if any(one.unpriced_days for one in found):
        say("Days before the first price are not counted. Set one: farmops power price 0.16 --on DAY")


@power.command("price")
@click.argument("price")
@on_option
@json_option
@pass_desk
def set_price(desk: Desk, price: str, on: str | None, as_json: bool) -> None:
    """A kilowatt-hour costs PRICE from a day on; the days before keep theirs.

    \b
    Examples: farmops power price 0.16 --on "1 jan"
              farmops power price 0.1625/kWh
    """
    from farmops.farm.power import set_power_price

    rate = parse_power_price(price, desk.measures)
    booked = set_power_price(desk.store, NewPowerPrice(desk.day(on), rate.minor, rate.per_wh, price), **desk.hand)
    if as_json:
        emit({"currency": desk.measures.currency, **plain_price(booked)})
    else:
        say(f"Power costs {_price_words(desk, booked)} from {booked.from_day}; number {booked.id}.")


@power.command("meter")
@click.argument("shown")
@click.option("--unit", metavar="CODE", help="The unit whose meter it is. [the farm's]")
@note_option
@on_option
@json_option
@pass_desk
def read_meter(desk: Desk, shown: str, unit: str | None, note: str | None, on: str | None, as_json: bool) -> None:
    """A meter shows SHOWN kilowatt-hours; the same day again corrects it.

    \b
    Example: farmops power meter 1234.5 --unit WREN
    """
    from farmops.farm.power import read_meter as book

    entry = NewMeterReading(desk.day(on), _measured(desk, ENERGY, shown, zero_ok=True), _unit(desk, unit), note)
    one = book(desk.store, entry, **desk.hand)
    if as_json:
        emit(plain_reading(one))
    else:
        said = ENERGY.show(one.shown_wh, desk.measures)
        say(f"The meter of {one.unit or FARM} shows {said} on {one.day}; number {one.id}.")


@power.group("device")
def device() -> None:
    """What runs on power: rated watts and hours a day, of one unit or shared."""


@device.command("add")
@click.argument("name")
@click.argument("watts")
@click.option("--hours", default="24", show_default=True, metavar="HOURS", help="How long it runs a day.")
@click.option("--unit", metavar="CODE", help="The unit it runs for. [shared by all active units]")
@click.option("--until", metavar="DAY", help="The last day it runs.")
@note_option
@click.option("--on", metavar="DAY", help="The first day it runs. [today]")
@json_option
@pass_desk
def add(desk: Desk, /, name: str, watts: str, on: str | None, as_json: bool, **typed: Any) -> None:
    """Enter a device with the watts on its plate.

    \b
    Example: farmops power device add pump "40 W" --unit WREN --on "1 mar"
    """
    from farmops.farm.power import add_device

    entry = NewDevice(
        name,
        _measured(desk, POWER, watts),
        desk.day(on),
        _minutes(desk, typed["hours"]),
        _unit(desk, typed["unit"]),
        desk.day_or_none(typed["until"], ahead=True),
        typed["note"],
    )
    _told(desk, add_device(desk.store, entry, **desk.hand), "entered", as_json)


@device.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--name", metavar="TEXT")
@click.option("--watts", metavar="WATTS", help="The watts on its plate.")
@click.option("--hours", metavar="HOURS", help="How long it runs a day.")
@click.option("--unit", metavar="CODE", help="The unit it runs for; - when all share it.")
@click.option("--from", "from_day", metavar="DAY", help="The first day it runs.")
@click.option("--until", metavar="DAY", help="The last day it runs; - when it goes on.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@json_option
@pass_desk
def edit(desk: Desk, /, number: int, as_json: bool, **typed: Any) -> None:
    """Correct a device by its number. For other hours from a day on, end it and enter it anew.

    \b
    Example: farmops power device edit 1 --watts 38
    """
    from farmops.farm.power import change_device

    given = emptied(changes(**typed), "unit", "until", "note")
    readers = {
        "watts": ("rated", lambda text: _measured(desk, POWER, text)),
        "hours": ("minutes_a_day", lambda text: _minutes(desk, text)),
        "unit": ("unit_id", lambda text: _unit(desk, text)),
        "from_day": ("from_day", desk.day),
        "until": ("until_day", lambda text: desk.day_or_none(text)),
    }
    values = {}
    for key, text in given.items():
        name, read = readers.get(key, (key, lambda text: text))
        values[name] = read(text) if text is not None else None
    one = _device(desk, number)
    _told(desk, change_device(desk.store, DeviceChange(one.id, **values), **desk.hand), "changed", as_json)


@device.command("end")
@click.argument("number", type=NUMBER)
@click.option("--on", metavar="DAY", help="The last day it runs. [today]")
@json_option
@pass_desk
def end(desk: Desk, number: int, on: str | None, as_json: bool) -> None:
    """A device runs for the last time today, or on a day.

    \b
    Example: farmops power device end 1 --on yesterday
    """
    from farmops.farm.power import change_device

    entry = DeviceChange(_device(desk, number).id, until_day=desk.day(on))
    _told(desk, change_device(desk.store, entry, **desk.hand), "ended", as_json)


@power.command("remove")
@click.argument("what", type=click.Choice(list(KINDS)))
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, what: str, number: int) -> None:
    """Remove a device, a reading of a meter or a price by its number in the list.

    \b
    Example: farmops power remove reading 2
    """
    from farmops.farm.removal import remove_record

    book = power_book(desk.store)
    among: dict[str, Sequence[Device | MeterReading | PowerPrice]] = {
        "device": book.devices,
        "reading": book.meters,
        "price": book.prices,
    }
    one = numbered(among[what], number, what, "farmops power list")
    remove_record(desk.store, Removal(KINDS[what], one.id), **desk.hand)
    say(f"The {what} with number {one.id} removed. farmops undo brings it back.")


def _measured(desk: Desk, dimension: Any, text: str, *, zero_ok: bool = False) -> Measured:
    return Measured(dimension.parse(text, desk.measures, zero_ok=zero_ok), text)


def _minutes(desk: Desk, text: str) -> int:
    return A_DAY.parse(text, desk.measures, zero_ok=True)


def _unit(desk: Desk, code: str | None) -> int | None:
    return names.unit(desk.store, code).id if code is not None and code != NOTHING else None


def _device(desk: Desk, number: int) -> Device:
    return numbered(power_book(desk.store).devices, number, "device", "farmops power list")


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


def plain_use(one: PlaceUse) -> dict[str, object]:
    """What was used in JSON's words; unit null for what all share, cost null where no price held."""
    return {
        "unit": one.unit,
        "metered_days": one.metered_days,
        "rated_days": one.rated_days,
        "energy_wh": one.watt_hours,
        "cost_cents": one.cost_minor,
        "unpriced_days": one.unpriced_days,
    }


def _days(one: Device) -> str:
    return f"{one.from_day} to {one.until_day}" if one.until_day else f"{one.from_day} on"


def _device_words(desk: Desk, one: Device) -> str:
    rated, hours = POWER.show(one.rated_mw, desk.measures), A_DAY.show(one.minutes_a_day, desk.measures)
    return f"{one.name}, {rated}, {hours} a day"


def _price_words(desk: Desk, one: PowerPrice) -> str:
    return show_power_price(PowerRate(one.price_minor, one.per_wh), desk.measures)


def _energy(desk: Desk, one: PlaceUse) -> str:
    return ENERGY.show(one.watt_hours, desk.measures)


def _cost(desk: Desk, one: PlaceUse) -> str:
    return "no price" if one.cost_minor is None else show_money(one.cost_minor, desk.measures)


def _told_by(one: PlaceUse) -> str:
    told = {"the meter": one.metered_days, "rated watts": one.rated_days}
    return ", ".join(f"{name} on {days} days" for name, days in told.items() if days)


def _told(desk: Desk, one: Device, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_device(one))
    else:
        say(f"{_device_words(desk, one)}, for {one.unit or 'all'}, {_days(one)}, {done}; number {one.id}.")
