"""`farmops chores`: the round on paper, folded, for one person, and the check on life support."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.hand import TODAY, Hand

FEEDING = ("--every", "day", "--from", TODAY, "--class", "fish-care", "--part", "morning", "--minutes", "2")


@pytest.fixture
def row(bare: Hand) -> Hand:
    """Three units without templates; in each the fish are fed."""
    for code in ("WREN", "ROOK", "TEAL"):
        bare("units", "add", code, "--state", "running", "--on", "2026-03-01", "--no-chores")
        bare("chores", "add", "Feed", "--unit", code, *FEEDING)
    return bare


def late_intake(hand: Hand, *more: str, first: str = "2026-10-12") -> None:
    hand("chores", "add", "Clear the intake", "--every", "day", "--from", first, "--class", "life-support", *more)


def test_the_same_work_in_three_units_is_one_line_with_the_number_of_each(row: Hand) -> None:
    assert row("chores").lines == [
        "Hollow Lane, Wednesday 14 October 2026: 3 to do, 6 min",
        "Morning",
        "3 units Feed: WREN 1, ROOK 2, TEAL 3 fish care 6 min",
    ]


def test_all_of_a_line_are_done_and_taken_back_as_one(row: Hand) -> None:
    row("chores", "done", "1", "2", "3")
    assert "nothing to do" in row("chores").out
    row("undo")
    assert row("chores", "--json").data["to_do"] == 3


def test_two_units_and_one_unit_are_told_line_by_line(row: Hand) -> None:
    row("chores", "done", "2")
    assert row("chores").lines[2:4] == ["1 WREN Feed fish care 2 min", "3 TEAL Feed fish care 2 min"]
    assert row("chores", "--unit", "WREN").lines[2] == "1 WREN Feed fish care 2 min"


def test_json_and_rows_list_each_chore_and_json_names_the_group(row: Hand) -> None:
    row("chores", "add", "Sweep", "--every", "day", "--from", TODAY)
    chores = row("chores", "--json").data["chores"]
    assert [(one["id"], one["group"]) for one in chores] == [(1, "Feed"), (2, "Feed"), (3, "Feed"), (4, None)]
    assert [line.split()[0] for line in row("chores", "--plain").lines] == ["1", "2", "3", "4"]


def test_on_a_narrow_terminal_the_line_goes_on_below(row: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "46")
    told = row("chores").out.splitlines()
    assert all(len(one) <= 46 for one in told[1:])
    assert " ".join(" ".join(told).split()).endswith("3 units 6 min Feed: WREN 1, ROOK 2, TEAL 3, fish care")


def test_ones_own_round_leaves_out_what_is_somebody_elses(row: Hand) -> None:
    for name in ("Ada", "Cy"):
        row("people", "add", name)
    row("chores", "edit", "1", "--person", "Ada")
    assert row("chores", "--for", "cy").lines[0] == "Hollow Lane, Wednesday 14 October 2026, for Cy: 2 to do, 4 min"
    assert row("chores", "--for", "Ada").lines[2] == "1 WREN Feed (Ada) fish care 2 min"
    found = row("chores", "--for", "Ada", "--json").data
    assert (found["for"], found["here"], found["to_do"]) == ("Ada", ["Ada", "Cy"], 3)
    assert next((one["person"], one["who"], one["instead_of"]) for one in found["chores"]) == ("Ada", "Ada", None)
    assert "By Ada as a rule" in row("chores", "show", "1").lines
    row("chores", "edit", "1", "--anyone")
    assert row("chores", "--for", "Cy", "--json").data["to_do"] == 3


def test_a_chore_of_ones_own_is_given_to_somebody_at_once(row: Hand) -> None:
    row("people", "add", "Bo", "--minor")
    found = row("chores", "add", "Sweep", "--every", "day", "--person", "bo", "--json").data
    assert found["person"] == "Bo"
    assert "is for adults only, and Bo is a minor" in row.refused("chores", "edit", str(found["id"]), "--adults-only")
    assert "Either --person NAME or --anyone" in row.refused(
        "chores", "edit", "1", "--person", "Bo", "--anyone", code=2
    )


def test_chores_of_somebody_not_here_go_to_whoever_is(row: Hand) -> None:
    for name in ("Ada", "Cy"):
        row("people", "add", name)
    row("chores", "edit", "1", "--person", "Ada")
    row("people", "here", "Cy")
    told = row("chores")
    assert told.lines[1] == "Here: Cy"
    assert "1 WREN Feed (Cy for Ada) fish care 2 min" in told.lines
    first: dict[str, Any] = row("chores", "--json").data["chores"][0]
    assert (first["who"], first["instead_of"]) == ("Cy", "Ada")
    not_here = row("chores", "--for", "Ada")
    assert not_here.lines == ["Hollow Lane, Wednesday 14 October 2026, for Ada: nothing to do."]
    assert not_here.err == "Ada is not here that day. Say who is: farmops people here NAME...\n"
    assert "There is no person Eve" in row.refused("chores", "--for", "Eve")


def test_a_minor_alone_is_told_what_waits_for_an_adult(row: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    row("people", "add", "Bo", "--minor")
    late_intake(row, "--adults-only", "--unit", "TEAL")
    monkeypatch.setenv("COLUMNS", "120")
    told = row("chores", "--for", "Bo").lines
    at = told.index("Waits for an adult")
    assert told[at + 1] == (
        "4 TEAL Clear the intake (adults only, waits for an adult) life support 5 min 2 days late, 1 missed"
    )
    (waits,) = [one for one in row("chores", "--json").data["chores"] if one["waits_for_adult"]]
    assert waits["title"] == "Clear the intake"


def test_the_check_is_silent_while_no_life_support_is_overdue(row: Hand) -> None:
    late_intake(row, first=TODAY)
    row("chores", "add", "Oil the door", "--every", "day", "--from", "2026-10-01")
    said = row("chores", "--check")
    assert (said.code, said.out, said.err) == (0, "", "")
    assert row("chores", "--check", "--json").data == {
        "schema": 1,
        "farm": "Hollow Lane",
        "on": TODAY,
        "overdue": 0,
        "chores": [],
    }


def test_the_check_ends_on_4_and_says_which_life_support_is_overdue(row: Hand) -> None:
    late_intake(row, "--unit", "TEAL")
    said = row.types("chores", "--check")
    assert said.code == 4
    assert said.err == (
        "Hollow Lane, 2026-10-14: 1 chore of life support is overdue. "
        "Clear the intake in TEAL, 2 days late, 1 missed.\n"
    )
    assert said.lines == [
        "Life support, overdue",
        "4 TEAL Clear the intake life support 5 min 2 days late, 1 missed",
    ]
    assert [line.split("\t")[0] for line in row.types("chores", "--check", "--plain").out.splitlines()] == ["4"]
    as_json = row.types("chores", "--check", "--json")
    assert (as_json.code, as_json.data["overdue"], as_json.data["chores"][0]["id"]) == (4, 1, 4)


def test_the_check_goes_by_day_and_unit(row: Hand) -> None:
    late_intake(row, "--unit", "TEAL")
    assert row.types("chores", "--check", "--on", "2026-10-12").code == 0
    assert row.types("chores", "--check", "--unit", "WREN").code == 0
    assert row.types("chores", "--check", "--unit", "TEAL").code == 4
