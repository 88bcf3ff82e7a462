"""`farmops sales`: booked line by line, corrected, partly brought back, taken back."""

from __future__ import annotations

from tests.cli.hand import Hand

STALL = ("sales", "add", "the gate stall")
CHARD = "CHARD 1 lb at 3.50/lb"


def test_a_sale_has_lines_and_a_sum(farm: Hand) -> None:
    said = farm(*STALL, "--line", CHARD, "--line", "P1 2 lb for 15", "--on", "2026-06-21", "--note", "rain")
    assert said.err.splitlines() == [
        "Booked: $18.50 from the gate stall, 2026-06-21; number 1.",
        "  WREN-N CHARD 1 lb at $3.50 per lb: $3.50",
        "  P1 2 lb for $15.00: $15.00",
    ]
    assert farm("sales", "list").lines == [
        "no. day buyer paid what note",
        "1 2026-06-21 the gate stall $18.50 WREN-N CHARD 1 lb, P1 2 lb rain",
    ]
    assert farm("sales", "show", "1").lines[0] == "the gate stall, $18.50 on 2026-06-21, number 1"
    assert farm("sales", "list", "--buyer", "The Gate Stall", "--json").data["sales"][0]["paid_cents"] == 1850
    assert farm("sales", "list", "--buyer", "the inn").out == ""


def test_json_keeps_counts_and_weights_apart(farm: Hand) -> None:
    booked = farm(*STALL, "--line", "WREN-N CHARD 12 bunches weighing 6 lb at 2.50 unsold 2", "--json").data
    (line,) = booked["lines"]
    assert (line["taken_count"], line["unsold_count"], line["sold_count"], line["sold_g"]) == (12, 2, 10, None)
    assert (line["price_cents"], line["per_count"], line["paid_cents"], line["per_g"]) == (250, 1, 2500, None)
    assert line["sold_weight_g"] == 2267.962


def test_what_comes_back_is_not_paid_for(farm: Hand) -> None:
    farm(*STALL, "--line", CHARD, "--line", "P1 6 pieces at 3")
    farm("sales", "return", "1", "2", "--line", "P1")
    said = farm("sales", "return", "1", "8 oz", "--line", "chard", "--unsold")
    assert said.err.splitlines()[1:] == [
        "  WREN-N CHARD 1 lb at $3.50 per lb, less 8 oz unsold: $1.75",
        "  P1 6 pieces at $3.00 each, less 2 pieces returned: $12.00",
    ]
    assert "more would have come back" in farm.refused("sales", "return", "1", "5", "--line", "P1")
    assert "Which line of sale 1? It has WREN-N CHARD, P1." in farm.refused("sales", "return", "1", "1 lb")
    assert "There is no sale 2. See: farmops sales list" in farm.refused("sales", "return", "2", "1 lb")


def test_a_sale_is_corrected_removed_and_brought_back(farm: Hand) -> None:
    farm(*STALL, "--line", CHARD)
    farm("sales", "edit", "1", "--buyer", "the inn", "--on", "2026-07-01", "--note", "-")
    farm("sales", "edit", "1", "--line", "P1 2 lb for 15")
    assert farm("sales", "list").lines[1] == "1 2026-07-01 the inn $15.00 P1 2 lb"
    farm("sales", "remove", "1")
    assert "No sale here. Book one: farmops sales add" in farm("sales", "list").err
    farm("undo")
    assert farm("sales", "show", "1").lines[1] == "P1 2 lb for $15.00: $15.00"
    assert "Nothing to change" in farm.refused("sales", "edit", "1")


def test_a_name_means_what_was_marked_sold_last_then_what_stands(farm: Hand) -> None:
    farm("plantings", "add", "WREN-S", "CHARD", "--on", "2026-05-01")
    assert "Which CHARD? WREN-N CHARD, WREN-S CHARD. Name one of them." in farm.refused(*STALL, "--line", CHARD)
    said = farm(*STALL, "--line", CHARD, "--on", "2026-06-21")
    assert "WREN-N CHARD" in said.err
    farm("plantings", "clear", "1", "--on", "2026-10-01")
    assert "WREN-S CHARD" in farm(*STALL, "--line", CHARD).err
    assert "yellow perch" not in farm(*STALL, "--line", "yellow perch 1 lb at 8/lb").err


def test_what_was_not_there_is_not_sold(farm: Hand) -> None:
    assert "CHARD was sold on 2026-04-01, and is there only since 2026-05-01" in farm.refused(
        *STALL, "--line", CHARD, "--on", "2026-04-01"
    )
    assert "There is no LEEK to sell. Known: WREN-N CHARD, P1." in farm.refused(*STALL, "--line", "LEEK 2 lb at 1")
    assert "The name of the buyer is empty" in farm.refused("sales", "add", " ", "--line", CHARD)


def test_a_planting_does_not_start_after_it_was_sold(farm: Hand) -> None:
    farm("harvests", "remove", "1")
    farm(*STALL, "--line", CHARD, "--on", "2026-06-21")
    assert "CHARD was sold on 2026-06-21" in farm.refused("plantings", "edit", "1", "--on", "2026-07-01")
