"""What counts is worth what was paid where sales cover it, and the price list's price where they do not; by hand."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest

from farmops.figures import Figure, Records
from farmops.model.costs import Basis
from farmops.model.harvests import Use
from farmops.model.plantings import Planting
from farmops.records.store import Store
from farmops.reports import names
from farmops.reports.returns import Asked, Returns, monthly, returns
from farmops.reports.worth import no_price
from farmops.reports.yields import By, yields
from tests.farmhand import TODAY, a_bed, a_crop, a_unit, on, plant, price, sell, stock, take_back, weigh

JUNE = Asked(TODAY, on(6, 1), on(6, 30), Basis.OPERATING)


@pytest.fixture
def chard(farm_store: Store) -> Planting:
    """Of chard at 3 dollars a pound on the list, 14 lb were marked sold in June and 1 lb was eaten."""
    crop = a_crop(farm_store)
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), crop)
    price(farm_store, crop, "3/lb")
    weigh(farm_store, planting, "10 lb", on(6, 6), Use.SOLD)
    weigh(farm_store, planting, "4 lb", on(6, 13), Use.SOLD)
    weigh(farm_store, planting, "1 lb", on(6, 13))
    return planting


def produce(store: Store, asked: Asked = JUNE) -> Figure:
    return returns(store, asked).units[0].value_of_produce


def lines(figure: Figure) -> list[tuple[str, int]]:
    found: Records | None = figure.records
    assert found is not None
    return [(one.words, int(one.amount)) for one in found.lines()]


def parts(figure: Figure) -> dict[str, int]:
    return {one.name: int(one.value or 0) for one in figure.parts}


def everything(found: Returns) -> Iterator[Figure]:
    for line in (*found.units, found.farm):
        for figure in line.figures().values():
            yield from figure.walk()


def test_without_a_sale_all_is_at_the_price_list_and_says_so(farm_store: Store, chard: Planting):
    value = produce(farm_store)
    assert (value.value, value.note) == (4500, "No sale covers the 14 lb marked sold: valued at the price list.")


def test_a_cent_between_the_list_and_a_sale_of_the_same_weight_is_said(farm_store: Store, chard: Planting):
    """12 oz at 3.50 a pound are half a cent above 2.62 by the weight as typed, and a little less in whole mg."""
    price(farm_store, names.crop(farm_store, "CHARD"), "3.50/lb", on(7, 1))
    weigh(farm_store, chard, "12 oz", on(7, 1), Use.SOLD)
    july = Asked(TODAY, on(7, 1), on(7, 31), Basis.OPERATING)
    listed = produce(farm_store, july)
    assert listed.value == 262
    assert "in whole mg" in listed.formula
    assert "may differ by a cent" in listed.formula
    sell(farm_store, "the gate", on(7, 1), (chard, "12 oz at 3.50/lb"))
    assert produce(farm_store, july).value == 263


def test_what_sales_cover_counts_at_what_was_paid(farm_store: Store, chard: Planting):
    """8 lb at 3.50 and 4 lb 4 oz for 16 dollars; 1 lb 12 oz is left at 3 dollars, and 1 lb was eaten."""
    sell(farm_store, "the gate", on(6, 6), (chard, "8 lb at 3.50/lb"))
    sell(farm_store, "the inn", on(6, 14), (chard, "4 lb 4 oz for 16"))
    value = produce(farm_store)
    assert parts(value) == {
        "paid in sales of produce of WREN": 2800 + 1600,
        "sold and in no sale, produce of WREN": 525,
        "eaten at home or given, produce of WREN": 300,
    }
    assert value.value == 5225
    assert value.note == "Sales cover 12 lb 4 oz of the 14 lb marked sold; the rest is valued at the price list."
    assert lines(value.parts[0]) == [
        ("2026-06-06 the gate, WREN-N CHARD 8 lb at $3.50 per lb", 2800),
        ("2026-06-14 the inn, WREN-N CHARD 4 lb 4 oz for $16.00", 1600),
    ]
    assert lines(value.parts[1]) == [("2026-06-06 CHARD 10 lb (sold), 1 lb 12 oz of it in no sale", 525)]
    found = returns(farm_store, JUNE)
    assert found.sales.words == (value.note,)
    assert [figure for figure in everything(found) if not figure.adds_up()] == []


def test_cash_costs_and_yields_are_what_they_were(farm_store: Store, chard: Planting):
    before = returns(farm_store, Asked(TODAY, on(6, 1), on(6, 30), Basis.CASH)).units[0]
    sell(farm_store, "the gate", on(6, 6), (chard, "8 lb at 3.50/lb"))
    after = returns(farm_store, Asked(TODAY, on(6, 1), on(6, 30), Basis.CASH)).units[0]
    assert (after.cost.value, after.marketable.value) == (before.cost.value, before.marketable.value)
    take_back(farm_store)
    assert produce(farm_store).value == 4500


def test_what_came_back_is_not_paid_and_not_covered(farm_store: Store, chard: Planting):
    """Of 8 lb taken along 2 lb were unsold and 1 lb came back: 5 lb at 3.50, 9 lb of 14 at 3 dollars, 1 lb eaten."""
    sell(farm_store, "the gate", on(6, 6), (chard, "8 lb at 3.50/lb unsold 2 lb returned 1 lb"))
    assert produce(farm_store).value == 1750 + 2700 + 300


def test_no_pound_counts_twice(farm_store: Store, chard: Planting):
    """20 lb were sold for 80 dollars where 14 lb are marked sold: 56 dollars count, and the rest is told."""
    sell(farm_store, "the gate", on(6, 14), (chard, "20 lb at 4/lb"))
    found = returns(farm_store, JUNE)
    assert found.units[0].value_of_produce.value == 5600 + 300
    assert found.sales.words == (
        "Sales cover all of the 14 lb marked sold.",
        "$24.00 was paid for more than is marked sold, and is left out: mark those weighings as sold, or give the "
        "sale its weight.",
    )


def test_bunches_that_were_not_weighed_are_what_is_left_of_the_week(farm_store: Store, chard: Planting):
    """6 bunches on the 13th are the 4 lb of that day; what was picked a week before stays at the list."""
    sell(farm_store, "the gate", on(6, 13), (chard, "6 bunches at 2.50"))
    value = produce(farm_store)
    assert value.value == 1500 + 3000 + 300
    assert (value.note or "").startswith("Sales cover 4 lb of the 14 lb")


def test_what_is_sold_later_counts_where_it_was_weighed(farm_store: Store, chard: Planting):
    weigh(farm_store, chard, "2 lb", on(7, 2), Use.SOLD)
    sell(farm_store, "the gate", on(7, 4), (chard, "6 lb at 5/lb"))
    june, july = (one.units[0].value_of_produce for one in monthly(farm_store, Asked(TODAY, on(6, 1), on(7, 31))))
    assert (june.value, july.value) == (2000 + 3000 + 300, 1000)
    words = "2026-07-04 the gate, WREN-N CHARD 6 lb at $5.00 per lb, a part of $30.00"
    assert lines(july.parts[0]) == [(words, 1000)]
    assert produce(farm_store, Asked(TODAY, on(6, 1), on(7, 31))).value == june.value + july.value


def test_what_is_sold_needs_no_list_price(farm_store: Store):
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store))
    weigh(farm_store, planting, "4 lb", on(6, 13), Use.SOLD)
    assert produce(farm_store).reason == no_price("CHARD")
    sell(farm_store, "the gate", on(6, 14), (planting, "3 lb at 4"))
    assert produce(farm_store).reason == no_price("CHARD")
    sell(farm_store, "the gate", on(6, 14), (planting, "1 lb at 4"))
    assert produce(farm_store).value == 1600
    weigh(farm_store, planting, "1 lb", on(6, 13))
    assert produce(farm_store).reason == no_price("CHARD")


def test_fish_and_produce_beds_and_crops_keep_their_own_sales(farm_store: Store, chard: Planting):
    perch = stock(farm_store, _unit(farm_store))
    weigh(farm_store, perch, "2 lb", on(6, 20), Use.SOLD, number=4)
    sell(farm_store, "the gate", on(6, 20), (perch, "4 pieces at 4.50"), (chard, "2 lb at 5"))
    wren = returns(farm_store, JUNE).units[0]
    assert (wren.value_of_fish.value, wren.value_of_produce.value) == (1800, 1000 + 3600 + 300)
    for by, value in ((By.BED, wren.value_of_produce), (By.CROP, wren.value_of_produce), (By.LOT, wren.value_of_fish)):
        (line,) = yields(farm_store, JUNE, by).lines
        assert line.value.value == value.value
        assert all(figure.adds_up() for figure in line.value.walk())
    assert wren.value.value == 1800 + 4900


def _unit(store: Store):
    from farmops.reports import lists

    return lists.units(store)[0].unit


def test_a_span_of_one_day_knows_the_sales_of_other_days(farm_store: Store, chard: Planting):
    sell(farm_store, "the gate", on(6, 14), (chard, "5 lb at 4/lb"))
    assert _on(farm_store, on(6, 13)).value == 1600 + 300
    assert _on(farm_store, on(6, 6)).value == 400 + 2700


def _on(store: Store, day: date) -> Figure:
    return produce(store, Asked(TODAY, day, day))
