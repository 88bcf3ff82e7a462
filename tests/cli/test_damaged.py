"""A farm whose file is damaged: every command says so, with the next step, and a backup puts it right."""

from __future__ import annotations

import random
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from farmops.records.store import Store
from farmops.reports.soundness import damage_behind
from tests.cli.hand import Hand, Said
from tests.cli.test_every_command import NEED_FARM
from tests.profiles import count
from tests.records.test_stored import RELEASED, STORED

DAMAGED, TRIED = count(ci=3, full=60), count(ci=8, full=40)
UNREACHABLE = 3
NEXT_STEPS = ("is damaged", "farmops check", "farmops restore FILE")
ORDINARY = [one for one in NEED_FARM if one.name not in ("check", "backup")]


@pytest.fixture
def hand(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Hand:
    """A hand at a farm with records of every kind, in one file; a sound copy lies beside it."""
    (tmp_path / "rows.csv").write_text("date,unit,bed,crop,weight\n", encoding="utf-8")
    shutil.copy(STORED / f"{RELEASED[-1]}.db", tmp_path / "sound.db")
    monkeypatch.chdir(tmp_path)
    return Hand(Path(shutil.copy("sound.db", tmp_path / "farm.db")), capsys)


def statements(place: Path) -> list[bytes]:
    """The text that lays each table, as it stands in the file."""
    with closing(sqlite3.connect(place)) as connection:
        found = connection.execute("SELECT sql FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
        return [sql.encode() for (sql,) in found]


def hurt(hand: Hand, before: bytes, after: bytes, number: int = 0) -> None:
    """Put a farm there in whose file a text reads otherwise."""
    hand.place = hand.place.with_name(f"hurt-{number}.db")
    hand.place.write_bytes(Path("sound.db").read_bytes().replace(before, after, 1))


def in_words(said: Said, what: str) -> Said:
    """An answer that is no fault; where the store is said to be damaged, what to do stands with it."""
    assert said.code in (0, 1, 2, UNREACHABLE, 4), what
    assert "has a fault" not in said.err, f"{what}: {said.err}"
    assert said.code != UNREACHABLE or all(words in said.err for words in NEXT_STEPS), f"{what}: {said.err}"
    return said


def test_damage_in_the_text_that_lays_a_table_is_told_by_every_command(hand: Hand) -> None:
    chance, told = random.Random(20261127), set()
    laid = statements(hand.place)
    for number in range(DAMAGED):
        text = chance.choice(laid)
        at = chance.randrange(len(text))
        hurt(hand, text, text[:at] + bytes([text[at] ^ chance.randrange(1, 32)]) + text[at + 1 :], number)
        for one in chance.sample(ORDINARY, TRIED):
            told.add(in_words(hand.types(*one.path, *one.fitting), f"{one.name} with {text[at - 9 : at + 9]!r}").code)
        in_words(hand.types("check"), f"check with {text[at - 9 : at + 9]!r}")
        hand("restore", "sound.db")
        assert damage_behind(Store(str(hand.place))) is None
    assert UNREACHABLE in told


@pytest.mark.parametrize(
    ("before", "after", "typed"),
    [
        (b"mass_typed TEXT NOT NULL, \n\ttare_mg", b"mass_tuped TEXT NOT NULL, \n\ttare_mg", "harvests list"),
        (
            b"harvest_planting_id FOREIGN KEY(planting_id) REFERENCES p",
            b"harvest_planting_id FOREIGN KEY(planting_id) REFERENCES q",
            "harvest WREN-N KALE 22oz --sure",
        ),
    ],
)
def test_a_column_of_another_name_and_a_link_elsewhere_are_damage(
    hand: Hand, before: bytes, after: bytes, typed: str
) -> None:
    assert before in hand.place.read_bytes()
    hurt(hand, before, after)
    assert in_words(hand.types(*typed.split()), typed).code == UNREACHABLE
    assert "harvest is not laid out as it was" in hand.types("check").out


def test_a_day_that_is_none_is_damage(hand: Hand) -> None:
    with closing(sqlite3.connect(hand.place)) as connection, connection:
        connection.execute("UPDATE harvest SET day = '2026-0x-20' WHERE id = 1")
    assert in_words(hand.types("harvests", "list"), "harvests list").code == UNREACHABLE
    assert "Harvest 1 is not what was booked last." in hand.types("check").out


def test_a_fault_on_a_sound_farm_is_still_a_fault(hand: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise ValueError("a defect")

    monkeypatch.setattr("farmops.reports.lists.farm", fails)
    said = hand.types("harvests", "list")
    assert (said.code, "has a fault (ValueError)" in said.err) == (1, True)
