"""Supplies: what was taken within other work, what goes along with what was bought, and what is refused in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from farmops.farm.operation import Operation, operation
from farmops.farm.removal import remove_record
from farmops.farm.supplies import (
    add_supply,
    buy_supply,
    change_bought,
    change_supply,
    change_use,
    draw,
    give_back,
    use_supply,
)
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.model.journal import Removal
from farmops.model.supplies import (
    HeldBy,
    Movement,
    NewSupply,
    NewSupplyLot,
    NewSupplyUse,
    Supply,
    SupplyChange,
    SupplyLotChange,
    SupplyUse,
    SupplyUseChange,
)
from farmops.model.values import Measured
from farmops.records.store import Store
from tests.farmhand import ADA, a_unit, everything_stored, mass, money, on, pay, stock, take_back


@dataclass(frozen=True, slots=True)
class Drawing:
    """What a piece of work takes from a supply, and what of it is brought back at once."""

    supply_id: int
    back: bool = False


@operation("work")
def work(op: Operation, entry: Drawing) -> SupplyUse:
    """Work that takes half a pound."""
    found = draw(op, entry.supply_id, mass("8 oz"), on(9, 1), 1, note="with the feed")
    if entry.back:
        give_back(op, found.id)
    return found


@pytest.fixture
def pellets(farm_store: Store) -> Supply:
    """A supply by weight, of which a bag was bought, on a farm with a unit."""
    a_unit(farm_store)
    supply = add_supply(farm_store, NewSupply("Pellets"), by=ADA)
    bag = NewSupplyLot(supply.id, on(6, 1), mass("20 lb"), money("24"), "The mill", "B-1", on(6, 2), on(12, 1))
    buy_supply(farm_store, bag, by=ADA)
    return supply


def test_other_work_takes_from_a_supply_and_is_undone_with_it(farm_store: Store, pellets: Supply) -> None:
    found = work(farm_store, Drawing(pellets.id), by=ADA)
    assert (found.supply, found.unit, found.amount, found.note) == ("Pellets", "WREN", 226_796, "with the feed")
    take_back(farm_store)
    assert everything_stored(farm_store)["supply_use"] == []
    work(farm_store, Drawing(pellets.id, back=True), by=ADA)
    assert everything_stored(farm_store)["supply_use"] == []


def test_what_is_counted_by_the_piece_is_not_taken_by_weight(farm_store: Store, pellets: Supply) -> None:
    pads = add_supply(farm_store, NewSupply("pads", HeldBy.COUNT), by=ADA)
    with pytest.raises(Refused, match="pads is counted by the piece, not by weight"):
        work(farm_store, Drawing(pads.id), by=ADA)
    with pytest.raises(NotFound):
        work(farm_store, Drawing(99), by=ADA)


def test_what_was_bought_has_a_cost_that_follows_it(farm_store: Store, pellets: Supply) -> None:
    (cost,) = everything_stored(farm_store)["cost"]
    told = [cost[name] for name in ("day", "what", "category", "payee", "amount_minor", "unit_id")]
    assert told == [on(6, 1), "Pellets", "supplies", "The mill", 2400, None]
    change_bought(farm_store, SupplyLotChange(1, on(5, 30), paid=money("25"), payee="Lee"), by=ADA)
    (cost,) = everything_stored(farm_store)["cost"]
    assert [cost[name] for name in ("day", "payee", "amount_minor")] == [on(5, 30), "Lee", 2500]
    remove_record(farm_store, Removal("bought supplies", 1), by=ADA)
    assert everything_stored(farm_store)["cost"] == []
    take_back(farm_store)
    assert len(everything_stored(farm_store)["cost"]) == 1


def test_what_cost_nothing_after_all_has_no_cost_and_may_get_one(farm_store: Store, pellets: Supply) -> None:
    free = change_bought(farm_store, SupplyLotChange(1, paid=None), by=ADA)
    assert (free.cost_id, everything_stored(farm_store)["cost"]) == (None, [])
    paid = change_bought(farm_store, SupplyLotChange(1, paid=money("9"), payee="Lee"), by=ADA)
    assert (paid.cost_minor, paid.payee) == (900, "Lee")


def test_what_a_feeding_took_is_corrected_there_and_goes_with_it(farm_store: Store, pellets: Supply) -> None:
    stock(farm_store, a_unit(farm_store, "ROOK"))
    taken = work(farm_store, Drawing(pellets.id), by=ADA)

    @operation("fed")
    def fed(op: Operation, entry: int) -> int:
        """A feeding that took what was taken."""
        from farmops.records.fish import FeedingRow

        row = FeedingRow(fish_lot_id=1, day=on(9, 1), mass_mg=1, mass_typed="1 mg", supply_use_id=entry)
        return op.add(row).id

    fed(farm_store, taken.id, by=ADA)
    with pytest.raises(Refused, match="a feeding or a dose took it"):
        change_use(farm_store, SupplyUseChange(taken.id, note="x"), by=ADA)
    with pytest.raises(Refused, match="1 records belong to it"):
        remove_record(farm_store, Removal("used supplies", taken.id), by=ADA)
    remove_record(farm_store, Removal("feedings", 1), by=ADA)
    assert everything_stored(farm_store)["supply_use"] == []


def a_use(**more: Any) -> NewSupplyUse:
    """Half a pound used, unless told otherwise."""
    return NewSupplyUse(**{"supply_id": 1, "day": on(9, 1), "amount": mass("8 oz"), **more})


@pytest.mark.parametrize(
    ("function", "entry", "kind", "said"),
    [
        (add_supply, NewSupply("pellets "), Refused, "already a supply Pellets"),
        (add_supply, NewSupply("salt", reorder=Measured(-1, "-1")), OutOfRange, "when nothing is left, or so much"),
        (change_supply, SupplyChange(2, "PELLETS"), Refused, "already a supply Pellets"),
        (buy_supply, NewSupplyLot(1, on(9, 1), mass("1 lb"), payee="Lee"), Refused, "so say how much"),
        (buy_supply, NewSupplyLot(1, on(9, 1), Measured(0, "0")), OutOfRange, "more than nothing"),
        (buy_supply, NewSupplyLot(1, on(9, 1), mass("1 lb"), money("0.01"), "\x00"), Exception, "cannot be printed"),
        (
            buy_supply,
            NewSupplyLot(1, on(9, 1), mass("1 lb"), expires_day=on(8, 31)),
            Refused,
            "would be past its date, 2026-08-31, when it came on 2026-09-01",
        ),
        (
            change_bought,
            SupplyLotChange(1, on(6, 3)),
            Refused,
            "would be opened on 2026-06-02, before it came on 2026-06-03",
        ),
        (
            change_bought,
            SupplyLotChange(1, expires_day=on(6, 1).replace(year=2200)),
            OutOfRange,
            "not a day on which a supply runs out",
        ),
        (use_supply, a_use(amount=Measured(0, "0")), OutOfRange, "more than nothing"),
        (use_supply, a_use(kind=Movement.COUNTED, unit_id=1), Refused, "of all that is held, not of one unit"),
        (use_supply, a_use(unit_id=9), NotFound, "no unit 9"),
        (use_supply, a_use(supply_id=9), NotFound, "no supply 9"),
        (use_supply, a_use(day=on(1, 1).replace(year=1899)), OutOfRange, "not a day to book on"),
    ],
)
def test_what_cannot_be_is_refused_in_words(
    farm_store: Store, pellets: Supply, function: Any, entry: Any, kind: type[Exception], said: str
) -> None:
    add_supply(farm_store, NewSupply("lime"), by=ADA)
    before = everything_stored(farm_store)
    with pytest.raises(kind, match=said):
        function(farm_store, entry, by=ADA)
    assert everything_stored(farm_store) == before


def test_the_cost_of_what_was_bought_is_not_removed_from_under_it(farm_store: Store, pellets: Supply) -> None:
    pay(farm_store, "3", on(6, 1))
    with pytest.raises(Refused, match="supply lot"):
        remove_record(farm_store, Removal("costs", 1), by=ADA)
    remove_record(farm_store, Removal("costs", 2), by=ADA)
