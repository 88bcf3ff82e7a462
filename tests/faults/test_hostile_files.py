"""Whatever file is named to a command, it is answered in words, in bounded memory, and nothing is half done."""

from __future__ import annotations

import contextlib
import shutil
import signal
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import click
import pytest

from farmops.exchange.file_kinds import KINDS
from farmops.model.errors import NotFound, NotUnderstood
from farmops.records.store import Store
from farmops.reports.soundness import look_through
from farmops.tui.actions import keys_from
from farmops.tui.settings import theme_from
from tests.cli.hand import NOT_WORDS, TODAY, Hand, Said, build_row
from tests.cli.tree import Leaf, walk
from tests.faults.children import answer_within, processes
from tests.faults.hostile_files import LARGE, SMALL
from tests.frozen import frozen
from tests.profiles import count

READ_FROM = ("file", "folder", "font")
KEPT_AS_THEY_ARE = ("notes", "papers", "costs receipt")
"""Commands that keep a copy of any file, whatever it holds."""
ALWAYS = ("a pipe", "a device", "hostile texts", "endless cells")
EVERY = count(ci=8, full=1)
PATIENCE_S = 60
MEMORY = 900_000_000
LARGE_HERE = count(ci=4, full=len(LARGE))


def reads(one: click.Parameter) -> bool:
    """Whether a parameter names a file to be read."""
    return one.name in READ_FROM and "--out" not in one.opts


WAYS = [(leaf, one.name or "") for leaf in walk() if not leaf.is_group for one in leaf.command.params if reads(one)]


def called(value: Any) -> str:
    """The test's id."""
    return value.name if isinstance(value, Leaf) else str(value)


def words_of(leaf: Leaf, parameter: str, file: Path) -> list[str]:
    """The words of a command with that file."""
    given = {parameter: str(file), "code": "WREN"} if leaf.name == "incident card" else {parameter: str(file)}
    away = ["--out", str(file.with_name("out.pdf"))] if parameter == "font" else []
    return [*leaf.path, *leaf.with_words(given), *away]


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture(scope="module")
def row_place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the farm lies that is built once."""
    return tmp_path_factory.mktemp("row") / "farm.db"


@pytest.fixture
def farm(row_place: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at Hollow Lane."""
    if not row_place.exists():
        build_row(Hand(row_place, capsys))
    hand = Hand(tmp_path / "farm.db", capsys)
    hand.become(row_place)
    return hand


@pytest.fixture(autouse=True)
def _never_waits() -> Iterator[None]:
    """A file that would keep its reader waiting for ever ends the test instead."""

    def give_up(*_: object) -> None:
        raise TimeoutError

    before = signal.signal(signal.SIGALRM, give_up)
    signal.alarm(PATIENCE_S)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def assert_in_words(said: Said, about: str) -> None:
    """A documented exit code, words for a person, nothing that a terminal would obey."""
    told = f"{about}: exit {said.code}, {said.out[:300]}{said.err[:300]}"
    assert said.code in (0, 1, 2, 3, 4), told
    assert said.code == 0 or (said.out + said.err).strip(), told
    assert not any(sign in said.err.replace("Error: ", "") for sign in NOT_WORDS), told
    assert all(sign.isprintable() or sign in "\n\t" for sign in said.out + said.err), told


def last_entry(place: Path) -> int:
    """The number of the last entry of the journal; what it holds is held against the rows at the end."""
    with closing(sqlite3.connect(place)) as connection:
        return int(connection.execute("SELECT MAX(seq) FROM journal").fetchone()[0])


def chosen(at: int) -> list[str]:
    """Those files that a way gets in this run: in `ci` some to each, so that all come to one."""
    return [*ALWAYS, *(name for name in list(SMALL)[at % EVERY :: EVERY] if name not in ALWAYS)]


def test_every_kind_of_rows_is_among_the_ways_in() -> None:
    wanted = {"restore", "chores book", *(f"import {one.replace(' ', '-')}" for one in ("harvests", "package", *KINDS))}
    assert wanted <= {leaf.name for leaf, _ in WAYS}


@pytest.mark.parametrize(("at", "way"), list(enumerate(WAYS)), ids=[f"{leaf.name} {name}" for leaf, name in WAYS])
def test_a_hostile_file_is_refused_or_booked_in_words(
    farm: Hand, tmp_path: Path, at: int, way: tuple[Leaf, str]
) -> None:
    leaf, parameter = way
    for number, name in enumerate(chosen(at)):
        folder = tmp_path / str(number)
        folder.mkdir()
        SMALL[name](folder / "rows.csv")
        before = last_entry(farm.place)
        said = farm.types(*words_of(leaf, parameter, folder / "rows.csv"))
        assert_in_words(said, f"{leaf.name} of {name}")
        assert [one.name for one in folder.iterdir()] == ["rows.csv"], name
        if said.code not in (0, 4):
            assert last_entry(farm.place) == before, f"{leaf.name} of {name} was refused, and booked"
        elif not leaf.name.startswith(("import", "costs labels load", *KEPT_AS_THEY_ARE)):
            pytest.fail(f"{leaf.name} took {name}: {said.out}{said.err}")
    store = Store(str(farm.place))
    assert [one for one in look_through(store).findings if one.part != "entries"] == []
    store.close()


NO_FARM = ("nothing", "a folder", "a pipe", "a device", "a loop", "a picture", "half a database", "hostile texts")
DATABASES = ("another program's database", "an impostor", "a newer store")


@pytest.mark.parametrize(
    "command", [["units", "list"], ["check"], ["people", "add", "Bo"], ["farm", "open", "A"]], ids=str
)
@pytest.mark.parametrize("name", [*NO_FARM, *DATABASES])
def test_what_is_no_farm_is_told_so_and_left_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str, command: list[str]
) -> None:
    hand = Hand(tmp_path / "rows.csv", capsys)
    SMALL[name](hand.place)
    before = hand.place.read_bytes() if hand.place.is_file() else None
    said = hand.types(*command)
    assert_in_words(said, f"{command} at {name}")
    if (name, command[0]) != ("nothing", "farm"):
        assert said.code in (1, 2, 3, 4), said
        assert before is None or hand.place.read_bytes() == before


@pytest.mark.parametrize("name", SMALL)
def test_settings_that_are_none_are_told_in_words(tmp_path: Path, name: str) -> None:
    SMALL[name](tmp_path / "settings.toml")
    for read in (theme_from, keys_from):
        with contextlib.suppress(NotUnderstood, NotFound):
            read(tmp_path / "settings.toml")


LARGE_WAYS = ("import harvests", "import readings", "costs labels load", "chores book", "restore", "import package")


@pytest.mark.parametrize("name", [*LARGE][:LARGE_HERE])
def test_a_file_that_claims_too_much_is_read_in_bounded_memory(farm: Hand, tmp_path: Path, name: str) -> None:
    place = tmp_path / "rows.csv"
    signal.alarm(20 * PATIENCE_S)
    LARGE[name](place)
    leaves = {leaf.name: (leaf, parameter) for leaf, parameter in WAYS}
    for way in LARGE_WAYS[: count(ci=2, full=len(LARGE_WAYS))]:
        copy = tmp_path / "copy.db"
        shutil.copy(farm.place, copy)
        words = ["--farm", str(copy), "--by", "Ada", *words_of(*leaves[way], place)]
        child = processes().Process(target=answer_within, args=(MEMORY, words, str(tmp_path / "said")), daemon=True)
        child.start()
        child.join(10 * PATIENCE_S)
        told = (tmp_path / "said").read_text(encoding="utf-8")
        assert child.exitcode in (0, 1, 2, 3, 4), f"{way} of {name}: {child.exitcode}, {told[:400]}"
        assert "has a fault" not in told, f"{way} of {name}: {told[:400]}"
        assert last_entry(copy) == last_entry(farm.place) or child.exitcode == 4


@pytest.mark.parametrize(
    "statement",
    [
        "CREATE TRIGGER t AFTER INSERT ON harvest BEGIN DELETE FROM cost; END",
        "DROP TABLE person; CREATE VIEW person AS WITH RECURSIVE n(id) AS (SELECT 1 UNION ALL SELECT id + 1 FROM n) "
        "SELECT id, '' AS operation, 'x' AS name, 0 AS minor, NULL AS note FROM n",
    ],
    ids=["a trigger", "a view without end"],
)
def test_a_store_with_a_view_or_a_trigger_is_not_trusted(farm: Hand, tmp_path: Path, statement: str) -> None:
    good = tmp_path / "good.db"
    shutil.copy(farm.place, good)
    with closing(sqlite3.connect(farm.place)) as connection:
        connection.executescript(f"PRAGMA foreign_keys = OFF; {statement}")
    for command in (["people", "list"], ["people", "add", "Bo"]):
        said = farm.types(*command)
        assert (said.code, said.out) == (3, "")
        assert "holds a view or a trigger" in said.err
    bad, hand = farm.place, Hand(good, farm.capsys)
    assert "What is there was not touched." in hand.refused("restore", str(bad))
