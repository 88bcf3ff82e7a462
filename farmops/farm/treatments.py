"""Treatments against pests and diseases, and their holds: nothing new gets into one but as waste."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from farmops import clock
from farmops.facts import beds as bed_facts
from farmops.facts import fish as fish_facts
from farmops.facts import treatments as treatment_facts
from farmops.facts import units as unit_facts
from farmops.facts.held_weighings import weighed_inside
from farmops.facts.sets import sets
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.sets import held_by_label
from farmops.farm.templates import LATE_ENTRY, give
from farmops.library.treatment_harms import THE_LABEL, harms_of
from farmops.model.chores import Occasion
from farmops.model.errors import OutOfRange, Refused, Unlikely
from farmops.model.templates import NewSet
from farmops.model.text import name_of, note_of
from farmops.model.treatments import (
    LONGEST_DAYS,
    LONGEST_REENTRY_HOURS,
    NewTreatment,
    Treatment,
    TreatmentBooked,
    TreatmentChange,
)
from farmops.quantities.weighed import weighing_words
from farmops.records.beds import BedRow
from farmops.records.fish import FishLotRow
from farmops.records.units import UnitRow
from farmops.records.water import TreatmentRow

PLACES = ((UnitRow, "unit_id"), (BedRow, "bed_id"), (FishLotRow, "fish_lot_id"))


@operation("treatment")
def book_treatment(op: Operation, entry: NewTreatment) -> TreatmentBooked:
    """Book what was done against a pest or a disease; it holds what grows or lives there as its label says.

    Asks once, by Unlikely, where it can harm the fish that live there or their filter, and where something that lies
    in the hold is booked as eaten, sold, given or fed already.
    """
    places = {column: getattr(entry, column) for _, column in PLACES}
    for kind, column in PLACES:
        if places[column] is not None:
            op.get(kind, places[column])
    row = op.add(TreatmentRow(**places, **_columns(op, entry)))
    op.check_rules()
    booked = _told(op, _treatment(op, row.id))
    _ask(op, booked, sure=entry.sure)
    return TreatmentBooked(booked.treatment, booked.warnings, booked.inside, _give(op, booked.treatment))


@operation("change treatment")
def change_treatment(op: Operation, entry: TreatmentChange) -> TreatmentBooked:
    """Correct a treatment; asks as booking it does. The chores it gave stay as they are."""
    row = op.get(TreatmentRow, entry.treatment_id)
    values = given(entry, "reentry_hours", "harvest_days", "fish_days")
    words = given(entry, "product", "amount_typed", "active", "registration", "against", "actor", "note")
    op.change(row, **values, **_words(words), **_moment(op, row, entry))
    op.check_rules()
    booked = _told(op, _treatment(op, row.id))
    _ask(op, booked, sure=entry.sure)
    return booked


def _columns(op: Operation, entry: NewTreatment) -> dict[str, Any]:
    names = ("product", "amount_typed", "active", "registration", "against", "note")
    words = {**{name: getattr(entry, name) for name in names}, "actor": entry.actor or op.by}
    numbers = {name: getattr(entry, name) for name in ("reentry_hours", "harvest_days", "fish_days")}
    return {**numbers, **_words(words), **_when(op, entry.day, entry.minute)}


def _words(values: dict[str, Any]) -> dict[str, Any]:
    return mapped(
        values,
        product=lambda text: name_of(text, "product"),
        amount_typed=lambda text: name_of(text, "amount"),
        actor=lambda text: name_of(text, "name of who did it"),
        active=note_of,
        registration=note_of,
        against=note_of,
        note=note_of,
    )


def _moment(op: Operation, row: TreatmentRow, entry: TreatmentChange) -> dict[str, Any]:
    moved = given(entry, "day", "minute")
    if not moved:
        return {}
    local = row.at.astimezone(clock.time_zone(op.farm.time_zone))
    return _when(op, moved.get("day", row.day), moved.get("minute", local.hour * 60 + local.minute))


def _when(op: Operation, day: date, minute: int) -> dict[str, Any]:
    at = clock.instant_of(op.sensible_day(day), minute, op.farm.time_zone)
    if at > op.farm.now():
        raise Refused("Not booked: that is still to come. A treatment is booked once it is done.")
    return {"day": day, "at": at}


def _treatment(op: Operation, id: int) -> Treatment:
    found = treatment_facts.treatment(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found


def _told(op: Operation, one: Treatment) -> TreatmentBooked:
    harms = harms_of(one.product, one.active)
    inside = tuple(weighing_words(each, op.farm.measures) for each in weighed_inside(op.reader, one.id))
    return TreatmentBooked(one, (*(harm.told for harm in harms), THE_LABEL), inside)


def _ask(op: Operation, booked: TreatmentBooked, *, sure: bool) -> None:
    one = booked.treatment
    asked = [*_harm_here(op, one), *_inside_words(booked.inside)]
    if asked and not sure:
        raise Unlikely(f"Not booked yet: {' '.join(asked)} {THE_LABEL}")


def _harm_here(op: Operation, one: Treatment) -> Iterator[str]:
    """What is known to harm fish or filter is asked about where fish live on the day."""
    harms = [harm for harm in harms_of(one.product, one.active) if harm.in_the_loop]
    spans = fish_facts.fish_spans(op.reader).get(one.unit_id, ())
    if harms and any(first <= one.day <= (last or one.day) for first, last in spans):
        yield f"Fish live in {one.unit}."
        yield from (harm.told for harm in harms)


def _inside_words(inside: Sequence[str]) -> Iterator[str]:
    if inside:
        yield f"The hold lies over what is booked already: {'; '.join(inside)}."
        yield "What was thrown away, change to waste first. If it was eaten or sold, tell whoever has it."


def _give(op: Operation, one: Treatment) -> tuple[str, ...]:
    """A sign, tests, and the end of the hold, where the unit has chores at all and it is not long past."""
    unit, known = unit_facts.unit(op.reader, one.unit_id), sets(op.reader, one.unit_id)
    if unit is None or one.day + LATE_ENTRY < op.today or not known.wanted(unit):
        return ()
    bed = bed_facts.bed(op.reader, one.bed_id) if one.bed_id is not None else None
    hold = max(one.harvest_days, one.fish_days or 0)
    asked = NewSet(Occasion.TREATMENT, unit.id, one.day, one.bed_id, hold)
    coming = give(op, held_by_label(asked, known.on_occasion(Occasion.TREATMENT, unit, one.day, bed)), one.day)
    return tuple(dict.fromkeys(each.template.title for each in coming))


@rule(TreatmentRow, alone=True)
def says_how_long(op: Operation, row: TreatmentRow) -> None:
    """A treatment is on one place, and its holds are as long as labels make them."""
    if sum(getattr(row, column) is not None for _, column in PLACES) != 1:
        raise Refused("Not booked: a treatment is done to one unit, one bed or one fish lot.")
    if not 0 <= row.reentry_hours <= LONGEST_REENTRY_HOURS:
        raise OutOfRange(f"Not booked: hours until people may go in again are 0 to {LONGEST_REENTRY_HOURS}.")
    if not 0 <= row.harvest_days <= LONGEST_DAYS:
        raise OutOfRange(f"Not booked: days until harvest are 0 to {LONGEST_DAYS}.")
    if row.fish_days is not None and not 0 <= row.fish_days <= LONGEST_DAYS:
        raise OutOfRange(f"Not booked: days until fish may be taken are 0 to {LONGEST_DAYS}.")


@rule(TreatmentRow, alone=True)
def says_what_it_means_for_a_lot(op: Operation, row: TreatmentRow) -> None:
    """What is done to a fish lot names its days for fish; what goes into the water holds the beds too."""
    if row.fish_lot_id is None:
        return
    if row.fish_days is None:
        raise Refused("Not booked: say how many days the label or the vet holds the fish, 0 if none.")
    if row.harvest_days:
        raise Refused("Not booked: what goes into the water holds the beds as well. Book it on the unit.")


@rule(TreatmentRow)
def is_done_to_live_fish(op: Operation, row: TreatmentRow) -> None:
    """A fish lot is treated while it lives."""
    lot = op.fact(fish_facts.lot, row.fish_lot_id) if row.fish_lot_id is not None else None
    if lot is not None and not lot.stocked_day <= row.day <= (lot.closed_day or row.day):
        raise Refused(f"Not booked: no fish of {lot.code} were there on {row.day}.")
