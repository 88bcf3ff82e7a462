"""Names and notes are only text: on every screen, in every table, sheet, page, file, message and report."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from farmops.records.store import Store
from farmops.records.whole import TABLES
from tests.cli.hand import Hand, Said
from tests.cli.tree import Leaf, walk
from tests.farmhand import TODAY
from tests.faults.hostile_names import ENTERED, HOSTILE, free_texts, hostile_database, hostile_farm, obeyed, swallowed
from tests.frozen import frozen
from tests.profiles import count
from tests.servers import Server

LEAVES = [one for one in walk() if not one.is_group]
TEXTS = [HOSTILE, ENTERED]
ELSEWHERE = ("demo", "restore", "import", "farm open", "calc")
"""Commands that show no record of the farm, or take it from a file."""
READING = [one for one in LEAVES if not one.name.startswith(ELSEWHERE)]


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture(scope="module", params=TEXTS[: count(ci=1, full=2)], ids=["hostile", "entered"][: count(ci=1, full=2)])
def place(request: pytest.FixtureRequest, sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A farm full of one text, which nobody writes into."""
    return hostile_farm(sqlite_template, tmp_path_factory.mktemp("hostile") / "farm.db", request.param)


@pytest.fixture
def hand(
    place: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Iterator[Hand]:
    """A hand at a copy of it, in a folder of its own, whose files are everybody's unless a program says otherwise."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "rows.csv").write_text("date,unit\n", encoding="utf-8")
    found = Hand(tmp_path / "farm.db", capsys)
    found.become(place)
    for one in tmp_path.iterdir():
        one.chmod(0o600)
    before = os.umask(0)
    yield found
    os.umask(before)


@pytest.fixture(scope="module")
def served(postgres_server: Server) -> Iterator[str]:
    """The hostile farm on a server, which nobody writes into."""
    with hostile_database(postgres_server, HOSTILE) as url:
        yield url


def named_in(place: str, table: str, column: str) -> str:
    """One of the names in a table, as it is stored."""
    with Store(place).reading() as reader:
        return str(reader.value(f"SELECT {column} FROM {table} ORDER BY id"))


def ways_to_say(leaf: Leaf, place: str) -> Iterator[list[str]]:
    """The command as it is usually said of this farm, and by hostile names."""
    crop, name = named_in(place, "crop", "name"), named_in(place, "person", "name")
    fitting = {"unit": "WREN", "bed": "WREN-N", "where": "WREN-N", "code": "WREN", "lot": "PERCH-26", "number": "1"}
    for crop_said in ("CHARD", crop):
        typed = {**fitting, "crop": crop_said, "what": crop_said, "name": name}
        given = {key: word for key, word in typed.items() if key in _required(leaf)}
        yield [*leaf.path, *leaf.with_words(given)]


def _required(leaf: Leaf) -> set[str]:
    return {one.name or "" for one in leaf.command.params if one.required}


def test_free_texts_stand_in_most_tables() -> None:
    assert sum(bool(free_texts(one)) for one in TABLES.values()) > 30
    assert {"name", "note"} <= set(free_texts(TABLES["person"]))


@pytest.mark.parametrize("leaf", READING, ids=lambda one: one.name)
def test_no_command_says_more_than_text(hand: Hand, leaf: Leaf) -> None:
    say(hand, leaf)
    assert open_to_others(hand.place.parent) == []


@pytest.mark.parametrize("leaf", READING[:: count(ci=5, full=1)], ids=lambda one: one.name)
def test_no_command_says_more_than_text_of_a_farm_on_a_server(
    served: str, leaf: Leaf, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "rows.csv").write_text("date,unit\n", encoding="utf-8")
    hand = Hand(tmp_path, capsys)
    hand.url = served
    say(hand, leaf)


def say(hand: Hand, leaf: Leaf) -> None:
    """The command and its JSON, held against what may be shown."""
    for words in ways_to_say(leaf, hand.farm):
        if "chores print" in leaf.name:
            words.append("--text")
        said = hand.types(*words)
        assert_only_text(said, words)
        if any("--json" in one.opts for one in leaf.command.params):
            again = hand.types(*words, "--json")
            assert_only_text(again, words)
            for line in again.out.splitlines():
                assert isinstance(json.loads(line), dict)


def open_to_others(folder: Path) -> list[str]:
    """What others than its owner may read, below a folder."""
    return [one.name for one in folder.rglob("*") if one.stat().st_mode & 0o077]


def assert_only_text(said: Said, words: list[str]) -> None:
    """Words, an exit code that is documented, nothing obeyed and nothing swallowed."""
    told = f"{words}: exit {said.code}, {said.out[:600]!r}{said.err[:600]!r}"
    assert said.code in (0, 1, 2, 3, 4), told
    assert "has a fault" not in said.err, told
    assert obeyed(said.out + said.err) == [], told
    assert swallowed(said.out + said.err) == [], told
