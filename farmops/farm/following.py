"""What follows by itself from a chore being done: tests after a bed was cleaned, a build that began late."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.facts import units as unit_facts
from farmops.facts.sets import Place, sets
from farmops.farm.chore_rows import rule_columns
from farmops.farm.operation import Operation
from farmops.farm.templates import give_lately
from farmops.library import BUILD_STEPS
from farmops.library.templates import ONCE
from farmops.model.chores import Occasion
from farmops.records.chores import ChoreRow


def follow(op: Operation, row: ChoreRow, day: date) -> None:
    """A chore was done on a day: what that calls for happens in the same operation."""
    follows = FOLLOWS.get(row.template_key or "")
    if follows is not None:
        follows(op, row, day)


def _test_after_cleaning(op: Operation, row: ChoreRow, day: date) -> None:
    chore = chore_facts.chore(op.reader, row.id)
    unit = unit_facts.unit(op.reader, chore.unit_id) if chore and chore.unit_id else None
    if unit is not None:
        give_lately(op, sets(op.reader, unit.id).on_occasion(Occasion.BED_CLEANING, unit, day), day)


def _move_later_steps(op: Operation, row: ChoreRow, day: date) -> None:
    """A step done late moves those behind it by as many days, so that what cures or is tested keeps its time."""
    late = day - row.start_day
    if row.unit_id is None or row.rule_kind != ONCE or late <= timedelta(0):
        return
    made = sets(op.reader, row.unit_id).made
    for key in BUILD_STEPS[BUILD_STEPS.index(str(row.template_key)) + 1 :]:
        held = made.get((Place(unit_id=row.unit_id), key))
        step = op.get(ChoreRow, held.open_chore) if held and held.open_chore else None
        if step is not None and step.rule_kind == ONCE:
            op.change(step, **rule_columns(ONCE, step.start_day + late, literal=False, zone=None))


FOLLOWS: Mapping[str, Callable[[Operation, ChoreRow, date], None]] = {
    "bed-solids": _test_after_cleaning,
    **dict.fromkeys(BUILD_STEPS, _move_later_steps),
}
