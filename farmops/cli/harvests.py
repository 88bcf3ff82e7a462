"""`farmops harvest` and `farmops harvests`: weighing, listing and correcting."""

from __future__ import annotations

from datetime import date

import click

from farmops.cli.desk import Desk, changes, cleared, pass_desk
from farmops.cli.entries import asked
from farmops.cli.options import answer_options, json_option, note_option, on_option, one_of, span_options, word
from farmops.cli.output import emit, say, table
from farmops.model.harvests import Harvest, HarvestChange, NewHarvest, Use
from farmops.model.journal import Removal
from farmops.model.values import Measured
from farmops.quantities import MASS, weigh
from farmops.reports import lists, names


@click.command()
@click.argument("where")
@click.argument("what")
@click.argument("weight")
@click.option("--use", type=one_of(Use), default=Use.HOME.value, show_default=True, help="What becomes of it.")
@click.option("--count", "number", type=click.IntRange(1), help="How many pieces, bunches or fish.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty bowl, taken off.")
@click.option("--dressed", metavar="WEIGHT", help="Of fish: what they weighed gutted.")
@click.option("--sure", is_flag=True, help="Book it although it is far from the usual or booked by somebody else.")
@note_option
@on_option
@json_option
@pass_desk
def harvest(
    desk: Desk,
    where: str,
    what: str,
    weight: str,
    use: str,
    number: int | None,
    tare: str | None,
    dressed: str | None,
    sure: bool,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Weigh a harvest: WHERE it grew (a bed, or a unit for fish), WHAT it is, and the WEIGHT on the scale.

    \b
    Examples: farmops harvest WREN-N CHARD "1 6"
              farmops harvest WREN-N CHARD "1 lb 14 oz" --tare "8 oz" --use sold
              farmops harvest WREN PERCH-24 "3 lb 2 oz" --count 4 --dressed "1 lb 14 oz"
    """
    from farmops.farm.harvests import record_harvest

    day = desk.day(on)
    weighed = weigh(weight, tare, desk.measures)
    origin = names.origin(desk.store, where, what, day)
    entry = NewHarvest(
        day,
        Measured(weighed.net_mg, weight),
        planting_id=origin.planting.id if origin.planting else None,
        fish_lot_id=origin.lot.id if origin.lot else None,
        tare=Measured(weighed.tare_mg, tare) if tare else None,
        number=number,
        use=word(Use, use),
        note=note,
        sure=sure,
        dressed=desk.mass(dressed) if dressed is not None else None,
    )
    with asked():
        booked = record_harvest(desk.store, entry, **desk.hand)
    _told(desk, booked, "Booked", as_json)


@click.group()
def harvests() -> None:
    """List and correct weighings."""


@harvests.command("list")
@span_options
@click.option("--unit", metavar="CODE", help="Only from one unit.")
@answer_options
@pass_desk
def list_harvests(desk: Desk, first: str | None, last: str | None, unit: str | None, as_json: bool) -> None:
    """List weighings, oldest first.

    \b
    Example: farmops harvests list --from "1 sep" --unit WREN
    """
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    lists.farm(desk.store)
    code = names.unit(desk.store, unit).code if unit is not None else None
    found = [one for one in lists.harvests(desk.store, *span) if code in (None, one.unit)]
    if as_json:
        emit({"harvests": [plain_harvest(one) for one in found]})
    elif not found:
        say('No weighing here. Book one: farmops harvest WREN-N CHARD "1 6"')
    else:
        rows = [
            [
                str(one.id),
                one.day.isoformat(),
                one.bed or one.unit,
                one.what,
                MASS.show(one.mass_mg, desk.measures),
                str(one.number or ""),
                one.use,
                one.lot_code,
                one.note or "",
            ]
            for one in found
        ]
        table(["no.", "day", "where", "what", "weight", "count", "use", "lot", "note"], rows, right=[0, 4, 5])


@harvests.command("edit")
@click.argument("number", type=int)
@click.option("--weight", metavar="WEIGHT", help="Weight on the scale.")
@click.option("--tare", metavar="WEIGHT", help="Weight of the empty bowl; - for none. Needs --weight.")
@click.option("--use", type=one_of(Use))
@click.option("--count", "pieces", type=click.IntRange(1))
@click.option("--dressed", metavar="WEIGHT", help="Of fish: what they weighed gutted; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", metavar="DAY", help="The day it was weighed.")
@json_option
@pass_desk
def edit_harvest(
    desk: Desk,
    number: int,
    weight: str | None,
    tare: str | None,
    use: str | None,
    pieces: int | None,
    dressed: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Correct a weighing by its number in the list.

    \b
    Example: farmops harvests edit 12 --weight "1 lb 9 oz" --use sold
    """
    from farmops.farm.harvests import change_harvest

    if tare and not weight:
        raise click.UsageError("--tare needs --weight: the two are weighed together.")
    day = desk.day_or_none(on)
    given = changes(weight=weight, use=word(Use, use), number=pieces, dressed=dressed, note=note, day=day)
    if dressed is not None:
        given["dressed"] = None if dressed == "-" else desk.mass(dressed)
    if weight:
        bowl = None if tare in (None, "-") else tare
        weighed = weigh(given.pop("weight"), bowl, desk.measures)
        given["mass"] = Measured(weighed.net_mg, weight)
        given["tare"] = Measured(weighed.tare_mg, bowl) if bowl else None
    if note:
        given["note"] = cleared(note)
    changed = change_harvest(desk.store, HarvestChange(number, **given), **desk.hand)
    _told(desk, changed, "Changed", as_json)


@harvests.command("remove")
@click.argument("number", type=int)
@pass_desk
def remove_harvest(desk: Desk, number: int) -> None:
    """Remove a weighing by its number in the list.

    \b
    Example: farmops harvests remove 12
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    remove_record(desk.store, Removal("harvests", number), **desk.hand)
    say(f"Weighing {number} removed. farmops undo brings it back.")


def plain_harvest(one: Harvest) -> dict[str, object]:
    """A weighing in canonical units."""
    return {
        "id": one.id,
        "date": one.day,
        "unit": one.unit,
        "bed": one.bed,
        "what": one.what,
        "mass_g": one.mass_mg / 1000,
        "tare_g": one.tare_mg / 1000,
        "typed": one.mass_typed,
        "count": one.number,
        "use": one.use,
        "dressed_g": None if one.dressed_mg is None else one.dressed_mg / 1000,
        "lot_code": one.lot_code,
        "note": one.note,
        "operation": one.operation,
    }


def _told(desk: Desk, one: Harvest, done: str, as_json: bool) -> None:
    if as_json:
        emit(plain_harvest(one))
        return
    weight = MASS.show(one.mass_mg, desk.measures)
    bowl = f" (tare {MASS.show(one.tare_mg, desk.measures)} taken off)" if one.tare_mg else ""
    dressed = f", dressed {MASS.show(one.dressed_mg, desk.measures)}" if one.dressed_mg else ""
    origin = f"{one.what} from {one.bed or one.unit}"
    say(f"{done}: {weight}{bowl}{dressed} {origin}, {one.day}, {one.use}. Slip? farmops undo")
