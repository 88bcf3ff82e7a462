"""Files of sales: a row is a line, rows of one day and buyer are one sale, and no line is booked twice."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.exchange.file_imports import Said
from farmops.farm.sales import take_in_return
from farmops.model.sales import ComingBack, Sale, SoldBy
from farmops.quantities import US, parse_money
from farmops.reports import lists, selling
from tests.exchange.file_desk import Desk
from tests.farmhand import ADA, a_bed, counted, everything_stored, on, plant, take_back

pytestmark = pytest.mark.usefixtures("stands_still")
HEADS = "date,buyer,what,amount,price,paid\n"


@pytest.fixture
def stall(desk: Desk) -> Desk:
    """The farm of the desk, with chard that grows in WREN-N."""
    (bed,), (crop,) = lists.beds(desk.store), lists.crops(desk.store)
    plant(desk.store, bed.bed, crop)
    return desk


def _sales(desk: Desk) -> list[Sale]:
    return selling.sales(desk.store, date.min, date.max)


def test_rows_of_one_day_and_buyer_are_one_sale_whatever_stands_between_them(stall: Desk) -> None:
    text = HEADS + (
        "2026-05-05,the inn,CHARD,2 lb,3.50/lb,\n"
        "2026-05-05,the gate,CHARD,3 heads,1.20,\n"
        "2026-05-05,The  Inn,PERCH-24,3 lb,,21\n"
        "2026-05-06,the inn,CHARD,1 lb,3.50,\n"
    )
    assert stall.take("sales", text).booked == 4
    found = [(one.day, one.buyer, [line.name for line in one.lines], one.paid_minor) for one in _sales(stall)]
    assert found == [
        (on(5, 5), "the inn", ["WREN-N CHARD", "PERCH-24"], 2800),
        (on(5, 5), "the gate", ["WREN-N CHARD"], 360),
        (on(5, 6), "the inn", ["WREN-N CHARD"], 350),
    ]


def test_sales_of_one_day_and_buyer_are_told_apart_by_the_number_of_their_slip(stall: Desk) -> None:
    text = "date,buyer,what,amount,price,receipt\n" + "".join(
        f"2026-05-05,the inn,CHARD,{pounds} lb,3,{slip}\n" for pounds, slip in ((1, 7), (2, 8), (3, 7))
    )
    stall.take("sales", text)
    assert [[line.amount_typed for line in one.lines] for one in _sales(stall)] == [["1 lb", "3 lb"], ["2 lb"]]


def test_a_first_line_that_is_refused_leaves_the_sale_to_the_next(stall: Desk) -> None:
    text = HEADS + (
        "2026-04-10,the inn,PERCH-24,1 lb,8,\n"
        "2026-04-10,the inn,CHARD,1 lb,3,\n"
        "2026-04-10,the inn,CHARD,2 lb,3,\n"
        "2026-04-11,the gate,PERCH-24,2 lb,8,\n"
    )
    taken = stall.take("sales", text)
    assert (taken.booked, [one.line for one in taken.refused]) == (2, [2, 5])
    assert [(one.buyer, len(one.lines)) for one in _sales(stall)] == [("the inn", 2)]


def test_a_file_that_has_grown_adds_its_new_lines_alone_and_what_came_back_makes_no_other_line(stall: Desk) -> None:
    text = HEADS + "2026-05-05,the inn,CHARD,2 lb,3.50,\n2026-05-05,the inn,CHARD,2 lb,3.50,\n"
    assert stall.take("sales", text).booked == 2
    ((first, _),) = (one.lines for one in _sales(stall))
    take_in_return(stall.store, ComingBack(first.id, returned=first.amount // 2), by=ADA)
    again = stall.take("sales", text + "2026-05-05,the inn,CHARD,1 lb,3.50,\n")
    assert (again.booked, again.already) == (1, 2)


def test_what_came_back_is_not_paid_for_and_a_sum_in_all_is_for_what_stayed(stall: Desk) -> None:
    text = "date,buyer,what,amount,price,paid,unsold,returned,weighing (lb)\n" + (
        "2026-05-05,the inn,CHARD,12 bunches,2.50,,2,1 bunch,6\n2026-05-05,the inn,CHARD,5 lb,,9,8 oz,0,\n"
    )
    stall.take("sales", text)
    ((bunches, pounds),) = (one.lines for one in _sales(stall))
    assert (bunches.sold_by, bunches.sold, bunches.paid_minor, bunches.mass_typed) == (SoldBy.BUNCH, 9, 2250, "6 lb")
    assert (pounds.unsold, pounds.paid_minor) == (226796, 900)


def test_the_bed_that_is_meant_is_named_or_stands_beside_the_crop(stall: Desk) -> None:
    (unit,) = (one.unit for one in lists.units(stall.store))
    (crop,) = lists.crops(stall.store)
    plant(stall.store, a_bed(stall.store, unit, "S"), crop, on(4, 1))
    heads = "date,buyer,what,amount,price,unit,bed\n"
    (said,) = stall.reasons("sales", heads + "2026-05-05,the inn,CHARD,1 lb,3,,\n")
    assert said.startswith("line 2, what: Which CHARD? WREN-N CHARD, WREN-S CHARD.")
    rows = "2026-05-05,the inn,WREN-S CHARD,1 lb,3,,\n2026-05-05,the inn,chard,2 lb,3,wren,s\n"
    assert stall.take("sales", heads + rows).booked == 2
    assert {line.bed for one in _sales(stall) for line in one.lines} == {"WREN-S"}


def test_kilograms_commas_and_a_price_per_kilogram_in_the_heads(stall: Desk) -> None:
    text = "Tag;Kunde;what;kg;je kg\n13/05/2026;the inn;CHARD;1,5;7,20\n"
    meant = {"Tag": "date", "Kunde": "buyer", "kg": "amount (kg)", "je kg": "price (kg)"}
    assert stall.take("sales", text, Said(meant)).booked == 1
    assert [(one.day, one.paid_minor) for one in _sales(stall)] == [(on(5, 13), 1080)]


def test_nothing_of_a_whole_file_is_booked_where_one_line_cannot_be(stall: Desk) -> None:
    text = HEADS + "2026-05-05,the inn,CHARD,2 lb,3.50,\n2026-05-05,the inn,BEET,2 lb,3.50,\n"
    before = everything_stored(stall.store)
    whole = stall.take("sales", text, Said(whole=True))
    assert (whole.booked, len(whole.refused), whole.exit_code) == (0, 1, 1)
    assert everything_stored(stall.store) == before


LINE = st.tuples(
    st.integers(1, 3),
    st.sampled_from(["the inn", "The Inn", "the gate"]),
    st.integers(1, 4),
    st.sampled_from(["1.00", "2.50"]),
)


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(lines=st.lists(LINE, min_size=1, max_size=8))
def test_what_is_paid_for_is_what_the_lines_say_and_a_second_time_adds_nothing(
    stall: Desk, lines: list[tuple[int, str, int, str]]
) -> None:
    before = everything_stored(stall.store)
    text = HEADS + "".join(
        f"2026-05-0{day},{buyer},CHARD,{heads} heads,{price},\n" for day, buyer, heads, price in lines
    )
    assert stall.take("sales", text).booked == len(lines)
    found = _sales(stall)
    assert sum(one.paid_minor for one in found) == sum(heads * parse_money(price, US) for _, _, heads, price in lines)
    assert len(found) == len({(day, buyer.casefold()) for day, buyer, *_ in lines})
    counts = counted(stall.store)
    assert stall.take("sales", text).already == len(lines)
    assert counted(stall.store) == counts
    take_back(stall.store)
    assert everything_stored(stall.store) == before
