"""`farmops farm`: opening the farm and its settings."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

US_MEASURES = {
    "mass": "lb_oz",
    "volume": "gal",
    "area": "sq_ft",
    "length": "ft",
    "temperature": "F",
    "currency": "USD",
    "decimal_comma": False,
}


def test_a_farm_is_opened_and_told_what_comes_next(nowhere: Hand) -> None:
    said = nowhere("farm", "open", "Hollow Lane", "--zone", "America/New_York")
    assert said.err.splitlines() == [
        f"Hollow Lane is open, kept in {nowhere.place}.",
        "Next, the first unit: farmops units add WREN --state building",
    ]


def test_settings_in_json(nowhere: Hand) -> None:
    opened = nowhere("farm", "open", "Hollow Lane", "--zone", "America/New_York", "--json").data
    assert (opened["farm"], opened["time_zone"], opened["opened"]) == (
        "Hollow Lane",
        "America/New_York",
        "2026-10-14",
    )
    assert opened["measures"] == US_MEASURES
    assert nowhere("farm", "show", "--json").data == opened


def test_every_measure_can_be_chosen(nowhere: Hand) -> None:
    nowhere(
        *("farm", "open", "Alm", "--weights", "kg", "--currency", "chf", "--zone", "Europe/Zurich"),
        *("--volumes", "gal", "--areas", "sq-ft", "--lengths", "m", "--temperatures", "F", "--decimals", "comma"),
    )
    assert nowhere("farm", "show", "--json").data["measures"] == {
        "mass": "kg",
        "volume": "gal",
        "area": "sq_ft",
        "length": "m",
        "temperature": "F",
        "currency": "CHF",
        "decimal_comma": True,
    }


def test_the_farm_is_shown(bare: Hand) -> None:
    assert bare("farm", "show").lines == [
        "Hollow Lane, opened 2026-10-14, days counted in America/New_York",
        "weights lb oz, volumes gal, areas sq ft",
        "lengths ft, temperatures F, money USD",
        "decimal point",
        f"kept in {bare.place}",
    ]


def test_the_farm_can_be_edited_and_weighs_anew(farm: Hand) -> None:
    farm("farm", "edit", "--name", "Low Field", "--zone", "Europe/Lisbon", "--weights", "kg", "--areas", "m2")
    farm("farm", "edit", "--volumes", "L", "--lengths", "cm", "--temperatures", "C", "--decimals", "comma")
    shown = farm("farm", "show", "--json").data
    assert (shown["farm"], shown["time_zone"]) == ("Low Field", "Europe/Lisbon")
    assert shown["measures"] == {
        "mass": "kg",
        "volume": "L",
        "area": "m2",
        "length": "cm",
        "temperature": "C",
        "currency": "USD",
        "decimal_comma": True,
    }
    assert farm("harvests", "list").lines[1] == "1 2026-06-20 WREN-N CHARD 624 g sold WREN-N#1/260620"


def test_the_currency_stays_while_money_is_booked(farm: Hand) -> None:
    assert "3 costs and prices are booked in USD" in farm.refused("farm", "edit", "--currency", "EUR")


def test_the_currency_changes_before(bare: Hand) -> None:
    assert bare("farm", "edit", "--currency", "eur", "--json").data["measures"]["currency"] == "EUR"


def test_one_place_holds_one_farm(farm: Hand) -> None:
    assert "already holds the farm Hollow Lane" in farm.refused("farm", "open", "Second", "--zone", "Europe/Lisbon")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["edit"], "Nothing to change"),
        (["edit", "--name", ""], "empty"),
        (["edit", "--name", "x" * 61], "at most 60"),
        (["edit", "--zone", "Mars/Olympus"], "is no time zone"),
        (["edit", "--zone", "../etc/passwd"], "is no time zone"),
        (["edit", "--currency", "dollars"], "DOLLARS"),
    ],
)
def test_what_cannot_be_is_refused_in_words(bare: Hand, words: list[str], said: str) -> None:
    assert said in bare.refused("farm", *words)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["", "--zone", "Europe/Lisbon"], "empty"),
        (["\x1b[2J", "--zone", "Europe/Lisbon"], "cannot be printed"),
        (["Alm", "--zone", "Lisbon"], "is no time zone"),
        (["Alm", "--zone", ""], "is no time zone"),
        (["Alm", "--zone", "Europe/Lisbon", "--currency", "XX"], "XX"),
    ],
)
def test_a_farm_that_cannot_be_opened_is_not_there(nowhere: Hand, words: list[str], said: str) -> None:
    refused = nowhere.types("farm", "open", *words)
    assert refused.code == 1
    assert said in refused.err
    shown = nowhere.types("farm", "show")
    assert shown.code == 1
    assert "farmops farm open" in shown.err


@pytest.mark.parametrize(
    "words",
    [
        ["open", "Alm"],
        ["open", "--zone", "Europe/Lisbon"],
        ["open", "Alm", "--zone", "Europe/Lisbon", "--weights", "stone"],
        ["edit", "--areas", "acre"],
        ["edit", "--volumes", "barrel"],
        ["edit", "--lengths", "mile"],
        ["edit", "--temperatures", "K"],
        ["edit", "--decimals", "dash"],
    ],
)
def test_wrong_usage_ends_on_2(nowhere: Hand, words: list[str]) -> None:
    nowhere.refused("farm", *words, code=2)
