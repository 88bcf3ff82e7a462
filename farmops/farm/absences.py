"""Absences: somebody goes away, and what nobody will be there for moves out of the time in the same operation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from farmops.facts import absences as absence_facts
from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts import fish as fish_facts
from farmops.farm.chores import SettlingMany, settle_many
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.model.absences import Absence, AbsenceChange, Away, Moved, Moves, NewAbsence
from farmops.model.chores import Chore, Pause, SettledAs, Settling
from farmops.model.errors import Refused
from farmops.model.farm import Person
from farmops.model.frozen import dataclass
from farmops.model.text import note_of
from farmops.records.chores import PauseRow, SettlementRow
from farmops.records.farm import PersonRow
from farmops.records.presence import AbsenceRow
from farmops.schedule.away import DAY, Alone, Falling, Gone, can_wait, falling, here_on, left_alone, on_sheet

AWAY = "away"
"""The reason that stands beside what was put off for an absence."""
NOBODY = "Nobody stays and nobody stands in: fish cannot wait. Name who stands in."


@operation("go away")
def go_away(op: Operation, entry: NewAbsence) -> Away:
    """Somebody is away for a while. Upkeep that nobody would be there for is put off until somebody is back."""
    row = op.add(
        AbsenceRow(
            person_id=op.get(PersonRow, entry.person_id).id,
            from_day=op.sensible_day(entry.from_day),
            until_day=op.sensible_day(entry.until_day),
            stand_in_id=_known(op, entry.stand_in_id),
            note=note_of(entry.note),
        )
    )
    return _away(op, row)


@operation("change absence")
def change_absence(op: Operation, entry: AbsenceChange) -> Away:
    """Correct an absence, or come home early: what was moved for it comes back, and moves anew."""
    row = op.get(AbsenceRow, entry.absence_id)
    values = mapped(
        given(entry, "person_id", "from_day", "until_day", "stand_in_id", "note"),
        from_day=op.sensible_day,
        until_day=op.sensible_day,
        stand_in_id=lambda id: _known(op, id),
        note=note_of,
    )
    if all(getattr(row, name) == value for name, value in values.items()):
        return Away(_absence(op, row.id), Moves((), (), ()))
    take_back(op, row)
    op.change(row, **values)
    return _away(op, row)


def take_back(op: Operation, row: AbsenceRow) -> None:
    """What was moved for an absence that is not over stands where it stood; what is over stays as it was."""
    if row.until_day < op.today:
        return
    for id in absence_facts.put_off_for(op.reader, row.id):
        op.remove(op.get(SettlementRow, id))
    for id in absence_facts.rested_for(op.reader, row.id):
        op.remove(op.get(PauseRow, id))


@rule(AbsenceRow, alone=True)
def ends_after_it_begins(op: Operation, row: AbsenceRow) -> None:
    """The last day is not before the first, and nobody stands in for themselves."""
    if row.until_day < row.from_day:
        raise Refused(f"Not booked: the last day away, {row.until_day}, lies before the first, {row.from_day}.")
    if row.stand_in_id == row.person_id:
        raise Refused("Not booked: nobody stands in for themselves.")


@rule(AbsenceRow)
def nobody_is_in_two_places(op: Operation, row: AbsenceRow) -> None:
    """Nobody is away twice on a day, and nobody who is away stands in."""
    for other in absence_facts.absences_in(op.reader, row.from_day, row.until_day):
        span = f"from {other.from_day} to {other.until_day}"
        if other.id != row.id and other.person_id == row.person_id:
            raise Refused(f"Not booked: {other.person} is away {span} already.")
        if other.person_id == row.stand_in_id:
            raise Refused(f"Not booked: {other.person} is away {span} and cannot stand in.")
        if other.stand_in_id == row.person_id:
            raise Refused(f"Not booked: {other.stand_in} stands in for {other.person} {span}.")


@dataclass(frozen=True, slots=True)
class _Lifted:
    """A chore that moves, when it rests already, how it stands to the days on which nobody is left, and those days."""

    chore: Chore
    pauses: tuple[Pause, ...]
    falling: Falling
    alone: Alone


def _away(op: Operation, row: AbsenceRow) -> Away:
    """Move what nobody is left for, and say what moved and who stays."""
    absence = _absence(op, row.id)
    people, gone = farm_facts.people(op.reader), _gone(op, absence)
    adults = [one.id for one in people if not one.minor]
    first = max(absence.from_day, op.today)
    stretches = left_alone(adults, gone, first, absence.until_day)
    lifted = [one for alone in stretches for one in _lifted(op, alone, absence.stand_in_id)]
    _put_off(op, [one for one in lifted if one.falling.waits])
    _rest(op, [one for one in lifted if one.falling.comes_again or not one.falling.waits])
    staying = {id for day in _days(first, absence) for id in here_on(adults, gone, day)}
    here = tuple(one.name for one in people if one.id in staying)
    first_of_each = {one.chore.id: one for one in reversed(lifted)}.values()
    moved = tuple(_moved(one) for one in sorted(first_of_each, key=lambda one: one.falling.due))
    return Away(absence, Moves(moved, here, tuple(_warnings(op, absence, people, stretches))))


def _gone(op: Operation, absence: Absence) -> list[Gone]:
    """All who are away in the time, and up to a year after it, so that who is back first is known."""
    found = absence_facts.absences_in(op.reader, absence.from_day, absence.until_day + 366 * DAY)
    return [Gone(one.person_id, one.from_day, one.until_day, one.stand_in_id) for one in found]


def _days(first: date, absence: Absence) -> Iterator[date]:
    return (first + ahead * DAY for ahead in range((absence.until_day - first).days + 1))


def _lifted(op: Operation, alone: Alone, stand_in_id: int | None) -> Iterator[_Lifted]:
    """The chores that would be due while nobody is left and that the stand-in is not asked to do."""
    waiting = {one.id: one for one in chore_facts.chores(op.reader) if one.next_due and can_wait(one)}
    for plan in chore_facts.plans(op.reader, waiting):
        chore = waiting[plan.chore_id]
        found = falling(plan.rule, plan.history, plan.activity, alone, op.today)
        if found is not None and not on_sheet(chore, plan.rule, stand_in_id):
            yield _Lifted(chore, plan.activity.pauses, found, alone)


def _put_off(op: Operation, lifted: Sequence[_Lifted]) -> None:
    entries = (
        Settling(one.chore.id, SettledAs.DEFERRED, op.today, until=one.alone.back, reason=AWAY) for one in lifted
    )
    settle_many.body(op, SettlingMany(tuple(entries)))


def _rest(op: Operation, lifted: Sequence[_Lifted]) -> None:
    """Chores rest on the days on which nobody is left, unless they rest on some of them already."""
    for one in lifted:
        first, last = one.alone.first, one.alone.last
        if not any(p.from_day <= last and (p.until is None or first <= p.until) for p in one.pauses):
            op.add(PauseRow(chore_id=one.chore.id, from_day=first, until_day=last))


def _moved(one: _Lifted) -> Moved:
    chore, until = one.chore, one.alone.back if one.falling.waits else None
    before = one.falling.stays_away or not one.falling.waits
    return Moved(chore.id, chore.title, chore.bed or chore.lot or chore.unit or "all", one.falling.due, until, before)


def _warnings(op: Operation, absence: Absence, people: Sequence[Person], stretches: Sequence[Alone]) -> Iterator[str]:
    if stretches and absence.stand_in_id is None and _fish_in(op, stretches):
        yield NOBODY
    if any(one.minor and one.id == absence.stand_in_id for one in people):
        yield f"{absence.stand_in} is a minor: somebody else has to do what is for adults only."


def _fish_in(op: Operation, stretches: Sequence[Alone]) -> bool:
    spans = [span for found in fish_facts.fish_spans(op.reader).values() for span in found]
    return any(
        first <= alone.last and (last is None or alone.first <= last) for first, last in spans for alone in stretches
    )


def _known(op: Operation, person_id: int | None) -> int | None:
    return None if person_id is None else op.get(PersonRow, person_id).id


def _absence(op: Operation, id: int) -> Absence:
    found = absence_facts.absence(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
