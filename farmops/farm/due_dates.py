"""Keeping the stored `next_due` of chores equal to what their rule and history say."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from farmops.facts import chores as chore_facts
from farmops.facts.conditions import following_from
from farmops.model.journal import Image
from farmops.records.reading import Reader
from farmops.records.transaction import Transaction
from farmops.schedule.due import next_due


def refresh(transaction: Transaction) -> None:
    """Recompute the due day of every chore that the transaction may have moved."""
    bring_up(transaction, touched_chores(transaction))


def bring_up(transaction: Transaction, chores: set[int]) -> int:
    """Recompute the due day of those chores; returns how many had another one."""
    plans = chore_facts.plans(transaction.reader, chores)
    due = {plan.chore_id: next_due(plan.rule, plan.history, plan.activity) for plan in plans}
    moved = [plan.chore_id for plan in plans if due[plan.chore_id] != plan.next_due]
    if moved:
        from farmops.records.chores import ChoreRow

        for id in moved:
            transaction.get(ChoreRow, id).next_due = due[id]
        transaction.flush()
    return len(moved)


def touched_chores(transaction: Transaction) -> set[int]:
    """The chores whose rule, history, unit, fish, use or condition was written."""
    images, reader = transaction.images, transaction.reader
    conditions = following_from({image.table for image in images})
    used = {id for image in images if image.table == "usage" for id in _values(image, "unit_id")}
    used |= _units_fed(reader, images)
    return (
        _touched_themselves(reader, images)
        | chore_facts.ids_by_use_in(reader, used)
        | chore_facts.ids_while(reader, conditions)
    )


def _units_fed(reader: Reader, images: Iterable[Image]) -> set[int]:
    """The units in which it moved what was fed: where the lots that were fed, or went elsewhere, have lived."""
    fed = [image for image in images if image.table in ("feeding", "lot_place")]
    lots = {lot for image in fed for lot in _values(image, "fish_lot_id")}
    gone = {unit for image in fed if image.table == "lot_place" for unit in _values(image, "unit_id")}
    return gone.union(*(chore_facts.units_of_lot(reader, lot) for lot in lots))


def _touched_themselves(reader: Reader, images: Iterable[Image]) -> set[int]:
    ids: set[int] = set()
    units: set[int] = set()
    for image in images:
        if image.table == "chore":
            ids.add(image.id)
        elif image.table in ("settlement", "chore_pause"):
            ids.update(_values(image, "chore_id"))
        elif image.table in ("unit_state", "lot_place"):
            units.update(_values(image, "unit_id"))
        elif image.table == "fish_lot":
            units.update(chore_facts.units_of_lot(reader, image.id))
    return ids | chore_facts.ids_in_units(reader, units)


def _values(image: Image, column: str) -> Iterable[Any]:
    return {side[column] for side in (image.before, image.after) if side is not None}
