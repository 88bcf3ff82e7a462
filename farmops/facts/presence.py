"""Who is here on a day, and who is away."""

from __future__ import annotations

from datetime import date
from typing import Any

from farmops.model.farm import Person
from farmops.model.presence import Crew, Member
from farmops.records.reading import Reader
from farmops.records.reading import day as day_of

CREW = """
    SELECT person.id, person.name, person.note, person.minor, presence.id AS said, absence.until_day,
        absence.stand_in_id
    FROM person
    LEFT JOIN presence ON presence.person_id = person.id AND presence.day = :day
    LEFT JOIN absence ON absence.id = (
        SELECT MAX(latest.id) FROM absence AS latest
        WHERE latest.person_id = person.id AND latest.from_day <= :day AND latest.until_day >= :day
    )
    ORDER BY person.name
"""


def crew_on(reader: Reader, day: date) -> Crew:
    """Everybody by name and whether they are here on a day: who was said to be, else who is not away."""
    rows = list(reader.rows(CREW, day=day))
    said = any(row["said"] is not None for row in rows)
    return Crew(day, said, tuple(_member(row, said) for row in rows))


def said_of(reader: Reader, day: date) -> dict[int, int]:
    """Who was said to be here on a day, each with the number of the record."""
    query = "SELECT id, person_id FROM presence WHERE day = :day"
    return {row["person_id"]: row["id"] for row in reader.rows(query, day=day)}


def _member(row: dict[str, Any], said: bool) -> Member:
    person = Person(row["id"], row["name"], row["note"], bool(row["minor"]))
    away = row["until_day"] is not None
    here = row["said"] is not None if said else not away
    if here or not away:
        return Member(person, here)
    return Member(person, here, day_of(row["until_day"]), row["stand_in_id"])
