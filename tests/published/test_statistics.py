"""Comparisons, control charts and trends against printed examples, scipy and statsmodels."""

from __future__ import annotations

import re
from datetime import date, timedelta

import numpy as np
import pytest
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st
from statsmodels.stats.weightstats import ttest_ind

from farmops.economics.bootstrap import difference_of_means, interval_of, widened_confidence
from farmops.economics.drift import (
    Watch,
    cusum,
    ewma,
    ewma_limits,
    individuals,
    moving,
)
from farmops.economics.trends import mann_kendall, median_slope, theil_sen
from farmops.economics.welch import Sample, sample_of, welch_test
from farmops.reports.drift import steady_per_week
from tests.labels import published, rows

NIST = "NIST/SEMATECH e-Handbook of Statistical Methods"
QUOTED = "the values are quoted alike by several independent test suites; the page was not opened"
EPA = "US EPA (2009), Unified Guidance, EPA 530/R-09-007, Example 17-7"

numbers = st.floats(-1000, 1000).map(lambda number: round(number, 3))


def statistic_rows(test: str) -> list[tuple[list[float], str, float, float]]:
    table = rows("statistics_examples.csv", "test", "inputs", "quantity", "published", "tolerance")
    return [
        (
            [float(text) for text in re.findall(r"(?<![a-z])\d+\.?\d*", inputs)],
            name,
            float(value),
            float(within),
        )
        for kind, inputs, name, value, within in table
        if kind == test
    ]


STATISTIC = ("inputs", "quantity", "expected", "tolerance")


@published(
    f"{NIST}, 1.3.5.3; OpenStax, Introductory Statistics 2e, 10.1",
    note="OpenStax prints df 18.8462 (18.8466)",
)
@pytest.mark.parametrize(STATISTIC, statistic_rows("welch_t"))
def test_welch_test_as_printed(inputs, quantity, expected, tolerance):
    n1, mean1, s1, n2, mean2, s2 = inputs
    found = welch_test(Sample(int(n1), mean1, s1), Sample(int(n2), mean2, s2))
    computed = {"t": found.t, "df": found.degrees_of_freedom, "p (two sided)": found.probability}[quantity]
    assert computed == pytest.approx(expected, rel=0, abs=tolerance)


@published("statsmodels 0.14, ttest_ind, and scipy 1.17, ttest_ind, with unequal variances")
@settings(deadline=None)
@given(st.lists(numbers, min_size=3, max_size=20), st.lists(numbers, min_size=3, max_size=20))
def test_welch_test_agrees_with_the_libraries(first, second):
    if np.ptp(first) < 0.1 or np.ptp(second) < 0.1:
        first, second = [*first, 2000.0], [*second, -2000.0]
    found = welch_test(sample_of(first), sample_of(second))
    by_statsmodels = ttest_ind(first, second, usevar="unequal")
    by_scipy = scipy.stats.ttest_ind(first, second, equal_var=False)
    ours = (found.t, found.probability, found.degrees_of_freedom)
    assert ours == pytest.approx(tuple(float(number) for number in by_statsmodels), rel=1e-6, abs=1e-9)
    assert ours == pytest.approx((by_scipy.statistic, by_scipy.pvalue, by_scipy.df), rel=1e-6, abs=1e-9)


@published("scipy 1.17, stats.bootstrap, percentile method")
@pytest.mark.parametrize("paired", [False, True])
@pytest.mark.parametrize("confidence", [0.8, 0.95])
def test_blocks_of_one_week_are_the_ordinary_bootstrap(paired, confidence):
    generator = np.random.default_rng(11)
    first, second = generator.gamma(4, 1, 24), generator.gamma(3, 1, 24)
    found = difference_of_means(first, second, paired=paired, block_weeks=1, confidence=confidence, resamples=60_000)
    by_scipy = scipy.stats.bootstrap(
        (first, second),
        lambda ones, others, axis: ones.mean(axis=axis) - others.mean(axis=axis),
        paired=paired,
        confidence_level=confidence,
        n_resamples=60_000,
        method="percentile",
        rng=np.random.default_rng(3),
    )
    assert found.difference == pytest.approx(first.mean() - second.mean())
    tolerance = 0.05 * by_scipy.standard_error
    assert found.low == pytest.approx(by_scipy.confidence_interval.low, abs=tolerance)
    assert found.high == pytest.approx(by_scipy.confidence_interval.high, abs=tolerance)


@published(
    "Efron and Tibshirani (1993), An Introduction to the Bootstrap, Tables 14.1 and 14.2",
    note="2000 resamples there; within their chance of about 3",
)
@pytest.mark.parametrize(("inputs", "end", "expected", "tolerance"), statistic_rows("bootstrap_percentile"))
def test_percentile_interval_of_a_variance_as_printed(inputs, end, expected, tolerance):
    found = interval_of(inputs, lambda values: values.var(axis=-1), block_weeks=1, confidence=0.9)
    assert found[["lower", "upper"].index(end)] == pytest.approx(expected, abs=tolerance)


@published("scipy 1.17, stats.norm and stats.t, put into Hesterberg's rule")
@pytest.mark.parametrize("observations", [3, 4, 5, 10, 30, 200])
def test_widening_takes_student_for_the_normal(observations):
    reach = np.sqrt(observations / (observations - 1)) * scipy.stats.t.ppf(0.975, observations - 1)
    widened = scipy.stats.norm.ppf((1 + widened_confidence(0.95, observations)) / 2)
    assert widened == pytest.approx(reach, rel=0.02 if observations < 5 else 0.001)


def chart_rows(example: str, row: str, stat_name: str = "") -> list[tuple[str, float, float, float]]:
    table = rows("spc_examples.csv", "example_id", "row", "stat_name", "x", "published", "tolerance")
    return [
        (name, float(x or "nan"), float(printed or "nan"), float(tolerance or 0))
        for this, kind, name, x, printed, tolerance in table
        if (this, kind) == (example, row) and stat_name in name
    ]


FLOW_RATE = [x for _, x, _, _ in chart_rows("S3_imr", "data")]


@published(f"{NIST}, 6.3.2.2", note=QUOTED)
@pytest.mark.parametrize(("name", "x", "expected", "tolerance"), chart_rows("S3_imr", "limit"))
def test_limits_of_individuals_as_printed(name, x, expected, tolerance):
    chart = individuals(FLOW_RATE)
    computed = {
        "mean": chart.limits.centre,
        "mean moving range": chart.mean_range,
        "UCL individuals": chart.limits.high,
        "LCL individuals": chart.limits.low,
    }[name]
    assert computed == pytest.approx(expected, abs=tolerance)


@published(f"{NIST}, 6.3.2.4", note=QUOTED)
def test_moving_average_as_printed():
    table = chart_rows("S1_ewma", "data")
    averages = ewma([x for _, x, _, _ in table], weight=0.3, start=50)
    assert averages == pytest.approx([printed for _, _, printed, _ in table], abs=0.005)
    assert ewma_limits(50, 2.0539, 0.3).outside(averages) == []


@published(f"{NIST}, 6.3.2.4", note=QUOTED + "; the lower limit, 47.41157, is truncated to 47.4115")
def test_limits_of_the_moving_average_as_printed():
    upper, lower = (row[2:] for row in chart_rows("S1_ewma", "limit"))
    limits = ewma_limits(50, 2.0539, 0.3)
    assert limits.high == pytest.approx(upper[0], abs=upper[1])
    assert limits.low == pytest.approx(lower[0], abs=lower[1])


@published(f"{NIST}, 6.3.2.4", note=QUOTED)
def test_a_process_that_is_told_to_be_in_control_is_as_usual_here():
    watch = Watch(centre=50, sigma=2.0539, weight=0.3)
    assert [watch.side(x) for _, x, _, _ in chart_rows("S1_ewma", "data")] == [0] * 20


@published(f"{NIST}, 6.3.2.2", note=QUOTED + "; in control there, and what is 3.3 too high is not")
def test_flow_rates_are_as_usual_and_one_beyond_their_limit_is_not():
    found = moving(FLOW_RATE)
    assert (found.usual.low, found.usual.high) == pytest.approx(
        tuple(row[2] for name in ("LCL", "UCL") for row in chart_rows("S3_imr", "limit", name)), abs=0.01
    )
    assert (found.sides, found.running) == ((0,) * len(FLOW_RATE), 0)
    assert moving([*FLOW_RATE, 56.3, 57]).running == 2


@published(EPA)
def test_a_trend_is_steady_here_as_there():
    inputs, _, slope, within = next(row for row in statistic_rows("theil_sen") if row[1] == "slope per year")
    thousandths = [round(1000 * (time - inputs[0])) for time in inputs[:10]]
    days = [date(2000, 1, 1) + timedelta(weeks=one) for one in thousandths]
    found = steady_per_week(list(zip(days, inputs[10:], strict=True)))
    assert found == pytest.approx(slope / 1000, abs=within / 1000)
    assert median_slope(inputs[:10], inputs[10:]) == pytest.approx(slope, abs=within)


@published(f"{NIST}, 6.3.2.3", note=QUOTED)
def test_cumulative_sums_as_printed():
    above, below = chart_rows("S2_cusum", "data", "S_hi"), chart_rows("S2_cusum", "data", "S_lo")
    sums = cusum([x for _, x, _, _ in above], target=325, slack=0.3175)
    assert [high for high, _ in sums] == pytest.approx([row[2] for row in above], abs=0.0051)
    assert [low for _, low in sums] == pytest.approx([row[2] for row in below], abs=0.0051)
    assert [high > 4.1959 for high, _ in sums].index(True) + 1 == 14


@published(EPA)
@pytest.mark.parametrize(STATISTIC, statistic_rows("mann_kendall"))
def test_trend_test_as_printed(inputs, quantity, expected, tolerance):
    found = mann_kendall(inputs[10:])
    computed = {"tau": found.tau, "Z (continuity corrected)": found.z, "p (two sided)": found.probability}
    assert computed[quantity] == pytest.approx(expected, abs=tolerance)


@published(EPA, note="the lower end of the interval, 0.399, is interpolated there; scipy takes an order statistic")
@pytest.mark.parametrize(STATISTIC, statistic_rows("theil_sen"))
def test_slope_as_printed(inputs, quantity, expected, tolerance):
    found = theil_sen(inputs[:10], inputs[10:])
    computed = {
        "slope per year": found.slope,
        "intercept (median y - slope*median x)": found.intercept,
        "95 percent CI high": found.high,
    }
    assert computed[quantity] == pytest.approx(expected, abs=tolerance)


@published("scipy 1.17, stats.kendalltau")
@settings(deadline=None)
@given(st.lists(numbers, min_size=4, max_size=25, unique=True))
def test_tau_agrees_with_the_library(values):
    library = scipy.stats.kendalltau(range(len(values)), values).statistic
    assert mann_kendall(values).tau == pytest.approx(float(library))
