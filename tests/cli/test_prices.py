"""`farmops prices`: what a crop, or fish of a species, is worth from a day on."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.cli.hand import Hand

CHARD = {
    "id": 1,
    "what": "CHARD",
    "kind": "crop",
    "from": "2026-01-01",
    "price_cents": 35000,
    "per_g": 45359.237,
    "currency": "USD",
    "typed": "3.50/lb",
}


def test_a_crop_has_a_price_from_a_day_on(farm: Hand) -> None:
    said = farm("prices", "add", "sea kale", "5", "--on", "2026-09-01")
    assert said.err == "SEA KALE is worth $5.00 per lb from 2026-09-01; number 2.\n"
    assert farm("prices", "list").lines == [
        "no. what from price",
        "1 CHARD 2026-01-01 $3.50 per lb",
        "2 SEA KALE 2026-09-01 $5.00 per lb",
    ]


@pytest.mark.parametrize("typed", ["yellow perch", "Yellow-Perch", "Perca flavescens", "  YELLOW  PERCH "])
def test_fish_of_a_lot_have_a_price_by_their_species(farm: Hand, typed: str) -> None:
    booked = farm("prices", "add", typed, "2 / 100 g", "--json").data
    assert booked == {
        "schema": 1,
        "id": 2,
        "what": "yellow perch",
        "kind": "fish",
        "from": "2026-10-14",
        "price_cents": 200,
        "per_g": 100.0,
        "currency": "USD",
        "typed": "2 / 100 g",
    }


def test_a_crop_goes_before_a_species_of_the_same_name(farm: Hand) -> None:
    farm("crops", "add", "Yellow Perch")
    assert farm("prices", "add", "yellow perch", "6", "--json").data["kind"] == "crop"


def test_a_price_per_pound_is_kept_exactly(farm: Hand) -> None:
    (one,) = farm("prices", "list", "--json").data["prices"]
    assert one == CHARD
    assert Fraction(one["price_cents"]) / Fraction(str(one["per_g"])) == Fraction(350) / Fraction("453.59237")


def test_the_same_day_again_corrects_the_price(farm: Hand) -> None:
    farm("prices", "add", "CHARD", "4/lb", "--on", "2026-01-01")
    farm("prices", "add", "CHARD", "4.25/lb", "--on", "2026-06-01")
    assert farm("prices", "list").lines[1:] == [
        "1 CHARD 2026-01-01 $4.00 per lb",
        "2 CHARD 2026-06-01 $4.25 per lb",
    ]


def test_a_removed_price_comes_back(farm: Hand) -> None:
    assert "CHARD from 2026-01-01 removed" in farm("prices", "remove", "1").err
    assert farm("prices", "list").out == ""
    farm("undo")
    assert farm("prices", "list", "--json").data["prices"] == [CHARD]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "CHERD", "3"], "Did you mean CHARD?"),
        (["add", "perch", "3"], "Did you mean YELLOW PERCH?"),
        (["add", "rainbow trout", "3"], "no fish lot of that species"),
        (["add", "", "3"], "There is no crop"),
        (["add", "CHARD", "cheap"], "cheap"),
        (["add", "CHARD", "0"], "comes to nothing"),
        (["add", "CHARD", "3/"], "needs a sum and a weight"),
        (["add", "CHARD", "3/gal"], "gal"),
        (["add", "CHARD", "1000000000 / 1.23456789012345 g"], "more digits than a price can keep"),
        (["add", "CHARD", "3", "--on", "soon"], "is no day"),
        (["add", "CHARD", "3", "--on", "2099-01-01"], "more than a year ahead"),
        (["remove", "9"], "There is no price 9. See: farmops prices list"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("prices", *words)


@pytest.mark.parametrize("words", [["add", "CHARD"], ["remove", "CHARD"], ["remove", "0"]])
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("prices", *words, code=2)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("prices", "list")
    assert said.out == ""
    assert "farmops crops add" in said.err
    assert bare("prices", "list", "--json").data == {"schema": 1, "currency": "USD", "prices": []}


def test_a_price_and_its_first_day_are_corrected(farm: Hand) -> None:
    said = farm("prices", "edit", "1", "--price", "3.75", "--on", "2026-06-01")
    assert said.err == "Changed: CHARD is worth $3.75 per lb from 2026-06-01; number 1.\n"
    farm("prices", "add", "CHARD", "4", "--on", "2026-09-01")
    words = farm.refused("prices", "edit", "1", "--on", "2026-09-01")
    assert "CHARD has a price from 2026-09-01 already, number 2" in words
    assert farm("prices", "edit", "1", "--on", "2026-05-01", "--json").data["typed"] == "3.75"
    assert "There is no price 9. See: farmops prices list" in farm.refused("prices", "edit", "9", "--price", "4")
    assert "Nothing to change" in farm.refused("prices", "edit", "1")
