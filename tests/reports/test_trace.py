"""A lot is followed from its first day to the buyer, with what happened around it and nothing that did not."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

import pytest

from farmops.facts import fish as fish_facts
from farmops.facts import plantings as planting_facts
from farmops.facts import sales as sale_facts
from farmops.model.errors import NotFound
from farmops.model.lot_codes import LotCode, read_lot_code
from farmops.reports import lists
from farmops.reports.trace import ADDED, BEGIN, FED, FISH, SOLD, TREATED, WATER, WEIGHED, WORK, TraceLine, trace
from tests.farmhand import TODAY
from tests.land import Land

LONG_AGO = TODAY - timedelta(days=3650)


def of_kind(lines: Iterable[TraceLine], *kinds: str) -> list[TraceLine]:
    return [one for one in lines if one.kind in kinds]


def test_every_planting_names_its_weighings_and_sales_and_no_others(laid: Land) -> None:
    with laid.store.reading() as reader:
        plantings = planting_facts.plantings(reader)
        sold = [line for sale in sale_facts.sales(reader, LONG_AGO, TODAY) for line in sale.lines]
    harvests = lists.harvests(laid.store, LONG_AGO, TODAY)
    assert any(one.planting_id for one in sold)
    for planting in plantings:
        found = trace(laid.store, LotCode(planting.bed, planting.id))
        assert [one.kind for one in found.lines].count(BEGIN) == 1
        codes = [one.words.split(":")[0] for one in of_kind(found.lines, WEIGHED)]
        assert sorted(codes) == sorted(one.lot_code for one in harvests if one.planting_id == planting.id)
        assert len(found.buyers()) == len([one for one in sold if one.planting_id == planting.id])


def test_a_weighing_is_found_by_the_code_on_its_label(laid: Land) -> None:
    for one in lists.harvests(laid.store, LONG_AGO, TODAY):
        found = trace(laid.store, read_lot_code(one.lot_code))
        weighed = of_kind(found.lines, WEIGHED)
        assert all(line.day == one.day and line.by for line in weighed)
        assert any(line.words.startswith(f"{one.lot_code}: ") for line in weighed)
        around = [line.day for line in found.lines if line.kind != BEGIN]
        assert all(found.span.first <= day <= found.span.last for day in around)


def test_the_water_of_its_own_unit_alone_stands_beside_it(laid: Land) -> None:
    found = trace(laid.store, LotCode("PERCH-24"))
    units = {line.where for line in of_kind(found.lines, WATER)}
    with laid.store.reading() as reader:
        lived = {stay.unit_id for stay in fish_facts.stays(reader) if stay.lot_id == laid.perch.id}
    named = {one.unit.id: one.unit.code for one in lists.units(laid.store)}
    assert units
    assert units <= {named[id] for id in lived}


def test_fish_are_followed_through_feed_losses_treatments_and_work(laid: Land) -> None:
    kinds = {line.kind for line in trace(laid.store, LotCode("PERCH-24")).lines}
    assert {BEGIN, FED, FISH, WEIGHED, WORK} <= kinds
    assert kinds <= {BEGIN, FED, FISH, WEIGHED, WORK, WATER, TREATED, ADDED, SOLD}


def test_days_come_in_order(laid: Land) -> None:
    days = [line.day for line in trace(laid.store, LotCode("PERCH-24")).lines]
    assert days == sorted(days)


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (LotCode("WREN-N", 9999), "no planting 9999"),
        (LotCode("NOBODY"), "No lot has the code NOBODY"),
        (LotCode("PERCH-24", day=LONG_AGO), "Nothing was weighed from PERCH-24"),
    ],
)
def test_what_is_not_there_is_said(laid: Land, code: LotCode, words: str) -> None:
    with pytest.raises(NotFound, match=words):
        trace(laid.store, code)
