"""Chores: described, settled, put off and paused."""

from __future__ import annotations

from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts.chores import Plan
from farmops.farm import due_dates
from farmops.farm.chore_rows import chore_row, listed, minutes_of, months_of, rule_columns, states_of
from farmops.farm.feeding import feed_by_chore
from farmops.farm.fields import given, mapped
from farmops.farm.following import follow
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.readings import reading_rows
from farmops.farm.unlikely import ask_adult, ask_again
from farmops.model.chores import (
    Chore,
    ChoreChange,
    ChoreClass,
    NewChore,
    NewPause,
    Pause,
    Resuming,
    Settled,
    SettledAs,
    Settling,
)
from farmops.model.errors import NotFound, Refused
from farmops.model.frozen import dataclass
from farmops.model.text import name_of, note_of
from farmops.model.values import KEEP
from farmops.records.beds import BedRow
from farmops.records.chores import ChoreRow, PauseRow, SettlementRow
from farmops.records.farm import PersonRow
from farmops.records.fish import FishLotRow
from farmops.records.readings import ReadingRow
from farmops.records.units import UnitRow
from farmops.schedule.due import due, occurrence_put_off, occurrence_settled, occurrence_skipped
from farmops.schedule.rules import ByUse, WhenHolds
from farmops.schedule.stored import USE


@operation("add chore")
def add_chore(op: Operation, entry: NewChore) -> Chore:
    """A chore of the grower's own, for the farm or for one unit, bed or fish lot."""
    return _chore(op, describe(op, entry).id)


def describe(op: Operation, entry: NewChore) -> ChoreRow:
    """Write down a chore within an operation, which brings its due date up to date at its end."""
    places = ((UnitRow, entry.unit_id), (BedRow, entry.bed_id), (FishLotRow, entry.fish_lot_id))
    for kind, id in (*places, (PersonRow, entry.person_id)):
        if id is not None:
            op.get(kind, id)
    op.sensible_day(entry.start_day)
    return op.add(chore_row(entry, op.farm.time_zone, op.farm.measures))


@operation("change chore")
def change_chore(op: Operation, entry: ChoreChange) -> Chore:
    """Change what a chore says or when it is due; what was settled stays settled."""
    row = op.get(ChoreRow, entry.chore_id)
    names = (
        "title",
        "instructions",
        "caution",
        "confirmation",
        "grade",
        "part",
        "minutes",
        "months",
        "states",
    )
    values = mapped(
        given(entry, *names, "readings", "adults_only", "with_fish", "person_id"),
        title=lambda text: name_of(text, "title"),
        instructions=note_of,
        caution=note_of,
        confirmation=note_of,
        grade=lambda word: word.value,
        part=lambda word: word.value,
        minutes=minutes_of,
        months=months_of,
        states=states_of,
        readings=listed,
    )
    if entry.rule is not KEEP:
        start = row.start_day if entry.start_day is KEEP else op.sensible_day(entry.start_day)
        values |= rule_columns(
            entry.rule, start, literal=entry.literal, zone=op.farm.time_zone, measures=op.farm.measures
        )
    elif entry.start_day is not KEEP:
        values |= _restarted(row, op.sensible_day(entry.start_day), op.farm.time_zone)
    if values.get("person_id") is not None:
        op.get(PersonRow, values["person_id"])
    op.change(row, **values)
    return _chore(op, row.id)


@rule(ChoreRow)
def adults_only_is_not_given_to_a_minor(op: Operation, row: ChoreRow) -> None:
    """What is for adults only falls to no minor as a rule."""
    person = op.get(PersonRow, row.person_id) if row.adults_only and row.person_id is not None else None
    if person is not None and person.minor:
        raise Refused(f"Not booked: {row.title} is for adults only, and {person.name} is a minor.")


@rule(ChoreRow, alone=True)
def has_fish_to_wait_for(op: Operation, row: ChoreRow) -> None:
    """Only where fish can live is there something that rests without them."""
    if row.with_fish and row.unit_id is None and row.bed_id is None and row.fish_lot_id is None:
        raise Refused("Not booked: a chore that rests without fish belongs to a unit, bed or fish lot.")


@rule(ChoreRow, alone=True)
def has_something_that_counts(op: Operation, row: ChoreRow) -> None:
    """Use is counted unit by unit."""
    if row.rule_kind == USE and row.unit_id is None and row.bed_id is None and row.fish_lot_id is None:
        raise Refused("Not booked: a chore by use belongs to a unit, bed or fish lot, whose use is counted.")


def _restarted(row: ChoreRow, start: object, zone: str) -> dict[str, object]:
    literal = row.rule_kind == "calendar"
    text = row.rule_text if literal else row.rule_words
    return rule_columns(text, start, literal=literal, zone=zone)  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class SettlingMany:
    """Several chores settled together or not at all."""

    entries: tuple[Settling, ...]


@dataclass(frozen=True, slots=True)
class SettledMany:
    """What became of them, in the same order."""

    settled: tuple[Settled, ...]


@operation("settle chore")
def settle(op: Operation, entry: Settling) -> Settled:
    """Done, skipped with a reason, or deferred to a day. Stores the occurrence that it settles.

    Asks once, by Unlikely, about what was done on that day already and is not due again, and about what is for adults
    only and was done by a minor.
    """
    return _settle(op, entry)


@operation("settle chores")
def settle_many(op: Operation, entry: SettlingMany) -> SettledMany:
    """Settle several chores in one operation."""
    return SettledMany(tuple(_settle(op, one) for one in entry.entries))


def _settle(op: Operation, entry: Settling) -> Settled:
    """All that can be refused is, before anything is written: a sheet books the lines that are not."""
    row = op.get(ChoreRow, entry.chore_id)
    plan = _plan(op, entry.chore_id)
    (op.past_day if entry.kind is SettledAs.DONE else op.sensible_day)(entry.on)
    _check_settling(op, row, entry)
    occurrence = entry.occurrence or _occurrence(plan, entry, row)
    ask_adult(op, row, entry)
    ask_again(row.title, plan, entry)
    readings = _readings(op, row, entry)
    settlement = op.add(
        SettlementRow(
            chore_id=row.id,
            occurrence=occurrence,
            kind=entry.kind.value,
            on_day=entry.on,
            until_day=entry.until,
            reason=note_of(entry.reason, "reason"),
            confirmed=note_of(entry.confirmed, "confirmation"),
            minutes=None if entry.minutes is None else minutes_of(entry.minutes),
            actor=name_of(entry.actor or op.by, "name of who did it"),
        )
    )
    for reading in readings:
        reading.settlement_id = settlement.id
        op.add(reading)
    if entry.kind is SettledAs.DONE:
        feed_by_chore(op, row, entry, settlement.id)
        follow(op, row, entry.on)
    return next(one for one in chore_facts.settled(op.reader, entry.chore_id) if one.id == settlement.id)


def _readings(op: Operation, row: ChoreRow, entry: Settling) -> list[ReadingRow]:
    if not entry.readings:
        return []
    if entry.kind is not SettledAs.DONE:
        raise Refused(f"Not booked: {row.title} was not done, so nothing was read. Book the readings alone.")
    chore = chore_facts.chore(op.reader, row.id)
    if chore is None or chore.unit_id is None:
        raise Refused(f"Not booked: {row.title} belongs to the whole farm, a reading to one unit. Book it alone.")
    return reading_rows(op, chore.unit_id, entry.on, entry.readings)


def _occurrence(plan: Plan, entry: Settling, row: ChoreRow) -> date:
    rule, history = plan.rule, plan.history
    if due(rule, history) is None and not isinstance(rule, ByUse | WhenHolds):
        raise Refused(f"Not booked: {row.title} is settled for good.")
    if entry.kind is SettledAs.DONE:
        return occurrence_settled(rule, history, entry.on)
    if entry.kind is SettledAs.SKIPPED:
        return occurrence_skipped(rule, history, entry.on)
    occurrence = occurrence_put_off(rule, history, entry.on)
    if occurrence is None:
        raise Refused(f"Not deferred: nothing calls for {row.title} now; it is due {row.rule_words}.")
    return occurrence


def _check_settling(op: Operation, row: ChoreRow, entry: Settling) -> None:
    if entry.kind is SettledAs.DEFERRED:
        _check_deferring(op, row, entry)
    elif entry.until is not None:
        raise Refused("Not booked: only a deferred chore has a day until when.")
    if entry.kind is SettledAs.SKIPPED and not (entry.reason or "").strip():
        raise Refused(f"Not skipped: say why {row.title} is left out this time.")
    if entry.kind is SettledAs.DONE and row.confirmation and not (entry.confirmed or "").strip():
        raise Refused(f"Not done yet: {row.title} asks for a confirmation: {row.confirmation}.")


def _check_deferring(op: Operation, row: ChoreRow, entry: Settling) -> None:
    if entry.until is None:
        raise Refused(f"Not deferred: say until when {row.title} is put off.")
    op.sensible_day(entry.until)
    if entry.until < entry.on:
        raise Refused(f"Not deferred: {entry.until} lies before {entry.on}.")
    last = min(entry.on, max(op.today, row.next_due or op.today))
    if row.grade == ChoreClass.LIFE_SUPPORT.value and entry.until > last:
        raise Refused(
            f"Not deferred: {row.title} is life support and can only wait within the day. "
            "Do it, or skip it with a reason."
        )


@operation("pause chore")
def pause(op: Operation, entry: NewPause) -> Pause:
    """A chore rests; what falls due meanwhile is due once when it goes on."""
    row = op.get(ChoreRow, entry.chore_id)
    day = op.sensible_day(entry.from_day)
    if entry.until is not None and entry.until < day:
        raise Refused(f"Not paused: {entry.until} lies before {day}.")
    for other in _plan(op, entry.chore_id).activity.pauses:
        if (other.until is None or other.until >= day) and (entry.until is None or other.from_day <= entry.until):
            raise Refused(f"Not paused: {row.title} rests already from {other.from_day}.")
    op.add(PauseRow(chore_id=row.id, from_day=day, until_day=entry.until))
    return Pause(day, entry.until)


@operation("resume chore")
def resume(op: Operation, entry: Resuming) -> Pause:
    """A paused chore goes on from a day."""
    op.get(ChoreRow, entry.chore_id)
    query = (
        "SELECT id FROM chore_pause WHERE chore_id = :chore AND from_day <= :day"
        " AND (until_day IS NULL OR until_day >= :day)"
    )
    found = op.reader.value(query, chore=entry.chore_id, day=entry.from_day)
    if found is None:
        raise Refused(f"Not resumed: the chore does not rest on {entry.from_day}.")
    row = op.get(PauseRow, int(found))
    last = entry.from_day - timedelta(days=1)
    if last < row.from_day:
        op.remove(row)
        return Pause(row.from_day, last)
    op.change(row, until_day=last)
    return Pause(row.from_day, last)


def _plan(op: Operation, chore: int) -> Plan:
    found = chore_facts.plans(op.reader, [chore])
    if not found:
        raise NotFound(f"There is no chore {chore}.")
    return found[0]


def _chore(op: Operation, id: int) -> Chore:
    due_dates.refresh(op.transaction)
    found = chore_facts.chore(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
