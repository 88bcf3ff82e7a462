"""`farmops people contacts`: whom to call, and for what."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

REED = {"id": 1, "name": "Dr Reed", "for": "vet", "phone": "555 0100", "note": None}


@pytest.fixture
def known(farm: Hand) -> Hand:
    """A farm that knows a vet."""
    farm("people", "contacts", "add", "Dr Reed", "555 0100", "--for", "vet")
    return farm


def test_somebody_to_call_is_written_down_and_listed(known: Hand) -> None:
    said = known("people", "contacts", "add", "Old Lane Wiring", "+1 (555) 010-0199", "--for", "electrician")
    assert said.err == "Old Lane Wiring, +1 (555) 010-0199, for electrician: written down.\n"
    assert known("people", "contacts", "list").lines == [
        "for name phone note",
        "1 vet Dr Reed 555 0100",
        "2 electrician Old Lane Wiring +1 (555) 010-0199",
    ]
    assert known("people", "contacts", "list", "--json").data["contacts"][0] == REED


def test_a_contact_is_corrected_and_a_dash_clears_its_note(known: Hand) -> None:
    more = ["--note", "fish too", "--phone", "555 0199", "--name", "Dr Moss", "--for", "fish vet"]
    changed = known("people", "contacts", "edit", "1", *more, "--json").data
    assert changed == {
        "schema": 1,
        "id": 1,
        "name": "Dr Moss",
        "for": "fish vet",
        "phone": "555 0199",
        "note": "fish too",
    }
    known("people", "contacts", "edit", "1", "--note", "-")
    assert known("people", "contacts", "list", "--json").data["contacts"][0]["note"] is None


def test_a_contact_removed_comes_back(known: Hand) -> None:
    known("people", "contacts", "remove", "1")
    assert "Nobody to call yet" in known("people", "contacts", "list").err
    known("undo")
    assert known("people", "contacts", "list", "--json").data["contacts"] == [REED]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "Dr Reed", "12", "--for", "vet"], "is no phone number"),
        (["add", "Dr Reed", "call me", "--for", "vet"], "is no phone number"),
        (["add", "Dr Reed", "555*0100", "--for", "vet"], "is no phone number"),
        (["add", "Dr Reed", "5" * 41, "--for", "vet"], "at most 40"),
        (["add", " ", "555 0100", "--for", "vet"], "The name is empty"),
        (["add", "Dr Reed", "555 0100", "--for", " "], "what they are called for is empty"),
        (["edit", "1"], "Nothing to change"),
        (["edit", "1", "--phone", "none"], "is no phone number"),
        (["edit", "7", "--phone", "555 0100"], "There is no contact 7. See: farmops people contacts list"),
        (["remove", "7"], "There is no contact 7"),
    ],
)
def test_what_cannot_be_is_refused_in_words(known: Hand, words: list[str], said: str) -> None:
    assert said in known.refused("people", "contacts", *words)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("people", "contacts", "list")
    assert said.out == ""
    assert said.err.startswith("Nobody to call yet. Write somebody down: farmops people contacts add")
