"""`farmops away`: who is away, who stands in, what moves out of the time."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.hand import Hand


@pytest.fixture(scope="module")
def _held_place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("held") / "farm.db"


@pytest.fixture
def held(farm: Hand, _held_place: Path) -> Hand:
    """A farm with Ada alone and two chores of upkeep, one before and one within the week that she wants to be away."""
    if not _held_place.exists():
        _hold(farm)
        Hand(_held_place, farm.capsys).become(farm.place)
    farm.become(_held_place)
    return farm


def _hold(farm: Hand) -> None:
    for chore in farm("chores", "list", "--json").data["chores"]:
        farm("chores", "remove", str(chore["id"]))
    for title, rule, day in (("Oil the door", "30 days after", "2026-10-22"), ("Sweep", "2 days after", "2026-10-15")):
        farm("chores", "add", title, "--every", rule, "--from", day, "--class", "upkeep")


WEEK = ("--from", "2026-10-20", "--to", "2026-10-26")


def test_going_away_says_what_to_do_before_and_what_is_put_off(held: Hand) -> None:
    said = held("away", "add", "ada", *WEEK)
    assert said.err.splitlines()[0] == "Ada is away from 2026-10-20 to 2026-10-26."
    assert "Nobody stays and nobody stands in" in said.err
    oil, sweep = (one["id"] for one in held("chores", "list", "--json").data["chores"])
    assert said.lines == [
        "Do before you go",
        "where chore",
        f"{sweep} all Sweep due 2026-10-15",
        f"{oil} all Oil the door due 2026-10-22",
        "Put off",
        "where chore",
        f"{oil} all Oil the door from 2026-10-22 until 2026-10-27",
    ]
    assert held("chores", "show", str(oil), "--json").data["next_due"] == "2026-10-27"


def test_a_dry_run_says_the_same_and_books_nothing(held: Hand) -> None:
    before = held.stored()
    rehearsed = held("away", "add", "Ada", *WEEK, "--note", "by train", "--dry-run", "--json").data
    assert held("away", "add", "Ada", *WEEK, "--dry-run").err.endswith("Nothing is booked yet.\n")
    assert held.stored() == before
    booked = held("away", "add", "Ada", *WEEK, "--note", "by train", "--json").data
    assert (rehearsed["booked"], booked["booked"]) == (False, True)
    assert {**rehearsed, "id": 1, "booked": True} == booked
    assert [one["title"] for one in booked["put_off"]] == ["Oil the door"]


def test_while_somebody_stays_nothing_moves(held: Hand) -> None:
    held("people", "add", "Bo")
    assert "Bo stays: nothing moves by itself." in held("away", "add", "Ada", *WEEK).err


def test_absences_are_listed_corrected_and_removed(held: Hand) -> None:
    held("people", "add", "Bo")
    assert held("away", "add", "Ada", *WEEK, "--stand-in", "bo", "--note", "by train").err.startswith(
        "Ada is away from 2026-10-20 to 2026-10-26; Bo stands in."
    )
    assert held("away", "list").lines == [
        "who from to stands in note",
        "1 Ada 2026-10-20 2026-10-26 Bo by train",
    ]
    early = held("away", "edit", "1", "--to", "2026-10-21", "--note", "-", "--stand-in", "-", "--json").data
    assert (early["to"], early["note"], early["stand_in"], early["put_off"]) == ("2026-10-21", None, None, [])
    assert held("away", "edit", "1", "--who", "Bo", "--from", "2026-10-21", "--json").data["person"] == "Bo"
    assert held("away", "edit", "1", "--to", "2026-10-30", "--dry-run", "--json").data["to"] == "2026-10-30"
    assert held("away", "list", "--json").data["absences"] == [
        {"id": 1, "person": "Bo", "from": "2026-10-21", "to": "2026-10-21", "stand_in": None, "note": None}
    ]
    assert held("away", "remove", "1").err == "Bo is not away. farmops undo brings it back.\n"
    assert held("away", "list", "--json").data["absences"] == []
    held("undo")
    assert len(held("away", "list", "--json").data["absences"]) == 1


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "Adda", *WEEK], "Did you mean ADA?"),
        (["add", "Ada", *WEEK, "--stand-in", "Cy"], "There is no person Cy"),
        (["add", "Ada", "--from", "2026-10-20", "--to", "2026-10-19"], "lies before the first"),
        (["add", "Ada", "--from", "someday", "--to", "2026-10-19"], "is no day"),
        (["add", "Ada", *WEEK, "--stand-in", "Ada", "--dry-run"], "nobody stands in for themselves"),
        (["edit", "1", "--note", "x"], "There is no absence 1. See: farmops away list"),
        (["remove", "1"], "There is no absence 1"),
    ],
)
def test_what_cannot_be_is_refused_in_words(held: Hand, words: list[str], said: str) -> None:
    assert said in held.refused("away", *words)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    assert bare("away", "list").err.startswith("Nobody is away. Going away: farmops away add")


def test_a_care_sheet_is_written_or_printed(held: Hand, tmp_path: Path) -> None:
    held("people", "add", "Bo")
    held("away", "add", "Ada", *WEEK, "--stand-in", "Bo")
    text = held("away", "sheet", "--text").out
    assert text.startswith(
        "CARE SHEET, HOLLOW LANE\nTuesday 20 October to Monday 26 October 2026\nFor Bo, while Ada is away\n"
    )
    said = held("away", "sheet", "--out", str(tmp_path / "care.pdf"), "--paper", "a4")
    assert said.out == ""
    assert said.err.startswith("Care sheet, Hollow Lane, Tuesday 20 October to Monday 26 October 2026: 1 page (a4) in ")
    assert "Missing on it: nobody to call: farmops people contacts add" in said.err
    assert (tmp_path / "care.pdf").read_bytes().startswith(b"%PDF")
    written = held("away", "sheet", "--out", str(tmp_path / "care.txt"), "--text", "--on", "2026-10-20", "--json").data
    assert (written["file"], written["pages"], written["text"]) == (str(tmp_path / "care.txt"), None, None)
    assert any(words.startswith("where the breaker of WREN is") for words in written["lacking"])
    shown = held("away", "sheet", "--text", "--from", "2026-10-20", "--to", "2026-10-21", "--json").data
    assert "Tuesday 20 October to Wednesday 21 October 2026" in shown["text"]


@pytest.mark.parametrize(
    ("words", "said", "code"),
    [
        ([], "Say where to: --out FILE for a PDF, or --text", 2),
        (["--text", "--on", "today", "--from", "today"], "Say --on for one day", 2),
        (["--text", "--to", "+3"], "Say the first day too", 2),
        (["--text", "--from", "+3", "--to", "today"], "before it begins", 1),
        (["--text", "--from", "today", "--to", "+40"], "at most 31 days", 1),
        (["--out", "/nowhere/care.pdf"], "There is no folder", 1),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_in_words(held: Hand, words: list[str], said: str, code: int) -> None:
    assert said in held.refused("away", "sheet", *words, code=code)
