"""`farmops units`: the row and the states its units are in."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import asked, emptied
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, sure_option, word
from farmops.cli.output import emit, line, say, table
from farmops.model.journal import Removal
from farmops.model.units import NewState, NewUnit, Unit, UnitChange, UnitKind, UnitState
from farmops.quantities import VOLUME
from farmops.quantities.hours import parse_hours
from farmops.reports import lists, names
from farmops.reports.coming import SHOWN, coming_titles, coming_words
from farmops.reports.lists import UnitLine
from farmops.reports.spans import state_on

cure_option = click.option(
    "--cure", metavar="TIME", help='The longest cure time on the labels of sealant and coating, such as "72 h".'
)


@click.group()
def units() -> None:
    """The row of units, in walking order, and the states they pass through."""


@units.command("list")
@on_option
@answer_options
@pass_desk
def list_units(desk: Desk, on: str | None, as_json: bool) -> None:
    """List the row.

    \b
    Example: farmops units list
    """
    day, found = desk.day(on), lists.units(desk.store)
    if as_json:
        emit({"units": [_plain(desk, one) for one in found]})
    elif not found:
        say("No unit yet. Add the first: farmops units add WREN --state building")
    else:
        rows = []
        for one in found:
            held = state_on(list(one.states), day)
            tank = VOLUME.show(one.unit.tank_ml, desk.measures) if one.unit.tank_ml else ""
            state = f"{held.state} since {held.from_day}" if held else "not there yet"
            rows.append([str(one.unit.position), one.unit.code, one.unit.kind, state, tank])
        table(["", "unit", "kind", "state", "tank"], rows, right=[0])


def _plain(desk: Desk, one: UnitLine) -> dict[str, object]:
    unit = one.unit
    return {
        "unit": unit.code,
        "kind": unit.kind,
        "position": unit.position,
        "tank_ml": unit.tank_ml,
        "tank_typed": unit.tank_typed,
        "breaker": unit.breaker,
        "valve": unit.valve,
        "note": unit.note,
        "states": [{"state": held.state, "from": held.from_day} for held in one.states],
    }


@units.command("show")
@click.argument("code")
@answer_options
@pass_desk
def show_unit(desk: Desk, code: str, as_json: bool) -> None:
    """Show one unit with all its states.

    \b
    Example: farmops units show WREN
    """
    unit = names.unit(desk.store, code)
    one = next(found for found in lists.units(desk.store) if found.unit.id == unit.id)
    if as_json:
        emit(_plain(desk, one))
        return
    line(f"{unit.code}, {unit.kind}, place {unit.position} in the row")
    if unit.tank_ml:
        line(f"tank {VOLUME.show(unit.tank_ml, desk.measures)}")
    for what, place in (("breaker", unit.breaker), ("valve", unit.valve)):
        if place:
            line(f"{what}: {place}")
    if unit.note:
        line(unit.note)
    for held in one.states:
        line(f"{held.from_day}  {held.state}")


@units.command("add")
@click.argument("code")
@click.option("--kind", type=one_of(UnitKind), default=UnitKind.COUPLED.value, show_default=True)
@click.option("--state", type=one_of(UnitState), default=UnitState.PLANNED.value, show_default=True)
@click.option("--tank", metavar="VOLUME", help='Water in the tank, such as "250 gal" or "950 L".')
@click.option("--position", type=click.IntRange(1), help="Place in the row. [the end]")
@click.option("--no-chores", is_flag=True, help="No chores, nor with its beds and fish, until a state brings some.")
@cure_option
@click.option("--breaker", metavar="WORDS", help="Where its power is shut off.")
@click.option("--valve", metavar="WORDS", help="Where its water is shut off.")
@sure_option
@note_option
@on_option
@json_option
@pass_desk
def add_unit(
    desk: Desk,
    code: str,
    kind: str,
    state: str,
    tank: str | None,
    position: int | None,
    no_chores: bool,
    cure: str | None,
    breaker: str | None,
    valve: str | None,
    sure: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """A unit joins the row; it gets the chores of its kind and state.

    They are due from that day on. For chores from today on of a unit that runs since long: add it, then its state.

    \b
    Examples: farmops units add WREN --state running --tank "250 gal"
              farmops units state WREN running --on "1 mar"
              farmops units add WREN --state building --cure "72 h"
    """
    from farmops.farm.units import add_unit as add

    entry = NewUnit(
        code,
        desk.day(on),
        kind=word(UnitKind, kind),
        state=word(UnitState, state),
        position=position,
        tank=desk.volume(tank) if tank else None,
        note=note,
        chores=not no_chores,
        cure_hours=_hours(cure),
        breaker=breaker,
        valve=valve,
        sure=sure,
    )
    with asked():
        added = add(desk.store, entry, **desk.hand)
    water = f", {VOLUME.show(added.tank_ml, desk.measures)}" if added.tank_ml else ""
    _told(added, f"added, {state}{water}", as_json)


@units.command("edit")
@click.argument("code")
@click.option("--code", "new_code", metavar="CODE", help="A new code.")
@click.option("--kind", type=one_of(UnitKind))
@click.option("--tank", metavar="VOLUME", help="Water in the tank; - clears it.")
@click.option("--position", type=click.IntRange(1), help="Place in the row.")
@click.option("--breaker", metavar="WORDS", help="Where its power is shut off; - clears it.")
@click.option("--valve", metavar="WORDS", help="Where its water is shut off; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@sure_option
@json_option
@pass_desk
def edit_unit(
    desk: Desk,
    code: str,
    new_code: str | None,
    kind: str | None,
    tank: str | None,
    position: int | None,
    breaker: str | None,
    valve: str | None,
    note: str | None,
    sure: bool,
    as_json: bool,
) -> None:
    """Correct a unit.

    \b
    Examples: farmops units edit WREN --position 2
              farmops units edit WREN --breaker "box by the door, No. 3" --valve "red tap behind the tank"
    """
    from farmops.farm.units import change_unit

    given = changes(
        code=new_code,
        kind=word(UnitKind, kind),
        tank=tank,
        position=position,
        breaker=breaker,
        valve=valve,
        note=note,
    )
    if "tank" in given:
        given["tank"] = desk.volume(tank) if tank and tank != "-" else None
    given = emptied(given, "note", "breaker", "valve")
    entry = UnitChange(names.unit(desk.store, code).id, **given, sure=sure)
    with asked():
        changed = change_unit(desk.store, entry, **desk.hand)
    _told(changed, "changed", as_json)


@units.command("state")
@click.argument("code")
@click.argument("state", type=one_of(UnitState))
@click.option("--no-chores", is_flag=True, help="Do not give it the chores of that state.")
@click.option("--preview", is_flag=True, help="Only tell which chores would come with it; nothing is booked.")
@cure_option
@on_option
@json_option
@pass_desk
def enter_state(
    desk: Desk,
    code: str,
    state: str,
    no_chores: bool,
    preview: bool,
    cure: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """A unit enters a state on a day, and gets the chores of that state.

    \b
    Examples: farmops units state WREN wintering --on "1 nov"
              farmops units state WREN wintering --preview
              farmops units state WREN building --cure "72 h"
    """
    from farmops.farm.units import enter_state as enter

    unit = names.unit(desk.store, code)
    entry = NewState(unit.id, word(UnitState, state), desk.day(on), not no_chores, _hours(cure))
    coming = [] if no_chores else coming_titles(desk.store, unit, entry.state, entry.from_day)
    if not preview:
        enter(desk.store, entry, **desk.hand)
    if as_json:
        emit({"unit": unit.code, "state": entry.state, "from": entry.from_day, "booked": not preview, "chores": coming})
    else:
        booked = f"{unit.code} is {entry.state} from {entry.from_day}. "
        say(f"{'' if preview else booked}{coming_words(coming, most=len(coming) if preview else SHOWN)}")


def _hours(cure: str | None) -> int | None:
    return parse_hours(cure) if cure is not None else None


@units.command("remove")
@click.argument("code")
@pass_desk
def remove_unit(desk: Desk, code: str) -> None:
    """Remove a unit that nothing was booked for; retire one that has a past.

    \b
    Example: farmops units remove WREN
    """
    from farmops.farm.removal import remove_record

    unit = names.unit(desk.store, code)
    remove_record(desk.store, Removal("units", unit.id), **desk.hand)
    say(f"{unit.code} removed. farmops undo brings it back.")


def _told(unit: Unit, done: str, as_json: bool) -> None:
    if as_json:
        emit({"id": unit.id, "unit": unit.code, "kind": unit.kind, "position": unit.position})
    else:
        say(f"{unit.code} {done}.")
