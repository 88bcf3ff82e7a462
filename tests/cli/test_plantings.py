"""`farmops plantings`: crops in beds, from sowing or transplanting to clearing."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

CHARD = {
    "id": 1,
    "bed": "WREN-N",
    "unit": "WREN",
    "crop": "CHARD",
    "variety": "Bright Stem",
    "started": "2026-05-01",
    "started_by": "transplanting",
    "cleared": None,
    "plants": 30,
    "area_m2": None,
    "area_typed": None,
    "note": None,
}


def test_a_crop_goes_into_a_bed(farm: Hand) -> None:
    said = farm("plantings", "add", "WREN-S", "sea kale", "--sown", "--area", "8 sq ft", "--on", "yesterday")
    assert said.err == "SEA KALE in WREN-S planted: since 2026-10-13 by sowing, not cleared; number 2.\n"
    assert farm("plantings", "list").lines == [
        "no. bed crop variety from by plants area cleared note",
        "1 WREN-N CHARD Bright Stem 2026-05-01 transplanting 30 whole bed",
        "2 WREN-S SEA KALE 2026-10-13 sowing 8.0 sq ft",
    ]


def test_json_in_canonical_units(farm: Hand) -> None:
    said = farm("plantings", "add", "WREN-S", "CHARD", "--area", "1 m2", "--note", "late", "--json")
    assert said.data == {
        "schema": 1,
        **CHARD,
        "id": 2,
        "bed": "WREN-S",
        "variety": None,
        "started": "2026-10-14",
        "plants": None,
        "area_m2": 1.0,
        "area_typed": "1 m2",
        "note": "late",
    }
    assert farm("plantings", "show", "1", "--json").data == {"schema": 1, **CHARD}


def test_the_list_holds_what_grows_on_the_day(farm: Hand) -> None:
    farm("plantings", "clear", "1", "--on", "2026-09-30")
    farm("plantings", "add", "WREN-S", "CHARD", "--on", "2026-10-20")
    ids = {
        day: [one["id"] for one in farm("plantings", "list", "--on", day, "--json").data["plantings"]]
        for day in ("2026-04-30", "2026-05-01", "2026-09-30", "2026-10-01", "2026-10-20")
    }
    assert ids == {
        "2026-04-30": [],
        "2026-05-01": [1],
        "2026-09-30": [1],
        "2026-10-01": [],
        "2026-10-20": [2],
    }
    every = farm("plantings", "list", "--all", "--json").data
    assert (every["on"], [one["id"] for one in every["plantings"]]) == (None, [1, 2])
    said = farm("plantings", "list")
    assert (said.out, said.err) == ("", "Nothing grows on 2026-10-14. All plantings: farmops plantings list --all\n")


def test_the_plantings_of_one_unit(farm: Hand) -> None:
    farm("beds", "add", "SWIFT", "E")
    farm("plantings", "add", "SWIFT-E", "CHARD")
    assert [one["bed"] for one in farm("plantings", "list", "--unit", "swift", "--json").data["plantings"]] == [
        "SWIFT-E"
    ]
    farm("plantings", "remove", "2")
    assert "Nothing grows in SWIFT on 2026-10-14" in farm("plantings", "list", "--unit", "SWIFT").err


def test_a_planting_is_shown(farm: Hand) -> None:
    farm("plantings", "edit", "1", "--note", "slow")
    assert farm("plantings", "show", "1").lines == [
        "CHARD (Bright Stem) in WREN-N, number 1",
        "since 2026-05-01 by transplanting, not cleared",
        "30 plants, whole bed",
        "slow",
    ]


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm(
        *("plantings", "edit", "1", "--variety", "Red Rib", "--plants", "28", "--area", "10 sq ft", "--sown"),
        *("--on", "2026-04-20", "--cleared", "2026-10-01", "--note", "tall", "--json"),
    ).data
    assert changed == {
        "schema": 1,
        **CHARD,
        "variety": "Red Rib",
        "plants": 28,
        "area_m2": 0.92903,
        "area_typed": "10 sq ft",
        "started_by": "sowing",
        "started": "2026-04-20",
        "cleared": "2026-10-01",
        "note": "tall",
    }
    emptied = farm(
        *("plantings", "edit", "1", "--variety", "-", "--plants", "-", "--area", "-", "--cleared", "-", "--note", "-"),
        *("--transplanted", "--json"),
    ).data
    assert emptied == {"schema": 1, **CHARD, "variety": None, "plants": None, "started": "2026-04-20"}


def test_clearing_a_second_time_says_how_to_correct_the_day(farm: Hand) -> None:
    said = farm("plantings", "clear", "1", "--on", "2026-10-01")
    assert "cleared on 2026-10-01" in said.err
    words = farm.refused("plantings", "clear", "1", "--on", "2026-10-02")
    assert "farmops plantings edit 1 --cleared 2026-10-02" in words
    farm("plantings", "edit", "1", "--cleared", "2026-10-02")


def test_a_removed_planting_comes_back(farm: Hand) -> None:
    farm("plantings", "add", "WREN-S", "SEA KALE", "--plants", "12")
    before = farm("plantings", "list").out
    farm("plantings", "remove", "2")
    assert "SEA KALE" not in farm("plantings", "list").out
    farm("undo")
    assert farm("plantings", "list").out == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "WREN-W", "CHARD"], "WREN-N"),
        (["add", "WREN", "CHARD"], "WREN-N, WREN-S"),
        (["add", "WREN-N", "CHERD"], "Did you mean CHARD?"),
        (["add", "WREN-N", "CHARD", "--plants", "1000001"], "1 to 1,000,000"),
        (["add", "WREN-N", "CHARD", "--area", "wide"], "wide"),
        (["add", "WREN-N", "CHARD", "--area", ""], "Nothing was typed"),
        (["add", "WREN-N", "CHARD", "--variety", "\x1b]0;x\x07"], "cannot be printed"),
        (["add", "WREN-N", "CHARD", "--note", "x" * 1001], "at most 1000"),
        (["add", "WREN-N", "CHARD", "--on", "soon"], "is no day"),
        (["add", "WREN-N", "CHARD", "--on", "2099-01-01"], "more than a year ahead"),
        (["edit", "1"], "Nothing to change"),
        (["edit", "9", "--plants", "3"], "There is no planting 9. See: farmops plantings list --all"),
        (["edit", "1", "--area", "0"], "comes to nothing"),
        (["edit", "1", "--cleared", "soon"], "is no day"),
        (["edit", "1", "--on", "soon"], "is no day"),
        (["edit", "1", "--on", "2026-07-01"], "a weighing from it on 2026-06-20"),
        (["clear", "1", "--on", "2026-06-01"], "a weighing from it on 2026-06-20"),
        (["clear", "1", "--on", "2026-04-30"], "before it started on 2026-05-01"),
        (["clear", "1", "--on", "2099-01-01"], "more than a year ahead"),
        (["edit", "1", "--on", "1899-12-31"], "before 1900"),
        (["clear", "9"], "There is no planting 9"),
        (["show", "9"], "There is no planting 9"),
        (["remove", "1"], "Not removed"),
        (["remove", "9"], "There is no planting 9"),
        (["list", "--unit", "WRN"], "Did you mean WREN?"),
        (["list", "--on", "2026-02-30"], "is no day"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("plantings", *words)


@pytest.mark.parametrize(
    "words",
    [
        ["add", "WREN-N"],
        ["add", "WREN-N", "CHARD", "--plants", "0"],
        ["add", "WREN-N", "CHARD", "--plants", "many"],
        ["edit", "1", "--plants", "0"],
        ["edit", "one", "--plants", "3"],
        ["show", "0"],
        ["show", "99999999999999999999"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("plantings", *words, code=2)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("plantings", "list")
    assert said.out == ""
    assert "farmops beds add" in said.err
    assert "farmops plantings add WREN-N CHARD --new-crop" in said.err


def test_a_crop_that_is_not_grown_yet_is_refused_with_the_command_that_plants_it(farm: Hand) -> None:
    said = farm.refused("plantings", "add", "WREN-S", "basil")
    assert said.endswith("Add one with: farmops plantings add WREN-S basil --new-crop\n")
    assert farm("plantings", "add", "WREN-S", "basil", "--new-crop").err.startswith("BASIL in WREN-S planted")
    assert farm("crops", "show", "BASIL", "--json").data["facts_key"] == "basil"
    farm("undo")
    farm.refused("crops", "show", "BASIL")


def test_an_empty_list_names_the_bed_that_is_there(bare: Hand) -> None:
    bare("units", "add", "FIG")
    assert 'No bed yet. Add one: farmops beds add FIG N "24 sq ft"' in bare("beds", "list").err
    bare("beds", "add", "FIG", "E", "24 sq ft")
    assert bare("plantings", "list").err == "No planting yet. Plant: farmops plantings add FIG-E CHARD --new-crop\n"


def test_a_crop_with_packaged_facts_is_known_before_it_is_grown(farm: Hand) -> None:
    said = farm.refused("plantings", "add", "WREN-S", "PARSLY")
    assert "Did you mean PARSLEY? Add one with: farmops plantings add WREN-S PARSLEY --new-crop" in said
    said = farm.refused("plantings", "add", "WREN-S", "spinach")
    assert "There is no crop spinach. Known: " in said
    assert "BASIL" in said


def test_a_new_crop_of_two_words_is_told_as_a_shell_takes_it(farm: Hand) -> None:
    said = farm.refused("harvest", "WREN-S", "red orach", "1 6")
    assert "farmops plantings add WREN-S 'red orach' --new-crop" in said


def test_planting_a_crop_as_new_that_is_grown_already_plants_that_one(farm: Hand) -> None:
    farm("plantings", "add", "WREN-S", "chard", "--new-crop")
    assert [one["crop"] for one in farm("crops", "list", "--json").data["crops"]].count("CHARD") == 1


def test_an_area_that_the_bed_hardly_has_is_asked_about(farm: Hand) -> None:
    wide = ("plantings", "add", "WREN-N", "CHARD", "--area", "900 sq ft")
    assert "The whole bed WREN-N has 24.0 sq ft. If it is, say so: --sure" in farm.refused(*wide)
    number = farm(*wide, "--sure", "--json").data["id"]
    assert "--sure" in farm.refused("plantings", "edit", str(number), "--area", "901")
    assert farm("plantings", "edit", str(number), "--area", "901", "--sure", "--json").data["area_typed"] == "901"
