"""What is told in words over a place goes out as tables: cycling, comparison, order, payback."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.exchange.charts import as_svg
from farmops.records.store import Store
from farmops.reports import lists, names
from farmops.reports.comparing import compare_two
from farmops.reports.cycling import cycling_of
from farmops.reports.investment import investments
from farmops.reports.ranking import ranking
from farmops.reports.returns import Asked
from farmops.tui.screens.told_out import comparisons_out, cycling_out, investments_out, ranking_out

TODAY = date(2026, 10, 14)


def test_cycling_goes_out_reading_by_reading_and_as_curves(invented: Store) -> None:
    found = cycling_of(invented, names.unit(invented, "SISKIN").id, TODAY)
    assert found is not None
    out = cycling_out(found, lists.farm(invented).measures)
    (table,) = out.tables()
    assert table.heads == ("measure", "day", "value (mg/L as N)")
    assert [row[1:] for row in table.rows] == [(one.day, one.value) for _, curve in found.curves for one in curve]
    assert out.chart is not None
    assert as_svg(out.chart())


def test_the_order_goes_out_place_by_place_under_each_assumption(invented: Store) -> None:
    found = ranking(invented, Asked(TODAY))
    (table,) = ranking_out(found).tables()
    assert [row[2] for row in table.rows if row[0] == found.as_set.words and row[2]] == [*found.as_set.by_net]
    assert {row[0] for row in table.rows} == {found.as_set.words, *(one.words for one in found.others)}


def test_payback_goes_out_in_numbers_with_their_units(invented: Store) -> None:
    found = investments(invented, Asked(TODAY))
    (table,) = investments_out(found).tables()
    outlay = table.heads.index("outlay (USD)")
    paid = [float(one.outlay.value or 0) / 100 for one in found.units]
    assert [row[outlay] for row in table.rows] == pytest.approx(paid)


def test_a_comparison_goes_out_with_its_verdict(invented: Store) -> None:
    found = compare_two(invented, Asked(TODAY), "WREN", "ROOK")
    (table,) = comparisons_out(found, lists.farm(invented).measures).tables()
    assert [row[1] for row in table.rows] == [str(one.verdict) for one in found.lines]
    assert all(row[-1] for row in table.rows)
