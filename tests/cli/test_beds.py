"""`farmops beds`: where crops stand, and how large from which day."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


def test_a_bed_is_added_with_its_size_and_listed(farm: Hand) -> None:
    said = farm("beds", "add", "SWIFT", "E", "4 x 6 ft", "--kind", "raft", "--depth", "30 cm", "--note", "shade")
    assert "SWIFT-E added, 24.0 sq ft, 11.8 in deep." in said.err
    assert farm("beds", "list").lines == [
        "bed kind area depth note",
        "WREN-N media 24.0 sq ft 1 ft",
        "WREN-S raft no size yet",
        "SWIFT-E raft 24.0 sq ft 11.8 in shade",
    ]


def test_an_unlikely_depth_is_asked_about_and_named_once_booked(farm: Hand) -> None:
    assert "a bed 12 ft deep, is that right?" in farm.refused("beds", "add", "SWIFT", "E", "--depth", "12")
    assert "SWIFT-E added, 12 ft deep." in farm("beds", "add", "SWIFT", "E", "--depth", "12", "--sure").err
    assert "If it is, say so: --sure" in farm.refused("beds", "edit", "SWIFT-E", "--depth", "500")
    assert "SWIFT-E changed, 500 ft deep." in farm("beds", "edit", "SWIFT-E", "--depth", "500", "--sure").err
    assert "SWIFT-E changed, 1 ft deep." in farm("beds", "edit", "SWIFT-E", "--depth", "12 in").err


def test_a_bed_made_smaller_than_its_plantings_is_asked_about(farm: Hand) -> None:
    farm("plantings", "add", "WREN-N", "CHARD", "--area", "20 sq ft", "--on", "2026-09-01")
    said = farm.refused("beds", "size", "WREN-N", "18 sq ft", "--on", "2026-10-01")
    assert "of CHARD stand in WREN-N on 2026-10-01, which would have 18.0 sq ft" in said
    assert "If it is, say so: --sure" in said
    assert "WREN-N has 18.0 sq ft" in farm("beds", "size", "WREN-N", "18 sq ft", "--on", "2026-10-01", "--sure").err


def test_a_bed_without_a_size_says_how_to_book_one(farm: Hand) -> None:
    said = farm("beds", "add", "SWIFT", "E")
    assert 'farmops beds size SWIFT-E "24 sq ft"' in said.err
    assert "no yield by area" in farm("beds", "show", "SWIFT-E").err


def test_adding_answers_in_canonical_units(farm: Hand) -> None:
    assert farm("beds", "add", "SWIFT", "E", "2 m2", "--depth", "1 ft", "--json").data == {
        "schema": 1,
        "id": 3,
        "bed": "SWIFT-E",
        "unit": "SWIFT",
        "name": "E",
        "kind": "media",
        "depth_mm": 304.8,
        "depth_typed": "1 ft",
        "note": None,
    }


def test_the_list_in_json_has_the_size_of_the_day_and_all_sizes(farm: Hand) -> None:
    farm("beds", "size", "WREN-N", "2 m2", "--on", "2026-09-01")
    first, second = farm("beds", "list", "--json").data["beds"]
    assert (first["bed"], first["area_m2"]) == ("WREN-N", 2.0)
    assert first["sizes"] == [
        {"from": "2026-03-01", "area_m2": 2.229673, "area_typed": "24 sq ft"},
        {"from": "2026-09-01", "area_m2": 2.0, "area_typed": "2 m2"},
    ]
    assert (second["bed"], second["area_m2"], second["sizes"]) == ("WREN-S", None, [])


def test_a_past_day_keeps_its_size(farm: Hand) -> None:
    farm("beds", "size", "WREN-N", "20", "--on", "2026-09-01")
    assert "WREN-N media 24.0 sq ft 1 ft" in farm("beds", "list", "--on", "2026-08-31").lines
    assert "WREN-N media 20.0 sq ft 1 ft" in farm("beds", "list").lines
    assert farm("beds", "show", "wren-n", "--on", "2026-02-01", "--json").data["area_m2"] is None


def test_the_beds_of_one_unit(farm: Hand) -> None:
    assert [one["bed"] for one in farm("beds", "list", "--unit", "wren", "--json").data["beds"]] == ["WREN-N", "WREN-S"]
    said = farm("beds", "list", "--unit", "SWIFT")
    assert (said.out, said.err) == ("", 'No bed in SWIFT yet. Add one: farmops beds add SWIFT N "24 sq ft"\n')


def test_a_bed_is_shown_with_all_its_sizes(farm: Hand) -> None:
    farm("beds", "edit", "WREN-N", "--note", "by the door")
    farm("beds", "size", "WREN-N", "20", "--on", "2026-09-01")
    assert farm("beds", "show", "WREN-N").lines == [
        "WREN-N, media, 1 ft deep",
        "by the door",
        "2026-03-01 24.0 sq ft",
        "2026-09-01 20.0 sq ft",
    ]


def test_sizing_says_from_when_and_answers_in_json(farm: Hand) -> None:
    assert farm("beds", "size", "WREN-S", "24 sq ft").err == "WREN-S has 24.0 sq ft from 2026-10-14.\n"
    assert farm("beds", "size", "WREN-S", "1 m2", "--json").data == {
        "schema": 1,
        "bed": "WREN-S",
        "from": "2026-10-14",
        "area_m2": 1.0,
        "area_typed": "1 m2",
    }


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm(
        "beds", "edit", "WREN-N", "--name", "NORTH", "--kind", "film", "--depth", "2 in", "--note", "steep", "--json"
    ).data
    assert (changed["bed"], changed["kind"], changed["depth_mm"], changed["note"]) == (
        "WREN-NORTH",
        "film",
        50.8,
        "steep",
    )
    emptied = farm("beds", "edit", "WREN-NORTH", "--depth", "-", "--note", "-", "--json").data
    assert (emptied["depth_mm"], emptied["depth_typed"], emptied["note"], emptied["kind"]) == (None, None, None, "film")


def test_a_removed_bed_comes_back_with_its_sizes(farm: Hand) -> None:
    farm("beds", "size", "WREN-S", "20")
    before = farm("beds", "list", "--json").data
    assert farm("beds", "remove", "WREN-S").err == "WREN-S removed. farmops undo brings it back.\n"
    assert [one["bed"] for one in farm("beds", "list", "--json").data["beds"]] == ["WREN-N"]
    farm("undo")
    assert farm("beds", "list", "--json").data == before


def test_a_planted_bed_stays(farm: Hand) -> None:
    assert "Not removed" in farm.refused("beds", "remove", "WREN-N")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "SWIFT", "N/1", "24"], "no name of a bed"),
        (["add", "SWIFT", "", "24"], "empty"),
        (["add", "SWIFT", "E", "24 lb"], "24 lb"),
        (["add", "SWIFT", "E", "0"], "comes to nothing"),
        (["add", "SWIFT", "E", ""], "Nothing was typed"),
        (["add", "SWIFT", "E", "24", "--depth", "deep"], "deep"),
        (["add", "SWIFT", "E", "24", "--depth", ""], "Nothing was typed"),
        (["add", "SWIFT", "E", "24", "--on", "some day"], "is no day"),
        (["add", "SWIFT", "E", "24", "--on", "1800-01-01"], "not a day to book on"),
        (["add", "SWIFT", "E", "24", "--note", "x" * 1001], "at most 1000"),
        (["add", "WREN", "n", "24"], "already a bed WREN-N"),
        (["add", "WRENN", "E", "24"], "Did you mean WREN?"),
        (["edit", "WREN-N"], "Nothing to change"),
        (["edit", "WREN-N", "--name", "S"], "already a bed WREN-S"),
        (["edit", "WREN-N", "--name", "-"], "no name of a bed"),
        (["edit", "WREN-N", "--depth", "0"], "comes to nothing"),
        (["edit", "WREN-N", "--note", "a\x1b[2Jb"], "cannot be printed"),
        (["size", "WREN-N", "big"], "big"),
        (["size", "WREN-N", "20", "--on", "2099-01-01"], "more than a year ahead"),
        (["size", "WREN", "20"], "WREN-N, WREN-S"),
        (["show", "WREN-W"], "WREN-N"),
        (["list", "--unit", "SWIT"], "Did you mean SWIFT?"),
        (["list", "--unit", ""], "no unit"),
        (["list", "--on", "32 may"], "is no day"),
        (["remove", "WREN-W"], "WREN-N"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("beds", *words)


@pytest.mark.parametrize(
    "words",
    [
        ["add", "SWIFT"],
        ["add", "SWIFT", "E", "24", "--kind", "pond"],
        ["edit", "WREN-N", "--kind", "pond"],
        ["size", "WREN-N"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("beds", *words, code=2)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("beds", "list")
    assert said.out == ""
    assert "farmops units add WREN" in said.err
    assert bare("beds", "list", "--json").data == {"schema": 1, "on": "2026-10-14", "beds": []}
