"""Which stores are opened, which are refused in words, and that looking at one leaves it as it was."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy import text

from farmops.facts.farm import farm
from farmops.model.errors import FarmopsError, NoFarm, StoreUnavailable
from farmops.records.store import Store
from farmops.records.version import CURRENT, version_of
from tests.records.examples import write
from tests.servers import Server

HEAVY = ("sqlalchemy", "sqlmodel", "alembic", "pydantic", "pandas", "numpy")
READ_ONLY_PROGRAM = """
import sys
from farmops.records.store import Store
from farmops.facts.farm import farm
with Store(sys.argv[1]).reading() as reader:
    print(farm(reader).name)
print([name for name in sys.argv[2:] if name in sys.modules])
"""


def refusal(place: str, kind: type[FarmopsError], *, write_too: bool = True) -> str:
    """The words with which a place is refused for reading, and that it is refused for writing in the same words."""
    store = Store(place)
    with pytest.raises(kind) as refused, store.reading():
        raise AssertionError("it was opened")
    if write_too:
        with pytest.raises(kind) as written, store.writing("x"):
            raise AssertionError("it was opened for writing")
        assert str(written.value) == str(refused.value)
    store.close()
    return str(refused.value)


def set_version(store: Store, version: str) -> None:
    with store.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = :version"), {"version": version})
    store.close()


def test_a_store_of_this_version_opens(store: Store) -> None:
    with store.reading() as reader:
        assert version_of(reader) == CURRENT
    assert store.has_schema()


def test_a_store_without_a_farm_says_how_to_begin(store: Store) -> None:
    with store.reading() as reader, pytest.raises(NoFarm, match="farmops farm open"):
        farm(reader)


def test_a_missing_file_is_no_farm_and_is_not_made(tmp_path: Path) -> None:
    place = tmp_path / "nowhere" / "farm.db"
    assert "farmops farm open" in refusal(str(place), NoFarm)
    assert not Store(str(place)).has_schema()
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_is_no_farm(tmp_path: Path) -> None:
    place = tmp_path / "farm.db"
    place.touch()
    assert "farmops farm open" in refusal(str(place), NoFarm)
    assert place.read_bytes() == b""


def test_an_empty_database_is_no_farm(postgres_server: Server) -> None:
    with postgres_server.database("template1") as url:
        assert "farmops farm open" in refusal(url, NoFarm)
        assert not Store(url).has_schema()


def test_a_newer_store_is_refused_and_left_as_it_was(store: Store) -> None:
    write(store, "person", name="Ada")
    set_version(store, "9999")
    before = Path(store.place).read_bytes() if store.dialect.name == "sqlite" else b""
    words = refusal(store.place, StoreUnavailable)
    assert "schema 9999" in words
    assert CURRENT in words
    assert "nothing was changed" in words
    if before:
        assert Path(store.place).read_bytes() == before
        assert [found.name for found in Path(store.place).parent.iterdir()] == ["farm.db"]


def test_a_foreign_file_is_refused_and_left_as_it_was(tmp_path: Path) -> None:
    place = tmp_path / "recipes.db"
    connection = sqlite3.connect(place)
    connection.execute("CREATE TABLE recipe (name TEXT)")
    connection.close()
    before = place.read_bytes()
    assert "not a farm's store" in refusal(str(place), StoreUnavailable)
    with pytest.raises(StoreUnavailable, match="not a farm's store"):
        Store(str(place)).has_schema()
    assert place.read_bytes() == before


def test_a_foreign_database_is_refused(postgres_server: Server) -> None:
    with postgres_server.database("template1") as url:
        store = Store(url)
        with store.engine.begin() as connection:
            connection.execute(text("CREATE TABLE recipe (name TEXT)"))
        store.close()
        assert "not a farm's store" in refusal(url, StoreUnavailable)


def no_database(place: Path) -> None:
    place.write_bytes(b"Dear diary, today we planted kale.\n" * 100)


def damaged_head(place: Path) -> None:
    content = bytearray(place.read_bytes())
    content[:16] = b"x" * 16
    place.write_bytes(content)


def damaged_middle(place: Path) -> None:
    content = bytearray(place.read_bytes())
    content[100:4096] = b"\xff" * 3996
    place.write_bytes(content)


def cut_short(place: Path) -> None:
    place.write_bytes(place.read_bytes()[:6000])


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (no_database, "not a farm's store"),
        (damaged_head, "not a farm's store"),
        (damaged_middle, "is damaged. Book nothing more there. What is wrong: farmops check"),
        (cut_short, "is damaged. Book nothing more there. What is wrong: farmops check"),
    ],
)
def test_a_spoilt_file_is_refused_in_words(sqlite_store: Store, spoil: Callable[[Path], None], said: str) -> None:
    spoil(Path(sqlite_store.place))
    words = refusal(sqlite_store.place, StoreUnavailable)
    assert sqlite_store.place in words
    assert said in words


def test_a_folder_is_refused_in_words(tmp_path: Path) -> None:
    assert "cannot be opened" in refusal(str(tmp_path), StoreUnavailable)
    with pytest.raises(StoreUnavailable, match="cannot be opened"):
        Store(str(tmp_path)).create()


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(StoreUnavailable, match="cannot be made"):
        Store(str(tmp_path / "file" / "farm.db")).create()


WRITE_AS_NOBODY = """
import os, sys
import sqlalchemy.dialects.sqlite.pysqlite
import farmops.records.transaction
from farmops.model.errors import FarmopsError
from farmops.records.store import Store
if os.geteuid() == 0:
    os.setgid(65534)
    os.setuid(65534)
try:
    with Store(sys.argv[1]).writing("x") as transaction:
        transaction.connection.exec_driver_sql("DELETE FROM person")
except FarmopsError as error:
    print(error.exit_code, error)
"""


def as_nobody(place: Path) -> str:
    """What a program without rights prints that tries to write; root itself would not be refused anything."""
    command = [sys.executable, "-c", WRITE_AS_NOBODY, str(place)]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def test_a_file_that_may_not_be_written_is_refused_in_words(sqlite_store: Store) -> None:
    write(sqlite_store, "person", name="Ada")
    sqlite_store.close()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        place = folder / "farm.db"
        place.write_bytes(Path(sqlite_store.place).read_bytes())
        place.chmod(0o444)
        folder.chmod(0o555)
        said = as_nobody(place)
        folder.chmod(0o755)
    assert said.startswith("3 ")
    assert "permissions" in said


def test_a_file_of_somebody_else_is_refused_in_words(sqlite_store: Store) -> None:
    with tempfile.TemporaryDirectory() as name:
        place = Path(name) / "farm.db"
        place.write_bytes(Path(sqlite_store.place).read_bytes())
        place.chmod(0)
        Path(name).chmod(0o755)
        said = as_nobody(place)
    assert said.startswith("3 ")
    assert "permissions" in said


@pytest.mark.parametrize(
    ("url", "said"),
    [
        ("postgresql://postgres@/farm?host=/nowhere/at/all", "does not answer"),
        ("postgresql://postgres@/farm?hots=x", "URL of the store is not understood"),
        ("postgresql://[", "URL of the store is not understood"),
    ],
)
def test_a_server_that_cannot_be_reached_is_refused_in_words(url: str, said: str) -> None:
    assert said in refusal(url, StoreUnavailable)


def test_a_database_that_does_not_exist_is_refused_in_words(postgres_server: Server) -> None:
    assert "does not exist" in refusal(postgres_server.url("nowhere"), StoreUnavailable)


def test_a_role_without_rights_is_refused_in_words(postgres_store: Store) -> None:
    write(postgres_store, "person", name="Ada")
    with postgres_store.engine.begin() as connection:
        connection.execute(text("CREATE ROLE visitor LOGIN"))
    try:
        words = refusal(postgres_store.place.replace("postgres@", "visitor@"), StoreUnavailable, write_too=False)
        assert "permission denied" in words
    finally:
        with postgres_store.engine.begin() as connection:
            connection.execute(text("DROP ROLE visitor"))


def test_laying_a_store_twice_changes_nothing(store: Store) -> None:
    write(store, "person", name="Ada")
    store.create()
    with store.reading() as reader:
        assert reader.value("SELECT COUNT(*) FROM person") == 1


def test_a_farm_is_read_without_loading_anything_heavy(farm_store: Store) -> None:
    command = [sys.executable, "-c", READ_ONLY_PROGRAM, farm_store.place, *HEAVY]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == ["Hollow Lane Holding", "[]"]


def test_the_shell_of_the_test_itself_would_see_heavy_modules() -> None:
    command = [sys.executable, "-c", "import sys, farmops.records.tables; print('sqlalchemy' in sys.modules)"]
    assert subprocess.run(command, capture_output=True, text=True, check=True).stdout.strip() == "True"
