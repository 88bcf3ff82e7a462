"""`farmops farm`: opening the farm and its settings."""

from __future__ import annotations

from dataclasses import replace

import click

from farmops.cli.desk import Desk, changes, cleared, pass_desk
from farmops.cli.options import answer_options, json_option
from farmops.cli.output import emit, line, say
from farmops.model.farm import Farm, FarmChange, NewFarm
from farmops.model.values import Measured
from farmops.quantities import LENGTH, METRIC, US, Measures
from farmops.quantities.altitudes import parse_altitude

WEIGHTS = {"lb-oz": "lb_oz", "kg": "kg"}


@click.group()
def farm() -> None:
    """Open a farm, show or change its settings."""


@farm.command("open")
@click.argument("name")
@click.option("--weights", type=click.Choice(list(WEIGHTS)), default="lb-oz", show_default=True)
@click.option("--currency", metavar="CODE", help="ISO 4217 code. [USD with lb-oz, EUR with kg]")
@click.option("--zone", metavar="ZONE", required=True, help="IANA time zone, such as America/New_York.")
@click.option("--volumes", type=click.Choice(["gal", "L"]), help="[as the weights suggest]")
@click.option("--areas", type=click.Choice(["sq-ft", "m2"]), help="[as the weights suggest]")
@click.option("--lengths", type=click.Choice(["ft", "cm", "m"]), help="[as the weights suggest]")
@click.option("--temperatures", type=click.Choice(["F", "C"]), help="[as the weights suggest]")
@click.option("--decimals", type=click.Choice(["point", "comma"]), default="point", show_default=True)
@click.option("--altitude", metavar="HEIGHT", help='Above the sea, such as "1450 ft": oxygen depends on it.')
@json_option
@pass_desk
def open_command(
    desk: Desk, /, name: str, weights: str, zone: str, altitude: str | None, as_json: bool, **measures: str | None
) -> None:
    """Open a farm: its name, how it weighs, its currency and time zone.

    \b
    Examples: farmops farm open "Hill Farm" --zone America/New_York
              farmops farm open "Alm" --weights kg --currency CHF --zone Europe/Zurich --decimals comma
    """
    from farmops.farm.farm import open_farm

    chosen = _measures(US if weights == "lb-oz" else METRIC, weights=None, **measures)
    entry = NewFarm(name, chosen, zone, altitude=_altitude(altitude, chosen))
    opened = open_farm(desk.store, entry, **desk.hand)
    if as_json:
        emit(_plain(opened))
    else:
        say(f"{opened.name} is open, kept in {desk.store.place}.")
        if advice := desk.store.advice():
            say(advice)
        say("Next, the first unit: farmops units add WREN --state building")


@farm.command("show")
@answer_options
@pass_desk
def show(desk: Desk, as_json: bool) -> None:
    """Show the farm's settings.

    \b
    Example: farmops farm show
    """
    if as_json:
        emit(_plain(desk.farm))
        return
    measures = desk.measures
    line(f"{desk.farm.name}, opened {desk.farm.opened_day}, days counted in {desk.farm.time_zone}")
    line(f"weights {_said(measures.mass)}, volumes {measures.volume}, areas {_said(measures.area)}")
    line(f"lengths {measures.length}, temperatures {measures.temperature}, money {measures.currency}")
    line(f"decimal {'comma' if measures.decimal_comma else 'point'}")
    if desk.farm.altitude_um:
        line(f"{LENGTH.show(desk.farm.altitude_um, measures)} above the sea")
    line(f"kept in {desk.store.place}")
    if advice := desk.store.advice():
        say(advice)


@farm.command("edit")
@click.option("--name", metavar="NAME")
@click.option("--weights", type=click.Choice(list(WEIGHTS)))
@click.option("--currency", metavar="CODE", help="Only while no money is booked.")
@click.option("--zone", metavar="ZONE")
@click.option("--volumes", type=click.Choice(["gal", "L"]))
@click.option("--areas", type=click.Choice(["sq-ft", "m2"]))
@click.option("--lengths", type=click.Choice(["ft", "cm", "m"]))
@click.option("--temperatures", type=click.Choice(["F", "C"]))
@click.option("--decimals", type=click.Choice(["point", "comma"]))
@click.option("--altitude", metavar="HEIGHT", help="Above the sea; - clears it.")
@json_option
@pass_desk
def edit(
    desk: Desk, /, name: str | None, zone: str | None, altitude: str | None, as_json: bool, **measures: str | None
) -> None:
    """Change how the farm is called, weighs and measures; what was recorded stays exact.

    \b
    Example: farmops farm edit --weights kg --areas m2
    """
    from farmops.farm.farm import change_farm

    new = _measures(desk.measures, **measures) if any(measures.values()) else None
    given = changes(name=name, time_zone=zone, measures=new, altitude=altitude)
    if altitude:
        given["altitude"] = _altitude(cleared(altitude), new or desk.measures)
    changed = change_farm(desk.store, FarmChange(**given), **desk.hand)
    if as_json:
        emit(_plain(changed))
    else:
        say(f"{changed.name} changed.")


def _measures(known: Measures, **typed: str | None) -> Measures:
    names = {
        "weights": "mass",
        "volumes": "volume",
        "areas": "area",
        "lengths": "length",
        "temperatures": "temperature",
    }
    chosen: dict[str, object] = {
        field: text.replace("-", "_") for option, field in names.items() if (text := typed.get(option))
    }
    if typed.get("currency"):
        chosen["currency"] = str(typed["currency"]).upper()
    if typed.get("decimals"):
        chosen["decimal_comma"] = typed["decimals"] == "comma"
    return replace(known, **chosen)  # type: ignore[arg-type]


def _said(word: str) -> str:
    return word.replace("_", " ")


def _altitude(text: str | None, measures: Measures) -> Measured | None:
    return Measured(parse_altitude(text, measures), text) if text else None


def _plain(farm: Farm) -> dict[str, object]:
    height = None if farm.altitude_um is None else farm.altitude_um / 10**6
    return {
        "altitude_m": height,
        "farm": farm.name,
        "time_zone": farm.time_zone,
        "opened": farm.opened_day,
        "measures": farm.measures,
    }
