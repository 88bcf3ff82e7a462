"""Capital recovery, present value, rates of return and payback: how they hang together."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

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
from farmops.model.errors import OutOfRange, Refused

amounts = st.integers(1, 10**8)
rates = st.floats(0.001, 1)
ventures = st.builds(lambda out, back: [-out, *back], amounts, st.lists(amounts, min_size=1, max_size=15))
any_flows = st.lists(st.integers(-(10**7), 10**7), max_size=15)


def worth_of_all(rate, flows):
    return sum(abs(flow) / (1 + rate) ** year for year, flow in enumerate(flows))


@settings(deadline=None)
@given(amounts, st.integers(0, 10**8), st.integers(1, 40), st.floats(-0.2, 0.6))
def test_the_annual_cost_pays_back_the_price_to_the_cent(price, salvage, years, rate):
    yearly = annual_cost(price, salvage, years, rate)
    flows = [-price, *[yearly] * (years - 1), yearly + salvage]
    scale = worth_of_all(rate, [price, *[abs(yearly)] * (years - 1), abs(yearly) + salvage])
    assert net_present_value(rate, flows) == pytest.approx(0, abs=1e-9 * scale + 1e-9)


@pytest.mark.parametrize(
    ("rate", "years", "factor"),
    [
        (0.05, 5, 0.230975),
        (0.05, 8, 0.154722),
        (0.05, 10, 0.129505),
        (0.08, 5, 0.250456),
        (0.08, 10, 0.149029),
        (0.08, 15, 0.116830),
    ],
)
def test_recovery_factors_worked_apart_from_this_code(rate, years, factor):
    assert capital_recovery_factor(rate, years) == pytest.approx(factor, abs=1e-6)


def test_a_tractor_worked_apart_from_this_code():
    assert annual_cost(9_350_000, 2_530_000, 15, 0.05) == pytest.approx(783_554, abs=1)


@settings(deadline=None)
@given(ventures, rates, st.floats(0.001, 1))
def test_present_value_falls_as_the_rate_rises(flows, rate, more):
    assert net_present_value(rate + more, flows) < net_present_value(rate, flows)


@settings(deadline=None)
@given(any_flows)
def test_nothing_is_left_at_any_rate_of_return(flows):
    for rate in internal_rate(flows).roots:
        assert abs(net_present_value(rate, flows)) <= 1e-6 * worth_of_all(rate, flows)


@settings(deadline=None)
@given(any_flows)
def test_the_number_of_rates_follows_the_rule_of_signs(flows):
    signs = [flow > 0 for flow in flows if flow]
    changes = sum(one != other for one, other in pairwise(signs))
    assert len(internal_rate(flows).roots) <= changes
    if changes % 2:
        assert internal_rate(flows).roots


@settings(deadline=None)
@given(any_flows)
def test_there_are_words_exactly_where_there_is_no_one_rate(flows):
    found = internal_rate(flows)
    assert (found.words is None) == (found.rate is not None) == (len(found.roots) == 1)


@settings(deadline=None)
@given(st.lists(st.floats(-0.5, 2), min_size=2, max_size=3, unique_by=lambda rate: round(rate, 1)))
def test_every_rate_built_into_the_flows_is_found(wanted):
    flows = [1.0]
    for rate in wanted:
        flows = [now - (1 + rate) * before for now, before in zip([*flows, 0], [0, *flows], strict=True)]
    assert internal_rate(flows).roots == pytest.approx(sorted(wanted), abs=1e-6)


def test_a_double_rate_is_one_rate():
    found = internal_rate([-100, 220, -121])
    assert found.roots == pytest.approx((0.10,), abs=1e-7)
    assert found.words is None


def test_flows_that_never_pay_back_have_no_rate():
    assert internal_rate([-100, -5]).words.startswith("No rate of return: the flows never change sign")
    assert internal_rate([]).roots == ()
    assert internal_rate([0, 0]).roots == ()


def test_flows_of_both_signs_may_have_no_rate():
    found = internal_rate([-1000, 2000, -1500])
    assert (found.roots, found.rate) == ((), None)
    assert found.words == "No rate of return: at no rate are the flows worth nothing today."


def test_three_rates_are_all_named():
    found = internal_rate([-5, 10.5, 1, -8, 1])
    assert found.words == (
        "No single rate of return: each of -87.02%, 8.86%, 70.96% fits; use the net present value instead."
    )


@pytest.mark.parametrize(
    ("flows", "rate"),
    [
        ([0, -5, 6, 0], 0.2),
        ([-1, 10**12], 10**12 - 1),
        ([-1, 10**8, 99_999_992], 10**8),
        ([-100, 0, 0, 74], 0.74 ** (1 / 3) - 1),
        ([-1, *[0] * 399, 2], 2 ** (1 / 400) - 1),
        ([-1, *[0] * 399, 10**9], 10 ** (9 / 400) - 1),
    ],
)
def test_a_single_rate_however_far_out(flows, rate):
    assert internal_rate(flows).rate == pytest.approx(rate)


@settings(deadline=None)
@given(ventures, rates)
def test_discounting_never_pays_back_sooner(flows, rate):
    plain, discounted = payback(flows), discounted_payback(rate, flows)
    assert discounted is None or plain <= discounted + 1e-9
    assert (discounted is None) == (net_present_value(rate, flows) < 0) or discounted == pytest.approx(len(flows) - 1)


@settings(deadline=None)
@given(ventures)
def test_payback_is_the_year_the_sum_reaches_zero(flows):
    years = payback(flows)
    if years is None:
        assert sum(flows) < 0
        return
    whole = int(years)
    part = (years - whole) * (flows[whole + 1] if whole + 1 < len(flows) else 0)
    assert sum(flows[: whole + 1]) + part == 0


def test_payback_counts_from_the_last_time_it_was_below_zero():
    assert payback([-100, 150, -100, 100]) == 2.5
    assert payback([-100, 50]) is None
    assert payback([100, 50]) == 0
    assert payback([]) == 0


@settings(deadline=None)
@given(ventures, rates)
def test_an_index_above_one_and_a_value_above_zero_go_together(flows, rate):
    value = net_present_value(rate, flows)
    assert profitability_index(rate, flows) == pytest.approx(1 + value / -flows[0])


@settings(deadline=None)
@given(ventures, rates)
def test_the_equivalent_annuity_is_worth_the_same(flows, rate):
    yearly = equivalent_annuity(rate, flows)
    even = [0.0, *[yearly] * (len(flows) - 1)]
    assert net_present_value(rate, even) == pytest.approx(
        net_present_value(rate, flows), abs=1e-9 * worth_of_all(rate, flows)
    )


@settings(deadline=None)
@given(ventures)
def test_reinvested_at_its_own_rate_the_modified_rate_is_the_rate(flows):
    rate = internal_rate(flows).rate
    assert modified_internal_rate(flows, rate, rate) == pytest.approx(rate, abs=1e-6)


def test_a_rate_near_zero_does_not_lose_digits():
    assert capital_recovery_factor(0, 8) == 1 / 8
    assert capital_recovery_factor(1e-12, 8) == pytest.approx(1 / 8, rel=1e-10)


@pytest.mark.parametrize(
    ("asked", "error", "words"),
    [
        (lambda: net_present_value(-1, [1, 2]), OutOfRange, "above -1"),
        (lambda: net_present_value(float("nan"), [1, 2]), OutOfRange, "above -1"),
        (lambda: net_present_value(-0.9999999, [1] * 61), OutOfRange, "over 60 years"),
        (lambda: discounted_payback(-2, [-1, 2]), OutOfRange, "above -1"),
        (lambda: capital_recovery_factor(0.05, 0), OutOfRange, "longer than 0"),
        (lambda: equivalent_annuity(0.05, [5]), OutOfRange, "longer than 0"),
        (lambda: modified_internal_rate([-1, -2], 0.1, 0.1), Refused, "money that comes in"),
        (lambda: modified_internal_rate([1, 2], 0.1, 0.1), Refused, "money paid out"),
        (lambda: profitability_index(0.1, [1, 2]), Refused, "nothing is paid out"),
    ],
)
def test_what_has_no_answer_is_said_in_words(asked, error, words):
    with pytest.raises(error, match=words):
        asked()
