"""Putting right what can be put right without a decision."""

from __future__ import annotations

from farmops.facts import chores as chore_facts
from farmops.farm import due_dates
from farmops.farm.operation import Operation, operation
from farmops.model.soundness import Repair, Repaired


@operation("repair")
def repair(op: Operation, entry: Repair) -> Repaired:
    """Work out the due day of every chore afresh; the journal tells of it when any of them was wrong."""
    every = {one.id for one in chore_facts.chores(op.reader)}
    changed = due_dates.bring_up(op.transaction, every)
    op.told_anyway = changed > 0
    return Repaired(changed)
