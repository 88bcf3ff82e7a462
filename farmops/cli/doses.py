"""`farmops doses`: what was added to the water, how much and why, and how much to add."""

from __future__ import annotations

from datetime import date

import click

from farmops.cli.calc import typed
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied, numbered
from farmops.cli.options import answer_options, json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.library.dose_cautions import dose_cautions
from farmops.model.journal import Removal
from farmops.model.water import Dose, DoseChange, NewDose
from farmops.quantities import MASS, VOLUME
from farmops.quantities.doses import parse_amount, show_dose
from farmops.reports import lists, names
from farmops.reports.dosing import PRODUCTS, Suggestion, suggested
from farmops.reports.supplies_held import supply_called
from farmops.reports.water import waters_of

MG_PER_G = 1000
NONE_YET = 'Nothing was added here. Book it: farmops doses add WREN "potassium bicarbonate" "65 g" --why "pH falls"'


@click.group()
def doses() -> None:
    """What was added to the water: how much, why and by whom. Labels and local rules come first."""


@doses.command("add")
@click.argument("unit")
@click.argument("what")
@click.argument("amount")
@click.option("--why", metavar="TEXT", help="What it is to do.")
@click.option("--supply", metavar="SUPPLY", help="The supply it is taken from. [none]")
@note_option
@on_option
@json_option
@pass_desk
def add(
    desk: Desk,
    unit: str,
    what: str,
    amount: str,
    why: str | None,
    supply: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Book what was added to the water of a unit, by weight or by volume; says what to mind.

    \b
    Examples: farmops doses add WREN "potassium bicarbonate" "65 g" --why "pH falls"
              farmops doses add WREN "iron chelate" "30 ml" --supply "iron chelate"
    """
    from farmops.farm.doses import record_dose

    place, day = names.unit(desk.store, unit), desk.day(on)
    held = supply_called(desk.store, supply).id if supply else None
    entry = NewDose(place.id, day, what, parse_amount(amount, desk.measures), why, note, held)
    _told(desk, record_dose(desk.store, entry, **desk.hand), "Booked", as_json)


@doses.command("list")
@click.option("--unit", metavar="CODE", help="Only of one unit.")
@span_options
@answer_options
@pass_desk
def list_doses(desk: Desk, unit: str | None, first: str | None, last: str | None, as_json: bool) -> None:
    """List what was added, the latest first.

    \b
    Example: farmops doses list --unit WREN --from "1 may"
    """
    lists.farm(desk.store)
    code = names.unit(desk.store, unit).code if unit is not None else None
    every = lists.doses(desk.store, desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    found = [one for one in every if code in (None, one.unit)]
    if as_json:
        emit({"doses": [plain_dose(one) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        rows = [
            [str(x.id), str(x.day), x.unit, x.what, show_dose(x, desk.measures), x.why or "", x.by or "", x.note or ""]
            for x in found
        ]
        table(["no.", "day", "unit", "what", "amount", "why", "by", "note"], rows, right=[0, 4])


@doses.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--what", metavar="TEXT", help="What was added.")
@click.option("--amount", metavar="AMOUNT", help="How much.")
@click.option("--why", metavar="TEXT", help="What it is to do; - clears it.")
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@on_option
@json_option
@pass_desk
def edit(
    desk: Desk,
    number: int,
    what: str | None,
    amount: str | None,
    why: str | None,
    note: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """Correct a dose by its number.

    \b
    Example: farmops doses edit 1 --amount "60 g"
    """
    from farmops.farm.doses import change_dose

    one = _numbered(desk, number)
    measured = parse_amount(amount, desk.measures) if amount is not None else None
    given = emptied(changes(what=what, amount=measured, why=why, note=note, day=desk.day_or_none(on)), "why", "note")
    _told(desk, change_dose(desk.store, DoseChange(one.id, **given), **desk.hand), "Changed", as_json)


@doses.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a dose by its number.

    \b
    Example: farmops doses remove 1
    """
    from farmops.farm.removal import remove_record

    one = _numbered(desk, number)
    remove_record(desk.store, Removal("doses", one.id), **desk.hand)
    say(f"Dose {one.id} of {one.what} removed. farmops undo brings it back.")


@doses.command("suggest")
@click.argument("unit")
@click.argument("product", type=click.Choice(PRODUCTS, case_sensitive=False))
@click.option("--to", "wanted", type=typed.MG_PER_L, required=True, help="The reading wanted [mg/L].")
@click.option("--strength", type=typed.PERCENT, help="Strength on the label [%]; bases count as pure.")
@click.option("--water", metavar="VOLUME", help="All the water that mixes. [the tank]")
@on_option
@answer_options
@pass_desk
def suggest(
    desk: Desk,
    unit: str,
    product: str,
    wanted: float,
    strength: float | None,
    water: str | None,
    on: str | None,
    as_json: bool,
) -> None:
    """How much of a product brings the latest reading of a unit where it is wanted. Books nothing.

    \b
    Examples: farmops doses suggest WREN "potassium bicarbonate" --to 80
              farmops doses suggest WREN "chelated iron" --to 2 --strength 11
    """
    place = names.unit(desk.store, unit)
    volume = VOLUME.parse(water, desk.measures) if water is not None else None
    waters = waters_of(desk.store, desk.day(on))
    found = suggested(waters, place.id, product, wanted, strength_percent=strength, water_ml=volume)
    if as_json:
        emit(plain_suggestion(found))
        return
    for words in suggestion_lines(desk, found):
        line(words)


def suggestion_lines(desk: Desk, found: Suggestion) -> list[str]:
    """How much, what it rests on, what comes along and what to mind."""
    dose, measures = found.dose, desk.measures
    weight = MASS.show(round(dose.grams * MG_PER_G), measures)
    water = VOLUME.show(round(found.water_l * 1000), measures)
    brings = ", ".join(f"{rise:.1f} mg/L {name}" for name, rise in dose.brings)
    return [
        f"{weight} ({dose.grams:.0f} g) of {dose.product} into {found.unit}: "
        f"{found.measure} from {found.now:g} to {found.wanted:g} mg/L.",
        f"Reckoned on {water}, {found.basis}, and on the latest reading.",
        *([f"It brings along {brings}."] if brings else []),
        *(f"Mind: {words}" for words in dose.caution),
    ]


def plain_suggestion(found: Suggestion) -> dict[str, object]:
    """A suggestion in JSON's words."""
    return {
        "unit": found.unit,
        "measure": found.measure,
        "now_mg_per_l": found.now,
        "wanted_mg_per_l": found.wanted,
        "water_l": found.water_l,
        "basis": found.basis,
        "product": found.dose.product,
        "grams": found.dose.grams,
        "cautions": list(found.dose.caution),
    }


def plain_dose(one: Dose) -> dict[str, object]:
    """A dose in JSON's words; the amount in grams or in litres."""
    by_mass = one.held_by == "mass"
    return {
        "id": one.id,
        "date": one.day,
        "unit": one.unit,
        "what": one.what,
        "mass_g": one.amount / 1000 if by_mass else None,
        "volume_l": None if by_mass else one.amount / 1000,
        "amount_typed": one.amount_typed,
        "why": one.why,
        "by": one.by,
        "supply": one.supply,
        "note": one.note,
    }


def _numbered(desk: Desk, number: int) -> Dose:
    lists.farm(desk.store)
    return numbered(lists.doses(desk.store, date.min, date.max), number, "dose", "farmops doses list")


def _told(desk: Desk, one: Dose, done: str, as_json: bool) -> None:
    cautions = dose_cautions(one.what)
    if as_json:
        emit({**plain_dose(one), "cautions": list(cautions)})
        return
    why = f", {one.why}" if one.why else ""
    why += f", taken from {one.supply}" if one.supply else ""
    say(f"{done}: {one.unit} {show_dose(one, desk.measures)} of {one.what}, {one.day}{why}. Slip? farmops undo")
    for words in cautions:
        say(f"Mind: {words}")
