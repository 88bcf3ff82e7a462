"""Answers in process, against the best SQL written by hand on the same file."""

from __future__ import annotations

import sqlite3
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.records.store import Store
from farmops.reports.returns import Asked, returns
from tests.bench.by_hand import by_hand, hold_together
from tests.bench.stores import LAST
from tests.bench.timing import Ratio, in_turn

AIM = 1.2
DUE_BY_HAND = "SELECT * FROM chore WHERE next_due <= ? ORDER BY unit_id, id"


def returns_of(store: Store, name: str, first: date, runs: int) -> Ratio:
    """Returns of every unit on the full basis, each side opening the file for itself and saying the same."""
    asked = Asked(LAST, first, LAST)
    hold_together(store, asked, first, LAST)
    theirs, ours = in_turn(runs, lambda: by_hand(store.place, first, LAST), lambda: returns(store, asked))
    return Ratio(f"returns, {name}", ours, theirs, "hand-written SQL", AIM)


def due_list(store: Store, name: str, runs: int) -> Ratio:
    """The chores that are due on a day."""
    connection = sqlite3.connect(store.place)
    with store.reading() as reader:
        theirs, ours = in_turn(
            runs,
            lambda: connection.execute(DUE_BY_HAND, (LAST.isoformat(),)).fetchall(),
            lambda: chore_facts.due_by(reader, LAST),
        )
    connection.close()
    return Ratio(f"due list, {name}", ours, theirs, "hand-written SQL", AIM)


def year_before(day: date) -> date:
    """The first day of twelve months that end on a day."""
    return day - timedelta(days=364)
