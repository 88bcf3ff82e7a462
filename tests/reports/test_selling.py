"""A booked line in the words that enter it again, whatever came back of it."""

from __future__ import annotations

import pytest

from farmops.farm.sales import take_in_return
from farmops.model.sales import ComingBack
from farmops.quantities import US
from farmops.records.store import Store
from farmops.reports import selling
from tests.farmhand import ADA, a_bed, a_crop, a_unit, on, plant, sell


@pytest.mark.parametrize(
    ("typed", "back", "paid"),
    [
        ("4 pieces for 18", 0, 1800),
        ("4 pieces for 18", 1, 1350),
        ("4 pieces for 18 unsold 1", 0, 1800),
        ("4 pieces for 18 unsold 1", 1, 1200),
        ("4 pieces weighing 2 lb at 4.55 unsold 1", 2, 455),
        ("4 pieces for 18", 4, 0),
    ],
)
def test_words_of_a_line_enter_the_same_money_again(farm_store: Store, typed: str, back: int, paid: int):
    planting = plant(farm_store, a_bed(farm_store, a_unit(farm_store)), a_crop(farm_store))
    sale = sell(farm_store, "the gate", on(6, 6), (planting, typed))
    if back:
        sale = take_in_return(farm_store, ComingBack(sale.lines[0].id, returned=back), by=ADA)
    assert sale.paid_minor == paid
    (line,) = selling.sale_lines(farm_store, [selling.as_typed(sale.lines[0], US)], on(6, 6))
    again = sell(farm_store, "the gate", on(6, 7), (planting, selling.as_typed(sale.lines[0], US).split(" ", 2)[2]))
    assert again.paid_minor == paid
    assert (line.planting_id, line.unsold, line.returned) == (planting.id, sale.lines[0].unsold, sale.lines[0].returned)
