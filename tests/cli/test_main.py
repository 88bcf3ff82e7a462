"""The roof: exit codes, output for people and for programs, and which store a command works on."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import click
import pytest

import farmops
from farmops.cli.app import COMMANDS, cli, login_name
from farmops.cli.entries import CountOrNothing, emptied, numbered
from farmops.cli.lazy import LazyGroup
from farmops.cli.output import table
from farmops.main import run
from farmops.model.errors import NotFound
from farmops.model.text import width
from tests.cli.hand import Hand

NO_TEXT = "caf\udce9"


def test_the_version(nowhere: Hand) -> None:
    assert nowhere("--version").out == f"farmops, version {farmops.__version__}\n"


def test_help_lists_every_command_in_the_order_of_the_table(nowhere: Hand) -> None:
    out = nowhere("--help").out
    places = [out.index(f"\n  {name} ") for name in COMMANDS]
    assert places == sorted(places)


def test_completion_names_commands_without_importing_them() -> None:
    assert isinstance(cli, LazyGroup)
    found = cli.shell_complete(click.Context(cli), "har")
    assert [one.value for one in found] == ["harvest", "harvests"]


@pytest.mark.parametrize(
    "words", [["nosuch"], ["units", "nosuch"], ["--nosuch"], ["units", "list", "--nosuch"], ["units", "show"]]
)
def test_wrong_usage_ends_on_2_with_words_on_stderr(bare: Hand, words: list[str]) -> None:
    assert "farmops" in bare.refused(*words, code=2)


@pytest.mark.parametrize(("words", "meant"), [(["harvset"], "harvest"), (["chores", "don"], "done")])
def test_a_slip_in_a_command_names_what_was_meant(bare: Hand, words: list[str], meant: str) -> None:
    said = bare.refused(*words, code=2)
    assert f"No such command '{words[-1]}'. Did you mean {meant}" in said


def test_words_for_a_number_are_told_in_words(farm: Hand) -> None:
    assert "'sixty' is not a valid whole number" in farm.refused("costs", "edit", "sixty", code=2)


def test_a_damaged_store_ends_on_3(nowhere: Hand) -> None:
    nowhere.place.write_bytes(b"this is no store at all" * 100)
    said = nowhere.types("units", "list")
    assert (said.code, said.out) == (3, "")
    assert "is not a farm's store" in said.err


def test_a_place_that_cannot_be_made_ends_on_3(nowhere: Hand) -> None:
    nowhere.place.write_text("", encoding="utf-8")
    nowhere.place = nowhere.place / "farm.db"
    said = nowhere.types("farm", "open", "Alm", "--zone", "Europe/Lisbon")
    assert said.code == 3
    assert "cannot be made" in said.err


def test_the_store_can_be_named_by_the_environment(
    farm: Hand, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FARMOPS_FARM", str(farm.place))
    assert run(["people", "list"]) == 0
    assert "Ada" in capsys.readouterr().out


def test_who_does_it_can_be_named_by_the_environment(farm: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FARMOPS_BY", "Cy")
    assert run(["--farm", str(farm.place), "people", "add", "Bo"]) == 0
    assert farm("journal", "--most", "1", "--json").data["journal"][0]["by"] == "Cy"


def test_somebody_without_a_login_name_can_still_book(monkeypatch: pytest.MonkeyPatch) -> None:
    def nobody() -> str:
        raise KeyError("uid")

    monkeypatch.setattr("getpass.getuser", nobody)
    assert login_name() == "somebody"


def test_the_same_operation_sent_twice_is_carried_out_once(farm: Hand) -> None:
    words = ["--operation", "01a211c6-0000-7000-8000-000000000001", "costs", "add", "rope", "5", "--json"]
    first, again = farm(*words).data, farm(*words).data
    assert first == again
    assert [one["what"] for one in farm("costs", "list", "--json").data["costs"]].count("rope") == 1


def test_an_interrupt_ends_on_130(farm: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("farmops.reports.lists.people", interrupted)
    said = farm.types("people", "list")
    assert (said.code, said.err.strip()) == (130, "Stopped. Nothing more was changed.")


def test_a_fault_of_the_program_is_told_in_words(farm: Hand, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def faulty(*_: object) -> None:
        raise ZeroDivisionError("KALE 1 6")

    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr("farmops.reports.lists.people", faulty)
    said = farm.types("people", "list")
    assert said.code == 1
    assert "Traceback" not in said.err
    assert "has a fault (ZeroDivisionError)" in said.err
    (report,) = tmp_path.glob("farmops-fault-*.txt")
    assert "KALE" not in report.read_text(encoding="utf-8")


def test_a_reader_that_stops_reading_is_no_refusal(farm: Hand) -> None:
    nobody_reads, end = os.pipe()
    os.close(nobody_reads)
    with os.fdopen(end, "wb") as stdout:
        done = subprocess.run(
            [sys.executable, "-m", "farmops", "--farm", str(farm.place), "journal"],
            stdout=stdout,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.parametrize(
    "words",
    [
        ["units", "show", NO_TEXT],
        ["crops", "remove", NO_TEXT],
        ["fish", "add", "P2", "perch", NO_TEXT, "5", "10 g"],
        ["harvest", "WREN-N", NO_TEXT, "1 6"],
        ["people", "add", NO_TEXT],
        ["--by", NO_TEXT, "people", "add", "Bo"],
    ],
)
def test_bytes_that_are_no_text_are_refused(farm: Hand, words: list[str]) -> None:
    assert "UTF-8" in farm.refused(*words, code=2)


def test_typed_signs_are_never_obeyed_by_the_terminal(farm: Hand) -> None:
    assert "\\x1b[31m" in farm.refused("undo", "\x1b[31m")


def test_tables_line_up_whatever_the_letters(capsys: pytest.CaptureFixture[str]) -> None:
    table(["name", "no."], [["ひまわり", "1"], ["cafe\u0301", "22"]], right=[1])
    assert capsys.readouterr().out == "name      no.\nひまわり    1\ncafe\u0301       22\n"
    assert (width("ひまわり"), width("cafe\u0301")) == (8, 4)


def test_stored_signs_are_never_obeyed_by_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    table(["name"], [["\x1b[2Jx\u202e"]])
    assert capsys.readouterr().out == "name\n\\x1b[2Jx\\u202e\n"


def test_a_dash_empties_only_the_fields_that_can_be_empty() -> None:
    assert emptied({"name": "-", "note": "-", "plants": 3}, "note", "plants") == {
        "name": "-",
        "note": None,
        "plants": 3,
    }


def test_a_count_or_nothing() -> None:
    kind = CountOrNothing()
    assert (kind.convert("-", None, None), kind.convert("12", None, None)) == ("-", 12)
    for wrong in ("0", "1.5", "", "--"):
        with pytest.raises(click.BadParameter):
            kind.convert(wrong, None, None)


def test_a_number_that_no_record_has_names_the_list() -> None:
    with pytest.raises(NotFound, match=r"There is no cost 7\. See: farmops costs list"):
        numbered([], 7, "cost", "farmops costs list")


def test_an_answer_that_fits_nowhere_is_told_in_words() -> None:
    command = [sys.executable, "-m", "farmops", "calc", "ammonia", "--tan", "1", "--ph", "8", "--temp", "24C"]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.startswith("Not all of it could be written: No space left on device.")
    assert "fault" not in done.stderr
