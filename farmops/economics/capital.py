"""What money tied up for years costs and earns: capital recovery, present value, rate of return, payback.

Flows are one amount per year in cents, the first of them today; what is paid out is negative. Rates are
fractions per year (0.08, not 8).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import pairwise
from statistics import fmean

from farmops.model.errors import OutOfRange, Refused
from farmops.model.frozen import dataclass

IMAGINARY_AT_MOST = 1e-6
HALVINGS = 80


def capital_recovery_factor(rate: float, years: float) -> float:
    """Even yearly payment that pays back 1 with interest: i (1 + i)^n / ((1 + i)^n - 1), or 1 / n at rate 0.

    Args:
        rate: interest [fraction per year], above -1.
        years: length of the life [years], above 0.

    Raises:
        OutOfRange: the rate or the life is not in its range.

    Source:
        Standard engineering economy; W. Edwards, Estimating Farm Machinery Costs, Iowa State University
        Extension PM 710.
    """
    _check_rate(rate)
    if years <= 0:
        raise OutOfRange(f"A life of {years} years is outside the range: it must be longer than 0.")
    if rate == 0:
        return 1 / years
    return rate / -math.expm1(-years * math.log1p(rate))


def annual_cost(price: int, salvage: int, years: float, rate: float) -> float:
    """Even yearly cost of a thing that lasts [cents per year]: (P - S) CRF + S i.

    It holds both wear and interest: do not add depreciation to it.

    Args:
        price: what was paid [cents].
        salvage: worth at the end of its life [cents].
        years: length of the life [years], above 0.
        rate: interest [fraction per year], above -1.

    Raises:
        OutOfRange: as `capital_recovery_factor`.

    Source:
        W. Edwards, Estimating Farm Machinery Costs, Iowa State University Extension PM 710.
    """
    return (price - salvage) * capital_recovery_factor(rate, years) + salvage * rate


def net_present_value(rate: float, flows: Sequence[float]) -> float:
    """Worth today of flows at the start and at the end of each year [cents]: sum of CF_t / (1 + r)^t.

    Args:
        rate: interest [fraction per year], above -1.
        flows: one amount per year, the first today [cents].

    Raises:
        OutOfRange: the rate is -1 or less, or so extreme over so many years that no number holds it.

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.2.
    """
    _check_rate(rate)
    return math.fsum(_discounted(rate, flows))


@dataclass(frozen=True, slots=True)
class InternalRate:
    """The rates at which flows are worth nothing today.

    Attributes:
        roots: every such rate, lowest first [fraction per year].
        words: why there is no one answer; None where there is one.
    """

    roots: tuple[float, ...]
    words: str | None = None

    @property
    def rate(self) -> float | None:
        """The one rate of return [fraction per year]; None where there is none or more than one."""
        return self.roots[0] if len(self.roots) == 1 else None


def internal_rate(flows: Sequence[float]) -> InternalRate:
    """Rates at which the net present value is zero, all of them above -1.

    Flows that change sign once have one rate and no more; where they change it more often there may be
    several or none, and the result says so.

    Args:
        flows: one amount per year, the first today [cents].

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.3; Descartes' rule of signs.
    """
    trimmed = _without_outer_zeros(flows)
    changes = _sign_changes(trimmed)
    if not changes:
        return InternalRate((), "No rate of return: the flows never change sign, so nothing is earned back.")
    roots = _only_root(trimmed) if changes == 1 else _all_roots(trimmed)
    return InternalRate(roots, _words(roots))


def modified_internal_rate(flows: Sequence[float], finance_rate: float, reinvest_rate: float) -> float:
    """Rate of return where what comes in earns one rate and what is owed costs another [fraction per year].

    (FV of inflows at the reinvestment rate / PV of outflows at the finance rate)^(1/n) - 1.

    Args:
        flows: one amount per year, the first today [cents].
        finance_rate: what borrowed money costs [fraction per year], above -1.
        reinvest_rate: what money that came in earns [fraction per year], above -1.

    Raises:
        Refused: nothing comes in or nothing is paid out.
        OutOfRange: a rate is -1 or less.

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.4.
    """
    inflows, outflows = _present_inflows(reinvest_rate, flows), _present_outflows(finance_rate, flows)
    if not inflows or not outflows:
        raise Refused("No modified rate of return: it needs money paid out and money that comes in.")
    return math.pow(inflows / outflows, 1 / (len(flows) - 1)) * (1 + reinvest_rate) - 1


def payback(flows: Sequence[int]) -> Fraction | None:
    """Years until what came in has covered what was paid out, to stay covered; None where it never is.

    The last year that ends below zero, and of the next one the part its flow takes to cover the shortfall.

    Args:
        flows: one amount per year, the first today [cents].

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.1.
    """
    return _crossing([Fraction(flow) for flow in flows])


def discounted_payback(rate: float, flows: Sequence[float]) -> float | None:
    """As `payback`, on flows discounted to today [years]; None where they never cover what was paid out.

    Args:
        rate: interest [fraction per year], above -1.
        flows: one amount per year, the first today [cents].

    Raises:
        OutOfRange: the rate is -1 or less.

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.4.
    """
    _check_rate(rate)
    years = _crossing([Fraction(flow) for flow in _discounted(rate, flows)])
    return None if years is None else float(years)


def profitability_index(rate: float, flows: Sequence[float]) -> float:
    """Worth today of what comes in per cent paid out [-]; above 1 it earns more than the rate.

    Args:
        rate: interest [fraction per year], above -1.
        flows: one amount per year, the first today [cents].

    Raises:
        Refused: nothing is paid out.
        OutOfRange: the rate is -1 or less.

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.4.
    """
    outflows = _present_outflows(rate, flows)
    if not outflows:
        raise Refused("No profitability index: nothing is paid out.")
    return _present_inflows(rate, flows) / outflows


def equivalent_annuity(rate: float, flows: Sequence[float]) -> float:
    """Even yearly amount worth the same today [cents per year]: compares lives of different length.

    Args:
        rate: interest [fraction per year], above -1.
        flows: one amount per year, the first today [cents]; at least one year long.

    Raises:
        OutOfRange: the rate is -1 or less, or the flows span no year.

    Source:
        Dahlquist and Knight (2022), Principles of Finance, OpenStax, 16.5.
    """
    return net_present_value(rate, flows) * capital_recovery_factor(rate, len(flows) - 1)


def _check_rate(rate: float) -> None:
    if not rate > -1:
        raise OutOfRange(f"A rate of {rate:g} per year is outside the range: it must be above -1.")


def _discounted(rate: float, flows: Sequence[float]) -> list[float]:
    try:
        return [flow / (1 + rate) ** year for year, flow in enumerate(flows)]
    except ArithmeticError:
        raise OutOfRange(f"A rate of {rate:g} over {len(flows) - 1} years is outside what can be computed.") from None


def _present_inflows(rate: float, flows: Sequence[float]) -> float:
    return net_present_value(rate, [max(flow, 0) for flow in flows])


def _present_outflows(rate: float, flows: Sequence[float]) -> float:
    return -net_present_value(rate, [min(flow, 0) for flow in flows])


def _crossing(flows: Sequence[Fraction]) -> Fraction | None:
    total = Fraction()
    since = Fraction()
    for year, flow in enumerate(flows):
        if total < 0 <= total + flow:
            since = year - 1 - total / flow
        total += flow
    return since if total >= 0 else None


def _without_outer_zeros(flows: Sequence[float]) -> list[float]:
    paid = [year for year, flow in enumerate(flows) if flow]
    return list(flows[paid[0] : paid[-1] + 1]) if paid else []


def _sign_changes(flows: Sequence[float]) -> int:
    signs = [flow > 0 for flow in flows if flow]
    return sum(before != after for before, after in pairwise(signs))


def _worth_by_growth(flows: Sequence[float]) -> Callable[[float], float]:
    """Present value, scaled so that it never overflows, by the logarithm of yearly growth."""

    def worth(log_growth: float) -> float:
        offset = min(0.0, log_growth * (len(flows) - 1))
        return math.fsum(flow * math.exp(offset - log_growth * year) for year, flow in enumerate(flows))

    return worth


def _only_root(flows: Sequence[float]) -> tuple[float, ...]:
    """By halving, since an interface waits for no scipy."""
    worth = _worth_by_growth(flows)
    # Cauchy's bound on the roots of a polynomial, from both ends, and a step beyond it for rounding.
    reach = 1 + math.log1p(max(abs(flow) for flow in flows) / min(abs(flows[0]), abs(flows[-1])))
    low, high = -reach, reach
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if (worth(middle) > 0) == (flows[0] > 0):
            high = middle
        else:
            low = middle
    return (math.expm1((low + high) / 2),)


def _all_roots(flows: Sequence[float]) -> tuple[float, ...]:
    import numpy as np

    growths = np.roots(np.asarray(flows, dtype=float))
    near_real = (growths.real > 0) & (np.abs(growths.imag) <= IMAGINARY_AT_MOST * np.abs(growths))
    return tuple(growth - 1 for growth in _distinct(sorted(growths[near_real].real.tolist())))


def _distinct(growths: Sequence[float]) -> list[float]:
    """A multiple root comes back as several a hair apart: their mean is the better value."""
    groups: list[list[float]] = []
    for growth in growths:
        if groups and growth - groups[-1][-1] <= 2 * IMAGINARY_AT_MOST * growth:
            groups[-1].append(growth)
        else:
            groups.append([growth])
    return [fmean(group) for group in groups]


def _words(roots: tuple[float, ...]) -> str | None:
    if not roots:
        return "No rate of return: at no rate are the flows worth nothing today."
    if len(roots) == 1:
        return None
    rates = ", ".join(f"{rate:.2%}" for rate in roots)
    return f"No single rate of return: each of {rates} fits; use the net present value instead."
