"""`farmops fish`: lots of fish kept together, from stocking until the last one is gone."""

from __future__ import annotations

import pytest

from farmops import library
from tests.cli.hand import Hand

PERCH = {
    "id": 1,
    "lot": "P1",
    "species": "yellow perch",
    "facts_key": "yellow-perch",
    "unit": "WREN",
    "stocked": "2026-05-02",
    "number": 60,
    "mean_mass_g": 14.175,
    "mean_typed": "0.5 oz",
    "closed": None,
    "source": None,
    "paper": None,
    "note": None,
}


def test_stocking_tells_what_the_law_asks(farm: Hand) -> None:
    known = library.species("rainbow trout")
    assert known is not None
    said = farm("fish", "add", "T1", "Rainbow-Trout", "SWIFT", "40", "20 g", "--on", "yesterday")
    assert said.err.splitlines() == [
        "Stocked: T1, 40 rainbow trout of 0.71 oz each, in SWIFT since 2026-10-13.",
        "Taken: the packaged facts on Rainbow trout (Oncorhynchus mykiss), from memory.",
        known.law_note,
    ]


def test_a_species_that_the_table_lacks_still_brings_the_law_to_mind(farm: Hand) -> None:
    said = farm("fish", "add", "Z1", "Zander", "SWIFT", "5", "10 g", "--sure", "--json")
    assert said.data["species"] == "zander"
    assert said.data["facts_key"] is None
    assert said.err == (
        "No packaged facts go with zander: no ration, no limits of its own. "
        "What it bears can be set: farmops water limits set --help.\n"
        "Check state and local fish law and permits before buying or moving fish. Never release them.\n"
    )


def test_a_species_that_is_near_none_is_answered_with_those_that_have_facts(farm: Hand) -> None:
    said = farm.refused("fish", "add", "B1", "bluegill", "SWIFT", "5", "10 g")
    assert "There are facts on barramundi, channel catfish," in said
    assert "yellow perch. Is it right?" in said


def test_an_empty_list_names_a_unit_that_is_there(bare: Hand) -> None:
    assert "First a unit (farmops units add WREN)" in bare("fish", "list").err
    bare("units", "add", "SALAD", "--kind", "hydroponic")
    bare("units", "add", "FIG")
    said = bare("fish", "list").err
    assert said == 'No fish yet. Stock: farmops fish add P1 "yellow perch" FIG 60 "0.5 oz"\n'


def test_json_in_canonical_units(farm: Hand) -> None:
    assert farm("fish", "list", "--json").data == {"schema": 1, "on": "2026-10-14", "lots": [PERCH]}
    said = farm(
        *("fish", "add", "T1", "zander", "SWIFT", "5", "10 g", "--sure"),
        *("--note", "gift", "--source", "the mill hatchery", "--json"),
    )
    assert said.data == {
        "schema": 1,
        "id": 2,
        "lot": "T1",
        "species": "zander",
        "facts_key": None,
        "unit": "SWIFT",
        "stocked": "2026-10-14",
        "number": 5,
        "mean_mass_g": 10.0,
        "mean_typed": "10 g",
        "closed": None,
        "source": "the mill hatchery",
        "paper": None,
        "note": "gift",
    }


def test_the_list_holds_the_lots_in_the_water_on_the_day(farm: Hand) -> None:
    farm("fish", "close", "P1", "--on", "2026-09-30")
    living = {
        day: [one["lot"] for one in farm("fish", "list", "--on", day, "--json").data["lots"]]
        for day in ("2026-05-01", "2026-05-02", "2026-09-30", "2026-10-01")
    }
    assert living == {"2026-05-01": [], "2026-05-02": ["P1"], "2026-09-30": ["P1"], "2026-10-01": []}
    assert farm("fish", "list").err == "No fish in the water on 2026-10-14. All lots: farmops fish list --all\n"
    assert farm("fish", "list", "--all").lines == [
        "lot species unit stocked number mean weight closed note",
        "P1 yellow perch WREN 2026-05-02 60 0.5 oz 2026-09-30",
    ]


def test_a_lot_is_shown_with_the_facts_source_and_standing(farm: Hand) -> None:
    farm("fish", "add", "T1", "rainbow trout", "SWIFT", "40", "20 g", "--note", "from the hatchery")
    assert farm("fish", "show", "t1").lines == [
        "T1: 40 rainbow trout of 0.71 oz each, stocked on 2026-10-14, in SWIFT",
        "from the hatchery",
        "known as Rainbow trout, Oncorhynchus mykiss",
        "lives between 50.0 °F to 64.4 °F",
        "grows best at 57.2 °F to 60.8 °F",
        "ammonia (TAN) below 0.5 mg/L",
        "nitrite below 0.3 mg/L",
        "oxygen above 6 mg/L",
        "feed protein 42 %",
        "law Check state and local fish law and permits before buying or moving it. Never release it.",
        "source Somerville et al. 2014, FAO Tech. Paper 589, Table 7.1",
        "standing from memory",
    ]
    shown = farm("fish", "show", "T1", "--json").data
    assert (shown["lot"], shown["facts"]["key"], shown["facts"]["oxygen_floor_mg_l"]) == ("T1", "rainbow-trout", 6.0)


def test_a_lot_without_facts_is_shown(farm: Hand) -> None:
    farm("fish", "add", "Z1", "zander", "SWIFT", "5", "10 g", "--sure")
    said = farm("fish", "show", "Z1")
    assert said.lines == ["Z1: 5 zander of 0.35 oz each, stocked on 2026-10-14, in SWIFT"]
    assert "No packaged facts go with zander" in said.err
    assert farm("fish", "show", "Z1", "--json").data["facts"] is None


def test_a_slip_in_a_species_names_what_was_meant(farm: Hand) -> None:
    typed = ("fish", "add", "Z1", "yelow pearch", "SWIFT", "5", "10 g")
    said = farm.refused(*typed)
    assert "Did you mean yellow perch?" in said
    assert "--sure" in said
    assert "farmops fish edit Z1 --species 'yellow perch'" in farm(*typed, "--sure").err
    assert farm("fish", "edit", "Z1", "--species", "yellow perch", "--json").data["facts_key"] == "yellow-perch"


def test_another_species_is_asked_about_too(farm: Hand) -> None:
    farm("fish", "add", "Z1", "zander", "SWIFT", "5", "10 g", "--sure")
    assert "Did you mean yellow perch?" in farm.refused("fish", "edit", "Z1", "--species", "perch")
    assert "Changed: Z1, 5 perch" in farm("fish", "edit", "Z1", "--species", "perch", "--sure").err


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm(
        *("fish", "edit", "P1", "--code", "P2", "--number", "58", "--mean-weight", "20 g", "--on", "2026-05-04"),
        *("--closed", "2026-10-01", "--note", "lively", "--species", "Perca flavescens", "--source", "Lee", "--json"),
    ).data
    assert changed == {
        "schema": 1,
        **PERCH,
        "lot": "P2",
        "number": 58,
        "mean_mass_g": 20.0,
        "mean_typed": "20 g",
        "stocked": "2026-05-04",
        "closed": "2026-10-01",
        "source": "Lee",
        "note": "lively",
    }
    emptied = farm("fish", "edit", "P2", "--closed", "-", "--note", "-", "--source", "-", "--json").data
    assert (emptied["closed"], emptied["note"], emptied["source"]) == (None, None, None)


def test_the_facts_of_a_lot_stay_those_of_its_species(farm: Hand) -> None:
    assert "farmops fish remove P1" in farm.refused("fish", "edit", "P1", "--species", "goldfish")
    assert "farmops fish remove P1" in farm.refused("fish", "edit", "P1", "--species", "zander")
    farm("fish", "add", "Z1", "zandr", "SWIFT", "5", "10 g", "--sure")
    assert farm("fish", "edit", "Z1", "--species", "Zander", "--sure", "--json").data["species"] == "zander"


def test_closing_a_second_time_says_how_to_correct_the_day(farm: Hand) -> None:
    assert "closed on 2026-10-14" in farm("fish", "close", "P1").err
    assert "farmops fish edit P1 --closed 2026-10-10" in farm.refused("fish", "close", "P1", "--on", "2026-10-10")


def test_a_removed_lot_comes_back_where_it_was(farm: Hand) -> None:
    before = farm("fish", "show", "P1").out
    farm("fish", "remove", "p1")
    assert farm("fish", "list", "--all").out == ""
    farm("undo")
    assert farm("fish", "show", "P1").out == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "P 1", "perch", "WREN", "5", "10 g"], "no code of a fish lot"),
        (["add", "p1", "perch", "WREN", "5", "10 g"], "already a fish lot P1"),
        (["add", "P2", "", "WREN", "5", "10 g"], "species is empty"),
        (["add", "P2", "perch", "WRN", "5", "10 g"], "Did you mean WREN?"),
        (["add", "P2", "perch", "WREN", "1000001", "10 g"], "1 to 1,000,000"),
        (["add", "P2", "perch", "WREN", "5", "heavy"], "heavy"),
        (["add", "P2", "perch", "WREN", "5", "0"], "comes to nothing"),
        (["add", "P2", "perch", "WREN", "5", "10 g", "--on", "soon"], "is no day"),
        (["add", "P2", "perch", "WREN", "5", "10 g", "--on", "2099-01-01"], "more than a year ahead"),
        (["add", "P2", "perch", "WREN", "5", "10 g", "--note", "\x1b"], "cannot be printed"),
        (["edit", "P1"], "Nothing to change"),
        (["edit", "P9", "--number", "5"], "Did you mean P1?"),
        (["edit", "P1", "--code", "-"], "no code of a fish lot"),
        (["edit", "P1", "--number", "1000001"], "1 to 1,000,000"),
        (["edit", "P1", "--mean-weight", "-"], "-"),
        (["edit", "P1", "--on", "soon"], "is no day"),
        (["edit", "P1", "--closed", "soon"], "is no day"),
        (["close", "P1", "--on", "2026-05-01"], "before stocking on 2026-05-02"),
        (["close", "P1", "--on", "2099-01-01"], "more than a year ahead"),
        (["close", "P9"], "Did you mean P1?"),
        (["close", "P1", "--on", "soon"], "is no day"),
        (["show", "P9"], "Did you mean P1?"),
        (["remove", "P9"], "Did you mean P1?"),
        (["list", "--on", "soon"], "is no day"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("fish", *words)


@pytest.mark.parametrize(
    "words",
    [
        ["add", "P2", "perch", "WREN", "few", "10 g"],
        ["add", "P2", "perch", "WREN", "0", "10 g"],
        ["add", "P2", "perch", "WREN", "5"],
        ["edit", "P1", "--number", "-"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("fish", *words, code=2)


def test_a_lot_that_was_harvested_from_stays(farm: Hand) -> None:
    farm("harvest", "WREN", "P1", "3 lb", "--count", "4", "--on", "2026-08-01")
    assert "Not removed" in farm.refused("fish", "remove", "P1")
    assert "2026-08-01" in farm.refused("fish", "close", "P1", "--on", "2026-07-31")
    assert "more than the 3 there were" in farm.refused("fish", "edit", "P1", "--number", "3")


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("fish", "list")
    assert said.out == ""
    assert "farmops units add" in said.err
    assert "farmops fish add" in said.err


def test_a_paper_goes_with_the_fish(farm: Hand) -> None:
    farm("papers", "add", "permit", "fish permit", "--until", "2026-12-31")
    farm("fish", "edit", "P1", "--paper", "1")
    assert farm("fish", "show", "P1", "--json").data["paper"] == "fish permit"
    assert "paper: fish permit" in farm("fish", "show", "P1").lines
    farm("fish", "edit", "P1", "--paper", "-")
    assert farm("fish", "show", "P1", "--json").data["paper"] is None
    assert "9" in farm.refused("fish", "edit", "P1", "--paper", "9")
