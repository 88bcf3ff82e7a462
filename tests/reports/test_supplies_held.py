"""What is held of a supply: no cent is lost, chores wait for what the list says, and the rate is that of the days."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.facts.stock import Came, Went, levels, still_held
from farmops.farm.operation import Operation, operation
from farmops.farm.supplies import add_supply, buy_supply, use_supply
from farmops.model.costs import Category
from farmops.model.supplies import HeldBy, Movement, NewSupply, NewSupplyLot, NewSupplyUse
from farmops.model.values import Measured
from farmops.records.store import Store
from farmops.records.supplies import SupplyLotRow, SupplyRow, SupplyUseRow
from farmops.reports.supplies_held import supplies_held
from farmops.reports.supplies_used import walk
from tests.farmhand import ADA, emptied, money, on, open_farm
from tests.profiles import count

START = date(2026, 5, 1)
DAYS = st.integers(0, 9)
STEPS = st.lists(
    st.tuples(DAYS, st.sampled_from(["bought", *(one.value for one in Movement)]), st.integers(1, 60)), max_size=12
)


def pieces(number: int) -> Measured:
    """So many pieces."""
    return Measured(number, str(number))


def book(store: Store, steps: list[tuple[int, str, int]]) -> None:
    """Book what came and went of filter pads, in the order in which a person typed it."""
    pads = add_supply(store, NewSupply("pads", HeldBy.COUNT), by=ADA)
    for days, kind, number in steps:
        day = START + timedelta(days=days)
        if kind == "bought":
            buy_supply(store, NewSupplyLot(pads.id, day, pieces(number), money(f"{number}.07")), by=ADA)
        else:
            use_supply(store, NewSupplyUse(pads.id, day, pieces(number), kind=Movement(kind)), by=ADA)


Steps = list[tuple[int, str, int]]


@operation("steps")
def put(op: Operation, entry: tuple[tuple[int, str, int], ...]) -> int:
    """The same within one operation, without costs."""
    pads = op.add(SupplyRow(name="pads", category="supplies", held_by="count"))
    for days, kind, number in entry:
        row: dict[str, Any] = {
            "supply_id": pads.id,
            "day": START + timedelta(days=days),
            "amount": number,
            "amount_typed": "x",
        }
        op.add(SupplyLotRow(**row) if kind == "bought" else SupplyUseRow(kind=kind, **row))
    return pads.id


@settings(max_examples=count(ci=12, full=100), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(STEPS)
def test_chores_wait_for_what_the_list_says(store: Store, steps: Steps) -> None:
    open_farm(emptied(store))
    pads = put(store, tuple(steps), by=ADA)
    (line,) = supplies_held(store, START + timedelta(days=9))
    with store.reading() as reader:
        held = levels(reader).get(pads, [])
    assert line.held == (held[-1].held if held else 0)


@given(STEPS)
def test_what_is_used_and_what_is_left_cost_what_was_paid(steps: Steps) -> None:
    ordered = sorted(steps, key=lambda step: step[0])
    lots = [
        Came(1, "pads", Category.SUPPLIES, HeldBy.COUNT, START + timedelta(days=days), number, number * 107, days)
        for days, kind, number in ordered
        if kind == "bought"
    ]
    uses = [
        Went(1, START + timedelta(days=days), Movement(kind), None, 1, number, at)
        for at, (days, kind, number) in enumerate(ordered)
        if kind != "bought"
    ]
    walked = walk(lots, uses)
    assert sum(one.cost for one in walked.used) + walked.stock.cost == sum(lot.cost_minor for lot in lots)
    assert walked.stock.quantity >= 0
    assert all(one.amount >= 0 and one.cost >= 0 for one in walked.used)


def test_the_rate_is_that_of_the_days_since_the_first_bag_or_of_the_last_four_weeks(farm_store: Store) -> None:
    book(farm_store, [(0, "bought", 60), (0, "used", 5), (9, "used", 5), (9, "thrown away", 20)])
    asked = (
        (on(5, 1), 5, 11),
        (on(5, 10), 1, 30),
        (on(5, 28), Fraction(10, 28), 84),
        (on(5, 29), Fraction(5, 28), 168),
    )
    for day, a_day, left in asked:
        (line,) = supplies_held(farm_store, day)
        assert (line.a_day, line.days_left) == (a_day, left)
    (line,) = supplies_held(farm_store, on(4, 30))
    assert (line.held, line.a_day, line.days_left, line.worth_minor) == (0, None, None, 0)


def test_the_oldest_bag_is_used_first(farm_store: Store) -> None:
    book(farm_store, [])
    for day, until in ((on(5, 1), on(6, 1)), (on(5, 2), None), (on(5, 3), on(9, 1))):
        buy_supply(farm_store, NewSupplyLot(1, day, pieces(10), expires_day=until), by=ADA)
    for used, good_until in ((9, on(6, 1)), (1, on(9, 1)), (10, on(9, 1)), (10, None)):
        use_supply(farm_store, NewSupplyUse(1, on(5, 4), pieces(used)), by=ADA)
        (line,) = supplies_held(farm_store, on(6, 2))
        assert (line.good_until, line.past_its_date) == (good_until, used == 9)
    assert still_held([], 5) == []
