"""What of sales and orders the farm does not book, and that the rules hold when something else is undone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from farmops.farm import orders, sales
from farmops.farm.plantings import change_planting
from farmops.model.errors import FarmopsError, NotFound, OutOfRange, Refused
from farmops.model.plantings import PlantingChange
from farmops.model.sales import ComingBack, NewOrder, NewSale, NewSaleLine, OrderChange, SaleChange, SoldBy, Terms
from farmops.model.values import Measured
from tests.farmhand import ADA, BOB, everything_stored, on, sale_line, sell, take_back
from tests.land import Land

BUNCHES = Terms(SoldBy.BUNCH, Measured(6, "6 bunches"), 250, 1, "at 2.50")
POUNDS = Terms(SoldBy.WEIGHT, Measured(907_185, "2 lb"), 35_000, 45_359_237, "at 3.50")


def _sale(**more: Any) -> Callable[[Land], NewSale]:
    def entry(land: Land) -> NewSale:
        return NewSale(on(9, 9), "the gate", (NewSaleLine(**{"terms": BUNCHES, "planting_id": land.basil.id, **more}),))

    return entry


REFUSED: list[tuple[str, type[FarmopsError], str, Any, Callable[[Land], Any]]] = [
    ("no lines", Refused, "Name at least one line", sales.record_sale, lambda _: NewSale(on(9, 9), "the gate", ())),
    ("no such planting", NotFound, "99", sales.record_sale, _sale(planting_id=99)),
    ("no such lot", NotFound, "99", sales.record_sale, _sale(planting_id=None, fish_lot_id=99)),
    ("from nothing", Refused, "of one planting or of one fish lot", sales.record_sale, _sale(planting_id=None)),
    ("from two", Refused, "of one planting or of one fish lot", sales.record_sale, _sale(fish_lot_id=1)),
    ("more back", Refused, "more would have come back", sales.record_sale, _sale(unsold=4, returned=3)),
    ("less than nothing back", Refused, "more would have come back", sales.record_sale, _sale(returned=-1)),
    (
        "nothing",
        OutOfRange,
        "an amount is more than nothing",
        sales.record_sale,
        _sale(terms=replace(BUNCHES, amount=Measured(0, "0 bunches"))),
    ),
    (
        "a price below nothing",
        OutOfRange,
        "a price is nothing or more",
        sales.record_sale,
        _sale(terms=replace(BUNCHES, price_minor=-1)),
    ),
    (
        "more money than is kept",
        OutOfRange,
        "larger than any that is kept",
        sales.record_sale,
        _sale(terms=replace(BUNCHES, price_minor=10**12)),
    ),
    (
        "a weight beside a weight",
        Refused,
        "beside an amount sold by count",
        sales.record_sale,
        _sale(terms=POUNDS, mass=Measured(5, "5 mg")),
    ),
    (
        "no buyer",
        FarmopsError,
        "name of the buyer is empty",
        sales.record_sale,
        lambda land: replace(_sale()(land), buyer=" "),
    ),
    (
        "before it was planted",
        Refused,
        "THAI BASIL was sold on 2026-06-01, and is there only since 2026-06-02",
        sales.record_sale,
        lambda land: replace(_sale()(land), day=on(6, 1)),
    ),
    (
        "moved before it was planted",
        Refused,
        "is there only since",
        sales.change_sale,
        lambda land: SaleChange(land.sold.id, on(4, 1)),
    ),
    (
        "all lines gone",
        Refused,
        "Name at least one line",
        sales.change_sale,
        lambda land: SaleChange(land.sold.id, lines=()),
    ),
    (
        "nothing back",
        OutOfRange,
        "more than nothing",
        sales.take_in_return,
        lambda land: ComingBack(land.sold.lines[1].id),
    ),
    (
        "more back than was left",
        Refused,
        "more would have come back",
        sales.take_in_return,
        lambda land: ComingBack(land.sold.lines[1].id, returned=3),
    ),
    (
        "an order after doing",
        Refused,
        "an order comes on days of the calendar",
        orders.record_order,
        lambda land: NewOrder("the inn", BUNCHES, "2 weeks after", on(9, 9), crop_id=land.kale.id),
    ),
    (
        "an order of nothing",
        Refused,
        "of one crop or of fish of one species",
        orders.record_order,
        lambda _: NewOrder("the inn", BUNCHES, "week", on(9, 9)),
    ),
    (
        "an order that ends first",
        Refused,
        "would end on 2026-08-31, before it begins on 2026-09-01",
        orders.change_order,
        lambda land: OrderChange(land.bunches.id, until_day=on(8, 31)),
    ),
]


@pytest.mark.parametrize(
    ("kind", "words", "function", "entry"), [pytest.param(*refusal, id=name) for name, *refusal in REFUSED]
)
def test_the_farm_refuses(
    laid: Land, kind: type[FarmopsError], words: str, function: Any, entry: Callable[[Land], Any]
):
    before = everything_stored(laid.store)
    with pytest.raises(kind) as told:
        function(laid.store, entry(laid), by=ADA)
    assert words in str(told.value)
    assert everything_stored(laid.store) == before


def test_a_planting_is_not_undone_to_start_after_it_was_sold(land: Land):
    change_planting(land.store, PlantingChange(land.basil.id, started_day=on(5, 20)), by=ADA)
    sell(land.store, "the gate", on(5, 25), (land.basil, "3 bunches at 2"), by=BOB)
    with pytest.raises(Refused, match="THAI BASIL was sold on 2026-05-25, and is there only since 2026-06-02"):
        take_back(land.store)


def test_a_week_follows_the_first_day_when_that_is_moved(land: Land):
    """`week` from a Tuesday means Tuesdays; an order by weekday keeps its days."""
    entry = NewOrder("the inn", BUNCHES, "week", on(9, 1), crop_id=land.kale.id)
    weekly = orders.record_order(land.store, entry, by=ADA)
    assert weekly.rule_words == "every Tue"
    moved = orders.change_order(land.store, OrderChange(weekly.id, start_day=on(9, 4)), by=ADA)
    assert (moved.start_day, moved.rule_words) == (on(9, 4), "every Tue")


def test_correcting_a_sale_keeps_the_lines_that_are_not_said(land: Land):
    changed = sales.change_sale(land.store, SaleChange(land.sold.id, note="wet"), by=ADA)
    assert [line.id for line in changed.lines] == [line.id for line in land.sold.lines]
    line = sale_line(land.kale_north, "3 bunches at 2")
    assert sales.change_sale(land.store, SaleChange(land.sold.id, lines=(line,)), by=ADA).paid_minor == 600
