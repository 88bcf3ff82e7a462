"""`farmops crops`: what the farm grows, and what the packaged table says of it."""

from __future__ import annotations

import pytest

from farmops import library
from tests.cli.hand import Hand


def test_a_crop_picks_up_the_packaged_facts_of_its_name(farm: Hand) -> None:
    said = farm("crops", "add", "basil", "--note", "for the market")
    assert "BASIL added." in said.err
    assert "Taken: the packaged facts on BASIL (Ocimum basilicum), verified." in said.err
    assert "farmops crops show BASIL" in said.err
    assert farm("crops", "show", "basil", "--json").data["facts_key"] == "basil"


def test_a_crop_of_another_name_can_go_by_known_facts_or_by_none(farm: Hand) -> None:
    assert 'farmops crops show "RUBY CHARD"' in farm("crops", "add", "Ruby Chard", "--facts", "chard").err
    assert farm("crops", "show", "RUBY CHARD", "--json").data["facts_key"] == "chard"
    assert "No packaged facts go with BASIL" in farm("crops", "add", "BASIL", "--facts", "-").err
    assert farm("crops", "show", "BASIL", "--json").data["facts"] is None


def test_a_crop_that_the_table_lacks_says_so(farm: Hand) -> None:
    said = farm("crops", "add", "OCA", "--json")
    assert said.data == {"schema": 1, "id": 3, "crop": "OCA", "facts_key": None, "note": None}
    assert "No packaged facts go with OCA" in said.err


def test_facts_are_shown_in_the_farms_units_with_source_and_standing(farm: Hand) -> None:
    farm("crops", "add", "BASIL")
    assert farm("crops", "show", "BASIL").lines == [
        "BASIL",
        "known as BASIL, Ocimum basilicum",
        "spacing 5.9 in to 9.8 in",
        "plants 0.7 to 3.7 per sq ft",
        "germination 6 to 7 days",
        "first harvest 35 to 42 days",
        "next pick 7 days, common practice",
        "temperature 64.4 °F to 86.0 °F",
        "pH 5.5 to 6.5",
        "beds media, film, raft",
        "source Somerville et al. 2014, FAO Tech. Paper 589, Appendix 1",
        "standing verified",
    ]


def test_facts_on_a_metric_farm_with_a_decimal_comma(nowhere: Hand) -> None:
    nowhere("farm", "open", "Alm", "--weights", "kg", "--zone", "Europe/Zurich", "--decimals", "comma")
    nowhere("crops", "add", "PARSLEY")
    lines = nowhere("crops", "show", "PARSLEY").lines
    assert "plants 10 to 15 per m2" in lines
    assert "temperature 15,0 °C to 25,0 °C" in lines
    assert "first harvest 20 to 30 days after transplanting" in lines


def test_facts_in_json_are_those_of_the_table(farm: Hand) -> None:
    known = library.crop("chard")
    assert known is not None
    shown = farm("crops", "show", "CHARD", "--json").data["facts"]
    assert shown["source"] == known.source
    assert shown["standing"] == known.standing
    assert (shown["spacing_cm_low"], shown["temp_high_c"]) == (known.spacing_cm_low, known.temp_high_c)


def test_the_list_and_its_json(farm: Hand) -> None:
    assert farm("crops", "list").lines == ["crop facts note", "CHARD chard", "SEA KALE none"]
    assert farm("crops", "list", "--json").data["crops"] == [
        {"id": 1, "crop": "CHARD", "facts_key": "chard", "note": None},
        {"id": 2, "crop": "SEA KALE", "facts_key": None, "note": None},
    ]


def test_name_and_note_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm("crops", "edit", "CHARD", "--name", "Swiss chard", "--note", "cut low", "--json").data
    assert (changed["crop"], changed["note"], changed["facts_key"]) == ("SWISS CHARD", "cut low", "chard")
    assert farm("crops", "show", "SWISS CHARD").lines[:2] == ["SWISS CHARD", "cut low"]
    assert farm("crops", "edit", "SWISS CHARD", "--note", "-").err == "SWISS CHARD changed.\n"
    assert farm("crops", "show", "swiss  chard", "--json").data["note"] is None


def test_a_removed_crop_comes_back(farm: Hand) -> None:
    before = farm("crops", "list").out
    farm("crops", "remove", "sea kale")
    assert "SEA KALE" not in farm("crops", "list").out
    farm("undo")
    assert farm("crops", "list").out == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", ""], "empty"),
        (["add", "chard"], "already a crop CHARD"),
        (["add", "x" * 61], "at most 60"),
        (["add", "OCA", "--facts", "rhubarb"], "Known: basil"),
        (["add", "OCA", "--facts", ""], "Known: basil"),
        (["add", "OCA", "--note", "\x07"], "cannot be printed"),
        (["edit", "CHARD"], "Nothing to change"),
        (["edit", "CHARD", "--name", "sea kale"], "already a crop SEA KALE"),
        (["edit", "CHARD", "--name", ""], "empty"),
        (["edit", "CHERD", "--note", "x"], "Did you mean CHARD?"),
        (["show", "KALE"], "SEA KALE"),
        (["remove", "CHARD"], "Not removed"),
        (["remove", "CHAD"], "Did you mean CHARD?"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("crops", *words)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("crops", "list")
    assert (said.out, said.err) == ("", "No crop yet. Add the first: farmops crops add CHARD\n")
