"""Giving units, beds and the farm the chores that the library proposes for their kind and state."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from farmops.facts import beds as bed_facts
from farmops.facts import chores as chore_facts
from farmops.facts import fish as fish_facts
from farmops.facts import units as unit_facts
from farmops.farm.chore_rows import chore_row
from farmops.farm.operation import Operation
from farmops.library import ChoreTemplate, chore_templates, of_state
from farmops.model.beds import Bed, BedKind
from farmops.model.chores import AppliesTo, NewChore, SettledAs, Settlement
from farmops.model.units import StateFrom, Unit, UnitState
from farmops.schedule.due import due
from farmops.schedule.words import parse_words


def give_chores(op: Operation, unit: Unit, state: UnitState, day: date) -> None:
    """A unit entering a state gets that state's chores, its beds theirs, and the farm those it lacks."""
    templates = of_state(chore_templates(), unit.kind, state)
    with_fish = bool(fish_facts.fish_spans(op.reader).get(unit.id))
    own = [t for t in templates if t.applies_to is AppliesTo.UNIT and (with_fish or not t.with_fish)]
    _give(op, own, day, unit_id=unit.id)
    for bed in bed_facts.beds(op.reader, unit.id):
        _give_bed(op, bed, templates, day)
    _give(op, [t for t in templates if t.applies_to is AppliesTo.FARM], day)


def give_bed_chores(op: Operation, bed: Bed, states: list[StateFrom], day: date) -> None:
    """A new bed gets the chores of the state its unit is in."""
    unit = unit_facts.unit(op.reader, bed.unit_id)
    held = [one.state for one in states if one.from_day <= day]
    if unit is not None and held:
        _give_bed(op, bed, of_state(chore_templates(), unit.kind, held[-1]), day)


def give_fish_chores(op: Operation, unit_id: int, day: date) -> None:
    """A unit with its first fish gets the chores that only live fish call for."""
    unit = unit_facts.unit(op.reader, unit_id)
    held = [one.state for one in unit_facts.states(op.reader, unit_id) if one.from_day <= day]
    if unit is not None and held:
        _give(op, [t for t in of_state(chore_templates(), unit.kind, held[-1]) if t.with_fish], day, unit_id=unit_id)


def _give_bed(op: Operation, bed: Bed, templates: Iterable[ChoreTemplate], day: date) -> None:
    if bed.kind is BedKind.MEDIA:
        _give(op, [t for t in templates if t.applies_to is AppliesTo.BED], day, bed_id=bed.id)


def _give(
    op: Operation,
    templates: Iterable[ChoreTemplate],
    day: date,
    *,
    unit_id: int | None = None,
    bed_id: int | None = None,
) -> None:
    held = chore_facts.template_keys(op.reader, unit_id, bed_id)
    for template in templates:
        if template.key not in held:
            op.add(chore_row(_chore(template, day, unit_id, bed_id)))


def _rule_from(template: ChoreTemplate, day: date) -> tuple[str, date]:
    """The rule's words and its start: work that counts from a doing counts from the day of the state."""
    wait = template.once_after_days
    if wait is not None:
        start = day + timedelta(days=wait)
        return start.isoformat(), start
    if template.rule.endswith("after"):
        start = due(parse_words(template.rule, day), [Settlement(day, SettledAs.DONE, day)]) or day
        return template.rule, start
    return template.rule, day


def _chore(template: ChoreTemplate, day: date, unit_id: int | None, bed_id: int | None) -> NewChore:
    rule, start = _rule_from(template, day)
    return NewChore(
        title=template.title,
        rule=rule,
        start_day=start,
        unit_id=unit_id,
        bed_id=bed_id,
        grade=template.grade,
        part=template.part,
        minutes=template.minutes,
        instructions=template.instructions,
        caution=template.caution,
        readings=template.readings,
        confirmation=template.confirmation,
        adults_only=template.adults_only,
        months=template.months,
        states=template.states if template.applies_to is not AppliesTo.FARM else (),
        with_fish=template.with_fish,
        template_key=template.key,
        template_version=template.version,
    )
