"""Rations on the command line: the round says them, done books them, amounts and how they ate can be told."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def fed(farm: Hand) -> Hand:
    """Hollow Lane with forty trout of 200 g in SWIFT, which runs at 15 C."""
    farm("units", "state", "SWIFT", "running", "--on", "2026-09-01")
    farm("fish", "add", "T1", "rainbow trout", "SWIFT", "40", "200 g", "--on", "2026-09-01")
    farm("water", "add", "SWIFT", "temperature", "15 C")
    return farm


def feeding(hand: Hand) -> str:
    """The number of the chore that feeds the trout."""
    chores = hand("chores", "--unit", "SWIFT", "--json").data["chores"]
    return next(str(one["id"]) for one in chores if one["title"] == "Feed the fish")


def test_the_round_says_up_to_how_much(fed: Hand) -> None:
    lines = fed("chores", "--unit", "SWIFT").lines
    at = next(at for at, line in enumerate(lines) if "Feed the fish" in line)
    assert lines[at + 1] == "T1: up to 5.6 oz at 59.0 °F"
    told = next(one for one in fed("chores", "--json").data["chores"] if one["unit"] == "SWIFT" and one["rations"])
    assert told["rations"][0]["up_to_g"] == 160
    assert fed("fish", "rations").lines == [
        "P1: no ration, no water temperature was read in 14 days",
        "T1: up to 5.6 oz at 59.0 °F",
    ]


def test_done_books_what_is_left_of_the_ration(fed: Hand) -> None:
    fed("fish", "fed", "T1", "60 g")
    said = fed("chores", "done", feeding(fed), "--ate", "some")
    assert "T1 fed 3.5 oz, ate some" in said.err
    assert fed("fish", "rations").lines[1] == "T1: up to 5.6 oz at 59.0 °F, 5.6 oz fed already"
    assert [one["mass_g"] for one in fed("fish", "book", "T1", "--json").data["entries"]] == [60.0, 100.0]


def test_an_amount_of_ones_own_and_of_a_lot(fed: Hand) -> None:
    number = feeding(fed)
    said = fed("chores", "done", number, "--fed", "T1=50 g", "--ate", "all", "--json").data["settled"][0]
    assert [(one["lot"], one["mass_g"], one["ate"]) for one in said["fed"]] == [("T1", 50.0, "all")]
    fed("undo")
    assert "of which lot, such as T1=5 g" in fed.refused("chores", "done", number, "--fed", "P1=5 g")


def test_a_number_of_pounds_is_asked_about_once(fed: Hand) -> None:
    words = "4 lb of feed for T1 on 2026-10-14, is that right? Its ration is 5.6 oz; a number alone is in lb."
    for command in (("fish", "fed", "T1", "4"), ("chores", "done", feeding(fed), "--fed", "T1=4")):
        assert f"{words} If it is, say so: --sure" in fed.refused(*command)
        fed(*command, "--sure")
        fed("undo")


def test_done_a_second_time_on_a_day_is_asked_about_and_a_retry_has_the_first_answer(fed: Hand) -> None:
    number, operation = feeding(fed), "0192f0c1-7d3a-7c55-8a01-3b9c5d6e7f80"
    first = fed("--operation", operation, "chores", "done", number, "--fed", "T1=50 g", "--json").data
    words = "Feed the fish was done on 2026-10-14 already, and is due again on 2026-10-15. Is it done once more?"
    assert f"{words} If it is, say so: --sure" in fed.refused("chores", "done", number, "--fed", "T1=50 g")
    assert fed("--operation", operation, "chores", "done", number, "--fed", "T1=50 g", "--json").data == first
    assert len(fed("fish", "book", "T1", "--json").data["entries"]) == 1
    fed("chores", "done", number, "--fed", "T1=50 g", "--sure")
    assert len(fed("fish", "book", "T1", "--json").data["entries"]) == 2
    fed("chores", "done", number, "--on", "2026-10-13")


def test_only_chores_that_feed_take_amounts(fed: Hand) -> None:
    chores = fed("chores", "--json").data["chores"]
    other = next(str(one["id"]) for one in chores if one["title"] != "Feed the fish")
    assert "none of these chores feeds fish" in fed.refused("chores", "done", other, "--ate", "all")
    assert "amounts are of one chore" in fed.refused("chores", "done", feeding(fed), other, "--fed", "5 g")


def test_without_fish_there_is_no_ration(bare: Hand) -> None:
    assert "No fish in the water" in bare("fish", "rations").err
