"""What the returns say of each unit, by SQL written for farms like the one that is measured.

It leans on what such a farm has not: fish that moved, sales, supplies, meters, rates of labour, things that wear out.
What it gives is held against the report, number by number, before either is timed.
"""

from __future__ import annotations

import math
import sqlite3
from contextlib import closing
from datetime import date, timedelta

from farmops.records.store import Store
from farmops.reports.returns import Asked, UnitReturns, returns

RETURNS = """
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
    ), produce AS (
        SELECT unit_id, SUM(mass_mg) AS mass_mg, SUM(counting_mg) AS counting_mg, SUM(value_minor) AS value_minor
        FROM picked JOIN bed ON bed.id = picked.bed_id GROUP BY unit_id
    ), fish AS (
        SELECT unit_id, SUM(mass_mg) AS mass_mg FROM harvest JOIN lot_place USING (fish_lot_id)
        WHERE fish_lot_id IS NOT NULL AND day >= :first AND day < :after AND use IN ('sold', 'home', 'given')
        GROUP BY unit_id
    ), sized AS (
        SELECT unit_id, SUM(area_mm2) AS area_mm2 FROM (
            SELECT bed.unit_id, area_mm2, MAX(from_day) FROM bed JOIN bed_size ON bed_size.bed_id = bed.id
            WHERE from_day < :after GROUP BY bed.id
        ) GROUP BY unit_id
    ), stood AS (
        SELECT unit_id, state, from_day,
            LEAD(from_day, 1, '9999-12-31') OVER (PARTITION BY unit_id ORDER BY from_day) AS until_day
        FROM unit_state WHERE from_day < :after
    ), active AS (
        SELECT unit_id,
            CAST(SUM(julianday(MIN(until_day, :after)) - julianday(MAX(from_day, :first))) AS INTEGER) AS days
        FROM stood WHERE state IN ('cycling', 'running', 'wintering') AND until_day > :first GROUP BY unit_id
    ), paid AS (
        SELECT COALESCE(cost.unit_id, bed.unit_id) AS unit_id, SUM(amount_minor) AS minor
        FROM cost LEFT JOIN bed ON bed.id = cost.bed_id
        WHERE cost.kind = 'operating' AND day >= :first AND day < :after GROUP BY 1
    ), shared AS (
        SELECT active.unit_id, minor, minor * days / SUM(days) OVER () AS part, minor * days % SUM(days) OVER () AS rest
        FROM active CROSS JOIN (SELECT minor FROM paid WHERE unit_id IS NULL)
    ), dealt AS (
        SELECT unit_id, part + (ROW_NUMBER() OVER (ORDER BY rest DESC, position) <= minor - SUM(part) OVER ()) AS minor
        FROM shared JOIN unit ON unit.id = shared.unit_id
    ), borne AS (
        SELECT unit_id, SUM(minor) AS minor FROM (
            SELECT unit_id, minor FROM paid WHERE unit_id IS NOT NULL UNION ALL SELECT unit_id, minor FROM dealt
        ) GROUP BY unit_id
    ), worked AS (
        SELECT unit_id, SUM(minutes) AS minutes FROM (
            SELECT chore.unit_id, settlement.minutes FROM settlement JOIN chore ON chore.id = settlement.chore_id
            WHERE settlement.kind = 'done' AND on_day >= :first AND on_day < :after
            UNION ALL
            SELECT bed.unit_id, minutes FROM harvest JOIN planting ON planting.id = harvest.planting_id
            JOIN bed ON bed.id = planting.bed_id WHERE minutes > 0 AND day >= :first AND day < :after
        ) GROUP BY unit_id
    )
    SELECT unit.code, stood.state, COALESCE(produce.mass_mg, 0) AS harvest,
        COALESCE(produce.counting_mg, 0) AS marketable, COALESCE(fish.mass_mg, 0) AS fish, area_mm2 AS area,
        1.0 * produce.counting_mg / area_mm2 AS yield_per_area, borne.minor AS cost,
        1.0 * borne.minor / produce.counting_mg AS cost_per_mass, COALESCE(produce.value_minor, 0) AS value,
        COALESCE(produce.value_minor, 0) - borne.minor AS net, 1.0 * produce.value_minor / area_mm2 AS value_per_area,
        worked.minutes
    FROM unit
    LEFT JOIN stood ON stood.unit_id = unit.id AND stood.until_day = '9999-12-31'
    LEFT JOIN produce ON produce.unit_id = unit.id
    LEFT JOIN fish ON fish.unit_id = unit.id
    LEFT JOIN sized ON sized.unit_id = unit.id
    LEFT JOIN borne ON borne.unit_id = unit.id
    LEFT JOIN worked ON worked.unit_id = unit.id
    ORDER BY position
"""
EXACT = 1e-12
"""Fractions of the report are compared with SQL's floats, relative to their size."""

Row = dict[str, float | str | None]


def by_hand(place: str, first: date, last: date) -> list[Row]:
    """What SQL says of each unit, in walking order; it opens the file for itself, as the report does."""
    with closing(sqlite3.connect(place)) as connection:
        connection.row_factory = sqlite3.Row
        span = {"first": first.isoformat(), "after": (last + timedelta(days=1)).isoformat()}
        return [dict(row) for row in connection.execute(RETURNS, span)]


def hold_together(store: Store, asked: Asked, first: date, last: date) -> None:
    """Raises ValueError where SQL and the report differ: they would not answer the same question."""
    told = by_hand(store.place, first, last)
    for row, line in zip(told, returns(store, asked).units, strict=True):
        for name, value in row.items():
            if not _same(value, _of_report(line, name)):
                raise ValueError(
                    f"{row['code']}: {name} is {value} by hand and {_of_report(line, name)} in the report."
                )


def _of_report(line: UnitReturns, name: str) -> object:
    if name in ("code", "state"):
        return line.unit if name == "code" else line.state
    return line.figures()[name].value


def _same(ours: object, theirs: object) -> bool:
    if isinstance(ours, float) and theirs is not None:
        return math.isclose(ours, theirs, rel_tol=EXACT)  # type: ignore[arg-type]
    return ours == theirs
