"""`farmops fish`: lots of fish kept together, from stocking until the last one is gone."""

from __future__ import annotations

from datetime import date
from typing import Any

import click

from farmops import library
from farmops.cli.about import print_species
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, CountOrNothing, asked, emptied
from farmops.cli.fish_deaths import died, losses
from farmops.cli.fish_growth import grow
from farmops.cli.fish_plain import plain_lot
from farmops.cli.fish_rations import list_rations
from farmops.cli.fish_work import WORK
from farmops.cli.options import answer_options, json_option, note_option, on_option, sure_option
from farmops.cli.output import emit, line, say, table
from farmops.model.errors import Refused
from farmops.model.fish import FishLot, FishLotChange, NewFishLot
from farmops.model.journal import Removal
from farmops.model.text import plain
from farmops.model.units import UnitKind
from farmops.quantities import MASS
from farmops.reports import lists, names

LAW = "Check state and local fish law and permits before buying or moving fish. Never release them."
FIRST_A_UNIT = "First a unit (farmops units add WREN), then: "


@click.group()
def fish() -> None:
    """Fish lots: fish kept together, from stocking until the last one is gone."""


fish.add_command(died)
fish.add_command(losses)
for command in (*WORK, grow, list_rations):
    fish.add_command(command)


@fish.command("list")
@click.option("--all", "every", is_flag=True, help="Closed lots and those to come, too.")
@on_option
@answer_options
@pass_desk
def list_lots(desk: Desk, every: bool, on: str | None, as_json: bool) -> None:
    """List the lots in the water on a day, in walking order.

    \b
    Examples: farmops fish list
              farmops fish list --all
    """
    day = desk.day(on)
    known = lists.fish_lots(desk.store)
    found = [one for one in known if every or _alive(one, day)]
    if as_json:
        emit({"on": None if every else day, "lots": [plain_lot(one) for one in found]})
    elif found:
        _print(desk, found)
    else:
        say(f"No fish in the water on {day}. All lots: farmops fish list --all" if known else _none_yet(desk))


def _none_yet(desk: Desk) -> str:
    units = (one.unit for one in lists.units(desk.store) if one.unit.kind is not UnitKind.HYDROPONIC)
    unit = next((one.code for one in units), None)
    first = "Stock: " if unit else FIRST_A_UNIT
    return f'No fish yet. {first}farmops fish add P1 "yellow perch" {unit or "WREN"} 60 "0.5 oz"'


def _alive(lot: FishLot, day: date) -> bool:
    return lot.stocked_day <= day and (lot.closed_day is None or day <= lot.closed_day)


def _print(desk: Desk, found: list[FishLot]) -> None:
    rows = [
        [
            one.code,
            one.species,
            one.unit,
            str(one.stocked_day),
            str(one.number),
            MASS.show(one.mean_mg, desk.measures),
            str(one.closed_day or ""),
            one.note or "",
        ]
        for one in found
    ]
    heads = ["lot", "species", "unit", "stocked", "number", "mean weight", "closed", "note"]
    table(heads, rows, right=[4, 5])


@fish.command("show")
@click.argument("code")
@answer_options
@pass_desk
def show_lot(desk: Desk, code: str, as_json: bool) -> None:
    """Show a lot as stocked, with the packaged facts about its species, their source and standing.

    \b
    Example: farmops fish show P1
    """
    one = _lot(desk, code)
    facts = library.species(one.library_key) if one.library_key else None
    if as_json:
        emit({**plain_lot(one), "facts": facts})
        return
    mean = MASS.show(one.mean_mg, desk.measures)
    line(f"{one.code}: {one.number} {one.species} of {mean} each, stocked on {one.stocked_day}, in {one.unit}")
    if one.closed_day:
        line(f"closed on {one.closed_day}")
    for said in (one.source and f"from {one.source}", one.paper and f"paper: {one.paper}", one.note):
        if said:
            line(said)
    if facts:
        print_species(facts, desk.measures)
    else:
        say(f"No packaged facts go with {one.species}. {LAW}")


@fish.command("add")
@click.argument("code")
@click.argument("species")
@click.argument("unit")
@click.argument("number", type=NUMBER)
@click.argument("mean_weight")
@click.option("--source", metavar="TEXT", help="Where they come from: a hatchery, a farm, waters.")
@click.option("--paper", type=NUMBER, help="The paper that goes with them, by its number in farmops papers list.")
@sure_option
@note_option
@on_option
@json_option
@pass_desk
def add_lot(
    desk: Desk,
    code: str,
    species: str,
    unit: str,
    number: int,
    mean_weight: str,
    source: str | None,
    paper: int | None,
    sure: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Fish go into a unit: a CODE for the lot, the SPECIES, the UNIT, their NUMBER and the MEAN_WEIGHT of one.

    \b
    Example: farmops fish add P1 "yellow perch" WREN 60 "0.5 oz" --on "2 may" --source "the mill hatchery"
    """
    from farmops.farm.fish import stock

    day = desk.day(on)
    facts = library.species(species)
    entry = NewFishLot(
        code,
        facts.name if facts else species,
        names.unit(desk.store, unit).id,
        day,
        number,
        desk.mass(mean_weight),
        library_key=facts.key if facts else None,
        note=note,
        source=source,
        paper_id=paper,
        sure=sure,
    )
    with asked():
        lot = stock(desk.store, entry, **desk.hand)
    _told(desk, lot, "Stocked", as_json)
    if facts:
        say(f"Taken: the packaged facts on {facts.name} ({facts.latin_name}), {facts.standing}.")
    else:
        say(_unknown(lot))
    say(facts.law_note if facts and facts.law_note else LAW)


def _unknown(lot: FishLot) -> str:
    near = library.species_near(lot.species)
    hint = f" If {near[0]} was meant: farmops fish edit {lot.code} --species '{near[0]}'" if near else ""
    return (
        f"No packaged facts go with {plain(lot.species)}: no ration, no limits of its own. "
        f"What it bears can be set: farmops water limits set --help.{hint}"
    )


@fish.command("edit")
@click.argument("code")
@click.option("--code", "new_code", metavar="CODE", help="A new code.")
@click.option("--species", metavar="NAME")
@click.option("--number", type=NUMBER, help="How many were stocked.")
@click.option("--mean-weight", metavar="WEIGHT", help="Mean weight of one at stocking.")
@click.option("--on", metavar="DAY", help="The day they were stocked.")
@click.option("--closed", metavar="DAY", help="The last day with fish; - when there still are.")
@click.option("--source", metavar="TEXT", help="Where they come from; - clears it.")
@click.option("--paper", type=CountOrNothing(), help="The number of the paper that goes with them; - for none.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@sure_option
@json_option
@pass_desk
def edit_lot(
    desk: Desk,
    /,
    code: str,
    species: str | None,
    mean_weight: str | None,
    on: str | None,
    closed: str | None,
    sure: bool,
    as_json: bool,
    **typed: Any,
) -> None:
    """Correct a lot.

    \b
    Examples: farmops fish edit P1 --number 58
              farmops fish edit P1 --closed -
    """
    from farmops.farm.fish import change_lot

    one = _lot(desk, code)
    given = changes(
        code=typed["new_code"],
        species=_respelled(one, species) if species is not None else None,
        number=typed["number"],
        mean=desk.mass(mean_weight) if mean_weight is not None else None,
        stocked_day=desk.day_or_none(on),
        closed_day=closed,
        source=typed["source"],
        paper_id=typed["paper"],
        note=typed["note"],
    )
    given = emptied(given, "closed_day", "source", "paper_id", "note")
    if given.get("closed_day") is not None:
        given["closed_day"] = desk.day(given["closed_day"])
    with asked():
        changed = change_lot(desk.store, FishLotChange(one.id, **given, sure=sure), **desk.hand)
    _told(desk, changed, "Changed", as_json)


def _respelled(one: FishLot, species: str) -> str:
    """The species under its usual name. Refuses another one than the facts of the lot are about."""
    facts = library.species(species)
    if one.library_key is not None and (facts is None or facts.key != one.library_key):
        raise Refused(
            f"Not changed: the packaged facts on {one.species} go with {one.code}. "
            f"Remove the lot (farmops fish remove {one.code}) and add it again under the right species."
        )
    return facts.name if facts else species


@fish.command("close")
@click.argument("code")
@on_option
@json_option
@pass_desk
def close_lot(desk: Desk, code: str, on: str | None, as_json: bool) -> None:
    """Close a lot when none of its fish are left; the day is the last with fish.

    \b
    Example: farmops fish close P1 --on "30 nov"
    """
    from farmops.farm.fish import change_lot

    day = desk.day(on)
    one = _lot(desk, code)
    if one.closed_day is not None:
        raise Refused(
            f"Not closed: {one.code} was closed on {one.closed_day}. "
            f"To correct the day: farmops fish edit {one.code} --closed {day}"
        )
    _told(desk, change_lot(desk.store, FishLotChange(one.id, closed_day=day), **desk.hand), "Closed", as_json)


@fish.command("remove")
@click.argument("code")
@pass_desk
def remove_lot(desk: Desk, code: str) -> None:
    """Remove a lot booked by mistake; close one that has lived.

    \b
    Example: farmops fish remove P1
    """
    from farmops.farm.removal import remove_record

    one = _lot(desk, code)
    remove_record(desk.store, Removal("fish", one.id), **desk.hand)
    say(f"{one.code} removed. farmops undo brings it back.")


def _lot(desk: Desk, code: str) -> FishLot:
    lists.farm(desk.store)
    return names.lot(desk.store, code)


def _told(desk: Desk, one: FishLot, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_lot(one))
        return
    closed = f", closed on {one.closed_day}" if one.closed_day else ""
    mean = MASS.show(one.mean_mg, desk.measures)
    say(
        f"{done}: {one.code}, {one.number} {one.species} of {mean} each, in {one.unit} since {one.stocked_day}{closed}."
    )
