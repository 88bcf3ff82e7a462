"""Files of what stands once for a day: another price, rate or reading of a meter is asked about."""

from __future__ import annotations

import pytest

from farmops.exchange.file_imports import Said
from farmops.reports.power_used import power_book
from tests.exchange.file_desk import Desk
from tests.farmhand import counted, everything_stored, take_back

pytestmark = pytest.mark.usefixtures("stands_still")
SAME_DAY = [
    (
        "prices",
        "what,from,price\nCHARD,2026-03-01,3.50/lb\n",
        "3.50",
        "4.00",
        "CHARD is worth $3.50 per lb from 2026-03-01",
    ),
    ("power prices", "from,price\n2026-03-01,0.16\n", "0.16", "0.18", "power costs $0.16 per kWh from 2026-03-01"),
    ("labour rates", "from,rate\n2026-03-01,15\n", "15", "16", "an hour of everybody is worth $15.00 from 2026-03-01"),
    (
        "drivers",
        "from,driver,shares\n2026-03-01,fixed shares,WREN=2\n",
        "WREN=2",
        "WREN=3",
        "shared costs (all) go by fixed shares from 2026-03-01",
    ),
    (
        "splits",
        "from,method,produce (%)\n2026-03-01,fixed shares,70\n",
        ",70",
        ",62.5",
        "produce and fish split a cost by fixed shares from 2026-03-01",
    ),
    (
        "meter readings",
        "date,shown,unit\n2026-05-01,100,WREN\n",
        ",100",
        ",101",
        "the meter of WREN showed 100.0 kWh on",
    ),
]


@pytest.mark.parametrize(("kind", "text", "was", "now", "question"), SAME_DAY)
def test_what_stands_for_a_day_gives_way_only_when_the_grower_is_sure(
    store_room: Desk, kind: str, text: str, was: str, now: str, question: str
) -> None:
    assert store_room.take(kind, text).booked == 1
    before, rows = everything_stored(store_room.store), counted(store_room.store)
    other = text.replace(was, now)
    asked = store_room.take(kind, other)
    assert (asked.booked, asked.exit_code) == (0, 1)
    assert asked.asked[0].question.startswith(question)
    assert everything_stored(store_room.store) == before
    assert store_room.take(kind, other, Said(sure=True)).booked == 1
    assert {**counted(store_room.store), "journal": rows["journal"]} == rows
    assert store_room.take(kind, other).already == 1
    take_back(store_room.store)
    assert everything_stored(store_room.store) == before


@pytest.mark.parametrize(("kind", "text", "was", "now", "question"), SAME_DAY)
def test_two_rows_of_a_file_that_say_different_things_of_a_day_are_not_both_booked(
    store_room: Desk, kind: str, text: str, was: str, now: str, question: str
) -> None:
    twofold = text + text.replace(was, now).partition("\n")[2]
    for sure in (False, True):
        taken = store_room.take(kind, twofold, Said(sure=sure))
        assert (taken.booked, [one.line for one in taken.refused]) == (1, [3])
        assert taken.refused[0].reason.startswith(f"a row above it says otherwise: {question}")
        take_back(store_room.store)


def test_meters_may_not_run_backwards_from_one_row_to_the_next(store_room: Desk) -> None:
    text = "date,shown\n2026-05-08,112\n2026-05-01,120\n2026-05-15,130\n"
    taken = store_room.take("meter readings", text)
    assert (taken.booked, [one.line for one in taken.refused]) == (2, [3])
    assert [one.shown_wh for one in power_book(store_room.store).meters] == [112_000, 130_000]
