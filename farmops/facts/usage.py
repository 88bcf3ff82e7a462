"""Records of use, one by one."""

from __future__ import annotations

from datetime import date

from farmops.model.usage import Counter, Usage
from farmops.records.reading import Reader, day

USAGE = """
    SELECT usage.id, usage.day, usage.unit_id, unit.code AS unit, usage.counter, usage.amount, usage.typed, usage.note
    FROM usage JOIN unit ON unit.id = usage.unit_id
"""
NEWEST_FIRST = "ORDER BY usage.day DESC, unit.position, unit.id, usage.id DESC"


def usages(reader: Reader, unit: int | None = None) -> list[Usage]:
    """Every record of use, or those of one unit, newest first."""
    where = "WHERE usage.unit_id = :unit" if unit is not None else ""
    given = {"unit": unit} if unit is not None else {}
    return reader.all(Usage, f"{USAGE} {where} {NEWEST_FIRST}", **given)


def usage(reader: Reader, id: int) -> Usage | None:
    """The record of use of that id."""
    return reader.one(Usage, f"{USAGE} WHERE usage.id = :id", id=id)


def day_before(reader: Reader, unit: int, counter: Counter, on: date, besides: int | None = None) -> date | None:
    """The day of the last record of a counter of a unit up to a day, leaving out one record."""
    found = reader.value(
        "SELECT MAX(day) FROM usage WHERE unit_id = :unit AND counter = :counter AND day <= :on_day AND id <> :besides",
        unit=unit,
        counter=counter.value,
        on_day=on,
        besides=besides or 0,
    )
    return day(found) if found else None
