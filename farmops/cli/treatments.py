"""`farmops treatments`: what was done against pests and diseases, and the holds that follow."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from typing import Any

import click

from farmops import clock
from farmops.cli.desk import Desk, changes, pass_desk
from farmops.cli.entries import NUMBER, emptied
from farmops.cli.options import answer_options, json_option, note_option, on_option, span_options
from farmops.cli.output import emit, line, say, table
from farmops.model.errors import NotUnderstood, Refused, Unlikely
from farmops.model.journal import Removal
from farmops.model.treatments import LONGEST_DAYS, NewTreatment, TreatmentBooked, TreatmentChange
from farmops.reports import lists
from farmops.reports.treatments import Told, treated_place, treatment_called, treatments_of

NONE_YET = (
    'No treatment here. Book one: farmops treatments add WREN-N "soap spray" --amount "1 L" --re-entry 4 --harvest 1'
)
DAYS = click.IntRange(0, LONGEST_DAYS)
HOURS = click.IntRange(0)
WORDS = ("active", "registration", "against", "note")


@click.group()
def treatments() -> None:
    """What was done against pests and diseases: when people may go in again, when to pick, when to take fish.

    The label is the law, and local rules come first. Most of what kills insects kills fish, too.
    """


def _words(command: Any) -> Any:
    for option in (
        click.option("--active", metavar="NAME", help="The active ingredient."),
        click.option("--registration", metavar="NUMBER", help="The registration number on the label."),
        click.option("--against", metavar="WHAT", help="The pest or the disease."),
        click.option("--who", "actor", metavar="NAME", help="Who did it. [whoever books it]"),
        click.option("--sure", is_flag=True, help="Book what was asked about all the same."),
        click.option("--at", "hour", metavar="HH:MM", help="The time of day it was done. [now]"),
    ):
        command = option(command)
    return command


@treatments.command("add", short_help="Book a treatment of a unit, a bed or a fish lot.")
@click.argument("where")
@click.argument("product")
@click.option("--amount", "amount_typed", required=True, metavar="TEXT", help="How much of it, and in how much water.")
@click.option("--re-entry", "reentry_hours", type=HOURS, required=True, help="Hours until people may go in again.")
@click.option("--harvest", "harvest_days", type=DAYS, help="Days until harvest; 0 if the label names none.")
@click.option("--fish", "fish_days", type=DAYS, help="Days until fish may be taken; 0 if the label names none.")
@_words
@note_option
@on_option
@json_option
@pass_desk
def add(
    desk: Desk, /, where: str, harvest_days: int | None, hour: str | None, on: str | None, as_json: bool, **typed: Any
) -> None:
    """Book a treatment of a unit, a bed or a fish lot (WHERE) with a PRODUCT; what its label says goes with it.

    \b
    A planting is treated with its bed. Days count on the calendar: 3 days after Monday is Thursday, from the same hour.
    Examples: farmops treatments add WREN-N "soap spray" --amount "20 mL in 1 L" --re-entry 4 --harvest 1 --at 18:30
              farmops treatments add P1 "medicated feed" --amount "50 g a day" --re-entry 0 --fish 21
    """
    from farmops.farm.treatments import book_treatment

    place = treated_place(desk.store, where)
    if harvest_days is None and "fish_lot_id" not in place:
        raise NotUnderstood("Say how many days the label holds the harvest: --harvest 3, or 0 if it names none.")
    day = desk.day(on)
    entry = NewTreatment(day, _minute(desk, hour, day), harvest_days=harvest_days or 0, **place, **typed)
    with asked():
        booked = book_treatment(desk.store, entry, **desk.hand)
    _tell(desk, booked, "Booked", as_json)


def _minute(desk: Desk, hour: str | None, day: date) -> int:
    if hour is not None:
        return clock.parse_minute(hour)
    if day != desk.today:
        raise NotUnderstood("Say at what time of day it was done, since people may go in again by it: --at 18:30")
    now = desk.farm.now().astimezone(clock.time_zone(desk.farm.time_zone))
    return now.hour * 60 + now.minute


@contextmanager
def asked() -> Iterator[None]:
    """Where harm or a weighing in the hold is asked about, say how to answer."""
    try:
        yield
    except Unlikely as error:
        raise Refused(f"{error} If it was done all the same: --sure") from None


@treatments.command("list")
@span_options
@click.option("--unit", metavar="CODE", help="Only of one unit, its beds and its fish.")
@answer_options
@pass_desk
def list_treatments(desk: Desk, first: str | None, last: str | None, unit: str | None, as_json: bool) -> None:
    """List treatments, the latest first, with what each holds until when.

    \b
    Example: farmops treatments list --unit WREN
    """
    lists.farm(desk.store)
    span = (desk.day_or_none(first) or date.min, desk.day_or_none(last) or date.max)
    found = treatments_of(desk.store, *span, unit=unit)
    if as_json:
        emit({"treatments": [treatment_object(one) for one in found]})
    elif not found:
        say(NONE_YET)
    else:
        rows = [
            [str(each.one.id), str(each.one.day), each.one.where, each.one.product, each.enter, each.pick, each.fish]
            for each in found
        ]
        table(["no.", "day", "where", "product", "people from", "harvest from", "fish from"], rows, right=[0])


@treatments.command("show")
@click.argument("number", type=NUMBER)
@answer_options
@pass_desk
def show(desk: Desk, number: int, as_json: bool) -> None:
    """Show one treatment by its number: what its label says, what it can harm, and what lies in its hold.

    \b
    Example: farmops treatments show 1
    """
    lists.farm(desk.store)
    told = treatment_called(desk.store, number)
    if as_json:
        emit(treatment_object(told))
        return
    for words in told.lines:
        line(words)


@treatments.command("edit")
@click.argument("number", type=NUMBER)
@click.option("--product", metavar="NAME")
@click.option("--amount", "amount_typed", metavar="TEXT", help="How much of it.")
@click.option("--re-entry", "reentry_hours", type=HOURS, help="Hours until people may go in again.")
@click.option("--harvest", "harvest_days", type=DAYS, help="Days until harvest.")
@click.option("--fish", "fish_days", type=DAYS, help="Days until fish may be taken.")
@_words
@click.option("--note", metavar="TEXT", help="A note; - clears it.")
@click.option("--on", metavar="DAY", help="The day it was done.")
@json_option
@pass_desk
def edit(desk: Desk, /, number: int, hour: str | None, on: str | None, sure: bool, as_json: bool, **typed: Any) -> None:
    """Correct a treatment by its number; where it was done stays. The chores it gave stay as they are.

    \b
    Example: farmops treatments edit 1 --harvest 7
    """
    from farmops.farm.treatments import change_treatment

    minute = clock.parse_minute(hour) if hour is not None else None
    given = emptied(changes(**typed, minute=minute, day=desk.day_or_none(on)), *WORDS)
    with asked():
        changed = change_treatment(desk.store, TreatmentChange(number, **given, sure=sure), **desk.hand)
    _tell(desk, changed, "Changed", as_json)


@treatments.command("remove")
@click.argument("number", type=NUMBER)
@pass_desk
def remove(desk: Desk, number: int) -> None:
    """Remove a treatment that was never done, by its number; its holds go with it.

    \b
    Example: farmops treatments remove 1
    """
    from farmops.farm.removal import remove_record

    lists.farm(desk.store)
    one = treatment_called(desk.store, number).one
    remove_record(desk.store, Removal("treatments", number), **desk.hand)
    say(f"Treatment {number} removed: {one.product} on {one.where}, {one.day}. farmops undo brings it back.")


def treatment_object(told: Told) -> dict[str, object]:
    """A treatment in JSON's words."""
    one = told.one
    return {
        "id": one.id,
        "day": one.day,
        "at": one.at,
        "unit": one.unit,
        "bed": one.bed,
        "lot": one.lot,
        "product": one.product,
        "active": one.active,
        "registration": one.registration,
        "against": one.against,
        "amount": one.amount_typed,
        "reentry_hours": one.reentry_hours,
        "harvest_days": one.harvest_days,
        "fish_days": one.fish_days,
        "people_from": told.enter_at,
        "harvest_from": told.pick_at,
        "fish_from": told.fish_at,
        "who": one.actor,
        "note": one.note,
        "warnings": list(told.warnings),
        "weighed_inside": list(told.inside),
        "operation": one.operation,
    }


def _tell(desk: Desk, booked: TreatmentBooked, done: str, as_json: bool) -> None:
    told = treatment_called(desk.store, booked.treatment.id)
    if as_json:
        emit(treatment_object(told))
        return
    say(f"{done}: {told.summary} Slip? farmops undo")
    for words in (*told.warnings, *(f"In the hold: {one}" for one in told.inside)):
        say(words)
    for title in booked.given:
        say(f"Chore: {title}")
