"""What the farm refuses, in which words, and that nothing is changed by it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from farmops.farm import chores, fish, removal, units
from farmops.model.chores import ChoreClass, SettledAs, Settling
from farmops.model.errors import FarmopsError, Refused
from farmops.model.fish import NewFishLot
from farmops.model.journal import Removal
from farmops.model.units import NewUnit, UnitState
from farmops.records.store import Store
from tests.farm.refusals_of_records import LIVES, WEIGHINGS
from tests.farm.refusals_of_the_rest import CHORES, MONEY, NAMES
from tests.farmhand import ADA, a_chore, counted, enters, everything_stored, mass, on, settle, stock
from tests.land import Land

FLOW = "flow seen"


def refuses(land: Land, kind: type[FarmopsError], words: str, function: Any, entry: Any) -> None:
    """The operation is refused in these words; rows and journal stay as they were."""
    before = everything_stored(land.store), counted(land.store)
    with pytest.raises(kind) as told:
        function(land.store, entry, by=ADA)
    assert type(told.value) is kind
    assert words in str(told.value)
    assert (everything_stored(land.store), counted(land.store)) == before


@pytest.mark.parametrize(
    ("kind", "words", "function", "entry"),
    [pytest.param(*refusal, id=name) for name, *refusal in (*WEIGHINGS, *LIVES, *MONEY, *NAMES, *CHORES)],
)
def test_the_farm_refuses(
    laid: Land, kind: type[FarmopsError], words: str, function: Any, entry: Callable[[Land], Any]
):
    refuses(laid, kind, words, function, entry(laid))


def test_life_support_is_not_put_off_past_the_day(land: Land):
    look = a_chore(land.store, "Look", "day", grade=ChoreClass.LIFE_SUPPORT)
    later = Settling(look.id, SettledAs.DEFERRED, on(10, 1), until=on(10, 2))
    refuses(land, Refused, "Look is life support and can only wait within the day", chores.settle, later)
    settle(land.store, look, on(10, 1), SettledAs.DEFERRED, until=on(10, 1))


def test_a_chore_is_not_done_without_the_confirmation_it_insists_on(land: Land):
    rinse = a_chore(land.store, "Rinse", "day", confirmation=FLOW)
    unseen = Settling(rinse.id, SettledAs.DONE, on(10, 1))
    refuses(land, Refused, "Rinse asks for a confirmation: flow seen", chores.settle, unseen)
    refuses(land, Refused, "asks for a confirmation", chores.settle, replace(unseen, confirmed="  "))
    settle(land.store, rinse, on(10, 1), confirmed=FLOW)


def test_a_chore_due_once_is_settled_once(land: Land):
    settle(land.store, land.permit, on(10, 1))
    again = Settling(land.permit.id, SettledAs.DONE, on(10, 2))
    refuses(land, Refused, "Renew the permit is settled for good", chores.settle, again)


def test_no_fish_go_into_a_retired_unit(land: Land):
    enters(land.store, land.finch, UnitState.RETIRED, on(10, 1))
    late = NewFishLot("B-1", "bluegill", land.finch.id, on(10, 1), 3, mass("9 g"))
    refuses(land, Refused, "FINCH is retired since 2026-10-01", fish.stock, late)
    stock(land.store, land.finch, "B-2", on(9, 30))


def test_a_settled_chore_keeps_its_history(land: Land):
    refuses(land, Refused, "belong to it (settlement)", removal.remove_record, Removal("chores", land.filter_pad.id))


def test_exactly_a_year_ahead_is_still_a_day_to_book_on(farm_store: Store):
    units.add_unit(farm_store, NewUnit("WREN", date(2027, 10, 15), chores=False), by=ADA)
    units.add_unit(farm_store, NewUnit("FINCH", date(1900, 1, 1), chores=False), by=ADA)
