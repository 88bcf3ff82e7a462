"""What the tables say of who is away, and of what was moved for it."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import absences
from farmops.model.absences import Absence
from farmops.records.chores import PauseRow, SettlementRow
from farmops.records.farm import PersonRow
from farmops.records.presence import AbsenceRow
from tests.facts.tables import DAYS, SPANS, Answer, Tables, columns, in_span, says


def _absence(rows: Tables, row: AbsenceRow) -> Absence:
    stand_in = rows.find(PersonRow, row.stand_in_id)
    return Absence(
        **columns(row, "id", "person_id", "from_day", "until_day", "stand_in_id", "note"),
        person=rows.get(PersonRow, row.person_id).name,
        stand_in=stand_in.name if stand_in else None,
    )


def _by_day(rows: Tables) -> list[AbsenceRow]:
    return sorted(rows[AbsenceRow], key=lambda row: (row.from_day, row.id))


@says(absences.absences)
def everybody_away(rows: Tables) -> Iterator[Answer]:
    yield (), [_absence(rows, row) for row in reversed(_by_day(rows))]


@says(absences.absence)
def each_absence(rows: Tables) -> Iterator[Answer]:
    yield (9999,), None
    for row in rows[AbsenceRow]:
        yield (row.id,), _absence(rows, row)


@says(absences.absences_in)
def away_in_spans(rows: Tables) -> Iterator[Answer]:
    ends = [(row.from_day, row.until_day) for row in rows[AbsenceRow]]
    for span in (*SPANS, *ends, *((day, day) for pair in ends for day in pair), *((day, day) for day in DAYS)):
        shared = [
            row
            for row in _by_day(rows)
            if in_span(row.from_day, span) or in_span(span[0], (row.from_day, row.until_day))
        ]
        yield span, [_absence(rows, row) for row in shared]


@says(absences.put_off_for)
def put_off_for_each(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for one in rows[AbsenceRow]:
        moved = [row for row in rows[SettlementRow] if row.operation == one.operation]
        yield (one.id,), [row.id for row in moved if row.until_day is not None]


@says(absences.rested_for)
def rested_for_each(rows: Tables) -> Iterator[Answer]:
    yield (9999,), []
    for one in rows[AbsenceRow]:
        yield (one.id,), [row.id for row in rows[PauseRow] if row.operation == one.operation]
