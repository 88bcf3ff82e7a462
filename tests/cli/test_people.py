"""`farmops people`: who works here."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from tests.cli.hand import TODAY, Hand


def test_people_are_added_and_listed_by_name(farm: Hand) -> None:
    assert farm("people", "add", "Bo", "--note", "weekends").err == "Bo added.\n"
    assert farm("people", "list").lines == ["name note", "Ada mornings", "Bo weekends"]
    assert farm("people", "list", "--json").data["people"] == [
        {"id": 1, "name": "Ada", "minor": False, "note": "mornings"},
        {"id": 2, "name": "Bo", "minor": False, "note": "weekends"},
    ]


def test_one_person_is_shown(farm: Hand) -> None:
    assert farm("people", "show", "ada").lines == ["Ada", "mornings"]
    assert farm("people", "show", "Ada", "--json").data["note"] == "mornings"


def test_name_and_note_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm("people", "edit", "Ada", "--name", "Ada May", "--note", "evenings", "--json").data
    assert changed == {"schema": 1, "id": 1, "name": "Ada May", "minor": False, "note": "evenings"}
    assert farm("people", "edit", "ada may", "--note", "-").err == "Ada May changed.\n"
    assert farm("people", "show", "Ada May").lines == ["Ada May"]


def test_somebody_removed_comes_back(farm: Hand) -> None:
    farm("people", "remove", "ada")
    assert "Nobody is listed yet" in farm("people", "list").err
    farm("undo")
    assert farm("people", "list").lines == ["name note", "Ada mornings"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", " "], "empty"),
        (["add", "ADA"], "already somebody called Ada"),
        (["add", "x" * 61], "at most 60"),
        (["add", "Bo\x1b[2J"], "cannot be printed"),
        (["add", "Bo", "--note", "x" * 1001], "at most 1000"),
        (["edit", "Ada"], "Nothing to change"),
        (["edit", "Ada", "--name", ""], "empty"),
        (["edit", "Adda", "--note", "x"], "Did you mean ADA?"),
        (["show", "Adda"], "Did you mean ADA?"),
        (["remove", "Adda"], "Did you mean ADA?"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("people", *words)


def test_a_name_that_another_has_is_refused(farm: Hand) -> None:
    farm("people", "add", "Bo")
    assert "already somebody called Ada" in farm.refused("people", "edit", "Bo", "--name", "ada")


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("people", "list")
    assert (said.out, said.err) == ("", "Nobody is listed yet. Add somebody: farmops people add Ada\n")


def test_a_minor_is_said_to_be_one_until_of_age(farm: Hand) -> None:
    farm("people", "add", "Bo", "--minor")
    assert farm("people", "list").lines == ["name note", "Ada mornings", "Bo minor"]
    assert farm("people", "show", "Bo").lines == ["Bo, minor"]
    assert farm("people", "edit", "Bo", "--adult", "--json").data["minor"] is False


def test_who_is_here_is_said_for_a_day_and_taken_back(farm: Hand) -> None:
    farm("people", "add", "Bo", "--minor")
    farm("people", "add", "Cy")
    said = farm("people", "here")
    assert said.lines == ["name here", "Ada here", "Bo here, a minor", "Cy here"]
    assert "nothing else was said" in said.err
    told = farm("people", "here", "cy", "Bo", "--on", TODAY)
    assert told.lines == ["name here", "Ada not here", "Bo here, a minor", "Cy here"]
    assert "as was said" in told.err
    found = farm("people", "here", "--on", TODAY, "--json").data
    assert (found["on"], found["said"]) == (TODAY, True)
    assert [(one["name"], one["here"]) for one in found["people"]] == [("Ada", False), ("Bo", True), ("Cy", True)]
    assert all(one["here"] for one in farm("people", "here", "--on", "2026-10-15", "--json").data["people"])
    assert farm("people", "here", "--as-planned", "--json").data["said"] is False


def test_who_is_away_is_not_here_and_somebody_stands_in(farm: Hand) -> None:
    farm("people", "add", "Bo")
    with closing(sqlite3.connect(farm.place)) as connection:
        connection.execute(
            "INSERT INTO absence (operation, person_id, from_day, until_day, stand_in_id)"
            " VALUES ('x', 1, '2026-10-12', '2026-10-16', 2)"
        )
        connection.commit()
    assert farm("people", "here").lines[1:] == ["Ada away until 2026-10-16, Bo stands in", "Bo here"]
    (ada, _) = farm("people", "here", "--json").data["people"]
    assert (ada["here"], ada["away_until"], ada["stand_in"]) == (False, "2026-10-16", "Bo")


def test_who_is_here_is_refused_for_strangers_and_for_two_things_at_once(farm: Hand) -> None:
    assert "There is no person Dee" in farm.refused("people", "here", "Ada", "Dee")
    assert "Either name who is here" in farm.refused("people", "here", "Ada", "--as-planned", code=2)


def test_with_nobody_listed_who_is_here_says_what_to_do_first(bare: Hand) -> None:
    assert bare.refused("people", "here") == "Nobody is listed yet. Add somebody: farmops people add Ada\n"
