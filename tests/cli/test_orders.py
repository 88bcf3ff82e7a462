"""`farmops orders` and `farmops picks`: what is wanted when, what is ready where, and the sale that fills it."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

INN = ("orders", "add", "the inn")
KALE = "SEA KALE 6 bunches at 2.50"
CHARD = "CHARD 2 lb at 3/lb"


@pytest.fixture
def ordered(farm: Hand) -> Hand:
    """The inn wants chard on Wednesdays and Fridays and perch every week; it is Wednesday."""
    farm(*INN, CHARD, "--every", "Wed Fri", "--from", "2026-10-01")
    farm(*INN, "yellow perch 4 pieces for 18", "--every", "week", "--from", "2026-10-07", "--until", "2026-11-30")
    return farm


def test_an_order_says_who_wants_what_when(farm: Hand) -> None:
    said = farm(*INN, CHARD, "--every", "2 weeks on Sat", "--until", "2026-12-31", "--note", "small leaves")
    assert said.err == (
        "Booked: the inn wants 2 lb of CHARD at $3.00 per lb, every 2 weeks on Sat until 2026-12-31, "
        "next Sat 2026-10-17; number 1.\n"
    )
    assert farm("orders", "list").lines == [
        "no. buyer what how much price every next until note",
        "1 the inn CHARD 2 lb at $3.00 per lb every 2 weeks on Sat 2026-10-17 2026-12-31 small leaves",
    ]


def test_an_order_comes_on_days_of_the_calendar_of_a_crop_that_is_grown(farm: Hand) -> None:
    assert "an order comes on days of the calendar" in farm.refused(*INN, CHARD, "--every", "14 days after")
    assert "There is no crop LEEK" in farm.refused(*INN, "LEEK 2 lb at 3", "--every", "Fri")
    assert "says more than what is wanted" in farm.refused(*INN, "CHARD 2 lb at 3 unsold 1 lb", "--every", "Fri")
    assert "would end on 2026-10-01, before it begins" in farm.refused(
        *INN, CHARD, "--every", "Fri", "--until", "2026-10-01"
    )


def test_an_order_is_corrected_ended_and_removed(ordered: Hand) -> None:
    ordered("orders", "edit", "1", "--what", "CHARD 3 lb at 2.80", "--every", "Fri", "--buyer", "the hall")
    assert ordered("orders", "list").lines[1].startswith("1 the hall CHARD 3 lb at $2.80 per lb every Fri 2026-10-16")
    assert "order 1 is of CHARD" in ordered.refused("orders", "edit", "1", "--what", KALE)
    ordered("orders", "end", "1", "--on", "2026-10-13")
    assert [line.split()[0] for line in ordered("orders", "list").lines] == ["no.", "2"]
    assert "over 2026-10-13" in ordered("orders", "list", "--all").lines[1]
    ordered("orders", "edit", "1", "--until", "-")
    ordered("orders", "remove", "2")
    assert len(ordered("orders", "list", "--all", "--json").data["orders"]) == 1
    assert "There is no standing order 2. See: farmops orders list" in ordered.refused("orders", "end", "2")


def test_the_pick_list_says_what_is_wanted_and_where_it_is(ordered: Hand) -> None:
    assert ordered("picks").lines == [
        "Hollow Lane: pick list for Wed 2026-10-14",
        "",
        "CHARD",
        "[ ] 2 lb for the inn",
        "WREN-N, ready since Sat 27 Jun; last picked Sat 20 Jun",
        "",
        "yellow perch",
        "[ ] 4 pieces for the inn",
        "P1, in WREN",
    ]
    thursday = ordered("picks", "--on", "2026-10-15")
    assert thursday.lines[2:] == ["Ready besides", "CHARD: WREN-N, ready since Sat 27 Jun; last picked Sat 20 Jun"]
    assert thursday.err.startswith("Nothing is ordered for Thu 2026-10-15. Next for Fri 2026-10-16.\nA standing order")


def test_the_weekday_of_today_is_today_and_any_other_the_next_one(ordered: Hand) -> None:
    assert ordered("picks", "--on", "wed").lines == ordered("picks").lines
    assert ordered("picks", "--on", "fri").lines[0].endswith("pick list for Fri 2026-10-16")
    assert ordered("picks", "--on", "tue").lines[0].endswith("pick list for Tue 2026-10-20")


def test_what_is_wanted_and_not_ready_is_said(farm: Hand) -> None:
    farm("plantings", "clear", "1", "--on", "2026-09-30")
    farm(*INN, CHARD, "--every", "Wed", "--from", "2026-10-01")
    assert farm("picks").lines[2:] == ["CHARD NOT READY", "[ ] 2 lb for the inn", "not growing here"]
    farm("plantings", "add", "WREN-N", "CHARD", "--on", "2026-10-05")
    said = farm("picks")
    assert said.lines[2] == "CHARD NOT READY"
    assert said.lines[4].startswith("WREN-N, ready from ")


def test_filling_orders_makes_one_sale_and_only_once(ordered: Hand) -> None:
    assert ordered("orders", "fill", "1", "2").err.splitlines() == [
        "Booked: $24.00 from the inn, 2026-10-14; number 1.",
        "  WREN-N CHARD 2 lb at $3.00 per lb: $6.00",
        "  P1 4 pieces for $18.00: $18.00",
    ]
    assert "[x] 2 lb for the inn, sold: sale 1" in ordered("picks").lines
    assert "order 1 of 2026-10-14 is filled by sale 1 already" in ordered.refused("orders", "fill", "1")
    assert "is not for Thu 2026-10-15, next on Fri 2026-10-16" in ordered.refused(
        "orders", "fill", "1", "--on", "2026-10-15"
    )


def test_a_part_is_handed_over_and_the_rest_is_left(ordered: Hand) -> None:
    ordered("orders", "fill", "1", "--what", "CHARD 12 oz at 3/lb")
    assert "[ ] 2 lb for the inn, 1 lb 4 oz left to fill" in ordered("picks").lines
    left = ordered("picks", "--json").data["ordered"][0]["orders"][0]
    assert (left["amount_g"], left["left_g"], left["sale"]) == (907.185, 566.991, 1)
    said = ordered("orders", "fill", "1", "--from", "WREN-N CHARD")
    assert "$3.75 from the inn" in said.err
    assert "sold: sale 2" in ordered("picks").lines[3]


def test_a_sale_is_to_one_buyer_and_of_what_was_ordered(ordered: Hand) -> None:
    ordered("orders", "add", "the hall", CHARD, "--every", "Wed")
    assert "these orders are of the hall and the inn" in ordered.refused("orders", "fill", "1", "3")
    assert "order 1 is of CHARD, not of yellow perch" in ordered.refused("orders", "fill", "1", "--from", "P1")
    two = ordered.refused("orders", "fill", "1", "2", "--from", "P1", code=2)
    assert "--from and --what are about one order" in two
