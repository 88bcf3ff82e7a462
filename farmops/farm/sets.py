"""Sets of chores given by hand or by what happened: treatment, dosing, bed cleaning, a power cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import units as unit_facts
from farmops.facts.sets import Coming, Place, Sets, sets
from farmops.farm.chores import settle
from farmops.farm.operation import Operation, operation
from farmops.farm.templates import give
from farmops.model.beds import Bed
from farmops.model.chores import Occasion, SettledAs, Settling
from farmops.model.errors import OutOfRange, Refused
from farmops.model.templates import GivenSet, NewSet
from farmops.model.units import Unit, UnitState
from farmops.records.beds import BedRow
from farmops.records.units import UnitRow

LONGEST_HOLD_DAYS = 365
FEEDING = "feed"
POWER_CUT = "power cut: no feed on this day"


@operation("set of chores")
def give_set(op: Operation, entry: NewSet) -> GivenSet:
    """The chores of an occasion are given to a unit or a bed; those of them that are open last longer.

    A power cut leaves out the feed of the day.
    """
    day = op.sensible_day(entry.day)
    unit, bed = _where(op, entry)
    known = sets(op.reader, unit.id)
    coming = held_by_label(entry, known.on_occasion(entry.occasion, unit, day, bed))
    if not coming:
        raise Refused(f"Nothing to give: no chore of {entry.occasion} is for {unit.code} as it is on {day}.")
    given = give(op, coming, day)
    skipped = leave_out_feed(op, known, unit.id, day) if entry.occasion is Occasion.POWER_CUT else ()
    if not given and not skipped:
        raise Refused(f"Nothing to give: all that {entry.occasion} calls for at {unit.code} stands open already.")
    return GivenSet(_titles(given, is_open=False), _titles(given, is_open=True), skipped)


def _where(op: Operation, entry: NewSet) -> tuple[Unit, Bed | None]:
    op.get(UnitRow, entry.unit_id)
    unit = unit_facts.unit(op.reader, entry.unit_id)
    assert unit is not None  # noqa: S101 - it was read a moment ago
    if entry.occasion is Occasion.STATE:
        raise Refused(f"Not given: the chores of a state come with it. farmops units state {unit.code} STATE")
    held = [one for one in unit_facts.states(op.reader, unit.id) if one.from_day <= entry.day]
    if held and held[-1].state is UnitState.RETIRED:
        raise Refused(f"Not given: {unit.code} is retired since {held[-1].from_day}.")
    if entry.bed_id is None:
        return unit, None
    op.get(BedRow, entry.bed_id)
    bed = bed_facts.bed(op.reader, entry.bed_id)
    if bed is None or bed.unit_id != unit.id:
        raise Refused(f"Not given: that bed does not belong to {unit.code}.")
    return unit, bed


def held_by_label(entry: NewSet, coming: Sequence[Coming]) -> list[Coming]:
    """The set with its end as the label of a treatment names it, never before the next day."""
    if entry.occasion is not Occasion.TREATMENT:
        if entry.hold_days is not None:
            raise Refused(f"Not given: only a treatment has days until harvest, {entry.occasion} has none.")
        return list(coming)
    if entry.hold_days is None:
        raise Refused("Not given: say how many days the label holds the harvest, 0 if it names none.")
    if not 0 <= entry.hold_days <= LONGEST_HOLD_DAYS:
        raise OutOfRange(f"{entry.hold_days} days is no hold until harvest. Understood: 0 to {LONGEST_HOLD_DAYS}.")
    return [_waiting(one, entry.hold_days) for one in coming]


def _waiting(coming: Coming, days: int) -> Coming:
    wait = coming.template.once_after_days
    return replace(coming, template=coming.template.waiting(max(wait, days))) if wait else coming


def leave_out_feed(op: Operation, known: Sets, unit_id: int, day: date, reason: str = POWER_CUT) -> tuple[str, ...]:
    """The feed of a unit that is due on a day is left out, with the reason."""
    held = known.made.get((Place(unit_id=unit_id), FEEDING))
    chore = chore_facts.chore(op.reader, held.open_chore) if held and held.open_chore else None
    if chore is None or chore.next_due is None or chore.next_due > day:
        return ()
    settle.body(op, Settling(chore.id, SettledAs.SKIPPED, day, reason=reason))
    return (chore.title,)


def _titles(coming: Sequence[Coming], *, is_open: bool) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.template.title for one in coming if (one.open_chore is not None) is is_open))
