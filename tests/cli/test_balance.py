"""`farmops water balance`: four weeks of a unit, in words and in JSON."""

from __future__ import annotations

from tests.cli.hand import Hand


def test_the_four_weeks_are_told_with_which_way_to_move(farm: Hand) -> None:
    farm("fish", "fed", "P1", "20 g", "--on", "2026-10-01")
    farm("beds", "size", "WREN-S", "10 sq ft", "--on", "2026-03-01")
    told = farm("water", "balance", "wren").lines
    assert told[0] == "WREN, 2026-09-17 to 2026-10-14"
    assert told[1].startswith(
        "feed per bed area: 0.2 g per m2 a day, too little: 40.0 to 50.0 g per m2 a day is usual (feed"
    )
    assert told[2].startswith("The beds could use more")
    assert told[-1].startswith("Out of range: feed per bed area, fish per tank.")
    (feed,) = [one for one in farm("water", "balance", "WREN", "--json").data["lines"] if one["name"] == "feed"]
    assert (feed["place"], feed["low"], feed["in"]) == ("below", 0.04, "mg per mm2 a day")


def test_a_number_opens_down_to_the_records(farm: Hand) -> None:
    farm("fish", "fed", "P1", "20 g", "--on", "2026-10-01")
    assert "feeding 1: P1, 2026-10-01 0.71 oz" in farm("water", "balance", "WREN", "--why", "nitrogen-in").lines
    why = farm("water", "balance", "WREN", "--why", "nitrogen-in", "--json").data
    assert (why["figure"], why["why"]["unit"]) == ("nitrogen-in", "mg a day")


def test_an_unknown_unit_is_refused(farm: Hand) -> None:
    assert "There is no unit FINCH" in farm.refused("water", "balance", "finch")
