"""`farmops chores set`: the set of chores of an occasion, given by hand."""

from __future__ import annotations

import click

from farmops.cli.desk import Desk, pass_desk
from farmops.cli.options import json_option, on_option, word
from farmops.cli.output import emit, say
from farmops.model.chores import Occasion
from farmops.model.templates import NewSet
from farmops.reports import names

OCCASIONS = [one.value.replace(" ", "-") for one in Occasion if one is not Occasion.STATE]


@click.command("set")
@click.argument("occasion", type=click.Choice(OCCASIONS, case_sensitive=False))
@click.option("--unit", metavar="CODE", help="The unit it is for.")
@click.option("--bed", metavar="BED", help="Only one bed of the unit.")
@click.option("--hold", type=click.IntRange(0, 365), metavar="DAYS", help="Days until harvest on a treatment's label.")
@on_option
@json_option
@pass_desk
def give(
    desk: Desk, occasion: str, unit: str | None, bed: str | None, hold: int | None, on: str | None, as_json: bool
) -> None:
    """Give the chores of an occasion: dosing, treatment, bed cleaning, a power cut, stocking, planting.

    Those of them that are open last as long as new ones would.

    \b
    Examples: farmops chores set dosing --unit WREN
              farmops chores set treatment --bed WREN-N --hold 7
    """
    from farmops.farm.sets import give_set

    if (unit is None) == (bed is None):
        raise click.UsageError("Say where: either --unit CODE or --bed BED.")
    place = names.bed(desk.store, bed) if bed is not None else None
    where = names.unit(desk.store, place.unit if place else str(unit))
    entry = NewSet(word(Occasion, occasion), where.id, desk.day(on), place.id if place else None, hold)
    given = give_set(desk.store, entry, **desk.hand)
    if as_json:
        said = {"given": given.given, "prolonged": given.prolonged, "skipped": given.skipped}
        code = place.code if place else None
        emit({"occasion": entry.occasion, "unit": where.code, "bed": code, "on": entry.day, **said})
        return
    for words, titles in (("Given", given.given), ("Lasts longer now", given.prolonged), ("Left out", given.skipped)):
        if titles:
            say(f"{words}: {'; '.join(titles)}.")
