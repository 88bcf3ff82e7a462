"""Files of supplies, papers and costs that come again: what the farm makes of the rows."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.exchange.file_imports import Said
from farmops.model.costs import Category
from farmops.model.supplies import HeldBy
from farmops.reports import lists, recurring
from farmops.reports.papers_held import papers_held
from farmops.reports.supplies_held import supplies, supply_book, supply_called
from tests.exchange.file_desk import Desk
from tests.exchange.test_files_of_money_and_stores import FILES
from tests.farmhand import on

pytestmark = pytest.mark.usefixtures("stands_still")


def test_a_grower_s_own_sheet_with_other_heads_commas_and_days(store_room: Desk) -> None:
    text = "Tag;Sache;kg;Summe\n13/05/2026;pellets;2,5;12,40\n03/06/2026;pellets;1;5\n"
    meant = {"Tag": "date", "Sache": "supply", "kg": "amount (kg)", "Summe": "paid"}
    read = store_room.read("supplies bought", text, Said(meant))
    assert read.told == ("Days such as 03/05/2026 are read day first.", "Numbers are read with a decimal comma.")
    assert store_room.take("supplies bought", text, Said(meant)).booked == 2
    book = supply_book(store_room.store, supply_called(store_room.store, "pellets"))
    assert [(one.day, one.amount, one.cost_minor) for one in book.lots] == [
        (on(6, 3), 1_000_000, 500),
        (on(5, 13), 2_500_000, 1240),
    ]


def test_supplies_are_what_the_rows_say_they_are(store_room: Desk) -> None:
    store_room.take("supplies", FILES["supplies"][0] + FILES["supplies"][1])
    found = {one.name: (one.held_by, one.category, one.reorder_typed) for one in supplies(store_room.store)}
    assert found["filter pads"] == (HeldBy.COUNT, Category.REPAIRS, "2")
    assert found["kelp"] == (HeldBy.VOLUME, Category.SUPPLIES, "2 gal")
    assert found["seed trays"] == (HeldBy.MASS, Category.SEED, None)


def test_what_was_bought_is_a_cost_and_a_count_sets_the_stock(store_room: Desk) -> None:
    for kind in ("supplies bought", "supplies used"):
        heads, rows, _ = FILES[kind]
        store_room.take(kind, heads + rows)
    paid = lists.costs(store_room.store, date.min, date.max)
    assert [(one.what, one.amount_minor, one.payee, one.category) for one in paid] == [
        ("pellets", 4250, "the mill", Category.FEED)
    ]
    assert supply_book(store_room.store, supply_called(store_room.store, "pellets")).line.held == 0


def test_a_later_paper_renews_the_one_before_and_costs_that_come_again_wait_for_their_days(store_room: Desk) -> None:
    store_room.take(
        "papers", "kind,name,from,until\npermit,fish,2025-01-01,2025-12-31\npermit,fish,2026-01-01,2026-12-31\n"
    )
    held = papers_held(store_room.store, on(10, 14))
    assert [(one.paper.from_day.year, one.paper.renewed) for one in sorted(held, key=lambda one: one.paper.id)] == [
        (2025, True),
        (2026, False),
    ]
    heads, rows, _ = FILES["recurring costs"]
    store_room.take("recurring costs", heads + rows)
    due = {one.cost.what: len(one.due) for one in recurring.recurring(store_room.store, on(10, 14))}
    assert due == {"stall rent": 8, "well": 1}
    assert lists.costs(store_room.store, date.min, date.max) == []
