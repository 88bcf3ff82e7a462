"""Answers in process, against the best SQL written by hand on the same file."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date, timedelta

from farmops.facts import chores as chore_facts
from farmops.records.store import Store
from farmops.reports.returns import Asked, returns
from tests.bench.stores import LAST
from tests.bench.timing import Ratio, in_turn

AIM = 1.2
BY_HAND = """
    WITH listed AS (
        SELECT crop_id, from_day, price_minor, per_mg,
            COALESCE(LEAD(from_day) OVER (PARTITION BY crop_id ORDER BY from_day), '9999-12-31') AS until_day
        FROM price WHERE crop_id IS NOT NULL
    ), picked AS (
        SELECT planting.bed_id, SUM(mass_mg) AS mass_mg,
            SUM(CASE WHEN use IN ('sold', 'home', 'given') THEN mass_mg ELSE 0 END) AS counting_mg,
            SUM(CASE WHEN use IN ('sold', 'home', 'given')
                THEN (2 * mass_mg * price_minor + per_mg) / (2 * per_mg) ELSE 0 END) AS value_minor
        FROM planting CROSS JOIN listed CROSS JOIN harvest
        WHERE listed.crop_id = planting.crop_id AND planting_id = planting.id
            AND day >= MAX(:first, listed.from_day) AND day < MIN(:after, listed.until_day)
        GROUP BY planting.id
    )
    SELECT unit.code, SUM(mass_mg), SUM(counting_mg), SUM(value_minor)
    FROM picked JOIN bed ON bed.id = picked.bed_id JOIN unit ON unit.id = bed.unit_id GROUP BY unit.code
"""
COSTS_BY_HAND = "SELECT unit_id, kind, SUM(amount_minor) FROM cost WHERE day BETWEEN ? AND ? GROUP BY unit_id, kind"
DUE_BY_HAND = "SELECT * FROM chore WHERE next_due <= ? ORDER BY unit_id, id"


def returns_of(store: Store, name: str, first: date, runs: int) -> Ratio:
    """Returns of every unit on the full basis, each side opening the file for itself."""
    asked = Asked(LAST, first, LAST)
    if by_hand(store.place, first) != by_report(store, asked):
        raise ValueError("The sums by hand are not those of the report.")
    theirs, ours = in_turn(runs, lambda: by_hand(store.place, first), lambda: returns(store, asked))
    return Ratio(f"returns, {name}", ours, theirs, "hand-written SQL", AIM)


def by_hand(place: str, first: date) -> dict[str, tuple[int, ...]]:
    """Weight, weight that counts and value of each unit, and its costs summed, by the shortest SQL for them."""
    with closing(sqlite3.connect(place)) as connection:
        span = {"first": first.isoformat(), "after": (LAST + timedelta(days=1)).isoformat()}
        found = connection.execute(BY_HAND, span).fetchall()
        connection.execute(COSTS_BY_HAND, (first.isoformat(), LAST.isoformat())).fetchall()
    return {code: tuple(sums) for code, *sums in found}


def by_report(store: Store, asked: Asked) -> dict[str, tuple[int, ...]]:
    """The same sums from the report; units that brought nothing are left out."""
    lines = [one for one in returns(store, asked).units if one.harvest.value]
    return {
        one.unit: tuple(int(figure.value or 0) for figure in (one.harvest, one.marketable, one.value)) for one in lines
    }


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
