"""From the scale to the books: what is weighed, sold and asked about, in cents, by command alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.hand import Hand, build_row
from tests.frozen import frozen

JUNE = ("--from", "2026-06-01", "--to", "2026-06-30", "--on", "2026-10-14")


@pytest.fixture
def hand(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Hand:
    """A hand at Hollow Lane, where 1 lb 6 oz of chard were marked sold on 20 June."""
    found = Hand(tmp_path / "farm.db", capsys)
    with frozen("2026-10-14"):
        build_row(found)
    return found


def test_a_pound_that_is_sold_is_worth_what_was_paid_down_to_the_line(hand: Hand) -> None:
    """8 lb and 1 lb 6 oz are marked sold; 5 lb and 3 lb are in sales; 1 lb is eaten; the list says 3.50 a pound."""
    hand("harvest", "WREN-N", "CHARD", "8 lb", "--use", "sold", "--on", "2026-06-27")
    hand("harvest", "WREN-N", "CHARD", "1 lb", "--on", "2026-06-27")
    assert _value(hand) == 481 + 2800 + 350
    hand("sales", "add", "the gate stall", "--line", "CHARD 5 lb at 4.25/lb", "--on", "2026-06-27")
    hand("sales", "add", "the inn", "--line", "WREN-N CHARD 4 lb for 15 unsold 1 lb", "--on", "2026-06-28")
    assert _value(hand) == 2125 + 1500 + 481 + 350
    said = hand("returns", *JUNE)
    assert "Sales cover 8 lb of the 9 lb 6 oz marked sold; the rest is valued at the price list." in said.err
    why = hand("why", "value", "--unit", "WREN", *JUNE).lines
    assert "paid in sales of produce of WREN: $36.25" in why
    assert "sales 1: 2026-06-27 the gate stall, WREN-N CHARD 5 lb at $4.25 per lb $21.25" in why
    assert "sales 2: 2026-06-28 the inn, WREN-N CHARD 4 lb for $15.00, less 1 lb unsold $15.00" in why
    assert "harvests 1: 2026-06-20 CHARD 1 6 (sold) $4.81" in why
    assert "harvests 3: 2026-06-27 CHARD 1 lb (home) $3.50" in why


def test_what_comes_back_and_what_is_undone_moves_the_value_to_the_cent(hand: Hand) -> None:
    hand("sales", "add", "the gate stall", "--line", "CHARD 1 6 at 4.01/lb", "--on", "2026-06-21")
    assert _value(hand) == 551
    hand("sales", "return", "1", "6 oz")
    assert _value(hand) == 401 + 131
    hand("undo")
    hand("undo")
    assert _value(hand) == 481


def _value(hand: Hand) -> int:
    found = hand("returns", *JUNE, "--json").data
    assert found["farm"]["value_cents"] == found["units"][0]["value_cents"]
    return int(found["farm"]["value_cents"])
