"""`farmops water drift`: what was usual, what moves since, and the chore that comes of it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.cli.hand import Hand

FILLS = ("11:54", "12:00", "11:48", "11:48", "12:00", "11:54", "11:54", "12:54", "13:18", "14:18", "14:36")


@pytest.fixture
def timed(farm: Hand) -> Hand:
    """A bed that fills slower and slower since the middle of September."""
    for at, fill in enumerate(FILLS):
        farm("water", "add", "WREN", "fill-time", fill, "--on", str(date(2026, 8, 4) + timedelta(weeks=at)))
    return farm


def test_a_creeping_fill_time_is_told_with_what_would_explain_it(timed: Hand) -> None:
    told = timed("water", "drift").lines
    assert told == [
        "WREN",
        "fill time Bed fills in 14.6 min, usual 11.5 to 12.3: slower, four readings running. A blocked intake or "
        "a tired pump would explain it. It rises steadily, by about 0.27 min a week.",
    ]
    (one,) = timed("water", "drift", "--unit", "WREN", "--json").data["measures"]
    assert (one["side"], one["running"], one["readings"]) == (1, 4, 11)


def test_the_chore_comes_with_the_second_reading_and_goes_with_a_new_pump(timed: Hand) -> None:
    timed(
        "chores", "add", "Clear the intake", "--every", "when filling slower", "--unit", "WREN", "--from", "2026-08-01"
    )
    (chore,) = [one for one in timed("chores", "--json").data["chores"] if one["title"] == "Clear the intake"]
    assert chore["due"] == "2026-09-29"
    assert "usual 11.5 to 12.3: slower, four readings running." in " ".join(timed("chores").lines)
    assert "It holds since Tue 29 Sep, until a reading as usual" in " ".join(timed("chores", "conditions").lines)
    timed("notes", "add", "bigger", "--at", "WREN", "--changed", "pump")
    assert not any("Clear the intake" in line for line in timed("chores").lines)
    assert timed("water", "drift", "--all").err.startswith("No reading to compare yet")


def test_a_siphon_that_does_not_cycle_is_booked_and_told(farm: Hand) -> None:
    farm("water", "add", "WREN", "fill-time", "no cycle")
    assert "no cycle" in farm("water", "list").lines[1]
    assert farm("water", "drift").lines[1].startswith("fill time No siphon cycle: it dribbles.")
    farm("chores", "add", "Look", "--every", "when siphon dribbling", "--unit", "WREN")
    assert any("No siphon cycle" in line for line in farm("chores").lines)


def test_few_readings_say_how_many_are_missing(farm: Hand) -> None:
    farm("water", "add", "WREN", "drain-time", "3:20")
    assert (
        farm("water", "drift").err == "All that was read holds still, as far as the readings tell. All of it: --all\n"
    )
    assert farm("water", "drift", "--all").lines[1] == "drain time 5 more readings tell what is usual."


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    assert bare("water", "drift").err.startswith("No reading to compare yet")


def test_what_has_come_to_rest_neither_rises_nor_falls(farm: Hand) -> None:
    read = [3.0, 2.9, 2.8, 2.7, 2.5, 2.4, 2.3, 2.2, 2.1, *[2.0] * 7]
    for at, ammonia in enumerate(read):
        farm("water", "add", "WREN", "ammonia", str(ammonia), "--on", str(date(2026, 9, 20) + timedelta(days=at)))
    assert "It falls steadily" in " ".join(farm("water", "drift").lines)
    farm("water", "add", "WREN", "ammonia", "2.0", "--on", "2026-10-10")
    assert "No steady rise or fall." in " ".join(farm("water", "drift", "--all").lines)
