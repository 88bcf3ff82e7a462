"""Which of two is better, typed as a command."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

WEEKS = [f"2026-{month:02}-{day:02}" for month in (6, 7, 8) for day in (1, 8, 15, 22)]


@pytest.fixture
def rows_of_chard(farm: Hand) -> Hand:
    """Twelve weeks of chard in two beds of one size, one bringing twice as much as the other."""
    farm("beds", "size", "WREN-S", "24 sq ft", "--on", "2026-03-01")
    farm("plantings", "add", "WREN-S", "CHARD", "--on", "2026-05-01")
    for number, day in enumerate(WEEKS):
        farm("harvest", "WREN-N", "CHARD", f"{number % 3 + 20} oz", "--on", day)
        farm("harvest", "WREN-S", "CHARD", f"{number % 2 + 10} oz", "--on", day)
    return farm


def test_a_clear_difference_is_said_with_its_size(rows_of_chard: Hand) -> None:
    said = rows_of_chard("compare", "wren-n", "wren-s", "--crop", "chard", "--from", "2026-06-01", "--to", "2026-08-23")
    assert said.lines[0] == "WREN-N against WREN-S, 2026-06-01 to 2026-08-23"
    assert "CHARD: WREN-N is clearly better than WREN-S, 0." in said.out
    assert "lb per sq ft more over 12 weeks." in said.out


def test_json_gives_the_numbers_in_grams_and_cents(rows_of_chard: Hand) -> None:
    found = rows_of_chard("compare", "WREN-N", "WREN-S", "--from", "2026-06-01", "--json").data
    chard, value = found["compared"]
    assert (chard["of"], chard["better"], chard["same_weeks"]) == ("CHARD", "WREN-N", True)
    assert chard["first_g_per_m2_week"] > chard["second_g_per_m2_week"] > 0
    assert (value["of"], value["better"]) == ("value per area", "WREN-N")
    assert value["low_cents_per_m2_week"] > 0


def test_few_weeks_are_too_little_and_a_bed_without_a_harvest_is_not_guessed(farm: Hand) -> None:
    farm("plantings", "add", "WREN-S", "CHARD", "--on", "2026-05-01")
    farm("beds", "size", "WREN-S", "24 sq ft", "--on", "2026-03-01")
    assert (
        "CHARD: not enough records. WREN-S: nothing that counts was weighed of CHARD."
        in farm("compare", "WREN-N", "WREN-S", "--from", "2026-05-01").out
    )
    farm("harvest", "WREN-S", "CHARD", "2", "--on", "2026-06-20")
    said = farm("compare", "WREN-N", "WREN-S", "--crop", "CHARD", "--from", "2026-06-01", "--to", "2026-06-28")
    assert "CHARD: too little data on WREN-N and WREN-S, 4 weeks; 4 weeks more give a first answer." in said.out


def test_what_is_not_there_or_the_same_is_refused(farm: Hand) -> None:
    assert "There is no unit, bed or crop HERON. Units: WREN, SWIFT." in farm.refused("compare", "WREN", "HERON")
    assert "cannot be compared with itself" in farm.refused("compare", "WREN", "wren")
    assert "There is no crop LEEK." in farm.refused("compare", "WREN", "SWIFT", "--crop", "LEEK")
