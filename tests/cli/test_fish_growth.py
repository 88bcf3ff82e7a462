"""`farmops fish grow`: a lot in numbers, on paper and opened."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def grown(farm: Hand) -> Hand:
    """Hollow Lane, where the perch P1 grew from half an ounce to 40 g and 80 g."""
    farm("fish", "weigh", "P1", "400 g", "--count", "10", "--on", "2026-07-01")
    farm("fish", "weigh", "P1", "70 g", "80 g", "90 g", "--on", "2026-09-09")
    farm("fish", "fed", "P1", "2 kg", "--on", "2026-08-01")
    return farm


def test_a_lot_is_told_in_the_measures_of_the_farm(grown: Hand) -> None:
    lines = grown("fish", "grow", "P1", "--to", "6 oz").lines
    assert lines[:4] == [
        "P1, yellow perch, 2026-10-14, in WREN",
        "fish alive: 60 fish",
        "weight of one: 2.8 oz",
        "standard error: 0.2 oz",
    ]
    assert "fish in the tank: 4.2 lb per 100 gal" in lines
    assert "specific growth rate: 0.99 % a day" in lines
    assert "thermal growth coefficient × 1000: no water temperature was read between the weighings" in lines
    assert lines[-1].startswith("6 oz on 2026-11-")


def test_a_number_opens_down_to_what_happened(grown: Hand) -> None:
    lines = grown("fish", "grow", "P1", "--why", "feed-conversion").lines
    assert "feeding 1: 2026-08-01 2 kg 4 lb 6.5 oz" in lines
    assert "fish lot 1: 2026-05-02 stocked 60 1 lb 14 oz" in lines


def test_a_weight_that_is_too_far_off_says_so(grown: Hand) -> None:
    goal = grown("fish", "grow", "P1", "--to", "9 lb", "--json").data["reached"]
    assert (goal["day"], "120 days" in goal["reason"]) == (None, True)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["P9"], "Did you mean P1?"),
        (["P1", "--on", "2026-05-01"], "nothing is known of it on 2026-05-01"),
        (["P1", "--to", "0"], "comes to nothing"),
        (["P1", "--to", "1 lb", "--why", "gain"], "ask for one of them"),
    ],
)
def test_what_cannot_be_told_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("fish", "grow", *words)


def test_fish_are_weighed_whole_and_dressed(grown: Hand) -> None:
    booked = grown("harvest", "WREN", "P1", "2 lb", "--count", "8", "--dressed", "1 lb 3 oz", "--sure", "--json").data
    assert (booked["mass_g"], booked["dressed_g"]) == (907.185, 538.641)
    assert "dressing yield: 59.4 %" in grown("fish", "grow", "P1").lines
    assert "weighing 2: 2026-10-14 1 lb 3 oz 1 lb 3 oz" in grown("fish", "grow", "P1", "--why", "dressing-yield").lines
    grown("harvests", "edit", "2", "--dressed", "-")
    assert grown("fish", "grow", "P1", "--json").data["dressing_yield"] is None
    assert "at most the 2 lb they weighed whole" in grown.refused("harvests", "edit", "2", "--dressed", "3 lb")
    assert "only fish have a dressed weight" in grown.refused("harvests", "edit", "1", "--dressed", "1 oz")
