"""What was acknowledged is there after a kill at any instant; what was not is there whole or not at all, once."""

from __future__ import annotations

import random
import signal
import time
from pathlib import Path

import pytest

from farmops.model.ids import new_id
from farmops.records.store import Store
from tests.faults.children import KEPT, MOMENTS, Log, book_and_die, book_until_killed, start, weigh
from tests.faults.soundness import assert_sound, operations
from tests.profiles import count

KILLS = {"sqlite": count(ci=40, full=500), "postgresql": count(ci=10, full=100)}
LONGEST_LIFE_S = 0.08
PATIENCE_S = 60


@pytest.mark.parametrize("moment", MOMENTS)
def test_a_kill_in_the_middle_of_a_weighing_leaves_all_of_it_or_nothing(growing: Store, moment: str) -> None:
    id, before = new_id(), len(operations(growing))
    child = start(book_and_die, growing.place, id, moment)
    child.join(PATIENCE_S)
    assert child.exitcode == -signal.SIGKILL
    assert (id in operations(growing)) == (moment in KEPT)
    assert_sound(growing)
    weigh(growing, id)
    assert operations(growing).count(id) == 1
    assert len(operations(growing)) == before + 1
    assert_sound(growing)


def test_kills_at_random_instants_lose_nothing_and_double_nothing(growing: Store, tmp_path: Path) -> None:
    chance, log = random.Random(20260503), Log(tmp_path / "said")
    before, kills = len(operations(growing)), KILLS[growing.dialect.name]
    interrupted = 0
    for _ in range(kills):
        kill_one_at_random(growing, log, chance)
        interrupted += len(log.unanswered())
        assert set(log.of("done")) <= set(operations(growing))
    assert_sound(growing)
    booked = operations(growing)[before:]
    assert len(set(booked)) == len(booked)
    assert set(log.of("done")) <= set(booked) <= set(log.of("began"))
    assert len(booked) >= kills
    assert interrupted > 0


def kill_one_at_random(store: Store, log: Log, chance: random.Random) -> None:
    """Let a child book until it has answered once more, then kill it within the next weighings."""
    answered = len(log.of("done"))
    child = start(book_until_killed, store.place, str(log.path), log.unanswered())
    deadline = time.monotonic() + PATIENCE_S
    while len(log.of("done")) == answered and child.is_alive() and time.monotonic() < deadline:
        time.sleep(0.002)
    time.sleep(chance.uniform(0, LONGEST_LIFE_S))
    assert child.is_alive()
    child.kill()
    child.join(PATIENCE_S)
    assert child.exitcode == -signal.SIGKILL
