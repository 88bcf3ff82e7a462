"""Crops and species: every row with its source, ranges the right way round, found by any of its names."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

import pytest

from farmops.library import CropFacts, SpeciesFacts, Standing, all_species, crop, crops, species
from farmops.model.beds import BedKind
from farmops.model.plantings import StartedBy
from tests.labels import common_practice, from_memory

EVERY = [*crops(), *all_species()]
each = pytest.mark.parametrize("facts", EVERY, ids=lambda facts: facts.key)
each_crop = pytest.mark.parametrize("facts", crops(), ids=lambda facts: facts.key)
each_species = pytest.mark.parametrize("facts", all_species(), ids=lambda facts: facts.key)


def values(facts: CropFacts | SpeciesFacts) -> dict[str, Any]:
    return dataclasses.asdict(facts)


def pairs(facts: CropFacts | SpeciesFacts) -> list[tuple[float | None, float | None]]:
    row = values(facts)
    return [(row[name], row[name.replace("_low", "_high")]) for name in row if "_low" in name]


@pytest.mark.parametrize("table", [crops(), all_species()], ids=["crops", "species"])
def test_keys_names_and_latin_names_lead_to_one_row(table: tuple[CropFacts | SpeciesFacts, ...]) -> None:
    assert len({facts.key for facts in table}) == len({facts.name for facts in table}) == len(table)


@each
def test_key_is_a_slug(facts: CropFacts | SpeciesFacts) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", facts.key)


@each
def test_row_has_a_source_and_a_standing(facts: CropFacts | SpeciesFacts) -> None:
    assert facts.source
    assert facts.source.startswith("none") == (facts.standing is Standing.COMMON_PRACTICE)
    assert re.fullmatch(r"[A-Z][a-z]+ [a-z]+( [A-Z][a-z]+ Group)?", facts.latin_name)


@each
def test_ranges_are_whole_and_the_right_way_round(facts: CropFacts | SpeciesFacts) -> None:
    for low, high in pairs(facts):
        assert (low is None) == (high is None)
        assert low is None or high is None or 0 < low <= high


@each_crop
def test_crop_has_a_screen_name_and_beds(facts: CropFacts) -> None:
    assert facts.name == facts.name.upper()
    assert len(facts.name) <= 14
    assert BedKind.MEDIA in facts.bed_kinds


@each_crop
def test_days_count_from_something_only_where_there_are_days(facts: CropFacts) -> None:
    assert facts.counted_from is None or facts.days_to_harvest_low is not None


@each_species
def test_best_temperatures_lie_within_the_vital_ones(facts: SpeciesFacts) -> None:
    if None not in (facts.vital_low_c, facts.vital_high_c, facts.best_low_c, facts.best_high_c):
        assert facts.vital_low_c <= facts.best_low_c  # type: ignore[operator]
        assert facts.best_high_c <= facts.vital_high_c  # type: ignore[operator]


@each_species
def test_species_says_a_word_on_the_law(facts: SpeciesFacts) -> None:
    assert facts.law_note.startswith("Check state and local")
    assert "before buying or moving" in facts.law_note
    assert "Never release" in facts.law_note


@pytest.mark.parametrize("name", ["pak-choi", "PAK CHOI", "Pak choi", "  pak  choi ", "Brassica rapa Chinensis Group"])
def test_crop_is_found_by_any_of_its_names(name: str) -> None:
    found = crop(name)
    assert found is not None
    assert found.key == "pak-choi"
    assert found.counted_from is StartedBy.SOWING


def test_latin_name_of_two_crops_finds_the_first() -> None:
    found = crop("Phaseolus vulgaris")
    assert found is not None
    assert found.key == "bush-beans"


@pytest.mark.parametrize("name", ["nile-tilapia", "Nile tilapia", "oreochromis niloticus"])
def test_species_is_found_by_any_of_its_names(name: str) -> None:
    found = species(name)
    assert found is not None
    assert found.key == "nile-tilapia"


@pytest.mark.parametrize("name", ["", "moonfruit"])
def test_unknown_names_find_nothing(name: str) -> None:
    assert crop(name) is None
    assert species(name) is None


def test_unknown_values_stay_unknown() -> None:
    perch, goldfish = species("yellow perch"), species("goldfish")
    assert perch is not None
    assert goldfish is not None
    assert perch.best_low_c is perch.tan_limit_mg_l is goldfish.oxygen_floor_mg_l is None
    assert (perch.usually_eaten, goldfish.usually_eaten) == (True, False)


@from_memory("Somerville et al. 2014, FAO Tech. Paper 589, Table 7.1")
def test_trout_is_the_strictest() -> None:
    trout = species("rainbow trout")
    assert trout is not None
    assert (trout.vital_low_c, trout.vital_high_c, trout.best_low_c, trout.best_high_c) == (10, 18, 14, 16)
    assert (trout.tan_limit_mg_l, trout.nitrite_limit_mg_l, trout.oxygen_floor_mg_l) == (0.5, 0.3, 6)


@pytest.mark.parametrize("table", [crops, all_species])
def test_tables_are_read_once_and_cannot_be_changed(table: Any) -> None:
    assert table() is table()
    assert isinstance(table(), tuple)
    with pytest.raises(dataclasses.FrozenInstanceError):
        table()[0].key = "other"


@common_practice("what is cut again and again is picked every few days, herbs every other week")
def test_the_days_to_the_next_pick_are_those_of_what_is_cut_again() -> None:
    again = {facts.key: facts.pick_again_days for facts in crops() if facts.pick_again_days is not None}
    assert all(2 <= days <= 14 for days in again.values())
    assert again["cucumber"] < again["chard"] < again["mint"]
    assert not {"lettuce", "head-cabbage", "cauliflower", "pak-choi", "spring-onion"} & set(again)


@common_practice("kale from seed packets: 50 to 65 days from transplanting")
def test_kale_has_the_days_of_seed_packets() -> None:
    kale = crop("kale")
    assert kale is not None
    assert (kale.days_to_harvest_low, kale.days_to_harvest_high, kale.counted_from) == (50, 65, StartedBy.TRANSPLANTING)
    assert kale.standing is Standing.COMMON_PRACTICE
