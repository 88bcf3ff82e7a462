"""The journal's chain is whole as it was written and broken by any hand that touches it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import text

from farmops.facts import journal as journal_facts
from farmops.farm.farm import add_person, change_person
from farmops.farm.undo import undo
from farmops.model.farm import NewPerson, PersonChange
from farmops.model.journal import Which
from farmops.records.chain import FIRST_HASH, breaks, canonical, seal
from farmops.records.store import Store
from tests.frozen import frozen

Entry = dict[str, Any]
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
    max_leaves=8,
)
FIELDS = ("operation", "at", "actor", "through", "name", "undoes", "redoes", "schema_version", "images", "result")


def chain_of(*results: str) -> list[Entry]:
    """A chain made by hand, one entry per result."""
    entries: list[Entry] = []
    for number, result in enumerate(results, start=1):
        previous = entries[-1]["hash"] if entries else FIRST_HASH
        at = datetime(2026, 5, 3, 16, number, tzinfo=UTC)
        entry = {"seq": number, "operation": f"op {number}", "at": at, "result": result, "previous": previous}
        entries.append(entry | {"hash": seal(entry)})
    return entries


def resealed(entry: Entry, **values: Any) -> Entry:
    changed = entry | values
    return changed | {"hash": seal(changed)}


@given(JSON)
def test_canonical_json_reads_back_and_has_one_spelling(value: Any) -> None:
    spelled = canonical(value)
    assert json.loads(spelled) == value
    assert canonical(json.loads(spelled)) == spelled


@given(st.dictionaries(st.text(), st.integers()))
def test_the_order_of_keys_does_not_matter(value: dict[str, int]) -> None:
    assert canonical(dict(reversed(value.items()))) == canonical(value)


def test_the_spelling_is_pinned() -> None:
    value = {"b": [1, 2.5, None, True], "a": "Zürich \u00bd \n"}
    assert canonical(value) == '{"a":"Zürich ½ \\n","b":[1,2.5,null,true]}'


@pytest.mark.parametrize("number", [float("nan"), float("inf")])
def test_what_json_cannot_say_is_not_sealed(number: float) -> None:
    with pytest.raises(ValueError, match="JSON"):
        canonical(number)


def test_a_seal_is_pinned() -> None:
    (entry,) = chain_of("{}")
    spelled = (
        '{"at":"2026-05-03T16:01:00.000000+00:00","operation":"op 1",'
        f'"previous":"{"0" * 64}","result":"{{}}","seq":1}}'
    )
    assert entry["hash"] == hashlib.sha256(spelled.encode()).hexdigest()


def test_the_same_instant_in_another_zone_has_the_same_seal() -> None:
    (entry,) = chain_of("{}")
    there = entry["at"].astimezone(timezone(timedelta(hours=-4)))
    assert seal(entry | {"at": there}) == entry["hash"]


@given(st.lists(st.text(), max_size=6))
def test_a_chain_is_whole_as_written(results: list[str]) -> None:
    assert breaks(chain_of(*results)) == []


@pytest.mark.parametrize(
    ("tamper", "said"),
    [
        (lambda c: [c[0], c[1] | {"result": "z"}, c[2]], ["entry 2 was altered after it was written"]),
        (lambda c: [c[0], resealed(c[1], result="z"), c[2]], ["entry 3 does not continue the entry before it"]),
        (lambda c: [c[0], c[2]], ["entry 3 follows entry 1", "entry 3 does not continue the entry before it"]),
        (lambda c: c[1:], ["entry 2 follows entry 0", "entry 2 does not continue the entry before it"]),
        (lambda c: [c[0], c[1] | {"at": c[1]["at"] + timedelta(microseconds=1)}, c[2]], ["entry 2 was altered after"]),
        (lambda c: [c[0], c[1] | {"hash": "f" * 64}, c[2]], ["entry 2 was altered", "entry 3 does not continue"]),
        (lambda c: [resealed(c[0], previous="f" * 64), *c[1:]], ["entry 1 does not continue", "entry 2 does not"]),
        (lambda c: [c[1], c[0], c[2]], ["entry 2 follows", "entry 2 does not", "entry 1 follows", "entry 1 does not"]),
        (lambda c: [*c, resealed(c[2], seq=4)], ["entry 4 does not continue the entry before it"]),
        (lambda c: [c[0], c[1], c[1], c[2]], ["entry 2 follows entry 2", "entry 2 does not continue"]),
    ],
    ids=["altered", "resealed", "cut out", "head cut off", "later", "hash", "new head", "swapped", "added", "doubled"],
)
def test_every_kind_of_tampering_shows(tamper: Callable[[list[Entry]], list[Entry]], said: list[str]) -> None:
    found = breaks(tamper(chain_of("a", "b", "c")))
    assert all(any(one.startswith(words) for one in found) for words in said), found


@pytest.fixture
def lived_in(farm_store: Store) -> Store:
    """A store with four entries in its journal, one of which takes back another."""
    bea = add_person(farm_store, NewPerson("Bea"), by="Ada")
    change_person(farm_store, PersonChange(bea.id, note="mornings, Zürich ½"), by="Bea")
    undo(farm_store, Which(), by="Bea")
    return farm_store


def broken(store: Store) -> list[str]:
    with store.reading() as reader:
        return breaks(journal_facts.chain(reader))


def tamper_with(store: Store, statement: str) -> None:
    with store.engine.begin() as connection:
        assert connection.execute(text(statement)).rowcount == 1
    store.close()


def test_what_operations_write_is_a_whole_chain(lived_in: Store) -> None:
    with lived_in.reading() as reader:
        assert [entry["seq"] for entry in journal_facts.chain(reader)] == [1, 2, 3, 4]
    assert broken(lived_in) == []


def test_the_instant_is_the_clocks_to_the_microsecond(farm_store: Store) -> None:
    with frozen("2026-05-03", at="16:00:00.000250") as clock_hand:
        add_person(farm_store, NewPerson("Bea"), by="Ada")
        clock_hand.tick(timedelta(days=200))
        add_person(farm_store, NewPerson("Cyd"), by="Ada")
    with farm_store.reading() as reader:
        _, first, second = journal_facts.chain(reader)
    assert first["at"] == datetime(2026, 5, 3, 16, 0, 0, 250, tzinfo=UTC)
    assert second["at"] - first["at"] == timedelta(days=200)
    assert broken(farm_store) == []


@pytest.mark.parametrize("field", FIELDS)
def test_any_field_altered_in_the_database_shows(lived_in: Store, field: str) -> None:
    value = "'2020-01-01 00:00:00.000000'" if field == "at" else "'{}'"
    tamper_with(lived_in, f"UPDATE journal SET {field} = {value} WHERE seq = 2")
    assert broken(lived_in) == ["entry 2 was altered after it was written"]


def test_an_entry_deleted_in_the_database_shows(lived_in: Store) -> None:
    tamper_with(lived_in, "DELETE FROM journal WHERE seq = 2")
    assert "entry 3 follows entry 1" in broken(lived_in)


def test_a_day_in_an_image_reads_back(lived_in: Store) -> None:
    with lived_in.reading() as reader:
        opened = next(iter(journal_facts.lines(reader, None)[::-1]))
        written = journal_facts.written(reader, opened.operation)
    assert written is not None
    assert written.images[0].after is not None
    assert date.fromisoformat(written.images[0].after["opened_day"]).year > 2000
