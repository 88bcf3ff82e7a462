"""`farmops power device`: what runs on power, and for how long."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.options import json_option, note_option
from farmops.cli.output import emit, say
from farmops.cli.power_output import days_of, device_words, measured, plain_device, unit_id
from farmops.model.power import Device, DeviceChange, NewDevice
from farmops.quantities.power import A_DAY, POWER
from farmops.reports.power_used import power_book


@click.group()
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
        measured(desk, POWER, watts),
        desk.day(on),
        _minutes(desk, typed["hours"]),
        unit_id(desk, typed["unit"]),
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
    readers: dict[str, tuple[str, Callable[[str], Any]]] = {
        "watts": ("rated", lambda text: measured(desk, POWER, text)),
        "hours": ("minutes_a_day", lambda text: _minutes(desk, text)),
        "unit": ("unit_id", lambda text: unit_id(desk, text)),
        "from_day": ("from_day", desk.day),
        "until": ("until_day", desk.day),
    }
    values: dict[str, Any] = {}
    for key, text in given.items():
        name, read = readers.get(key, (key, str))
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


def _minutes(desk: Desk, text: str) -> int:
    return A_DAY.parse(text, desk.measures, zero_ok=True)


def _device(desk: Desk, number: int) -> Device:
    return numbered(power_book(desk.store).devices, number, "device", "farmops power list")


def _told(desk: Desk, one: Device, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_device(one))
    else:
        say(f"{device_words(desk, one)}, for {one.unit or 'all'}, {days_of(one)}, {done}; number {one.id}.")
