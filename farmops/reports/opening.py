"""What the interface shows first: the row, and the round of the whole farm, from one look at what is due."""

from __future__ import annotations

from farmops.facts import chores as chore_facts
from farmops.facts import farm as farm_facts
from farmops.facts.reading import Store
from farmops.reports.round import Round, lines_on, round_with
from farmops.reports.row import Row, row_with


def opening_of(store: Store) -> tuple[Row, Round]:
    """The row and the round of today."""
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
        day = farm.today()
        due = lines_on(reader, chore_facts.due_by(reader, day), day)
        return row_with(reader, farm, day, due), round_with(reader, farm, day, due)
