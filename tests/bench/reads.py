"""Answers in process, against the best SQL written by hand on the same file."""

from __future__ import annotations

import sqlite3
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.records.store import Store
from farmops.reports.returns import Asked, returns
from tests.bench.stores import LAST
from tests.bench.timing import Ratio, in_turn

AIM = 1.2
BY_HAND = """
    SELECT bed.unit_id, SUM(mass_mg), SUM(CASE WHEN use IN ('sold', 'home', 'given') THEN mass_mg ELSE 0 END),
        SUM(CASE WHEN use IN ('sold', 'home', 'given')
            THEN (2 * mass_mg * price_minor + per_mg) / (2 * per_mg) ELSE 0 END)
    FROM harvest
    JOIN planting ON planting.id = harvest.planting_id
    JOIN bed ON bed.id = planting.bed_id
    JOIN price ON price.crop_id = planting.crop_id
    WHERE day BETWEEN ? AND ? GROUP BY bed.unit_id
"""
COSTS_BY_HAND = "SELECT unit_id, kind, SUM(amount_minor) FROM cost WHERE day BETWEEN ? AND ? GROUP BY unit_id, kind"
DUE_BY_HAND = "SELECT * FROM chore WHERE next_due <= ? ORDER BY unit_id, id"


def returns_of(store: Store, name: str, first: date, runs: int) -> Ratio:
    """Returns of every unit on the full basis."""
    connection = sqlite3.connect(store.place)

    def by_hand() -> None:
        connection.execute(BY_HAND, (first.isoformat(), LAST.isoformat())).fetchall()
        connection.execute(COSTS_BY_HAND, (first.isoformat(), LAST.isoformat())).fetchall()

    theirs, ours = in_turn(runs, by_hand, lambda: returns(store, Asked(LAST, first, LAST)))
    connection.close()
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
