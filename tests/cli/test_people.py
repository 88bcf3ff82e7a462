"""`farmops people`: who works here."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


def test_people_are_added_and_listed_by_name(farm: Hand) -> None:
    assert farm("people", "add", "Bo", "--note", "weekends").err == "Bo added.\n"
    assert farm("people", "list").lines == ["name note", "Ada mornings", "Bo weekends"]
    assert farm("people", "list", "--json").data["people"] == [
        {"id": 1, "name": "Ada", "note": "mornings"},
        {"id": 2, "name": "Bo", "note": "weekends"},
    ]


def test_one_person_is_shown(farm: Hand) -> None:
    assert farm("people", "show", "ada").lines == ["Ada", "mornings"]
    assert farm("people", "show", "Ada", "--json").data == {"schema": 1, "id": 1, "name": "Ada", "note": "mornings"}


def test_name_and_note_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm("people", "edit", "Ada", "--name", "Ada May", "--note", "evenings", "--json").data
    assert changed == {"schema": 1, "id": 1, "name": "Ada May", "note": "evenings"}
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
