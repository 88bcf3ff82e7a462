"""Seeded farms of two sizes for the benchmarks, written straight into the tables: only reads are measured on them."""

from __future__ import annotations

import random
import sqlite3
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from farmops.farm.farm import open_farm
from farmops.model.farm import NewFarm
from farmops.quantities import US
from farmops.records.store import Store

LAST = date(2026, 10, 14)
SEED = 20261014


@dataclass(frozen=True, slots=True)
class Size:
    """How large a farm is."""

    name: str
    units: int
    weighings: int
    chores: int
    years: int = 10


SMALL = Size("small", 10, 10_000, 1_000)
LARGE = Size("large", 500, 1_000_000, 100_000)


def make(place: Path, size: Size) -> Store:
    """A farm of that size, the same for the same size."""
    store = Store(str(place))
    open_farm(store, NewFarm("Bench Hill", US, "UTC", stands_on=LAST), by="bench")
    store.close()
    connection = sqlite3.connect(place)
    chance = random.Random(SEED)
    first = LAST - timedelta(days=365 * size.years)
    with connection:
        _units(connection, size, first)
        _harvests(connection, size, first, chance)
        _chores(connection, size, chance)
        _money(connection, size, first, chance)
    connection.close()
    return store


def _units(connection: sqlite3.Connection, size: Size, first: date) -> None:
    ids = range(1, size.units + 1)
    connection.executemany(
        "INSERT INTO unit (id, operation, code, kind, position) VALUES (?, 'bench', ?, 'coupled', ?)",
        ((id, f"U{id}", id) for id in ids),
    )
    connection.executemany(
        "INSERT INTO unit_state (operation, unit_id, state, from_day) VALUES ('bench', ?, 'running', ?)",
        ((id, first.isoformat()) for id in ids),
    )
    connection.executemany(
        "INSERT INTO bed (id, operation, unit_id, name, kind) VALUES (?, 'bench', ?, 'N', 'media')",
        ((id, id) for id in ids),
    )
    connection.executemany(
        "INSERT INTO bed_size (operation, bed_id, from_day, area_mm2, area_typed)"
        " VALUES ('bench', ?, ?, 2322576, '25 sq ft')",
        ((id, first.isoformat()) for id in ids),
    )
    connection.execute("INSERT INTO crop (id, operation, name) VALUES (1, 'bench', 'CHARD')")
    connection.executemany(
        "INSERT INTO planting (id, operation, bed_id, crop_id, started_day, started_by)"
        " VALUES (?, 'bench', ?, 1, ?, 'transplanting')",
        ((id, id, first.isoformat()) for id in ids),
    )


def _harvests(connection: sqlite3.Connection, size: Size, first: date, chance: random.Random) -> None:
    days = 365 * size.years
    connection.executemany(
        "INSERT INTO harvest (operation, day, planting_id, mass_mg, mass_typed, tare_mg, use)"
        " VALUES ('bench', ?, ?, ?, 'bench', 0, ?)",
        (
            (
                (first + timedelta(days=at * days // size.weighings)).isoformat(),
                chance.randint(1, size.units),
                chance.randint(50_000, 2_000_000),
                chance.choice(("home", "sold", "given", "waste")),
            )
            for at in range(size.weighings)
        ),
    )
    connection.execute(
        "INSERT INTO price (operation, crop_id, from_day, price_minor, per_mg, typed)"
        " VALUES ('bench', 1, ?, 35000, 45359237, '3.50/lb')",
        (first.isoformat(),),
    )


def _chores(connection: sqlite3.Connection, size: Size, chance: random.Random) -> None:
    connection.executemany(
        "INSERT INTO chore (operation, title, unit_id, grade, rule_kind, rule_text, rule_words, start_day, part,"
        " minutes, adults_only, with_fish, next_due) VALUES ('bench', ?, ?, 'upkeep', 'after', '14 days',"
        " '14 days after doing', '2026-01-01', 'none', 5, 0, 0, ?)",
        (
            (f"Chore {at}", 1 + at % size.units, (LAST + timedelta(days=chance.randint(0, 400))).isoformat())
            for at in range(size.chores)
        ),
    )


def _money(connection: sqlite3.Connection, size: Size, first: date, chance: random.Random) -> None:
    connection.executemany(
        "INSERT INTO cost (operation, day, what, category, amount_minor, amount_typed, unit_id, kind)"
        " VALUES ('bench', ?, 'feed', 'feed', ?, 'bench', ?, 'operating')",
        (
            (
                (first + timedelta(days=chance.randrange(365 * size.years))).isoformat(),
                chance.randint(100, 9000),
                chance.choice((None, chance.randint(1, size.units))),
            )
            for _ in range(size.units * 120)
        ),
    )
