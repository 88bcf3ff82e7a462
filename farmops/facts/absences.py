"""Who is away, from when to when, and which work was moved for it."""

from __future__ import annotations

from datetime import date

from farmops.model.absences import Absence
from farmops.records.reading import Reader

ABSENCES = """
    SELECT absence.id, absence.person_id, person.name AS person, absence.from_day, absence.until_day,
        absence.stand_in_id, stand_in.name AS stand_in, absence.note
    FROM absence
    JOIN person ON person.id = absence.person_id
    LEFT JOIN person AS stand_in ON stand_in.id = absence.stand_in_id
"""
MOVED = """
    SELECT settlement.id, settlement.chore_id
    FROM settlement JOIN absence ON absence.operation = settlement.operation
    WHERE absence.id = :absence AND settlement.kind = 'deferred' ORDER BY settlement.id
"""
RESTED = """
    SELECT chore_pause.id FROM chore_pause JOIN absence ON absence.operation = chore_pause.operation
    WHERE absence.id = :absence ORDER BY chore_pause.id
"""


def absences(reader: Reader) -> list[Absence]:
    """Every absence, the latest first."""
    return reader.all(Absence, f"{ABSENCES} ORDER BY absence.from_day DESC, absence.id DESC")


def absence(reader: Reader, id: int) -> Absence | None:
    """The absence of that number."""
    return reader.one(Absence, f"{ABSENCES} WHERE absence.id = :id", id=id)


def absences_in(reader: Reader, first: date, last: date) -> list[Absence]:
    """The absences that share a day with a span, both ends included, the earliest first."""
    where = "WHERE absence.from_day <= :last AND absence.until_day >= :first"
    return reader.all(Absence, f"{ABSENCES} {where} ORDER BY absence.from_day, absence.id", first=first, last=last)


def put_off_for(reader: Reader, absence: int) -> list[int]:
    """The numbers of the settlements that put chores off out of an absence: they bear its operation."""
    return [int(row["id"]) for row in reader.rows(MOVED, absence=absence)]


def rested_for(reader: Reader, absence: int) -> list[int]:
    """The numbers of the rests that were given to chores over an absence."""
    return [int(row["id"]) for row in reader.rows(RESTED, absence=absence)]
