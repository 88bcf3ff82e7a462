"""From a chore as a person describes it to its columns."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.facts.conditions import named
from farmops.model.chores import NewChore
from farmops.model.errors import OutOfRange, Refused
from farmops.model.text import name_of, note_of
from farmops.model.units import UnitState
from farmops.quantities import Measures
from farmops.records.chores import ChoreRow
from farmops.schedule.rfc import parse_rrule
from farmops.schedule.rules import Rule, WhenHolds
from farmops.schedule.stored import rule_text, start_of
from farmops.schedule.words import in_words, parse_words

LONGEST_MINUTES = 1440


def chore_row(entry: NewChore, zone: str | None = None, measures: Measures | None = None) -> ChoreRow:
    """The row of a new chore. Raises NotUnderstood or Refused for a rule that cannot be."""
    if sum(place is not None for place in (entry.unit_id, entry.bed_id, entry.fish_lot_id)) > 1:
        raise Refused("Not booked: a chore belongs to the farm, or to one unit, bed or fish lot.")
    return ChoreRow(
        title=name_of(entry.title, "title"),
        unit_id=entry.unit_id,
        bed_id=entry.bed_id,
        fish_lot_id=entry.fish_lot_id,
        person_id=entry.person_id,
        grade=entry.grade.value,
        part=entry.part.value,
        minutes=minutes_of(entry.minutes),
        instructions=note_of(entry.instructions, "instructions"),
        caution=note_of(entry.caution, "caution"),
        readings=listed(entry.readings),
        confirmation=note_of(entry.confirmation, "confirmation"),
        adults_only=entry.adults_only,
        months=months_of(entry.months),
        states=states_of(entry.states),
        with_fish=entry.with_fish,
        template_key=entry.template_key,
        template_version=entry.template_version,
        next_due=None,
        **rule_columns(entry.rule, entry.start_day, literal=entry.literal, zone=zone, measures=measures),
    )


def rule_columns(
    text: str, start: date, *, literal: bool, zone: str | None, measures: Measures | None = None
) -> dict[str, Any]:
    """The four columns of a rule. Raises NotUnderstood or Refused for one that cannot be, or that nothing can meet."""
    rule = rule_of(text, start, literal=literal, zone=zone, measures=measures)
    if isinstance(rule, WhenHolds):
        named(rule.condition)
    kind, stored = rule_text(rule)
    return {"rule_kind": kind, "rule_text": stored, "rule_words": in_words(rule), "start_day": start_of(rule)}


def rule_of(text: str, start: date, *, literal: bool, zone: str | None, measures: Measures | None = None) -> Rule:
    """The rule a person typed: RFC 5545 text taken literally, or plain words, weights in the farm's measures."""
    return parse_rrule(text, start, zone) if literal else parse_words(text, start, measures)


def minutes_of(minutes: int) -> int:
    """Minutes a chore may take."""
    if not 0 <= minutes <= LONGEST_MINUTES:
        raise OutOfRange(f"{minutes} minutes is no length of a chore. Understood: 0 to {LONGEST_MINUTES}.")
    return minutes


def months_of(months: tuple[int, ...]) -> str | None:
    """Months 1 to 12 as stored; None for all."""
    if any(not 1 <= month <= 12 for month in months):
        raise OutOfRange("Months are numbers from 1 to 12.")
    return listed(tuple(str(month) for month in sorted(set(months))))


def states_of(states: tuple[UnitState, ...]) -> str | None:
    """States as stored; None for all."""
    return listed(tuple(state.value for state in states))


def listed(words: tuple[str, ...]) -> str | None:
    """Words as stored, parted by commas; None for none."""
    return ",".join(name_of(word, "list") for word in words) or None
