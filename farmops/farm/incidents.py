"""Incidents: begun with one key, worked through step by step, ended with what follows by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from farmops import clock
from farmops.facts import chores as chore_facts
from farmops.facts import incidents as incident_facts
from farmops.facts.incidents import AtStake
from farmops.facts.sets import sets
from farmops.farm.chores import SettlingMany, settle_many
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.sets import leave_out_feed
from farmops.farm.templates import give_lately
from farmops.library.incident_steps import incident_steps, step_called, steps_of
from farmops.model.chores import Chore, ChoreClass, Occasion, SettledAs, Settling
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.model.incidents import (
    Ended,
    Ending,
    Incident,
    IncidentChange,
    NewIncident,
    Phase,
    Step,
    Tick,
    Ticked,
    TickedMany,
)
from farmops.model.text import note_of, plain
from farmops.model.units import Unit
from farmops.records.incidents import IncidentRow, IncidentStepRow
from farmops.records.units import UnitRow

NONE_OPEN = "Nothing to {0}: no power cut is open. Begin one: farmops incident begin power-cut"
LONGEST = timedelta(days=30)
NO_FEED = "power cut: no feed on this day"


@operation("begin incident")
def begin_incident(op: Operation, entry: NewIncident) -> Incident:
    """Something went wrong, now or at an hour that has passed. Only one lasts at a time."""
    row = op.add(
        IncidentRow(kind=entry.kind.value, began_at=_past(op, entry.began_at), ended_at=None, note=note_of(entry.note))
    )
    return _incident(op, row.id)


@operation("tick step")
def tick_steps(op: Operation, entry: Tick) -> TickedMany:
    """Steps were taken in the incident that is open: who ticks them is whoever books it."""
    incident = _open(op, "tick")
    at = _after(incident, _past(op, entry.at))
    taken = {(one.step, one.unit_id): one for one in incident_facts.ticked(op.reader, incident.id)}
    ids = []
    for key in entry.steps:
        step = _step(op, key, entry.unit_id)
        if (step.key, entry.unit_id) in taken:
            raise Refused(_taken_already(op, step, taken[step.key, entry.unit_id]))
        ids.append(_tick(op, incident, step, entry.unit_id, at, entry.note))
    return TickedMany(tuple(one for one in incident_facts.ticked(op.reader, incident.id) if one.id in ids))


@operation("end incident")
def end_incident(op: Operation, entry: Ending) -> Ended:
    """The power is back, and everything was seen running again. What follows is given in the same operation.

    No feed today, and the water is tested daily for a week where fish live.
    """
    incident = _open(op, "end")
    at = _after(incident, _past(op, entry.ended_at))
    _see_all_running(op, incident, at, all_running=entry.all_running)
    values = {"note": note_of(entry.note)} if entry.note else {}
    op.change(op.get(IncidentRow, incident.id), ended_at=at, **values)
    day = at.astimezone(clock.time_zone(op.farm.time_zone)).date()
    left_out = list(_leave_out_feeds(op, day)) if day == op.today else []
    given_titles = [title for one in _with_fish(op, day) for title in _give(op, one, day)]
    return Ended(_incident(op, incident.id), tuple(left_out), tuple(given_titles))


@operation("change incident")
def change_incident(op: Operation, entry: IncidentChange) -> Incident:
    """Correct when an incident began or ended, or its note."""
    row = op.get(IncidentRow, entry.incident_id)
    values = mapped(
        given(entry, "began_at", "ended_at", "note"),
        began_at=lambda at: _past(op, at),
        ended_at=lambda at: _past(op, at),
        note=note_of,
    )
    if "ended_at" in values and row.ended_at is None:
        raise Refused("Not changed: it lasts still. End it: farmops incident end")
    op.change(row, **values)
    return _incident(op, row.id)


@rule(IncidentRow, alone=True)
def ends_after_it_began(op: Operation, row: IncidentRow) -> None:
    """An incident ends no earlier than it began."""
    if row.ended_at is not None and row.ended_at < row.began_at:
        zone = op.farm.time_zone
        ended, began = (clock.hour_of(at, zone) for at in (row.ended_at, row.began_at))
        raise Refused(f"Not booked: it would end at {ended}, before it began at {began}.")


@rule(IncidentRow)
def only_one_lasts(op: Operation, row: IncidentRow) -> None:
    """No second incident begins while one is open."""
    others = [one for one in incident_facts.open_incidents(op.reader) if one.id != row.id]
    if row.ended_at is None and others:
        since = clock.hour_of(others[0].began_at, op.farm.time_zone)
        raise Refused(f"Not begun: a power cut is open since {since}. See: farmops incident show")


def _past(op: Operation, at: datetime | None) -> datetime:
    now = op.farm.now()
    if at is None:
        return now
    if not now - LONGEST <= at <= now:
        raise OutOfRange(f"{at:%Y-%m-%d %H:%M} UTC lies ahead, or more than {LONGEST.days} days back.")
    return at


def _after(incident: Incident, at: datetime) -> datetime:
    if at < incident.began_at:
        raise Refused("Not booked: that was before the power cut began.")
    return at


def _open(op: Operation, what: str) -> Incident:
    found = incident_facts.open_incidents(op.reader)
    if not found:
        raise Refused(NONE_OPEN.format(what))
    return found[0]


def _step(op: Operation, key: str, unit_id: int | None) -> Step:
    step = step_called(key)
    if step is None:
        known = ", ".join(one.key for one in incident_steps())
        raise NotFound(f"There is no step {plain(key[:80])}. Known: {known}.")
    unit = op.get(UnitRow, unit_id) if unit_id is not None else None
    if step.per_unit and unit is None:
        raise Refused(f"Not ticked: {step.title} is ticked unit by unit. Name one with --unit.")
    if not step.per_unit and unit is not None:
        raise Refused(f"Not ticked: {step.title} is for the whole farm, not for {unit.code}.")
    if unit is not None and step not in _steps_for(op, unit.id):
        raise Refused(f"Not ticked: {unit.code} has nothing to see of that: {step.title}.")
    return step


def _steps_for(op: Operation, unit_id: int) -> list[Step]:
    at_stake = incident_facts.units_at_stake(op.reader, op.today)
    return [step for one in at_stake if one.unit.id == unit_id for step in incident_steps() if _fits(step, one)]


def _fits(step: Step, one: AtStake) -> bool:
    return step.fits(one.unit.kind, fish=one.with_fish)


def _taken_already(op: Operation, step: Step, taken: Ticked) -> str:
    where = f" in {taken.unit}" if taken.unit else ""
    hour = clock.hour_of(taken.at, op.farm.time_zone)
    return f"Not ticked: {step.title}{where} was ticked by {taken.actor} at {hour}. farmops undo takes a slip back."


def _tick(
    op: Operation, incident: Incident, step: Step, unit_id: int | None, at: datetime, note: str | None = None
) -> int:
    row = IncidentStepRow(
        incident_id=incident.id, unit_id=unit_id, step=step.key, at=at, actor=op.by, note=note_of(note)
    )
    return op.add(row).id


def _see_all_running(op: Operation, incident: Incident, at: datetime, *, all_running: bool) -> None:
    """Refuse while something was not seen running again, unless the person says that all was."""
    unseen = list(_unseen(op, incident))
    if unseen and not all_running:
        raise Refused(
            f"Not ended: not seen running again yet: {_named(unseen)}. "
            "Tick each one, or say that you saw all of it: farmops incident end --all-running"
        )
    for unit, step in unseen:
        _tick(op, incident, step, unit.id, at)


def _unseen(op: Operation, incident: Incident) -> Iterator[tuple[Unit, Step]]:
    taken = {(one.unit_id, one.step) for one in incident_facts.ticked(op.reader, incident.id)}
    for one in incident_facts.units_at_stake(op.reader, op.today):
        for step in steps_of(Phase.AFTER):
            if _fits(step, one) and (one.unit.id, step.key) not in taken:
                yield one.unit, step


def _named(unseen: Sequence[tuple[Unit, Step]]) -> str:
    by_unit: dict[str, list[str]] = {}
    for unit, step in unseen:
        by_unit.setdefault(unit.code, []).append(step.title.lower())
    return "; ".join(f"{code}: {', '.join(titles)}" for code, titles in by_unit.items())


def _with_fish(op: Operation, day: date) -> list[Unit]:
    return [one.unit for one in incident_facts.units_at_stake(op.reader, day) if one.with_fish]


def _give(op: Operation, unit: Unit, day: date) -> list[str]:
    """The chores that follow a power cut in a unit with fish."""
    coming = sets(op.reader, unit.id).on_occasion(Occasion.POWER_CUT, unit, day)
    give_lately(op, coming, day)
    return [f"{one.template.title}, {unit.code}" for one in coming]


def _leave_out_feeds(op: Operation, day: date) -> Iterator[str]:
    """Every feed that is open today is left out: those of the templates, and those that the grower described."""
    for unit in _with_fish(op, day):
        yield from (f"{title}, {unit.code}" for title in leave_out_feed(op, sets(op.reader, unit.id), unit.id, day))
    due = [one for one in chore_facts.due_by(op.reader, day) if _is_own_feed(one)]
    standing = chore_facts.standing_on(op.reader, [one.id for one in due], day)
    own = [one for one in due if one.id in standing]
    entries = (Settling(one.id, SettledAs.SKIPPED, day, reason=NO_FEED) for one in own)
    settle_many.body(op, SettlingMany(tuple(entries)))
    yield from (f"{one.title}, {one.lot or one.unit}" for one in own)


def _is_own_feed(chore: Chore) -> bool:
    own = chore.template_key is None and chore.unit_id is not None and chore.grade is ChoreClass.FISH_CARE
    return own and chore.title.split()[0].casefold() in ("feed", "feeding")


def _incident(op: Operation, id: int) -> Incident:
    found = incident_facts.incident(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
