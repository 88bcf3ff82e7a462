"""`farmops plantings`: crops in beds, from sowing or transplanting to clearing; `farmops crops` stands beside it."""

from __future__ import annotations

from typing import Any

import click

from farmops.cli.crops import crops, packaged
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, CountOrNothing, asked, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, sure_option, word
from farmops.cli.output import emit, line, say, table
from farmops.model.errors import Refused
from farmops.model.journal import Removal
from farmops.model.plantings import NewCrop, NewPlanting, Planting, PlantingChange, StartedBy
from farmops.quantities import AREA
from farmops.reports import lists, names

__all__ = ["crops", "plantings"]

MM2_PER_M2 = 1_000_000
SEE_ALL = "farmops plantings list --all"
FIRST_A_BED = 'First a bed (farmops beds add WREN N "24 sq ft"), then: '
sown_option = click.option("--sown", "started_by", flag_value=StartedBy.SOWING.value, help="Sown in the bed.")
transplanted_option = click.option(
    "--transplanted", "started_by", flag_value=StartedBy.TRANSPLANTING.value, help="Set as young plants. [unless sown]"
)


@click.group()
def plantings() -> None:
    """Crops in beds, from sowing or transplanting to clearing."""


@plantings.command("list")
@click.option("--all", "every", is_flag=True, help="Cleared ones and those to come, too.")
@click.option("--unit", metavar="CODE", help="Only in one unit.")
@on_option
@answer_options
@pass_desk
def list_plantings(desk: Desk, every: bool, unit: str | None, on: str | None, as_json: bool) -> None:
    """List what grows on a day, in walking order.

    \b
    Examples: farmops plantings list
              farmops plantings list --all --unit WREN
    """
    day = desk.day(on)
    code = names.unit(desk.store, unit).code if unit is not None else None
    found = [one for one in lists.plantings(desk.store, None if every else day) if code in (None, one.unit)]
    if as_json:
        emit({"on": None if every else day, "plantings": [plain_planting(one) for one in found]})
    elif found:
        _print(desk, found)
    elif lists.plantings(desk.store):
        say(f"Nothing grows {f'in {code} ' if code else ''}on {day}. All plantings: {SEE_ALL}")
    else:
        say(_none_yet(desk))


def _none_yet(desk: Desk) -> str:
    bed = next((one.bed.code for one in lists.beds(desk.store)), None)
    first = "Plant: " if bed else FIRST_A_BED
    return f"No planting yet. {first}farmops plantings add {bed or 'WREN-N'} CHARD --new-crop"


def _print(desk: Desk, found: list[Planting]) -> None:
    rows = [
        [
            str(one.id),
            one.bed,
            one.crop,
            one.variety or "",
            str(one.started_day),
            one.started_by,
            str(one.plants or ""),
            _area(desk, one),
            str(one.cleared_day or ""),
            one.note or "",
        ]
        for one in found
    ]
    table(["no.", "bed", "crop", "variety", "from", "by", "plants", "area", "cleared", "note"], rows, right=[0, 6, 7])


@plantings.command("show")
@click.argument("number", type=NUMBER)
@answer_options
@pass_desk
def show_planting(desk: Desk, number: int, as_json: bool) -> None:
    """Show one planting by its number in the list.

    \b
    Example: farmops plantings show 3
    """
    one = _planting(desk, number)
    if as_json:
        emit(plain_planting(one))
        return
    variety = f" ({one.variety})" if one.variety else ""
    line(f"{one.crop}{variety} in {one.bed}, number {one.id}")
    line(f"since {one.started_day} by {one.started_by}, {_until(one)}")
    line(f"{f'{one.plants} plants, ' if one.plants else ''}{_area(desk, one)}")
    if one.note:
        line(one.note)


@plantings.command("add")
@click.argument("bed")
@click.argument("crop")
@click.option("--new-crop", is_flag=True, help="The farm begins to grow it; packaged facts of its name go with it.")
@click.option("--variety", metavar="NAME")
@click.option("--plants", type=NUMBER, help="How many plants.")
@click.option("--area", metavar="AREA", help="The part of the bed it takes. [the whole bed]")
@sown_option
@transplanted_option
@sure_option
@note_option
@on_option
@json_option
@pass_desk
def add_planting(
    desk: Desk,
    bed: str,
    crop: str,
    new_crop: bool,
    variety: str | None,
    plants: int | None,
    area: str | None,
    started_by: str | None,
    sure: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """A crop goes into a bed.

    \b
    Examples: farmops plantings add WREN-N CHARD --plants 30 --on "12 may"
              farmops plantings add WREN-N CHARD --variety "Bright Stem" --sown --area "8 sq ft"
              farmops plantings add WREN-N "SEA KALE" --new-crop
    """
    from farmops.farm.plantings import plant

    day = desk.day(on)
    place = names.bed(desk.store, bed)
    entry = NewPlanting(
        place.id,
        NewCrop(crop, packaged(crop)) if new_crop else names.crop_to_plant(desk.store, place, crop).id,
        day,
        started_by=word(StartedBy, started_by) or StartedBy.TRANSPLANTING,
        variety=variety,
        plants=plants,
        area=desk.area(area) if area is not None else None,
        note=note,
        sure=sure,
    )
    with asked():
        planted = plant(desk.store, entry, **desk.hand)
    _told(planted, "planted", as_json)


@plantings.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--variety", metavar="NAME", help="- clears it.")
@click.option("--plants", type=CountOrNothing(), metavar="NUMBER", help="How many plants; - clears it.")
@click.option("--area", metavar="AREA", help="The part of the bed it takes; - for the whole bed.")
@sown_option
@transplanted_option
@click.option("--on", metavar="DAY", help="The day it was sown or transplanted.")
@click.option("--cleared", metavar="DAY", help="The last day it stood; - when it still stands.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@sure_option
@json_option
@pass_desk
def edit_planting(
    desk: Desk, /, number: int, started_by: str | None, on: str | None, sure: bool, as_json: bool, **typed: Any
) -> None:
    """Correct a planting by its number in the list.

    \b
    Examples: farmops plantings edit 3 --plants 28 --on "14 may"
              farmops plantings edit 3 --cleared -
    """
    from farmops.farm.plantings import change_planting

    given = changes(started_by=word(StartedBy, started_by), started_day=desk.day_or_none(on), **_renamed(typed))
    given = emptied(given, "variety", "plants", "area", "cleared_day", "note")
    if given.get("area") is not None:
        given["area"] = desk.area(given["area"])
    if given.get("cleared_day") is not None:
        given["cleared_day"] = desk.day(given["cleared_day"])
    entry = PlantingChange(_planting(desk, number).id, **given, sure=sure)
    with asked():
        changed = change_planting(desk.store, entry, **desk.hand)
    _told(changed, "changed", as_json)


def _renamed(typed: dict[str, Any]) -> dict[str, Any]:
    return {"cleared_day" if name == "cleared" else name: value for name, value in typed.items()}


@plantings.command("clear")
@click.argument("number", type=NUMBER)
@on_option
@json_option
@pass_desk
def clear_planting(desk: Desk, number: int, on: str | None, as_json: bool) -> None:
    """Clear a planting out of its bed; the day is the last on which it stood.

    \b
    Example: farmops plantings clear 3 --on "30 sep"
    """
    from farmops.farm.plantings import change_planting

    day = desk.day(on)
    one = _planting(desk, number)
    if one.cleared_day is not None:
        raise Refused(
            f"Not cleared: {one.crop} in {one.bed} was cleared on {one.cleared_day}. "
            f"To correct the day: farmops plantings edit {one.id} --cleared {day}"
        )
    cleared = change_planting(desk.store, PlantingChange(one.id, cleared_day=day), **desk.hand)
    _told(cleared, "cleared", as_json)


@plantings.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove_planting(desk: Desk, number: int) -> None:
    """Remove a planting booked by mistake; clear one that has grown.

    \b
    Example: farmops plantings remove 3
    """
    from farmops.farm.removal import remove_record

    one = _planting(desk, number)
    remove_record(desk.store, Removal("plantings", one.id), **desk.hand)
    say(f"{one.crop} in {one.bed} from {one.started_day} removed. farmops undo brings it back.")


def _planting(desk: Desk, number: int) -> Planting:
    lists.farm(desk.store)
    return numbered(lists.plantings(desk.store), number, "planting", SEE_ALL)


def plain_planting(one: Planting) -> dict[str, object]:
    """A planting in canonical units; an area of null is the whole bed."""
    return {
        "id": one.id,
        "bed": one.bed,
        "unit": one.unit,
        "crop": one.crop,
        "variety": one.variety,
        "started": one.started_day,
        "started_by": one.started_by,
        "cleared": one.cleared_day,
        "plants": one.plants,
        "area_m2": one.area_mm2 / MM2_PER_M2 if one.area_mm2 is not None else None,
        "area_typed": one.area_typed,
        "note": one.note,
    }


def _area(desk: Desk, one: Planting) -> str:
    return AREA.show(one.area_mm2, desk.measures) if one.area_mm2 is not None else "whole bed"


def _until(one: Planting) -> str:
    return f"cleared on {one.cleared_day}" if one.cleared_day else "not cleared"


def _told(one: Planting, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_planting(one))
        return
    say(f"{one.crop} in {one.bed} {done}: since {one.started_day} by {one.started_by}, {_until(one)}; number {one.id}.")
