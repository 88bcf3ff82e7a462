"""Labour: minutes of work, where it was done, and what they were worth at the rates of their days."""

from __future__ import annotations

from datetime import date

from farmops.model.costs import LabourRate
from farmops.model.frozen import dataclass
from farmops.records.reading import Reader

RATES = """
    SELECT labour_rate.id, labour_rate.from_day, labour_rate.person_id, person.name AS person,
        labour_rate.rate_minor, labour_rate.typed
    FROM labour_rate LEFT JOIN person ON person.id = labour_rate.person_id
    ORDER BY COALESCE(person.name, ''), labour_rate.from_day
"""
RATED = """
    SELECT kind, id, unit_id, day, words, minutes, actor,
        COALESCE(
            (SELECT labour_rate.rate_minor FROM labour_rate JOIN person ON person.id = labour_rate.person_id
                WHERE LOWER(person.name) = LOWER(work.actor) AND labour_rate.from_day <= work.day
                ORDER BY labour_rate.from_day DESC LIMIT 1),
            (SELECT labour_rate.rate_minor FROM labour_rate
                WHERE labour_rate.person_id IS NULL AND labour_rate.from_day <= work.day
                ORDER BY labour_rate.from_day DESC LIMIT 1)
        ) AS rate_minor
    FROM (
        SELECT 'settlements' AS kind, settlement.id AS id,
            COALESCE(chore.unit_id, bed.unit_id, (
                SELECT lot_place.unit_id FROM lot_place WHERE lot_place.fish_lot_id = chore.fish_lot_id
                ORDER BY lot_place.from_day DESC LIMIT 1
            )) AS unit_id,
            settlement.on_day AS day, chore.title AS words, settlement.minutes AS minutes, settlement.actor AS actor
        FROM settlement JOIN chore ON chore.id = settlement.chore_id LEFT JOIN bed ON bed.id = chore.bed_id
        WHERE settlement.kind = 'done' AND settlement.minutes > 0 AND settlement.on_day BETWEEN :first AND :last
        UNION ALL
        SELECT 'harvests', harvest.id,
            COALESCE(bed.unit_id,
            (SELECT lot_place.unit_id FROM lot_place
                WHERE lot_place.fish_lot_id = harvest.fish_lot_id AND lot_place.from_day <= harvest.day
                ORDER BY lot_place.from_day DESC LIMIT 1),
            (SELECT lot_place.unit_id FROM lot_place
                WHERE lot_place.fish_lot_id = harvest.fish_lot_id ORDER BY lot_place.from_day LIMIT 1)
        ),
            harvest.day, 'weighing', harvest.minutes, journal.actor
        FROM harvest LEFT JOIN planting ON planting.id = harvest.planting_id LEFT JOIN bed ON bed.id = planting.bed_id
        LEFT JOIN journal ON journal.operation = harvest.operation
        WHERE harvest.minutes > 0 AND harvest.day BETWEEN :first AND :last
    ) AS work
"""
SUMS = f"""
    SELECT unit_id, COUNT(*) AS entries, COUNT(DISTINCT day) AS days, CAST(SUM(minutes) AS BIGINT) AS minutes,
        CAST(SUM(CASE WHEN rate_minor IS NULL THEN minutes ELSE 0 END) AS BIGINT) AS unrated_minutes,
        CAST(SUM(minutes * COALESCE(rate_minor, 0)) AS BIGINT) AS sixtieths
    FROM ({RATED}) AS rated GROUP BY unit_id ORDER BY unit_id
"""
DAYS = f"SELECT COUNT(DISTINCT day) AS days FROM ({RATED}) AS rated"


@dataclass(frozen=True, slots=True)
class Worked:
    """Work on one unit, or on what is the whole farm's (None), in a span.

    `sixtieths` is minutes times the rate of an hour, in sixtieths of a minor unit; minutes on days without a rate
    are `unrated_minutes` and add nothing to it.
    """

    unit_id: int | None
    entries: int
    days: int
    minutes: int
    unrated_minutes: int
    sixtieths: int


@dataclass(frozen=True, slots=True)
class Work:
    """One doing of a chore or one weighing that took minutes, with the rate of an hour on its day."""

    kind: str
    id: int
    unit_id: int | None
    day: date
    words: str
    minutes: int
    actor: str
    rate_minor: int | None


def rates(reader: Reader) -> list[LabourRate]:
    """What an hour was worth, for everybody first, then by person, by day."""
    return reader.all(LabourRate, RATES)


def worked(reader: Reader, first: date, last: date) -> list[Worked]:
    """Minutes in a span of days and what they were worth, by unit."""
    return reader.all(Worked, SUMS, first=first, last=last)


def work(reader: Reader, first: date, last: date) -> list[Work]:
    """Everything that took minutes in a span of days, by day."""
    return reader.all(Work, f"{RATED} ORDER BY day, kind, id", first=first, last=last)


def days_with_minutes(reader: Reader, first: date, last: date) -> int:
    """On how many days of a span minutes were booked."""
    return int(reader.value(DAYS, first=first, last=last))
