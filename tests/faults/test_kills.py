"""What was acknowledged is there after a kill at any instant; what was not is there whole or not at all, once."""

from __future__ import annotations

import random
import signal
import time
from collections import Counter
from pathlib import Path

import pytest

from farmops.facts import journal
from farmops.model.ids import new_id
from farmops.records.store import Store
from tests.faults.children import (
    KEPT,
    MOMENTS,
    Log,
    book_and_die,
    book_through_outages,
    book_until_killed,
    run_and_die,
    start,
    weigh,
)
from tests.faults.errands import ERRANDS, run_errand
from tests.faults.soundness import assert_sound, assert_whole, operations
from tests.profiles import count
from tests.servers import MortalServer

KILLS = {"sqlite": count(ci=25, full=500), "postgresql": count(ci=8, full=500)}
SERVER_KILLS = count(ci=1, full=50)
LONGEST_LIFE_S = 0.08
PATIENCE_S = 60
ANY_KIND = [one for one in MOMENTS if one != "before the row"]
"""Moments that come in every booking, whatever it writes."""


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


def test_a_kill_in_the_middle_of_any_kind_of_booking_leaves_all_of_it_or_nothing(busy: Store) -> None:
    turns = [(kind, moment) for moment in ANY_KIND for kind in ERRANDS]
    for kind, moment in turns[:: count(ci=17, full=1)]:
        die_within(busy, kind, moment)
    assert_whole(busy)


def die_within(store: Store, kind: str, moment: str) -> None:
    """A child is killed at a moment of an errand, which is then tried again."""
    id, before = new_id(), operations(store)
    child = start(run_and_die, store.place, id, kind, moment)
    child.join(PATIENCE_S)
    assert child.exitcode == -signal.SIGKILL, kind
    assert operations(store) == before + [id] * (moment in KEPT), kind
    run_errand(store, id, kind=kind)
    assert operations(store) == [*before, id]


def test_kills_at_random_instants_lose_nothing_and_double_nothing(busy: Store, tmp_path: Path) -> None:
    chance, log = random.Random(20260503), Log(tmp_path / "said")
    before, kills = len(operations(busy)), KILLS[busy.dialect.name]
    interrupted = 0
    for _ in range(kills):
        kill_one_at_random(busy, log, chance)
        interrupted += len(log.unanswered())
        assert set(log.of("done")) <= set(operations(busy))
    assert_whole(busy)
    booked = operations(busy)[before:]
    assert len(set(booked)) == len(booked)
    assert set(log.of("done")) <= set(booked) <= set(log.of("began"))
    assert len(booked) >= kills
    assert interrupted > 0
    tell(f"{kills} kills on {busy.dialect.name}, {interrupted} of them in the middle", busy, before)


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


def test_a_server_that_is_killed_loses_nothing_that_was_acknowledged(
    mortal_store: tuple[MortalServer, Store], tmp_path: Path
) -> None:
    (server, store), enough = mortal_store, tmp_path / "enough"
    before, logs = len(operations(store)), {by: Log(tmp_path / by) for by in ("Ada", "Bea")}
    children = [start(book_through_outages, store.place, str(log.path), by, str(enough)) for by, log in logs.items()]
    for turn in range(SERVER_KILLS):
        kill_at_random(server, list(logs.values()), random.Random(turn))
    enough.touch()
    for child in children:
        child.join(PATIENCE_S)
    assert [child.exitcode for child in children] == [0, 0]
    booked = operations(store)[before:]
    assert sorted(booked) == sorted(logs["Ada"].of("done") + logs["Bea"].of("done"))
    assert any(log.of("unanswered") for log in logs.values())
    assert_whole(store)
    tell(f"{SERVER_KILLS} kills of the server", store, before)


def kill_at_random(server: MortalServer, logs: list[Log], chance: random.Random) -> None:
    """Let everybody be answered once more, then kill the server within the next bookings, and start it again."""
    for log in logs:
        wait_for_one_more(log)
    time.sleep(chance.uniform(0, LONGEST_LIFE_S))
    server.kill()
    time.sleep(chance.uniform(0, LONGEST_LIFE_S))
    server.rise()


def wait_for_one_more(log: Log) -> None:
    """Until a child has been answered once more."""
    answered, deadline = len(log.of("done")), time.monotonic() + PATIENCE_S
    while len(log.of("done")) == answered:
        assert time.monotonic() < deadline
        time.sleep(0.002)


def tell(words: str, store: Store, before: int) -> None:
    """What was booked, for whoever reads what a thorough run says."""
    with store.reading() as reader:
        names = Counter(line.name for line in journal.lines(reader)[:-before])
    print(f"\n{words}, {names.total()} operations booked: {dict(names)}")
