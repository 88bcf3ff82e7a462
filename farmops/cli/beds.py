"""`farmops beds`: where crops stand, and how large each bed is from which day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import click

from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import asked, emptied
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, sure_option, word
from farmops.cli.output import emit, line, say, table
from farmops.model.beds import Bed, BedChange, BedKind, BedSize, NewBed, NewBedSize
from farmops.model.journal import Removal
from farmops.quantities import AREA, LENGTH
from farmops.reports import lists, names
from farmops.reports.lists import BedLine

MM2_PER_M2 = 1_000_000
UM_PER_MM = 1_000
FIRST_A_UNIT = "First a unit (farmops units add WREN), then its bed: "


@click.group()
def beds() -> None:
    """Beds, what fills them, and how large each is from which day."""


@beds.command("list")
@click.option("--unit", metavar="CODE", help="Only the beds of one unit.")
@on_option
@answer_options
@pass_desk
def list_beds(desk: Desk, unit: str | None, on: str | None, as_json: bool) -> None:
    """List the beds in walking order, with their size on a day.

    \b
    Example: farmops beds list --unit WREN
    """
    day = desk.day(on)
    code = names.unit(desk.store, unit).code if unit is not None else None
    found = [one for one in lists.beds(desk.store) if code in (None, one.bed.unit)]
    if as_json:
        emit({"on": day, "beds": [_plain_line(one, day) for one in found]})
    elif not found:
        say(_none_yet(desk, code))
    else:
        rows = [
            [
                one.bed.code,
                one.bed.kind,
                _area(desk, size_on(one.sizes, day)),
                _depth(desk, one.bed),
                one.bed.note or "",
            ]
            for one in found
        ]
        table(["bed", "kind", "area", "depth", "note"], rows, right=[2, 3])


def _none_yet(desk: Desk, code: str | None) -> str:
    unit = code or next((one.unit.code for one in lists.units(desk.store)), None)
    first = "Add one: " if unit else FIRST_A_UNIT
    return f'No bed{f" in {code}" if code else ""} yet. {first}farmops beds add {unit or "WREN"} N "24 sq ft"'


@beds.command("show")
@click.argument("bed")
@on_option
@answer_options
@pass_desk
def show_bed(desk: Desk, bed: str, on: str | None, as_json: bool) -> None:
    """Show one bed with all its sizes.

    \b
    Example: farmops beds show WREN-N
    """
    day = desk.day(on)
    wanted = names.bed(desk.store, bed)
    one = next(found for found in lists.beds(desk.store) if found.bed.id == wanted.id)
    if as_json:
        emit(_plain_line(one, day))
        return
    line(f"{one.bed.code}, {one.bed.kind}{', ' + _depth(desk, one.bed) + ' deep' if one.bed.depth_um else ''}")
    if one.bed.note:
        line(one.bed.note)
    for size in one.sizes:
        line(f"{size.from_day}  {_area(desk, size)}")
    if not one.sizes:
        say(f'No size yet, so no yield by area. Book it: farmops beds size {one.bed.code} "24 sq ft"')


@beds.command("add")
@click.argument("unit")
@click.argument("name")
@click.argument("area", required=False)
@click.option("--kind", type=one_of(BedKind), default=BedKind.MEDIA.value, show_default=True, help="What fills it.")
@click.option("--depth", metavar="LENGTH", help='How deep it is, such as "12 in" or "30 cm".')
@sure_option
@note_option
@on_option
@json_option
@pass_desk
def add_bed(
    desk: Desk,
    unit: str,
    name: str,
    area: str | None,
    kind: str,
    depth: str | None,
    sure: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """A unit gets a bed: its NAME within the unit, and the planted AREA.

    \b
    Examples: farmops beds add WREN N "24 sq ft"
              farmops beds add WREN S "4 x 6 ft" --kind raft --depth "12 in"
    """
    from farmops.farm.beds import add_bed as add

    day = desk.day(on)
    entry = NewBed(
        names.unit(desk.store, unit).id,
        name,
        day,
        area=desk.area(area) if area is not None else None,
        kind=word(BedKind, kind),
        depth=desk.length(depth) if depth is not None else None,
        note=note,
        sure=sure,
    )
    with asked():
        added = add(desk.store, entry, **desk.hand)
    _told(desk, added, f"added{', ' + AREA.show(entry.area.exact, desk.measures) if entry.area else ''}", as_json)
    if entry.area is None:
        say(f'Its size can follow: farmops beds size {added.code} "24 sq ft"')


@beds.command("edit")
@click.argument("bed")
@click.option("--name", metavar="NAME", help="A new name within the unit.")
@click.option("--kind", type=one_of(BedKind), help="What fills it.")
@click.option("--depth", metavar="LENGTH", help="How deep it is; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@sure_option
@json_option
@pass_desk
def edit_bed(
    desk: Desk,
    bed: str,
    name: str | None,
    kind: str | None,
    depth: str | None,
    note: str | None,
    sure: bool,
    as_json: bool,
) -> None:
    """Correct a bed; its size has a command of its own, because it holds from a day.

    \b
    Example: farmops beds edit WREN-N --kind raft --depth "12 in"
    """
    from farmops.farm.beds import change_bed

    given = emptied(changes(name=name, kind=word(BedKind, kind), depth=depth, note=note), "depth", "note")
    if given.get("depth") is not None:
        given["depth"] = desk.length(given["depth"])
    entry = BedChange(names.bed(desk.store, bed).id, **given, sure=sure)
    with asked():
        changed = change_bed(desk.store, entry, **desk.hand)
    _told(desk, changed, "changed", as_json)


@beds.command("size")
@click.argument("bed")
@click.argument("area")
@sure_option
@on_option
@json_option
@pass_desk
def size_bed(desk: Desk, bed: str, area: str, sure: bool, on: str | None, as_json: bool) -> None:
    """A bed has this planted AREA from a day on; the days before keep theirs.

    \b
    Example: farmops beds size WREN-N "20 sq ft" --on "1 apr"
    """
    from farmops.farm.beds import size_bed as resize

    day = desk.day(on)
    one = names.bed(desk.store, bed)
    with asked():
        size = resize(desk.store, NewBedSize(one.id, day, desk.area(area), sure), **desk.hand)
    if as_json:
        emit({"bed": one.code, **_plain_size(size)})
    else:
        say(f"{one.code} has {_area(desk, size)} from {size.from_day}.")


@beds.command("remove")
@click.argument("bed")
@pass_desk
def remove_bed(desk: Desk, bed: str) -> None:
    """Remove a bed in which nothing was planted.

    \b
    Example: farmops beds remove WREN-N
    """
    from farmops.farm.removal import remove_record

    one = names.bed(desk.store, bed)
    remove_record(desk.store, Removal("beds", one.id), **desk.hand)
    say(f"{one.code} removed. farmops undo brings it back.")


def size_on(sizes: Sequence[BedSize], day: date) -> BedSize | None:
    """The size that holds on a day, of sizes first to last."""
    return next((size for size in reversed(sizes) if size.from_day <= day), None)


def plain_bed(bed: Bed) -> dict[str, object]:
    """A bed in canonical units."""
    return {
        "id": bed.id,
        "bed": bed.code,
        "unit": bed.unit,
        "name": bed.name,
        "kind": bed.kind,
        "depth_mm": bed.depth_um / UM_PER_MM if bed.depth_um is not None else None,
        "depth_typed": bed.depth_typed,
        "note": bed.note,
    }


def _plain_line(one: BedLine, day: date) -> dict[str, object]:
    size = size_on(one.sizes, day)
    area = size.area_mm2 / MM2_PER_M2 if size else None
    return {**plain_bed(one.bed), "area_m2": area, "sizes": [_plain_size(size) for size in one.sizes]}


def _plain_size(size: BedSize) -> dict[str, object]:
    return {"from": size.from_day, "area_m2": size.area_mm2 / MM2_PER_M2, "area_typed": size.area_typed}


def _area(desk: Desk, size: BedSize | None) -> str:
    return AREA.show(size.area_mm2, desk.measures) if size else "no size yet"


def _depth(desk: Desk, bed: Bed) -> str:
    return LENGTH.show(bed.depth_um, desk.measures) if bed.depth_um else ""


def _told(desk: Desk, bed: Bed, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_bed(bed))
    else:
        say(f"{bed.code} {done}{', ' + _depth(desk, bed) + ' deep' if bed.depth_um else ''}.")
