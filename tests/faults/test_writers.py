"""Several people write at once: all is booked, in one chain, and a retry is booked once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier

import pytest

from farmops.farm.farm import open_farm
from farmops.model.errors import FarmopsError, Refused
from farmops.model.farm import NewFarm
from farmops.model.harvests import Harvest
from farmops.model.ids import new_id
from farmops.quantities import METRIC
from farmops.records.store import Store
from tests.faults.children import book, start, weigh
from tests.faults.soundness import assert_sound, operations
from tests.profiles import count

EACH = count(ci=60, full=1_000)
RETRIES = count(ci=15, full=200)
PATIENCE_S = 600


def test_two_processes_write_and_nothing_is_lost(growing: Store) -> None:
    before = operations(growing)
    lists = [[new_id() for _ in range(EACH)] for _ in range(2)]
    children = [start(book, growing.place, ids, by) for ids, by in zip(lists, ("Ada", "Bea"), strict=True)]
    for child in children:
        child.join(PATIENCE_S)
    assert [child.exitcode for child in children] == [0, 0]
    booked = operations(growing)[len(before) :]
    assert sorted(booked) == sorted(lists[0] + lists[1])
    assert [id for id in booked if id in set(lists[0])] == lists[0]
    assert_sound(growing)


def test_two_processes_that_retry_the_same_weighings_book_them_once(growing: Store) -> None:
    before = operations(growing)
    ids = [new_id() for _ in range(RETRIES)]
    children = [start(book, growing.place, ids, "Ada") for _ in range(2)]
    for child in children:
        child.join(PATIENCE_S)
    assert [child.exitcode for child in children] == [0, 0]
    assert operations(growing)[len(before) :] == ids
    assert_sound(growing)


def test_threads_that_book_the_same_weighing_at_once_all_get_the_same_answer(growing: Store) -> None:
    crowd = 4
    barrier = Barrier(crowd)

    def at_once(id: str) -> Harvest:
        barrier.wait(PATIENCE_S)
        return weigh(growing, id)

    with ThreadPoolExecutor(crowd) as pool:
        for _ in range(RETRIES):
            answers = list(pool.map(at_once, [new_id()] * crowd))
            assert answers == [answers[0]] * crowd
    with growing.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM harvest") == RETRIES
    assert_sound(growing)


def test_a_retry_gives_back_the_answer_of_then_not_of_now(growing: Store) -> None:
    id = new_id()
    first = weigh(growing, id, by="Ada")
    assert weigh(growing, id, by="Bea") == first
    assert operations(growing).count(id) == 1


def test_an_id_taken_by_another_change_is_refused(growing: Store) -> None:
    with pytest.raises(Refused, match="belongs to the operation 'plant"):
        weigh(growing, operations(growing)[-1])
    assert_sound(growing)


def test_a_farm_is_opened_once_however_many_try(tmp_path: Path) -> None:
    place = str(tmp_path / "new" / "farm.db")
    crowd = 4
    barrier = Barrier(crowd)

    def open_one(name: str) -> str:
        store = Store(place)
        barrier.wait(PATIENCE_S)
        try:
            return open_farm(store, NewFarm(name, METRIC, "Europe/Lisbon"), by="Ada").name
        except FarmopsError as error:
            return str(error)
        finally:
            store.close()

    with ThreadPoolExecutor(crowd) as pool:
        said = list(pool.map(open_one, ("Reed", "Fen", "Marsh", "Brook")))
    (opened,) = [words for words in said if len(words.split()) == 1]
    assert sum(f"already holds the farm {opened}" in words for words in said) == crowd - 1
    store = Store(place)
    assert_sound(store)
    store.close()
