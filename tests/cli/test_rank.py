"""The order of the units and what it hangs on, and whether a unit is earned back, typed as commands."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

BOTH = ("higher", "lower")


@pytest.fixture
def two(farm: Hand) -> Hand:
    """WREN with its chard, and SWIFT, which brought more, but cost more work."""
    farm("units", "state", "SWIFT", "running", "--no-chores", "--on", "2026-05-01")
    farm("beds", "add", "SWIFT", "N", "24 sq ft", "--on", "2026-05-01")
    farm("crops", "add", "LEEK")
    farm("prices", "add", "LEEK", "3/lb", "--on", "2026-01-01")
    farm("plantings", "add", "SWIFT-N", "LEEK", "--on", "2026-05-02")
    farm("harvest", "SWIFT-N", "LEEK", "40 lb", "--on", "2026-07-01", "--sure")
    farm("costs", "add", "seed", "30", "--unit", "SWIFT", "--on", "2026-05-02")
    return farm


def test_the_order_is_told_with_what_it_hangs_on(two: Hand) -> None:
    said = two("rank", "--rate", "15")
    assert said.lines[0] == "2026-03-01 to 2026-10-14, full cost, best first"
    assert "By net return the order is the same whatever is assumed." in said.lines
    assert "as the farm is set SWIFT WREN SWIFT WREN" in said.lines
    assert any(line.startswith("an hour at $15.00") for line in said.lines)
    found = two("rank", "--basis", "cash", "--json").data
    orders = {key: found["as_set"][key] for key in ("assumed", "by_net", "by_cost_per_kg")}
    assert orders == {
        "assumed": "as the farm is set",
        "by_net": ["SWIFT", "WREN"],
        "by_cost_per_kg": ["SWIFT", "WREN"],
    }


def test_the_numbers_of_each_order_are_those_it_is_in(two: Hand) -> None:
    found = two("rank", "--rate", "15", "--json").data
    kept = {one["unit"]: one for one in two("returns", "--json").data["units"]}
    for unit in found["as_set"]["units"]:
        assert {key: kept[unit["unit"]][key] for key in ("net_cents", "cost_per_kg_cents")}.items() <= unit.items()
    for one in (found["as_set"], *found["others"]):
        nets = {unit["unit"]: unit["net_cents"] for unit in one["units"]}
        assert one["by_net"] == sorted(nets, key=lambda code: -nets[code])
    dear, cheap = (next(one for one in found["others"] if one["assumed"] == f"prices a fifth {how}") for how in BOTH)
    for high, low in zip(dear["units"], cheap["units"], strict=True):
        value = kept[high["unit"]]["value_cents"]
        assert high["net_cents"] - low["net_cents"] == pytest.approx(0.4 * value, abs=2)


def test_a_unit_that_loses_is_told_calmly_and_one_without_an_outlay_says_what_is_missing(two: Hand) -> None:
    said = two("payback", "--interest", "8")
    assert said.lines[0].endswith("interest 8 % a year, labour not counted")
    assert said.lines[1] == "The span is shorter than a year: the other seasons may leave less, or more."
    assert "shorter than a year" not in two("payback", "--from", "2025-06-01").out
    assert "took to build $120.00" in said.lines
    assert "earned back in it is not earned back within its life" in said.lines
    assert "earned back not enough records: nothing bought to last is booked for it" in said.lines
    wren, swift = two("payback", "--labour", "--json").data["units"]
    assert (wren["outlay_cents"], wren["payback_years"]) == (12000, None)
    assert swift["reasons"]["outlay_cents"] == "not enough records: nothing bought to last is booked for it"


def test_on_an_empty_farm_nothing_is_guessed(bare: Hand) -> None:
    assert "No unit brought anything in this span." in bare("rank").lines
    assert "No unit yet." in bare("payback").lines
    assert "Units: none yet." in bare.refused("compare", "WREN", "PLOVER")


def test_returns_tell_what_value_and_cost_come_to(two: Hand) -> None:
    """SWIFT brought 120 dollars for 30 of its own and 167 of 395 unit-days of 42.50."""
    said = two("returns")
    heads = "USD over operating an hour value/sq ft pays at /lb pays at harvest of"
    assert heads in said.lines
    swift = next(line for line in said.lines[said.lines.index(heads) :] if line.startswith("SWIFT"))
    over, hour, _, price, harvest = swift.removeprefix("SWIFT ").split(" ", 4)
    assert (over, hour) == ("72.03", "-")
    assert (price, harvest) == ("1.20", "16 lb")
