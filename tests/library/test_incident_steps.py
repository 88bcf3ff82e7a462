"""The steps of a power cut and what is to be seen after it: their order, for whom they are, where they come from."""

from __future__ import annotations

import pytest

from farmops.library import tables
from farmops.library.incident_steps import AIR, incident_steps, step_called, steps_of
from farmops.library.tables import Standing
from farmops.model.incidents import Phase
from farmops.model.units import UnitKind
from tests.labels import common_practice, from_memory

DURING = [one.key for one in steps_of(Phase.DURING)]


def words_of(key: str) -> str:
    found = step_called(key)
    assert found is not None
    return f"{found.title}. {found.words}".lower()


def test_every_line_has_the_columns_of_the_head() -> None:
    for row in tables.read("incident_steps.csv"):
        assert None not in row
        assert all(cell is not None and cell == cell.strip() for cell in row.values())
        assert row["source"]
        assert row["standing"] in [one.value for one in Standing]


def test_keys_are_unique_and_found_in_any_letter_case() -> None:
    keys = [one.key for one in incident_steps()]
    assert len(set(keys)) == len(keys)
    assert all(step_called(f" {key.upper()} ") is step_called(key) for key in keys)
    assert step_called("dance") is None


def test_words_are_short_enough_for_a_card() -> None:
    assert all(len(one.title) <= 52 and len(one.words) <= 250 for one in incident_steps())


@common_practice("without power the air comes first, feed is off before anything else is looked at")
def test_air_comes_first_and_feed_second() -> None:
    assert DURING[:2] == [AIR, "feed-off"]
    assert "until a day after the power is back" in words_of("feed-off")


@from_memory("CPSC and CDC on portable generators: outdoors, away from openings, never back-fed into house wiring")
def test_a_generator_runs_outdoors_and_is_not_fed_into_the_house() -> None:
    assert "outdoors only" in words_of("generator")
    assert "never plug it into a house outlet" in words_of("generator")
    assert "licensed electrician" in words_of("generator")


@from_memory("CPSC GFCI Fact Sheet: TEST cuts the power, RESET brings it back")
def test_the_ground_fault_device_is_tried_first_when_the_power_is_back() -> None:
    assert steps_of(Phase.AFTER)[0].key == "ground-fault"
    assert "test: power goes. reset: power comes" in words_of("ground-fault")


@common_practice("a heater is under water before it is plugged in; a tripped device is reset once")
def test_what_hurts_is_said() -> None:
    assert "under water before it is plugged in" in words_of("heater")
    assert "reset a tripped ground-fault device once" in words_of("cause")
    assert "nobody stands in water that may be live" in words_of("cause")


@pytest.mark.parametrize(
    ("kind", "fish", "seen"),
    [
        (UnitKind.COUPLED, True, {"ground-fault", "pump", "bubbles", "siphon", "heater"}),
        (UnitKind.COUPLED, False, {"ground-fault", "pump", "siphon"}),
        (UnitKind.HYDROPONIC, False, {"ground-fault", "pump", "siphon"}),
        (UnitKind.FISH_ONLY, True, {"ground-fault", "pump", "bubbles", "heater"}),
        (UnitKind.HOLDING, True, {"ground-fault", "pump", "bubbles", "heater"}),
    ],
)
def test_a_unit_is_seen_running_by_what_it_has(kind: UnitKind, fish: bool, seen: set[str]) -> None:
    assert {one.key for one in steps_of(Phase.AFTER) if one.fits(kind, fish=fish)} == seen
    air = step_called(AIR)
    assert air is not None
    assert air.fits(kind, fish=fish) is (fish and kind is not UnitKind.HYDROPONIC)
