"""Files of sales: a row is a line, rows of one day and buyer are one sale, and no line is booked twice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from farmops.exchange import packages
from farmops.exchange.file_imports import Said, carry_out, read_rows
from farmops.farm.sales import take_in_return
from farmops.model.errors import NotUnderstood
from farmops.model.sales import ComingBack, Sale, SoldBy
from farmops.quantities import US, parse_money
from farmops.reports import lists, selling
from tests.exchange.file_desk import Desk
from tests.farmhand import ADA, TODAY, a_bed, counted, everything_stored, on, plant, take_back

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


def _without_numbers(found: list[Sale]) -> list[Sale]:
    return [replace(one, id=0, lines=tuple(replace(line, id=0, sale_id=0) for line in one.lines)) for one in found]


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


def test_lines_of_an_export_find_their_day_and_buyer_in_the_table_beside_them(stall: Desk, tmp_path: Path) -> None:
    text = "date,buyer,what,amount,price,returned,note\n" + (
        "2026-05-05,the inn,CHARD,2 lb,3.50/lb,8 oz,early\n2026-05-05,the inn,PERCH-24,3 lb,for 21,,\n"
        "2026-05-06,the gate,CHARD,12 bunches,at 2.50,2,\n"
    )
    stall.take("sales", text)
    before = _without_numbers(_sales(stall))
    packages.export(stall.store, str(tmp_path / "out"))
    lines = tmp_path / "out" / "sale_line.csv"
    take_back(stall.store)
    assert _sales(stall) == []
    for booked in (3, 0):
        read = read_rows(stall.store, "sales", lines, Said(), today=TODAY)
        assert carry_out(stall.store, read, Said(), by=ADA).booked == booked
    assert _without_numbers(_sales(stall)) == before
    (tmp_path / "out" / "sale.csv").unlink()
    with pytest.raises(NotUnderstood, match=r"sale_line\.csv has no column date and no column buyer"):
        read_rows(stall.store, "sales", lines, Said(), today=TODAY)


def test_a_workbook_with_real_days_and_numbers(stall: Desk, tmp_path: Path) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Date", "Buyer", "What", "Amount (lb)", "Price (lb)", "Paid"])
    sheet.append([on(5, 5), "the inn", "CHARD", 2.5, 3.5, None])
    sheet.append([on(5, 5), "the inn", "CHARD", 1, None, 1234.5])
    book.save(tmp_path / "stall.xlsx")
    for booked in (2, 0):
        read = read_rows(stall.store, "sales", tmp_path / "stall.xlsx", Said(), today=TODAY)
        taken = carry_out(stall.store, read, Said(), by=ADA)
        assert (taken.booked, taken.refused) == (booked, ())
    assert [[line.paid_minor for line in one.lines] for one in _sales(stall)] == [[875, 123450]]


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
