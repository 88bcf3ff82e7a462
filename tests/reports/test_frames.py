"""A frame says what the figures say, in their units of storage, with nothing where there is no number."""

from __future__ import annotations

import math
from datetime import date

import pandas as pd

from farmops.model.costs import Basis
from farmops.reports.frames import YIELD_FIGURES, months_frame, returns_frame, yields_frame
from farmops.reports.returns import FIGURES, Asked, monthly, returns
from farmops.reports.yields import By, yields
from tests.farmhand import TODAY
from tests.land import Land

ASKED = Asked(TODAY, date(2026, 3, 1), TODAY, Basis.FULL)


def same(shown: float, value: object) -> bool:
    return math.isnan(shown) if value is None else shown == float(value)  # type: ignore[arg-type]


def test_a_row_of_returns_is_a_unit_and_the_farm_comes_last(laid: Land) -> None:
    report = returns(laid.store, ASKED)
    frame = returns_frame(report)
    lines = (*report.units, report.farm)
    assert list(frame.index) == [one.unit for one in lines]
    for line in lines:
        for name in FIGURES:
            assert same(frame.loc[line.unit, name], line.figures()[name].value), (line.unit, name)
    assert frame["cost"].notna().any()
    assert frame["cost"].isna().any()


def test_a_row_of_months_is_the_whole_farm_in_one(laid: Land) -> None:
    reports = monthly(laid.store, ASKED)
    frame = months_frame(reports)
    assert isinstance(frame.index, pd.DatetimeIndex)
    assert [day.date() for day in frame.index] == [one.span.first for one in reports]
    for at, one in enumerate(reports):
        assert all(same(frame.iloc[at][name], one.farm.figures()[name].value) for name in FIGURES)


def test_a_row_of_yields_is_a_bed_or_a_crop(laid: Land) -> None:
    for by in By:
        report = yields(laid.store, ASKED, by)
        frame = yields_frame(report)
        assert list(frame.index) == [one.name for one in report.lines]
        for at, one in enumerate(report.lines):
            assert all(same(frame.iloc[at][name], getattr(one, name).value) for name in YIELD_FIGURES)
