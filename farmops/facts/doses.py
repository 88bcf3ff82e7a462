"""What was added to the water of units."""

from __future__ import annotations

from datetime import date

from farmops.model.water import Dose
from farmops.records.reading import Reader

DOSES = """
    SELECT dose.id, dose.day, dose.unit_id, unit.code AS unit, dose.what, dose.held_by, dose.amount, dose.amount_typed,
        dose.why, dose.note, journal.actor AS by, supply.name AS supply
    FROM dose JOIN unit ON unit.id = dose.unit_id
    LEFT JOIN supply_use ON supply_use.id = dose.supply_use_id
    LEFT JOIN supply ON supply.id = supply_use.supply_id
    LEFT JOIN journal ON journal.operation = dose.operation
"""


def doses(reader: Reader, first: date, last: date) -> list[Dose]:
    """Every dose of a span of days, both included, the latest first."""
    where = "WHERE dose.day BETWEEN :first AND :last"
    return reader.all(Dose, f"{DOSES} {where} ORDER BY dose.day DESC, dose.id DESC", first=first, last=last)


def dose(reader: Reader, id: int) -> Dose | None:
    """The dose of that number."""
    return reader.one(Dose, f"{DOSES} WHERE dose.id = :id", id=id)
