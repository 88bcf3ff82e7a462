"""`farmops incident`: a power cut from the first minute to everything running again."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.cli.hand import TODAY, Hand
from tests.frozen import frozen


@pytest.fixture
def warm(farm: Hand) -> Hand:
    """A row whose one unit with fish was read this morning."""
    farm("water", "add", "WREN", "temperature", "68F")
    farm("people", "contacts", "add", "Dr Reed", "555 0100", "--for", "vet")
    return farm


@pytest.fixture
def out(warm: Hand) -> Hand:
    """The power is out since a quarter to twelve; it is noon."""
    warm("incident", "begin", "power-cut", "--at", "11:45")
    return warm


def later(function: Callable[..., Any], *words: str, at: str = "16:10") -> Any:
    """What a command answers later that day; the hour is UTC."""
    with frozen(TODAY, at):
        return function(*words)


def test_it_begins_with_what_counts_air_first(warm: Hand) -> None:
    said = warm("incident", "begin", "power-cut", "--at", "11:45")
    assert said.lines[0] == "Power cut since 11:45, 15 min"
    assert said.lines[1] == "Air first, the least time first"
    assert re.match(r"WREN 3 h \d\d min left\. 60 fish of 0\.5 oz, 250 gal at 68\.0 °F;", " ".join(said.lines[2:4]))
    assert "vet: Dr Reed, 555 0100" in said.lines
    assert said.err == "Minutes until oxygen is short, rather too few than too many. Watch the fish, not the clock.\n"


def test_without_a_power_cut_it_says_what_would_come_of_one(warm: Hand) -> None:
    assert warm("incident", "show").lines[0] == "No power cut is open. If the power went now:"
    found = warm("incident", "show", "--json").data
    assert (found["incident"], found["lasting_minutes"]) == (None, 0)
    assert found["units"][0]["minutes_left"] == found["units"][0]["minutes"]


def test_the_minutes_run_down(out: Hand) -> None:
    first = out("incident", "show", "--json").data
    second = later(out, "incident", "show", "--json").data
    assert first["units"][0]["minutes_left"] - second["units"][0]["minutes_left"] == pytest.approx(10)
    assert (first["lasting_minutes"], second["lasting_minutes"]) == (15, 25)
    assert first["units"][0]["rests_on"] == {
        "water_l": pytest.approx(946.353),
        "fish": 60,
        "mean_g": pytest.approx(14.175, abs=0.001),
        "biomass_kg": pytest.approx(0.8505, abs=0.0001),
        "temperature_c": 20.0,
        "temperature_read": TODAY,
        "floor_mg_per_l": 4.0,
        "oxygen_mg_per_l": None,
        "weighed": "2026-05-02",
    }


def test_what_is_missing_is_said(farm: Hand) -> None:
    farm("units", "edit", "WREN", "--tank", "-")
    said = farm("incident", "begin").out
    flowing = " ".join(said.split())
    missing = "cannot be said: how much water the tank holds is not known; no water temperature was read"
    remedy = "(farmops units edit WREN --tank VOLUME, farmops water add WREN temperature VALUE)."
    assert f"{missing} {remedy}" in flowing


def test_steps_are_ticked(out: Hand) -> None:
    assert out("incident", "tick", "air", "--unit", "wren").err == "Ticked at 12:00 in WREN: air.\n"
    assert (
        later(out, "incident", "tick", "feed-off", "covers", "--at", "12:05").err
        == "Ticked at 12:05: feed-off, covers.\n"
    )
    done = later(out, "incident", "tick", "levels", "--note", "all up", "--json").data["ticked"]
    assert [(one["step"], one["unit"], one["by"], one["note"]) for one in done] == [("levels", None, "Ada", "all up")]
    shown = later(out, "incident", "show").lines
    assert any(line.startswith("WREN air since 12:00, Ada.") for line in shown)
    assert any(line.startswith("[x] feed-off") for line in shown)
    assert any(line.startswith("[ ] generator") for line in shown)


def test_it_ends_when_all_was_seen_running(out: Hand) -> None:
    assert "WREN: ground-fault device, pump, air pump, siphon, heater" in out.refused("incident", "end")
    said = later(out, "incident", "end", "--all-running", "--note", "a tree on the line")
    assert said.err.splitlines() == [
        "The power cut is over.",
        "Left out today: Feed the fish, WREN.",
        "To do: No feed on the day of the power cut, WREN; Test ammonia, nitrite after the power cut, WREN.",
    ]
    assert later(out, "incident", "show", "1").lines[0] == "Power cut from 11:45 to 12:10, 25 min"
    assert out("incident", "list").lines == [
        "what began ended note",
        "1 power cut 2026-10-14 11:45 12:10 a tree on the line",
    ]


def test_the_end_in_json(out: Hand) -> None:
    found = later(out, "incident", "end", "--all-running", "--json").data
    assert found["ended_at"] == "2026-10-14T16:10:00+00:00"
    assert found["feeds_left_out"] == ["Feed the fish, WREN"]
    assert len(found["chores_given"]) == 2
    assert later(out, "incident", "show", "1", "--json").data["all_running"] is True


def test_hours_and_note_can_be_corrected_and_a_dash_clears(out: Hand) -> None:
    later(out, "incident", "end", "--all-running", "--note", "wind")
    changed = later(out, "incident", "edit", "1", "--began", "11:40", "--ended", "12:08", "--note", "-", "--json").data
    assert (changed["began_at"], changed["ended_at"], changed["note"]) == (
        "2026-10-14T15:40:00+00:00",
        "2026-10-14T16:08:00+00:00",
        None,
    )
    assert later(out, "incident", "edit", "1", "--note", "a tree").err == "Power cut 1 changed.\n"


def test_a_time_just_after_midnight_is_that_of_the_evening_before(warm: Hand) -> None:
    found = later(warm, "incident", "begin", "--at", "23:50", "--json", at="04:20").data
    assert found["incident"]["began_at"] == "2026-10-14T03:50:00+00:00"
    assert found["lasting_minutes"] == 30


def test_a_power_cut_that_never_was_is_removed_and_comes_back(out: Hand) -> None:
    out("incident", "tick", "covers")
    assert out("incident", "remove", "1").err == "Removed. farmops undo brings it back.\n"
    assert out("incident", "list").err.startswith("Nothing went wrong yet.")
    out("undo")
    assert len(out("incident", "list", "--json").data["incidents"]) == 1


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["begin"], "a power cut is open since 11:45"),
        (["begin", "--at", "noon"], "is no time of day"),
        (["tick", "air"], "unit by unit"),
        (["tick", "dance"], "There is no step dance"),
        (["tick", "air", "--unit", "WRAN"], "Did you mean WREN?"),
        (["tick", "covers", "--at", "11:30"], "before the power cut began"),
        (["end", "--all-running", "--at", "11:30"], "before the power cut began"),
        (["edit", "1"], "Nothing to change"),
        (["edit", "1", "--ended", "11:50"], "it lasts still"),
        (["edit", "4", "--note", "x"], "There is no incident 4. See: farmops incident list"),
        (["show", "4"], "There is no incident 4"),
        (["remove", "4"], "There is no incident 4"),
    ],
)
def test_what_cannot_be_is_refused_in_words(out: Hand, words: list[str], said: str) -> None:
    assert said in out.refused("incident", *words)


def test_without_a_power_cut_there_is_nothing_to_tick_or_end(farm: Hand) -> None:
    assert "Begin one: farmops incident begin power-cut" in farm.refused("incident", "tick", "covers")
    assert "Begin one: farmops incident begin power-cut" in farm.refused("incident", "end")


def test_a_farm_without_fish_says_so(bare: Hand) -> None:
    assert bare("incident", "show").lines[1] == "No live fish are booked in any unit."
    assert bare("incident", "list").err == (
        "Nothing went wrong yet. If the power goes: farmops incident begin power-cut\n"
    )


def test_a_wall_card_is_written_or_printed(warm: Hand, tmp_path: Path) -> None:
    text = warm("incident", "card", "wren", "--text").out
    assert text.startswith("WREN   IF THE POWER IS OUT\n\nwater of  59.0 °F   ")
    said = warm("incident", "card", "WREN", "--out", str(tmp_path / "wren.pdf"))
    assert said.err == f"Wall card of WREN: 1 page (letter) in {tmp_path / 'wren.pdf'}.\n"
    assert (tmp_path / "wren.pdf").read_bytes().startswith(b"%PDF")
    assert "is there already" in warm.refused("incident", "card", "WREN", "--out", str(tmp_path / "wren.pdf"))
    found = warm("incident", "card", "WREN", "--text", "--json").data
    assert (found["file"], found["pages"], found["text"]) == (None, None, text)


def test_a_card_of_no_unit_is_refused(warm: Hand) -> None:
    assert "Did you mean WREN?" in warm.refused("incident", "card", "WRAN", "--text")
    assert "Say where to" in warm.refused("incident", "card", "WREN", code=2)
