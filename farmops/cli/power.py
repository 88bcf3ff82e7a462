"""`farmops power`: what runs, what meters show, what a kilowatt-hour costs, and what power was used."""

from __future__ import annotations

from collections.abc import Sequence

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.entries import NUMBER, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.cli.power_devices import device
from farmops.cli.power_output import (
    days_of,
    device_words,
    measured,
    plain_device,
    plain_price,
    plain_reading,
    plain_use,
    unit_id,
)
from farmops.cli.trees import only_in_json, why_option
from farmops.model.journal import Removal
from farmops.model.power import (
    Device,
    MeterReading,
    NewMeterReading,
    NewPowerPrice,
    PowerPrice,
)
from farmops.quantities import show_money
from farmops.quantities.power import ENERGY, PowerRate, parse_power_price, show_power_price
from farmops.reports import lists
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
@answer_options
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
    rows = [["device", str(one.id), days_of(one), one.unit or "all", device_words(desk, one)] for one in book.devices]
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
@why_option
@answer_options
@pass_desk
def show_power(desk: Desk, first: str | None, last: str | None, with_why: bool, as_json: bool) -> None:
    """What power each unit used and what it cost, in the 30 days to today or in a span.

    \b
    Example: farmops power show --from "1 sep" --to "30 sep"
    """
    from datetime import timedelta

    only_in_json(with_why, as_json)
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
                "places": [plain_use(one, with_why) for one in found],
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

    entry = NewMeterReading(desk.day(on), measured(desk, ENERGY, shown, zero_ok=True), unit_id(desk, unit), note)
    one = book(desk.store, entry, **desk.hand)
    if as_json:
        emit(plain_reading(one))
    else:
        said = ENERGY.show(one.shown_wh, desk.measures)
        say(f"The meter of {one.unit or FARM} shows {said} on {one.day}; number {one.id}.")


@power.command("remove", short_help="Remove a device, a reading of a meter or a price.")
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


def _price_words(desk: Desk, one: PowerPrice) -> str:
    return show_power_price(PowerRate(one.price_minor, one.per_wh), desk.measures)


def _energy(desk: Desk, one: PlaceUse) -> str:
    return ENERGY.show(one.watt_hours, desk.measures)


def _cost(desk: Desk, one: PlaceUse) -> str:
    return "no price" if one.cost_minor is None else show_money(one.cost_minor, desk.measures)


def _told_by(one: PlaceUse) -> str:
    told = {"the meter": one.metered_days, "rated watts": one.rated_days}
    return ", ".join(f"{name} on {days} days" for name, days in told.items() if days)


power.add_command(device)
