"""Joint cost, stock, depreciation, capital and budgets against printed examples and numpy-financial."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import numpy_financial
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from farmops.economics.allocation import allot_by
from farmops.economics.capital import (
    annual_cost,
    capital_recovery_factor,
    discounted_payback,
    equivalent_annuity,
    internal_rate,
    modified_internal_rate,
    net_present_value,
    payback,
    profitability_index,
)
from farmops.economics.depreciation import straight_line
from farmops.economics.inventory import Bought, Stock, Used, moving_average, periodic_average
from farmops.economics.joint import JointProduct, split_joint_cost
from farmops.economics.returns import PartialBudget, break_even_units
from farmops.model.costs import JointMethod
from tests.labels import from_memory, published, rows

OPENSTAX_FINANCE = "Dahlquist and Knight (2022), Principles of Finance, OpenStax, ch. 16"
OPENSTAX_ACCOUNTING_1 = "OpenStax (2019), Principles of Accounting, Volume 1"
OPENSTAX_ACCOUNTING_2 = "OpenStax (2019), Principles of Accounting, Volume 2"

METHODS = {
    "physical_units": JointMethod.WEIGHT,
    "sales_value_splitoff": JointMethod.SALES_VALUE,
    "nrv": JointMethod.NET_REALISABLE_VALUE,
    "constant_gm": JointMethod.CONSTANT_MARGIN,
}


def cents(dollars: str) -> int:
    return int(Decimal(dollars or 0) * 100)


def joint_example(example: str, method: str) -> tuple[int, list[JointProduct], list[int]]:
    columns = ("example_id", "method", "joint_cost", "product", "physical_units", "sales_value_at_splitoff")
    table = rows("joint_cost_examples.csv", *columns, "final_sales_value", "separable_cost", "allocated_published")
    lines = [row[2:] for row in table if row[:2] == (example, method)]
    products = [
        JointProduct(name, int(weight or 0), cents(value), cents(final), cents(own))
        for _, name, weight, value, final, own, _ in lines
    ]
    return cents(lines[0][0]), products, [cents(line[-1]) for line in lines]


@published(
    "Horngren, Datar, Rajan, Cost Accounting, ch. 16; Eldenburg, Wolcott, Cost Management, ex. 9.36",
    note="one printing of the chicken example rounds percentages first; products M and N: a teaching page",
)
@pytest.mark.parametrize(
    ("example", "method"),
    sorted({(row[0], row[1]) for row in rows("joint_cost_examples.csv", "example_id", "method")}),
)
def test_joint_cost_splits_as_printed(example, method):
    cost, products, printed = joint_example(example, method)
    assert split_joint_cost(cost, products, METHODS[method]) == printed


@from_memory("Horngren, Datar, Rajan, Cost Accounting, ch. 16, dairy example")
@pytest.mark.parametrize(
    ("method", "cream"),
    [
        (JointMethod.WEIGHT, 100_000),
        (JointMethod.SALES_VALUE, 160_000),
        (JointMethod.NET_REALISABLE_VALUE, 110_000),
        (JointMethod.CONSTANT_MARGIN, 95_000),
    ],
)
def test_four_methods_split_one_dairy_four_ways(method, cream):
    products = [
        JointProduct("cream", 25_000, 200_000, 500_000, 280_000),
        JointProduct("skim", 75_000, 300_000, 1_100_000, 520_000),
    ]
    assert split_joint_cost(400_000, products, method) == [cream, 400_000 - cream]


SPY_SALES_AND_PURCHASES = [Used(120), Bought(225, 225 * 2700), Used(180), Bought(210, 210 * 3300)]


def printed_stock(example: str) -> tuple[float, float, float]:
    table = rows("inventory_costing.csv", "example_id", "cogs_published", "ending_inventory_published", "tolerance")
    return next(tuple(float(text) for text in row[1:]) for row in table if row[0] == example)


@published(OPENSTAX_ACCOUNTING_1 + ", 10.3", note="the page rounds the unit cost to the cent after each purchase")
def test_moving_average_stock_as_printed():
    used, ending, tolerance = printed_stock("I1_spy_moving_average_perpetual")
    costs, left = moving_average(Stock(150, 150 * 2100), SPY_SALES_AND_PURCHASES)
    assert sum(costs) / 100 == pytest.approx(used, abs=tolerance)
    assert left.cost / 100 == pytest.approx(ending, abs=tolerance)
    assert [costs, left.cost] == [[252_000, 473_294], 890_206]


@published(OPENSTAX_ACCOUNTING_1 + ", 10.2", note="printed 8,283 and 7,872 from a unit cost rounded to 27.62")
def test_periodic_average_stock_as_printed():
    used, ending, tolerance = printed_stock("I1_spy_weighted_average_periodic")
    purchases = [Bought(225, 225 * 2700), Bought(210, 210 * 3300)]
    cost, left = periodic_average(Stock(150, 150 * 2100), purchases, 300)
    assert cost / 100 == pytest.approx(used, abs=tolerance)
    assert left.cost / 100 == pytest.approx(ending, abs=tolerance)
    assert (cost, left.cost) == (828_462, 787_038)


def depreciation_rows(example: str) -> list[tuple[int, int]]:
    table = rows("depreciation.csv", "example_id", "period", "expected")
    return [(int(year), cents(expected)) for name, year, expected in table if name == example]


@published(OPENSTAX_ACCOUNTING_1 + ", 11.3", note="five years that hold no leap day: by the day equals by the year")
@pytest.mark.parametrize(("year", "expected"), depreciation_rows("D1_kenzie"))
def test_straight_line_of_whole_years_as_printed(year, expected):
    life = straight_line(5_800_000, 1_000_000, date(1899, 1, 1), 60)
    calendar_year = 1898 + year
    assert life.charge(date(calendar_year, 1, 1), date(calendar_year, 12, 31)) == expected
    assert life.book_value(date(calendar_year, 12, 31)) == 5_800_000 - year * 960_000


@published(OPENSTAX_ACCOUNTING_1 + ", 11.3", note="the page counts months, here days: within two days' charge")
@pytest.mark.parametrize(("year", "expected"), depreciation_rows("D2_partial_year"))
def test_straight_line_from_the_fourth_month_as_printed(year, expected):
    life = straight_line(5_800_000, 1_000_000, date(2026, 4, 1), 60)
    charge = life.charge(date(2025 + year, 1, 1), date(2025 + year, 12, 31))
    assert charge == pytest.approx(expected, abs=2 * 4_800_000 / life.days)


@published("Board problem on capital recovery, Nov 2016", note="12,517.90; another printing has 12,517.60")
def test_capital_recovery_of_fifteen_years_as_printed():
    assert annual_cost(10_000_000, 2_000_000, 15, 0.10) == pytest.approx(1_251_790, abs=1)


@published("Board problem on capital recovery, Nov 2016", note="printed 7,105 from a rounded factor; 7,106.33")
def test_capital_recovery_of_ten_years_as_printed():
    assert annual_cost(5_000_000, 500_000, 10, 0.08) == pytest.approx(710_500, abs=200)


@published("numpy-financial 1.0, pmt")
@settings(deadline=None)
@given(st.integers(0, 10**8), st.integers(0, 10**8), st.integers(1, 40), st.floats(0.001, 0.5))
def test_annual_cost_is_the_payment_of_a_loan(price, salvage, years, rate):
    loan = -float(numpy_financial.pmt(rate, years, price, -salvage))
    assert annual_cost(price, salvage, years, rate) == pytest.approx(loan, rel=1e-9, abs=1e-6 * (price + salvage))


CAPITAL_COLUMNS = ("measure", "cash_flows", "rate", "reinvest_rate", "expected_published", "tolerance")


def capital_rows(*measures: str) -> list[tuple[list[float], float, float, float, float]]:
    return [
        ([float(flow) for flow in flows.split(";")], *(float(text or "nan") for text in numbers))
        for measure, flows, *numbers in rows("capital_budgeting.csv", *CAPITAL_COLUMNS)
        if measure in measures
    ]


CAPITAL = ("flows", "rate", "reinvest", "expected", "tolerance")


@published(
    f"{OPENSTAX_FINANCE}; {OPENSTAX_ACCOUNTING_2}, ch. 11; numpy-financial 1.0 docstrings",
    note="Volume 2 uses three-decimal factors: its three values differ by up to 10",
)
@pytest.mark.parametrize(CAPITAL, capital_rows("npv", "npv_profile", "npv_replacement_chain"))
def test_net_present_value_as_printed(flows, rate, reinvest, expected, tolerance):
    assert net_present_value(rate, flows) == pytest.approx(expected, abs=tolerance)


@published(f"{OPENSTAX_FINANCE}; {OPENSTAX_ACCOUNTING_2}, ch. 11; numpy-financial 1.0 docstrings")
@pytest.mark.parametrize(CAPITAL, capital_rows("irr"))
def test_a_printed_rate_of_return_is_among_the_roots(flows, rate, reinvest, expected, tolerance):
    nearest = min(internal_rate(flows).roots, key=lambda root: abs(root - expected))
    assert nearest == pytest.approx(expected, abs=tolerance)


@published(OPENSTAX_FINANCE + ", 16.3", note="the page states that there are two; their values are by numpy roots")
def test_two_rates_of_return_are_both_named():
    found = internal_rate([-350, 950, -620])
    assert found.roots == pytest.approx((0.091797, 0.622488), abs=1e-6)
    assert found.rate is None
    assert "9.18%, 62.25%" in found.words


@published(
    f"{OPENSTAX_FINANCE}, 16.4; numpy-financial docstring and tests, 2025",
    note="OpenStax misprints the terminal value behind it as 31,595.22 (31,589.22)",
)
@pytest.mark.parametrize(CAPITAL, capital_rows("mirr"))
def test_modified_rate_of_return_as_printed(flows, rate, reinvest, expected, tolerance):
    assert modified_internal_rate(flows, rate, reinvest) == pytest.approx(expected, abs=tolerance)


@published(f"{OPENSTAX_FINANCE}, 16.1; {OPENSTAX_ACCOUNTING_2}, ch. 11")
@pytest.mark.parametrize(CAPITAL, capital_rows("payback_years"))
def test_payback_as_printed(flows, rate, reinvest, expected, tolerance):
    assert float(payback([int(flow) for flow in flows])) == pytest.approx(expected, abs=tolerance)


@published(OPENSTAX_FINANCE + ", 16.4")
@pytest.mark.parametrize(CAPITAL, capital_rows("discounted_payback_years"))
def test_discounted_payback_as_printed(flows, rate, reinvest, expected, tolerance):
    assert discounted_payback(rate, flows) == pytest.approx(expected, abs=tolerance)


@published(OPENSTAX_FINANCE + ", 16.4")
@pytest.mark.parametrize(CAPITAL, capital_rows("profitability_index"))
def test_profitability_index_as_printed(flows, rate, reinvest, expected, tolerance):
    assert profitability_index(rate, flows) == pytest.approx(expected, abs=tolerance)


@published(OPENSTAX_FINANCE + ", 16.5")
@pytest.mark.parametrize(CAPITAL, capital_rows("equivalent_annual_annuity"))
def test_equivalent_annuity_as_printed(flows, rate, reinvest, expected, tolerance):
    assert equivalent_annuity(rate, flows) == pytest.approx(expected, abs=tolerance)


amounts = st.integers(-(10**8), 10**8)


@published("numpy-financial 1.0, npv")
@settings(deadline=None)
@given(st.floats(-0.5, 1), st.lists(amounts, min_size=1, max_size=20))
def test_net_present_value_agrees_with_the_library(rate, flows):
    library = float(numpy_financial.npv(rate, flows))
    scale = sum(abs(flow) / (1 + rate) ** year for year, flow in enumerate(flows))
    assert net_present_value(rate, flows) == pytest.approx(library, abs=1e-9 * scale + 1e-9)


@published("numpy-financial 1.0, irr")
@settings(deadline=None)
@given(st.integers(1, 10**8), st.lists(st.integers(1, 10**8), min_size=1, max_size=15))
def test_rate_of_return_agrees_with_the_library(outlay, inflows):
    flows = [-outlay, *inflows]
    library = float(numpy_financial.irr(flows))
    assert internal_rate(flows).rate == pytest.approx(library, rel=1e-6, abs=1e-6)


@published("numpy-financial 1.0, mirr")
@settings(deadline=None)
@given(
    st.integers(1, 10**8),
    st.lists(amounts, max_size=15),
    st.integers(1, 10**8),
    st.floats(0, 0.5),
    st.floats(0, 0.5),
)
def test_modified_rate_agrees_with_the_library(outlay, between, inflow, finance, reinvest):
    flows = [-outlay, *between, inflow]
    library = float(numpy_financial.mirr(flows, finance, reinvest))
    assert modified_internal_rate(flows, finance, reinvest) == pytest.approx(library, rel=1e-9, abs=1e-9)


@published("numpy-financial 1.0, pmt")
@pytest.mark.parametrize("rate", [0.05, 0.08, 0.001, 1e-9, -0.02, 0.0])
@pytest.mark.parametrize("years", [1, 5, 8, 10, 15, 30])
def test_capital_recovery_factor_agrees_with_the_library(rate, years):
    library = -float(numpy_financial.pmt(rate, years, 1))
    assert capital_recovery_factor(rate, years) == pytest.approx(library, rel=1e-6)


def budget_amounts(example: str) -> dict[str, int]:
    table = rows("enterprise_budget_example.csv", "example_id", "section", "item", "published")
    return {
        item if section == "result" else section: cents(amount)
        for name, section, item, amount in table
        if name == example
    }


@published(
    "Farm Press, Partial budget is simple, useful financial tool (extension material)",
    note="its prose prints benefits of 152,000 (152,500)",
)
def test_partial_budget_of_corn_for_dry_beans_as_printed():
    printed = budget_amounts("E1_partial")
    change = PartialBudget(
        added_returns=printed["added returns"],
        reduced_costs=printed["reduced costs"],
        added_costs=printed["added costs"],
        reduced_returns=printed["reduced returns"],
    )
    assert change.benefits == printed["total benefits"]
    assert change.drawbacks == printed["total costs"]
    assert change.net_change == printed["net change in income"] == -450_000


@published(OPENSTAX_ACCOUNTING_2 + ", 6.1 and 6.3")
def test_overhead_shared_by_hours_as_printed():
    table = rows("overhead_by_driver.csv")
    applied = allot_by(2_500_000_00, {name: int(hours) for name, _, hours, _, _ in table})
    assert applied == {name: cents(printed) for name, _, _, printed, _ in table}
    assert [applied[name] / int(made) / 100 for name, made, *_ in table] == [float(row[-1]) for row in table]


@published(OPENSTAX_ACCOUNTING_2 + ", 3.2")
def test_break_even_number_as_printed():
    units = break_even_units(1_800_000, 10_000, 2_000)
    assert units == Fraction(225)
    assert units * 10_000 == 2_250_000
