"""A September of one unit in the books: bags bought, fed from and counted, a pump and its meter; every cent by hand.

Pellets: 20 lb for 24.00; 10 lb are fed, 12.00. With 20 lb more for 36.00 there are 30 lb for 48.00, 1.60 a pound; 5 lb
are fed, 8.00. Of the 25 lb that should be there 20 are found: 5 lb, 8.00, are missing. Together 28.00.
Power: the pump of 50 W draws 1.2 kWh a day, 20 days by its plate, 24 kWh, 4.80; on the ten days between two readings
the meter tells 15 kWh, 3.00. Together 7.80. Seed was 5.00, and the bill for power, 9.00, counts in cash alone.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.hand import TODAY, Hand
from tests.frozen import frozen

SPAN = ("--from", "2026-09-01", "--to", "2026-09-30")
SEPTEMBER = """
farm open|Quillet Bank|--zone|America/New_York
units add WREN --state running --on 2026-08-01
beds add WREN N|20 sq ft|--on 2026-08-01
crops add CHARD
plantings add WREN-N CHARD --on 2026-08-01
prices add CHARD 5/lb --on 2026-01-01
harvest WREN-N CHARD|10 lb|--use sold --on 2026-09-20
supplies add pellets --category feed --reorder|15 lb
supplies buy pellets|20 lb|24 --on 2026-09-01
supplies use pellets|10 lb|--unit WREN --on 2026-09-05
supplies buy pellets|20 lb|36 --on 2026-09-11
supplies use pellets|5 lb|--unit WREN --on 2026-09-15
supplies count pellets|20 lb|--on 2026-09-25
power price 0.20 --on 2026-09-01
power device add pump|50 W|--unit WREN --on 2026-09-01
power meter 100 --unit WREN --on 2026-09-11
power meter 115 --unit WREN --on 2026-09-21
costs add seed 5 --category seed-and-plants --unit WREN --on 2026-09-02
costs add|power bill|9 --category power --unit WREN --on 2026-09-30
"""


def words(line: str) -> list[str]:
    """A line of commands: words parted by blanks, those with blanks in them by bars."""
    parts = line.split("|")
    return [word for at, part in enumerate(parts) for word in ([part] if at % 2 else part.split())]


@pytest.fixture
def books(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Any:
    """The farm after that September."""
    with frozen(TODAY):
        hand = Hand(tmp_path / "books.db", capsys)
        for line in SEPTEMBER.strip().splitlines():
            hand(*words(line))
        yield hand


def cost(hand: Hand, basis: str) -> tuple[int, int]:
    """What WREN cost in September, and what it left, in cents."""
    (unit,) = hand("returns", "--basis", basis, *SPAN, "--json").data["units"]
    return unit["cost_cents"], unit["net_cents"]


def test_operating_cost_counts_what_was_used_and_cash_what_was_paid(books: Hand) -> None:
    assert cost(books, "operating") == (28_00 + 7_80 + 5_00, 50_00 - 40_80)
    assert cost(books, "cash") == (24_00 + 36_00 + 9_00 + 5_00, 50_00 - 74_00)


def test_the_cost_opens_down_to_uses_of_supplies_and_readings_of_the_meter(books: Hand) -> None:
    opened = books("why", "cost", "--unit", "WREN", "--basis", "operating", *SPAN).out
    for line in (
        "cost of WREN: $40.80",
        "supplies used: $20.00",
        "2026-09-05 pellets, 10 lb used  $12.00",
        "2026-09-15 pellets, 5 lb used  $8.00",
        "2026-09-25 pellets, 5 lb missing at a count  $8.00",
        "2026-09-01 to 2026-09-10: 12.0 kWh by rated watts (pump 50 W, 24 h a day)  $2.40",
        "2026-09-11 to 2026-09-20: 15.0 kWh by the meter (WREN 100.0 on 2026-09-11, WREN 115.0 on 2026-09-21)  $3.00",
        "2026-09-21 to 2026-09-30: 12.0 kWh by rated watts (pump 50 W, 24 h a day)  $2.40",
        "Power bills are left out: the power that was used counts instead.",
    ):
        assert line in opened, f"{line}\nis not in\n{opened}"


def test_what_is_left_stands_in_the_list_at_its_worth(books: Hand) -> None:
    (pellets,) = books("supplies", "list", "--on", "2026-09-30", "--json").data["supplies"]
    assert (pellets["worth_cents"], pellets["to_reorder"]) == (24_00 + 36_00 - 28_00, False)
    books("supplies", "use", "pellets", "5 lb", "--on", "2026-10-01")
    assert books("supplies", "list").lines[1].endswith("to reorder")


def test_another_reading_moves_the_cost_and_undo_brings_it_back(books: Hand) -> None:
    books("power", "meter", "127", "--unit", "WREN", "--on", "2026-10-01")
    assert cost(books, "operating") == (40_80, 9_20)
    books("power", "meter", "130", "--unit", "WREN", "--on", "2026-10-01")
    assert cost(books, "operating") == (40_80 + 60, 9_20 - 60)
    books("undo")
    books("undo")
    books("supplies", "remove", "used", "2")
    # 30 lb at 1.60 with 20 found: 10 lb are missing, as much as before
    assert cost(books, "operating") == (40_80, 9_20)
