"""What value and cost come to, done by hand: per hour, break-even, rank, payback; and gaps are said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings

from farmops.farm import sharing
from farmops.model.costs import Basis, NewLabourRate
from farmops.model.units import UnitState
from farmops.records.store import Store
from farmops.reports.costs import Kind
from farmops.reports.investment import investments
from farmops.reports.ranking import ranking
from farmops.reports.returns import Asked, UnitReturns, returns, yearly
from tests.farmhand import (
    ADA,
    TODAY,
    a_bed,
    a_chore,
    a_crop,
    a_unit,
    buy,
    emptied,
    enters,
    money,
    on,
    pay,
    plant,
    price,
    settle,
    stock,
    weigh,
)
from tests.farms import FIRST, LAST, Script, carry_out, scripts
from tests.profiles import count

JUNE = (on(6, 1), on(6, 30))
POUND = 453_592.37


@pytest.fixture
def june(farm_store: Store) -> Store:
    """WREN in June: 10 lb of chard at 3 dollars, 2 lb of perch at 8, 12 dollars of feed, 2 hours at 10 dollars."""
    wren = a_unit(farm_store)
    chard = a_crop(farm_store)
    planting = plant(farm_store, a_bed(farm_store, wren), chard)
    perch = stock(farm_store, wren)
    price(farm_store, chard, "3/lb")
    price(farm_store, "yellow perch", "8/lb")
    weigh(farm_store, planting, "10 lb", on(6, 10))
    weigh(farm_store, perch, "2 lb", on(6, 20))
    pay(farm_store, "12", on(6, 1), "feed", wren)
    buy(farm_store, "365", on(1, 1), "stand", 12, wren)
    work = a_chore(farm_store, "Tidy up", "day", on(6, 1), unit_id=wren.id)
    for day in range(2, 12):
        settle(farm_store, work, on(6, day), minutes=12)
    sharing.set_labour_rate(farm_store, NewLabourRate(on(1, 1), money("10")), by=ADA)
    return farm_store


def wren(store: Store, basis: Basis = Basis.FULL, span=JUNE) -> UnitReturns:
    return returns(store, Asked(TODAY, *span, basis)).units[0]


def test_over_operating_cost_per_hour_and_per_area(june: Store):
    found = wren(june)
    assert (found.value.value, found.cost.value) == (4600, 1200 + 3000 + 2000)
    assert (found.operating_cost.value, found.over_operating.value) == (1200, 3400)
    assert (found.labour.value, found.minutes.value) == (2000, 120)
    assert found.per_hour.value == Fraction(4600 - 6200 + 2000, 120)
    assert found.value_per_area.value == Fraction(4600, found.area.value)


def test_break_even_is_where_produce_pays_what_fish_leave(june: Store):
    found = wren(june)
    assert found.break_even_price.value * found.marketable.value == 6200 - 1600
    worth = Fraction(found.value_of_produce.value, found.marketable.value)
    assert found.break_even_yield.value * worth == 6200 - 1600
    assert float(found.break_even_yield.value) == pytest.approx(4600 / 300 * POUND, rel=1e-4)


def test_other_bases_count_less(june: Store):
    assert wren(june, Basis.OPERATING).per_hour.value == Fraction(4600 - 1200, 120)
    cash = wren(june, Basis.CASH)
    assert cash.over_operating.reason.startswith("money paid counts things bought to last at once")
    assert cash.labour.value == 0


def test_few_days_with_minutes_give_an_hour_no_price(june: Store):
    found = wren(june, span=(on(5, 1), on(6, 30)))
    assert found.minutes.value == 120
    assert found.per_hour.reason == (
        "not enough records: minutes are booked on 10 of 61 days, and an hour is priced from one in 4"
    )


def test_what_is_missing_is_said_and_never_guessed(farm_store: Store):
    bare = a_unit(farm_store)
    found = wren(farm_store)
    assert found.over_operating.reason == found.cost.reason == "no costs are booked for it in this span"
    assert found.per_hour.reason == "no costs are booked for it in this span"
    assert found.minutes.reason == "no minutes are booked for it"
    assert found.value_per_area.reason == "it has no bed on 2026-06-30"
    pay(farm_store, "5", on(6, 1), unit=bare)
    found = wren(farm_store)
    assert (found.net.value, found.over_operating.value) == (-500, -500)
    assert found.per_hour.reason == "no minutes are booked for it"
    assert found.break_even_price.reason == found.break_even_yield.reason == "no produce that counts was weighed"


def test_fish_alone_have_no_break_even_of_produce_and_plants_alone_do(farm_store: Store):
    fish_only, plants_only = a_unit(farm_store, "WREN"), a_unit(farm_store, "FINCH")
    chard = a_crop(farm_store)
    price(farm_store, "yellow perch", "8/lb")
    price(farm_store, chard, "3/lb")
    weigh(farm_store, stock(farm_store, fish_only), "2 lb", on(6, 2))
    weigh(farm_store, plant(farm_store, a_bed(farm_store, plants_only), chard), "2 lb", on(6, 2))
    for unit in (fish_only, plants_only):
        pay(farm_store, "9", on(6, 1), f"feed of {unit.code}", unit)
    fish, plants = returns(farm_store, Asked(TODAY, *JUNE)).units
    assert (fish.net.value, fish.fish_cost_per_mass.value) == (700, Fraction(900, fish.fish.value))
    assert fish.yield_per_area.reason == "no harvest"
    assert fish.break_even_price.reason == "no produce that counts was weighed"
    assert float(plants.break_even_price.value) == pytest.approx(450 / POUND, rel=1e-4)


def test_a_unit_that_began_in_the_middle_or_rests_bears_only_its_days(farm_store: Store):
    a_unit(farm_store, "WREN")
    a_unit(farm_store, "FINCH", on(6, 21))
    enters(farm_store, a_unit(farm_store, "TERN"), UnitState.RESTING, on(5, 1))
    pay(farm_store, "40", on(6, 5), "power")
    here, late, rests = returns(farm_store, Asked(TODAY, *JUNE)).units
    assert (here.cost.value, late.cost.value) == (3000, 1000)
    assert rests.net.reason == "no costs are booked for it in this span"


def test_the_order_of_units_is_shown_under_what_else_might_be_assumed(june: Store):
    finch = a_unit(june, "FINCH")
    kale = a_crop(june, "KALE")
    price(june, kale, "3/lb")
    weigh(june, plant(june, a_bed(june, finch), kale), "5 lb", on(6, 10))
    pay(june, "20", on(6, 1), unit=finch)
    found = ranking(june, Asked(TODAY, *JUNE), rate_minor=100)
    assert found.as_set.by_net == ("FINCH", "WREN")
    orders = {one.words: one.by_net for one in found.others}
    assert orders["operating cost only"] == orders["labour not counted"] == ("WREN", "FINCH")
    assert orders["prices a fifth lower"] == ("FINCH", "WREN")
    assert "operating cost only" in found.changed("by_net")
    assert found.first_changed("by_net") == found.changed("by_net")
    assert {one.words for one in found.others} >= {"money paid only", "split by sales value", "an hour at $1.00"}
    assert all(set(one.by_cost) == {"WREN", "FINCH"} for one in found.others)


def test_a_unit_is_earned_back_by_what_it_leaves_in_a_year(june: Store):
    """In 30 days 34 dollars are left over operating cost: 413.67 a year, against 365 once."""
    spring = Asked(TODAY, on(4, 2), on(6, 30))
    (found,) = investments(june, spring, Fraction(8, 100)).units
    a_year = Fraction(3400 * 365, 90)
    assert (found.outlay.value, found.a_year.value) == (36500, a_year)
    assert found.worth_today.value == round(-36500 + round(a_year) / 1.08)
    assert found.payback.reason == found.discounted_payback.reason == "it is not earned back within its life"
    assert float(found.rate_of_return.value) == pytest.approx(round(a_year) / 36500 - 1, abs=1e-6)
    (labour,) = investments(june, spring, labour=True).units
    assert labour.a_year.value == Fraction(1400 * 365, 90)
    few = investments(june, Asked(TODAY, *JUNE)).units[0]
    assert few.payback.reason == "not enough records: it was active on 30 days of the span, and 90 are needed"


def test_what_wears_out_earlier_is_bought_again(june: Store):
    unit = a_unit(june, "FINCH")
    buy(june, "100", on(3, 1), "frame", 36, unit, salvage=1000)
    buy(june, "10", on(3, 1), "pump", 12, unit)
    for month in (4, 5, 6):
        pay(june, "1", on(month, 3), unit=unit)
    chard = plant(june, a_bed(june, unit), a_crop(june, "LEEK"))
    assert investments(june, Asked(TODAY, on(4, 2), on(6, 30))).units[1].a_year.value is not None
    from farmops.facts import costs as cost_facts
    from farmops.reports.investment import Flows

    with june.reading() as reader:
        things = [one for one in cost_facts.capital(reader, TODAY) if one.unit_id == unit.id]
    assert Flows(things).of([11000, 5000]) == [-11000, 4000, 4000, 6000]
    assert chard.unit == "FINCH"


@settings(
    max_examples=count(ci=6, full=200),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(script=scripts())
def test_prices_move_values_only_and_bases_add_up_on_any_farm(store: Store, script: Script):
    carry_out(emptied(store), script)
    full, operating = (returns(store, Asked(LAST, FIRST, LAST, basis)) for basis in (Basis.FULL, Basis.OPERATING))
    for whole, running in zip((*full.units, full.farm), (*operating.units, operating.farm), strict=True):
        ownership, labour = (whole.bears.sum_of(kind) for kind in (Kind.OWNERSHIP, Kind.LABOUR))
        assert (whole.cost.value or 0) == (running.cost.value or 0) + ownership + labour
        assert (whole.operating_cost.value or 0) == (running.cost.value or 0)
    for kind in Kind:
        left = sum(
            int(one.value or 0) for one in full.unshared.parts if any(one is f for f in full.farm.bears.of(kind))
        )
        assert sum(one.bears.sum_of(kind) for one in full.units) + left == full.farm.bears.sum_of(kind)
    doubled = replace(
        script,
        prices=[(what, day, 2 * minor, per) for what, day, minor, per in script.prices],
        sold=[(*what, 2 * minor, back) for *what, minor, back in script.sold],
    )
    carry_out(emptied(store), doubled)
    again = returns(store, Asked(LAST, FIRST, LAST))
    for before, after in zip(full.units, again.units, strict=True):
        assert (after.harvest.value, after.fish.value, after.cost.value, after.cost_per_mass.value) == (
            before.harvest.value,
            before.fish.value,
            before.cost.value,
            before.cost_per_mass.value,
        )
        assert (after.value.value is None) == (before.value.value is None)
        if before.value.value is not None:
            assert abs(after.value.value - 2 * before.value.value) <= len(script.weighings) + len(script.sold)


def test_years_are_cut_at_their_ends_and_add_up(june: Store):
    years = yearly(june, Asked(TODAY, on(6, 1).replace(year=2025), on(6, 30)))
    assert [(one.span.first, one.span.last) for one in years] == [
        (date(2025, 6, 1), date(2025, 12, 31)),
        (date(2026, 1, 1), date(2026, 6, 30)),
    ]
    assert [one.farm.marketable.value for one in years] == [0, wren(june).marketable.value]
