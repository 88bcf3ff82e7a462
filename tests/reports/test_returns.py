"""What units brought and cost, held against sums done by hand, and figures that add up on any farm."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.figures import Figure, Made
from farmops.model.costs import Basis
from farmops.model.errors import Refused
from farmops.model.harvests import Use
from farmops.model.units import UnitState
from farmops.records.store import Store
from farmops.reports.returns import Asked, Returns, UnitReturns, monthly, returns
from farmops.reports.worth import no_price
from tests.farmhand import (
    TODAY,
    a_bed,
    a_crop,
    a_unit,
    buy,
    emptied,
    enters,
    everything_stored,
    on,
    pay,
    plant,
    price,
    resize,
    stock,
    weigh,
)
from tests.farms import LAST, Script, carry_out, scripts
from tests.land import Land
from tests.profiles import count

TEN_POUNDS, TWO_POUNDS, SQ_FT_25 = 4_535_924, 907_185, 2_322_576
BASES = tuple(Basis)


def in_june(store: Store, basis: Basis = Basis.FULL) -> Returns:
    return returns(store, Asked(TODAY, on(6, 1), on(6, 30), basis))


def costs(found: Returns) -> dict[str, int | Fraction | None]:
    return {line.unit: line.cost.value for line in found.units}


def figures(found: Returns) -> Iterator[Figure]:
    """Every figure of a report, down to the last part."""
    for line in (*found.units, found.farm):
        for figure in line.figures().values():
            yield from figure.walk()
    yield from found.unshared.walk()


def parts(figure: Figure) -> dict[str, int | Fraction | None]:
    return {part.name: part.value for part in figure.parts}


@pytest.fixture
def three(farm_store: Store) -> Store:
    """In June WREN was active for 30 days, FINCH for 20, TERN for 15, and 65 dollars of power were shared."""
    wren = a_unit(farm_store, "WREN", on(3, 1))
    finch = a_unit(farm_store, "FINCH", on(3, 1), UnitState.PLANNED)
    enters(farm_store, finch, UnitState.CYCLING, on(6, 11))
    enters(farm_store, a_unit(farm_store, "TERN", on(3, 1)), UnitState.RESTING, on(6, 16))
    pay(farm_store, "65", on(6, 20), "power")
    pay(farm_store, "10", on(6, 1), "feed", wren)
    pay(farm_store, "99", on(5, 31), "feed", wren)
    buy(farm_store, "385", on(1, 1), "scale", 12, salvage=2000)
    return farm_store


def test_shared_costs_go_by_the_days_each_unit_was_active(three: Store):
    found = in_june(three, Basis.OPERATING)
    assert costs(found) == {"WREN": 1000 + 3000, "FINCH": 2000, "TERN": 1500}
    assert found.farm.cost.value == 7500
    assert found.unshared.value == 0
    assert parts(found.units[0].cost) == {"direct costs": 1000, "part of the shared costs": 3000}


def test_full_costs_hold_ownership_by_the_day(three: Store):
    """365 dollars over 365 days: 30 in June, of which the odd cent goes to the largest remainder."""
    found = in_june(three)
    assert costs(found) == {"WREN": 4000 + 1385, "FINCH": 2000 + 923, "TERN": 1500 + 692}
    assert found.farm.cost.value == 7500 + 3000


def test_cash_counts_what_was_paid_on_the_day_it_was_paid(three: Store):
    assert in_june(three, Basis.CASH).farm.cost.value == 7500
    half_a_year = returns(three, Asked(TODAY, on(1, 1), on(6, 30), Basis.CASH))
    assert half_a_year.farm.cost.value == 6500 + 1000 + 9900 + 38500


def test_shared_costs_that_no_active_unit_bears_stand_by_themselves(farm_store: Store):
    a_unit(farm_store, "WREN", on(3, 1), UnitState.PLANNED)
    pay(farm_store, "65", on(6, 20), "power")
    found = in_june(farm_store)
    assert (found.unshared.value, found.farm.cost.value) == (6500, 6500)
    assert found.units[0].cost.value is None
    assert found.units[0].cost.reason == "no costs are booked for it in this span"
    assert list(figures(found)) == [figure for figure in figures(found) if figure.adds_up()]


@pytest.fixture
def productive(three: Store) -> Store:
    """WREN brought 10 lb of chard at 3 dollars and 2 lb of perch at 8 dollars from 25 sq ft."""
    wren = _unit(three, "WREN")
    chard = a_crop(three)
    planting = plant(three, a_bed(three, wren), chard)
    perch = stock(three, wren)
    price(three, chard, "3/lb")
    price(three, "yellow perch", "8/lb")
    weigh(three, planting, "7 lb", on(6, 1), Use.SOLD)
    weigh(three, planting, "3 lb", on(6, 30), Use.GIVEN)
    weigh(three, planting, "1 lb", on(6, 15), Use.WASTE)
    weigh(three, planting, "9 lb", on(7, 1))
    weigh(three, perch, "2 lb", on(6, 2))
    return three


def _unit(store: Store, code: str):
    from farmops.facts import units

    with store.reading() as reader:
        found = units.unit_called(reader, code)
    assert found is not None
    return found


def wren_of(found: Returns) -> UnitReturns:
    return found.units[0]


def test_yield_counts_what_was_sold_eaten_or_given(productive: Store):
    wren = wren_of(in_june(productive))
    assert wren.marketable.value == TEN_POUNDS
    assert wren.harvest.value == TEN_POUNDS + 453_592
    assert wren.fish.value == TWO_POUNDS
    assert wren.yield_per_area.value == Fraction(TEN_POUNDS, SQ_FT_25)
    assert wren.marketable.note == "1 weighings went to waste or to feed and are left out."


def test_the_cost_of_a_unit_is_split_by_weight_between_its_two_products(productive: Store):
    wren = wren_of(in_june(productive))
    assert (wren.cost.value, wren.cost_of_produce.value) == (5385, 4487)
    assert wren.cost_per_mass.value == Fraction(4487, TEN_POUNDS)
    assert wren.fish_cost_per_mass.value == Fraction(898, TWO_POUNDS)
    assert "by weight" in (wren.cost_per_mass.note or "")


def test_a_loss_is_a_normal_number(productive: Store):
    wren = wren_of(in_june(productive))
    assert (wren.value.value, wren.net.value) == (3000 + 1600, 4600 - 5385)


def test_every_figure_opens_down_to_its_records(productive: Store):
    wren = wren_of(in_june(productive))
    assert wren.marketable.records is not None
    lines = wren.marketable.records.lines()
    assert [line.words for line in lines] == ["2026-06-01 CHARD 7 lb (sold)", "2026-06-30 CHARD 3 lb (given)"]
    ownership = next(figure for figure in wren.cost.walk() if figure.name == "shared ownership")
    assert [line.words for line in ownership.records.lines()] == ["scale, bought 2026-01-01, over 12 months"]


def test_value_is_missing_with_its_reason_while_a_price_is(farm_store: Store):
    unit = a_unit(farm_store)
    chard = a_crop(farm_store)
    planting = plant(farm_store, a_bed(farm_store, unit), chard)
    weigh(farm_store, planting, "1 lb", on(6, 1))
    pay(farm_store, "5", on(6, 1), unit=unit)
    price(farm_store, chard, "3/lb", on(6, 2))
    found = in_june(farm_store)
    for line in (*found.units, found.farm):
        assert line.value.value is None
        assert line.value.reason == line.net.reason == no_price("CHARD")


def test_yield_is_missing_with_its_reason(farm_store: Store):
    unit = a_unit(farm_store)
    assert wren_of(in_june(farm_store)).yield_per_area.reason == "no harvest"
    planting = plant(farm_store, a_bed(farm_store, unit, size=None), a_crop(farm_store))
    weigh(farm_store, planting, "1 lb", on(6, 1))
    assert wren_of(in_june(farm_store)).yield_per_area.reason == "no size is booked for WREN-N"
    assert wren_of(in_june(farm_store)).cost_per_mass.reason == "no costs are booked for it in this span"


def test_cost_per_weight_is_missing_while_nothing_was_weighed(three: Store):
    found = in_june(three)
    assert wren_of(found).cost_per_mass.reason == "nothing that counts was weighed"
    assert wren_of(found).fish_cost_per_mass.reason == "nothing that counts was weighed"


def test_a_span_that_ends_before_it_begins_is_refused(farm_store: Store):
    with pytest.raises(Refused, match="ends on 2026-05-31, before it begins on 2026-06-01"):
        returns(farm_store, Asked(TODAY, on(6, 1), on(5, 31)))


def test_open_ends_reach_from_the_first_record_to_today(three: Store):
    found = returns(three, Asked(TODAY))
    assert (found.span.first, found.span.last) == (on(1, 1), TODAY)


def settled_answers(store: Store, basis: Basis) -> list[UnitReturns]:
    found = in_june(store, basis)
    return [*found.units, found.farm]


@pytest.mark.parametrize("basis", BASES)
def test_past_answers_do_not_move_when_something_holds_from_a_later_day(land: Land, basis: Basis):
    before = settled_answers(land.store, basis)
    price(land.store, land.chard, "9/lb", on(7, 1))
    price(land.store, "yellow perch", "1/lb", on(7, 1))
    resize(land.store, land.north, "90 sq ft", on(7, 2))
    enters(land.store, land.wren, UnitState.RESTING, on(7, 1))
    enters(land.store, land.finch, UnitState.WINTERING, on(7, 1))
    assert settled_answers(land.store, basis) == before


def test_a_bed_sized_from_a_later_day_does_not_drop_out_of_the_days_it_was_weighed_on(farm_store: Store):
    unit = a_unit(farm_store)
    a_bed(farm_store, unit, "N")
    south = a_bed(farm_store, unit, "S", None)
    weigh(farm_store, plant(farm_store, south, a_crop(farm_store)), "1 lb", on(6, 1))
    before = wren_of(in_june(farm_store))
    resize(farm_store, south, "9 sq ft", on(8, 1))
    after = wren_of(in_june(farm_store))
    assert before.yield_per_area.reason == after.yield_per_area.reason == "no size is booked for WREN-S"


@settings(
    max_examples=count(ci=8, full=300),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts(), span=st.tuples(st.dates(date(2026, 1, 1), LAST), st.integers(0, 290)))
def test_money_adds_up_to_the_cent_on_any_farm(store: Store, script: Script, span: tuple[date, int]):
    carry_out(emptied(store), script)
    first, last = span[0], min(LAST, date.fromordinal(span[0].toordinal() + span[1]))
    booked = everything_stored(store)["cost"]
    for basis in BASES:
        asked = Asked(LAST, first, last, basis)
        found = returns(store, asked)
        assert all(figure.adds_up() for figure in figures(found))
        units = sum(line.cost.value or 0 for line in found.units)
        assert units + (found.unshared.value or 0) == (found.farm.cost.value or 0)
        assert sum(month.farm.cost.value or 0 for month in monthly(store, asked)) == (found.farm.cost.value or 0)
        if basis is not Basis.FULL:
            kinds = ("operating", "capital") if basis is Basis.CASH else ("operating",)
            paid = [one for one in booked if one["kind"] in kinds and first <= one["day"] <= last]
            assert (found.farm.cost.value or 0) == sum(one["amount_minor"] for one in paid)


@settings(
    max_examples=count(ci=8, full=300),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts())
def test_produce_and_fish_add_up_on_any_farm(store: Store, script: Script):
    carry_out(emptied(store), script)
    found = returns(store, Asked(LAST, date(2026, 1, 1), LAST))
    weighed = everything_stored(store)["harvest"]
    for fish, column in ((True, "fish"), (False, "marketable")):
        counted = [w for w in weighed if Use(w["use"]).counts and (w["fish_lot_id"] is not None) is fish]
        total = getattr(found.farm, column)
        assert total.value == sum(w["mass_mg"] for w in counted)
        assert total.made is Made.SUM
    assert found.farm.harvest.value == sum(w["mass_mg"] for w in weighed if w["planting_id"] is not None)
