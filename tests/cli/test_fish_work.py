"""`farmops fish weigh|fed|move|split|book|correct|cross-out`: what happens to a lot, and putting it right."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def lived(farm: Hand) -> Hand:
    """Hollow Lane, where the perch P1 were weighed twice, fed, lost one and gave some to P2."""
    farm("fish", "weigh", "P1", "41 g", "48 g", "55 g", "--on", "2026-07-01")
    farm("fish", "weigh", "P1", "480 g", "--count", "6", "--on", "2026-09-01", "--note", "calm")
    farm("fish", "fed", "P1", "38 g", "--ate", "some", "--on", "2026-09-02")
    farm("fish", "died", "P1", "--on", "2026-09-03")
    farm("fish", "split", "P1", "6", "P2", "SWIFT", "--mean", "60 g", "--on", "2026-09-04")
    return farm


def test_the_book_of_a_lot_tells_what_happened_to_it(lived: Hand) -> None:
    assert lived("fish", "book", "p1").lines == [
        "day entry no. what note",
        "2026-07-01 sample 1 3 weighed one by one, 1.7 oz each",
        "2026-09-01 sample 2 6 weighed together, 2.8 oz each calm",
        "2026-09-02 feeding 1 fed 1.3 oz, ate some",
        "2026-09-03 loss 1 1 lost, unknown",
        "2026-09-04 transfer 1 6 moved to P2, 2.1 oz each",
    ]
    assert lived("fish", "book", "P2").lines[1:] == ["2026-09-04 transfer 1 6 moved from P1, 2.1 oz each"]


def test_an_empty_book_says_how_to_begin(farm: Hand) -> None:
    said = farm("fish", "book", "P1")
    assert (said.out, "farmops fish weigh P1" in said.err) == ("", True)


def test_fish_move_as_a_lot_or_some_of_them_to_another(lived: Hand) -> None:
    assert lived("fish", "move", "P1", "P2", "--count", "4", "--json").data["number"] == 4
    lived("fish", "move", "P2", "WREN")
    lots = lived("fish", "list", "--json").data["lots"]
    assert {one["lot"]: (one["unit"], one["number"]) for one in lots} == {"P1": ("WREN", 60), "P2": ("WREN", 0)}


def test_fish_that_leave_their_feed_call_for_a_look_at_the_water(farm: Hand) -> None:
    assert "oxygen, temperature, ammonia and nitrite" in farm("fish", "fed", "P1", "1 oz", "--ate", "none").err


@pytest.mark.parametrize(
    ("words", "changed"),
    [
        (["sample", "1", "--each", "40 g", "--each", "50 g"], {"number": 2, "each_g": [40.0, 50.0], "mass_g": 90.0}),
        (["sample", "2", "--count", "5", "--note", "-"], {"number": 5, "mass_g": 480.0, "note": None}),
        (["feeding", "1", "--weight", "30 g", "--ate", "all"], {"mass_g": 30.0, "ate": "all"}),
        (["loss", "1", "--cause", "jumped-out", "--weight", "50 g"], {"cause": "jumped out", "mass_g": 50.0}),
        (["transfer", "1", "--count", "7", "--mean", "-"], {"number": 7, "mean_mass_g": None}),
    ],
)
def test_every_kind_of_entry_can_be_corrected(lived: Hand, words: list[str], changed: dict[str, object]) -> None:
    said = lived("fish", "correct", *words, "--json").data
    assert {key: said[key] for key in changed} == changed


def test_what_is_crossed_out_comes_back(lived: Hand) -> None:
    before = lived("fish", "book", "P1").out
    for kind in ("sample", "feeding", "loss"):
        lived("fish", "cross-out", kind, "1")
    assert len(lived("fish", "book", "P1").lines) == 3
    for _ in range(3):
        lived("undo")
    assert lived("fish", "book", "P1").out == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["weigh", "P1", "1 oz", "2 oz", "--count", "2"], "as one weight"),
        (["weigh", "P1", "9 lb", "--count", "61"], "61 fish weighed, but P1 held 60"),
        (["weigh", "P1", "1 oz", "--on", "2026-05-01"], "was stocked on 2026-05-02"),
        (["fed", "P9", "1 oz"], "Did you mean P1?"),
        (["move", "P1", "WREN"], "lives in WREN already"),
        (["move", "P1", "P1", "--count", "3"], "in P1 already"),
        (["move", "P1", "SWIFT", "--note", "big"], "go with --count"),
        (["split", "P1", "61", "P2", "SWIFT"], "more than the 60 there were"),
        (["correct", "loss", "1", "--ate", "all"], "There is no loss 1"),
        (["cross-out", "feeding", "4"], "There is no feeding 4"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("fish", *words)


def test_an_entry_has_only_what_belongs_to_its_kind(lived: Hand) -> None:
    assert "a feeding has nothing like --count, --cause" in lived.refused(
        "fish", "correct", "feeding", "1", "--count", "3", "--cause", "oxygen"
    )
    assert "one by one" in lived.refused("fish", "correct", "sample", "1", "--count", "2")
