"""Giving units, beds and the farm the chores that the templates in force propose for a state or another occasion."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta

from farmops.facts import units as unit_facts
from farmops.facts.sets import Coming, Place, Sets, sets
from farmops.farm.chore_rows import chore_row, rule_columns
from farmops.farm.operation import Operation
from farmops.library import FLOOR_HOURS, ChoreTemplate, with_cure
from farmops.library.templates import ONCE
from farmops.model.beds import Bed
from farmops.model.chores import AppliesTo, NewChore, Occasion, SettledAs, Settlement
from farmops.model.units import StateFrom, Unit, UnitState
from farmops.records.chores import ChoreRow
from farmops.schedule.due import due
from farmops.schedule.endings import last_day, lasting
from farmops.schedule.rules import AfterDoing, OnCalendar, Rule
from farmops.schedule.stored import rule_from
from farmops.schedule.words import parse_words

LATE_ENTRY = timedelta(days=14)
"""How long after an occasion work that is due once is still given; booked later than that, it is history."""


def give_chores(op: Operation, unit: Unit, state: UnitState, day: date, cure_hours: int = FLOOR_HOURS) -> None:
    """A unit entering a state gets that state's chores, its beds theirs, and the farm those it lacks."""
    coming = sets(op.reader, unit.id).on_state(unit, state, day, op.today)
    cured = with_cure((one.template for one in coming), cure_hours)
    give(op, [replace(one, template=template) for one, template in zip(coming, cured, strict=True)], day)


def give_bed_chores(op: Operation, bed: Bed, day: date) -> None:
    """A new bed gets the chores of the state its unit is in, unless the unit was to have none."""
    unit = _unit(op, bed.unit_id)
    known = sets(op.reader, unit.id)
    now = known.held(unit.id, max(day, op.today))
    if now is not None and known.wanted(unit):
        _give_now(op, known, unit, known.on_bed(unit, bed, now.state), day, now)


def give_fish_chores(op: Operation, unit_id: int, day: date) -> None:
    """Fish call for the chores of the state their unit is in and for the set of a stocking, if it has any chores."""
    unit = _unit(op, unit_id)
    known = sets(op.reader, unit.id)
    now = known.held(unit.id, max(day, op.today))
    if now is not None and known.wanted(unit):
        _give_now(op, known, unit, known.on_fish(unit, now.state), day, now)
        give_lately(op, known.on_occasion(Occasion.STOCKING, unit, day), day)


def _give_now(op: Operation, known: Sets, unit: Unit, coming: Iterable[Coming], day: date, now: StateFrom) -> None:
    """What the state of today calls for, from the day on if the state of that day did so, too."""
    then = known.held(unit.id, day)
    for one in coming:
        called = then is not None and one.template.fits(unit.kind, then.state)
        give(op, [one], day if called else max(day, now.from_day))


def give_planting_chores(op: Operation, bed: Bed, day: date) -> None:
    """A bed into which a crop goes gets what is to be seen to after a planting."""
    if day + LATE_ENTRY < op.today:
        return
    unit = _unit(op, bed.unit_id)
    known = sets(op.reader, unit.id)
    if known.wanted(unit):
        give_lately(op, known.on_occasion(Occasion.PLANTING, unit, day, bed), day)


def give_lately(op: Operation, coming: Iterable[Coming], day: date) -> None:
    """What an occasion calls for, unless it was booked so late that the work is history."""
    give(op, [one for one in coming if not _is_history(one.template, day, op.today)], day)


def _is_history(template: ChoreTemplate, day: date, today: date) -> bool:
    rule = _rule(template, day)
    last = last_day(rule)
    late_entry = timedelta(0) if isinstance(rule, OnCalendar) else LATE_ENTRY
    return last is not None and last + late_entry < today


def give(op: Operation, coming: Sequence[Coming], day: date) -> list[Coming]:
    """Every chore that is called for; one that is open already lasts as long as a new one would.

    What was to be done at once still is, and does not wait for the next occasion. Gives back those that are new or
    last longer now.
    """
    return [one for one in coming if _give_one(op, one, day)]


def _give_one(op: Operation, coming: Coming, day: date) -> bool:
    if coming.open_chore is not None:
        at_once = coming.template.once_after_days == 0
        return not at_once and _prolong(op, op.get(ChoreRow, coming.open_chore), _rule(coming.template, day))
    op.add(made_from(coming.template, coming.place, day))
    return True


def _prolong(op: Operation, row: ChoreRow, new: Rule) -> bool:
    rule, last = rule_from(row.rule_kind, row.rule_text, row.start_day), last_day(new)
    own = last_day(rule)
    if last is None or own is None or last <= own:
        return False
    if isinstance(rule, OnCalendar):
        op.change(row, **rule_columns(lasting(rule, last).rrule, rule.start, literal=True, zone=None))
    else:
        op.change(row, **rule_columns(ONCE, last, literal=False, zone=None))
    return True


def _rule(template: ChoreTemplate, day: date) -> Rule:
    return parse_words(template.words, day + timedelta(days=template.wait_days))


def start_of(template: ChoreTemplate, day: date) -> date:
    """The first day of a chore of an occasion's: work that counts from a doing counts from the day of the occasion."""
    start = day + timedelta(days=template.wait_days)
    rule = _rule(template, day)
    if not isinstance(rule, AfterDoing):
        return start
    return due(rule, [Settlement(start, SettledAs.DONE, start)]) or start


def made_from(template: ChoreTemplate, place: Place, day: date) -> ChoreRow:
    """The chore that a template gives to a place on the day of its occasion."""
    return chore_row(
        NewChore(
            title=template.title,
            rule=template.words,
            start_day=start_of(template, day),
            unit_id=place.unit_id,
            bed_id=place.bed_id,
            grade=template.grade,
            part=template.part,
            minutes=template.minutes,
            instructions=template.instructions or None,
            caution=template.caution,
            readings=template.readings,
            confirmation=template.confirmation,
            adults_only=template.adults_only,
            months=template.months,
            states=template.states if template.applies_to is not AppliesTo.FARM else (),
            with_fish=template.with_fish and place != Place(),
            template_key=template.key,
            template_version=template.version,
        )
    )


def _unit(op: Operation, id: int) -> Unit:
    found = unit_facts.unit(op.reader, id)
    assert found is not None  # noqa: S101 - something that belongs to it was written a moment ago
    return found
