"""A store that is damaged at any byte is refused in words, is found by the look through it, or still says the truth."""

from __future__ import annotations

import random
import shutil
import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from farmops.facts import farm as farm_facts
from farmops.model.errors import FarmopsError
from farmops.model.soundness import Finding, Part
from farmops.records.store import Store
from farmops.reports.returns import Asked, returns
from farmops.reports.soundness import look_through
from tests.profiles import count
from tests.records.test_stored import RELEASED, STORED, wrong_in

DAMAGED = count(ci=16, full=400)
TODAY = date(2026, 10, 14)
Told = dict[str, Any]


def told(place: Path) -> Told:
    """Every row of every table, and the returns of the farm."""
    store = Store(str(place))
    with store.reading() as reader:
        farm = farm_facts.farm(reader)
    values = {name: figure.value for name, figure in returns(store, Asked(TODAY)).farm.figures().items()}
    store.close()
    with closing(sqlite3.connect(place)) as connection:
        listing = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"
        tables = [name for (name,) in connection.execute(listing).fetchall()]
        rows = {table: connection.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall() for table in tables}
    return {"farm": farm, "values": values, **rows}


def found_in(store: Store) -> tuple[Finding, ...]:
    """What is found that is more than an unlikely entry."""
    return tuple(one for one in look_through(store).findings if one.part is not Part.ENTRIES)


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A sound farm in one file, with rows in every table."""
    place = Path(shutil.copy(STORED / f"{RELEASED[-1]}.db", tmp_path_factory.mktemp("whole") / "farm.db"))
    store = Store(str(place))
    assert wrong_in(store) == []
    store.close()
    with closing(sqlite3.connect(place)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
    return place


def outcome(place: Path, sound: Told) -> str:
    """What becomes of a damaged store: `refused`, `found` or `harmless`; anything else fails."""
    store = Store(str(place))
    try:
        findings = found_in(store)
    except FarmopsError:
        return "refused"
    finally:
        store.close()
    if findings:
        return "found"
    assert told(place) == sound
    return "harmless"


def damaged(whole: Path, place: Path, chance: random.Random, size: int) -> Path:
    """A copy in which some bytes in a row hold others."""
    content = bytearray(whole.read_bytes())
    at = chance.randrange(len(content) - size)
    for here in range(at, at + size):
        content[here] ^= chance.randrange(1, 256)
    place.write_bytes(content)
    for ending in ("-wal", "-shm", "-journal"):
        Path(f"{place}{ending}").unlink(missing_ok=True)
    return place


@pytest.mark.parametrize("size", [1, 40])
def test_a_store_damaged_at_random_never_says_a_wrong_number_after_a_clean_look(
    whole: Path, tmp_path: Path, size: int
) -> None:
    chance, sound = random.Random(20261014 + size), told(whole)
    outcomes = [outcome(damaged(whole, tmp_path / "farm.db", chance, size), sound) for _ in range(DAMAGED // 2)]
    assert "found" in outcomes


def test_every_byte_of_the_header_is_as_harmless(whole: Path, tmp_path: Path) -> None:
    sound, place, content = told(whole), tmp_path / "farm.db", whole.read_bytes()
    for at in range(0, 100, count(ci=9, full=1)):
        place.write_bytes(content[:at] + bytes([content[at] ^ 0x15]) + content[at + 1 :])
        assert outcome(place, sound) in ("refused", "found", "harmless")


@pytest.mark.parametrize("share", [0.0, 0.01, 0.5, 0.99])
def test_a_store_that_was_cut_off_is_not_taken_for_a_whole_one(whole: Path, tmp_path: Path, share: float) -> None:
    content = whole.read_bytes()
    (tmp_path / "farm.db").write_bytes(content[: int(len(content) * share)])
    assert outcome(tmp_path / "farm.db", {}) in ("refused", "found")
