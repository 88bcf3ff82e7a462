"""Doses: what was added to the water of a unit, how much and why."""

from __future__ import annotations

from typing import Any

from farmops.facts import doses as dose_facts
from farmops.farm.fields import given, mapped
from farmops.farm.operation import Operation, operation, rule
from farmops.farm.supplies import draw, give_back
from farmops.model.errors import OutOfRange
from farmops.model.supplies import HeldBy
from farmops.model.text import name_of, note_of
from farmops.model.values import Keep, Measured
from farmops.model.water import Amount, Dose, DoseChange, NewDose
from farmops.records.supplies import SupplyUseRow
from farmops.records.units import UnitRow
from farmops.records.water import DoseRow

LARGEST = 1_000_000_000
"""A tonne in milligrams, a thousand cubic metres in millilitres."""


@operation("dose")
def record_dose(op: Operation, entry: NewDose) -> Dose:
    """Book what was added to the water of a unit, and what it takes from a supply where one is named."""
    op.get(UnitRow, entry.unit_id)
    row = op.add(
        DoseRow(
            day=op.past_day(entry.day),
            unit_id=entry.unit_id,
            what=_what(entry.what),
            why=note_of(entry.why, "reason"),
            note=note_of(entry.note),
            supply_use_id=_drawn(op, entry),
            **_amount(entry.amount),
        )
    )
    return _dose(op, row.id)


def _drawn(op: Operation, entry: NewDose) -> int | None:
    if entry.supply_id is None:
        return None
    held_by, amount = entry.amount.held_by, entry.amount.measured
    return draw(op, entry.supply_id, amount, entry.day, entry.unit_id, held_by=held_by).id


@operation("change dose")
def change_dose(op: Operation, entry: DoseChange) -> Dose:
    """Correct what was added, how much, why or when."""
    row = op.get(DoseRow, entry.dose_id)
    values = mapped(
        given(entry, "day", "what", "why", "note"),
        day=op.past_day,
        what=_what,
        why=lambda text: note_of(text, "reason"),
        note=note_of,
    )
    amount = {} if isinstance(entry.amount, Keep) else _amount(entry.amount)
    op.change(row, **values, **amount)
    if row.supply_use_id is not None and (amount or "day" in values):
        _draw_again(op, row, row.supply_use_id)
    return _dose(op, row.id)


def _draw_again(op: Operation, row: DoseRow, used: int) -> None:
    """What a corrected dose takes from its supply, in place of what it took before."""
    supply, amount = op.get(SupplyUseRow, used).supply_id, Measured(row.amount, row.amount_typed)
    again = draw(op, supply, amount, row.day, row.unit_id, held_by=HeldBy(row.held_by))
    op.change(row, supply_use_id=again.id)
    give_back(op, used)


@rule(DoseRow, alone=True)
def is_some(op: Operation, row: DoseRow) -> None:
    """A dose is weighed or measured, more than nothing and less than a lorry brings."""
    if not 0 < row.amount <= LARGEST or row.held_by == HeldBy.COUNT:
        raise OutOfRange("Not booked: a dose is more than nothing and at most a tonne. Understood: 65 g, 2 oz, 500 ml.")


def _what(text: str) -> str:
    return name_of(text, "name of what was added")


def _amount(amount: Amount) -> dict[str, Any]:
    typed = name_of(amount.measured.typed, "amount")
    return {"held_by": amount.held_by.value, "amount": amount.measured.exact, "amount_typed": typed}


def _dose(op: Operation, id: int) -> Dose:
    found = dose_facts.dose(op.reader, id)
    assert found is not None  # noqa: S101 - it was written a moment ago
    return found
