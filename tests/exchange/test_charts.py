"""Charts carry their title, units, marks and spans, are the same each time, and need matplotlib."""

from __future__ import annotations

import sys
from datetime import date
from math import nan
from pathlib import Path
from xml.etree import ElementTree

import pytest

from farmops.exchange import charts
from farmops.exchange.chart_of import growth_chart, prices_chart, readings_chart
from farmops.exchange.charts import Chart, Curve, as_svg, write_chart
from farmops.model.errors import Refused
from farmops.model.readings import Measure
from farmops.records.store import Store
from farmops.reports import names
from farmops.reports.fish import lot_on_day
from farmops.reports.markers import Marker
from farmops.reports.returns import Asked, monthly
from farmops.reports.water import series_of, waters_of

MAY, JUNE = date(2026, 5, 3), date(2026, 6, 3)
CURVE = Curve("read", (MAY, JUNE), (7.0, 7.4), ((6.9, 7.1), None))
CHARTS = {
    "days": Chart("WREN pH", "", "pH", (CURVE,), band=(6.4, 7.2), marks=((MAY, "lime <b>added</b> & stirred"),)),
    "columns": Chart("Weeks", "week from", "lb", (Curve("produce", ("3 May", "10 May"), (1.0, 2.0)),), "columns"),
    "bars": Chart("Yields", "lb", "", (Curve("produce", ("WREN", "ROOK $x$"), (3.0, 1.0), ((2, 4), None)),), "bars"),
    "stacks": Chart("Cost", "USD", "", tuple(Curve(one, ("WREN",), (1.0,)) for one in "abcde"), "stacks"),
}


@pytest.mark.parametrize("kind", CHARTS)
def test_a_chart_is_well_formed_and_the_same_each_time(kind: str) -> None:
    found = as_svg(CHARTS[kind])
    assert ElementTree.fromstring(found).tag == "{http://www.w3.org/2000/svg}svg"  # noqa: S314 - made just now
    assert as_svg(CHARTS[kind]) == found
    assert b"<script" not in found


def words_in(chart: Chart, monkeypatch: pytest.MonkeyPatch) -> str:
    """The words of a chart, which are drawn as outlines as a rule, as text."""
    monkeypatch.setitem(charts.LOOKS, "svg.fonttype", "none")
    root = ElementTree.fromstring(as_svg(chart))  # noqa: S314 - made just now
    return "\n".join("".join(one.itertext()) for one in root.iter("{http://www.w3.org/2000/svg}text"))


def test_title_units_marks_and_the_safe_span_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    words = words_in(CHARTS["days"], monkeypatch).splitlines()
    assert {"WREN pH", "pH", "a", "safe", "where it may lie"} <= {*words}
    assert "a  2026-05-03: lime <b>added</b> & stirred" in words


def test_names_are_no_markup_and_no_mathematics(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "ROOK $x$" in words_in(CHARTS["bars"], monkeypatch).splitlines()


def test_a_script_that_our_font_lacks_is_left_to_the_reader_s_fonts() -> None:
    found = as_svg(Chart("羽衣甘蓝", "", "lb", (Curve("produce", ("畑",), (1.0,)),), "columns")).decode()
    assert "羽衣甘蓝" in found
    assert "畑" in found
    assert "<text" not in as_svg(CHARTS["columns"]).decode()


@pytest.mark.parametrize("values", [(), (nan, nan)])
def test_nothing_to_draw_is_said(values: tuple[float, ...]) -> None:
    with pytest.raises(Refused, match="nothing to draw"):
        as_svg(Chart("pH", "", "", (Curve("read", (MAY, JUNE)[: len(values)], values),)))


def test_without_matplotlib_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setitem(sys.modules, "matplotlib", None)
    with pytest.raises(Refused, match=r"pip install 'farmops\[report\]'"):
        write_chart(str(tmp_path / "x.svg"), CHARTS["days"])
    assert not (tmp_path / "x.svg").exists()


def test_readings_are_drawn_in_the_units_of_the_farm_with_bad_ones_marked(invented: Store) -> None:
    waters, unit = waters_of(invented), names.unit(invented, "TEAL")
    lines = series_of(invented, date.min, date.max, unit.id, Measure.TEMPERATURE)
    band = waters.band(unit.id, Measure.TEMPERATURE)
    marker = Marker(MAY, "TEAL", "shade cloth up")
    found = readings_chart(lines, band, [marker], "TEAL", waters.farm.measures)
    assert (found.title, found.up) == ("TEAL temperature", f"temperature (°{waters.farm.measures.temperature})")
    assert found.marks == ((MAY, "shade cloth up"),)
    read, bad = found.curves[:2]
    assert len(read.values) == len(lines)
    assert len(bad.values) == sum(one.judged.bad for one in lines) > 0
    low, high = found.band
    assert low is not None
    assert high is not None
    assert min(bad.values) < low or max(bad.values) > high


def test_growth_has_what_is_known_and_what_is_ahead_with_its_band(invented: Store) -> None:
    found = lot_on_day(invented, names.lot(invented, "PERCH-25").id, date(2026, 10, 14))
    drawn = growth_chart(found.lot, found.weighed, found.ahead, found.on, found.farm.measures)
    known, ahead = drawn.curves
    assert len(known.values) == len(found.weighed)
    assert drawn.up == "lb"
    assert all(low < value < high for value, (low, high) in zip(ahead.values, filter(None, ahead.ranges), strict=True))
    assert min(ahead.at) > found.on  # type: ignore[operator]


def test_a_month_without_a_price_is_a_gap(invented: Store) -> None:
    months = monthly(invented, Asked(date(2026, 10, 14)))
    (curve,) = prices_chart(months, None, "the farm", months[0].settings.measures).curves
    missing = [value != value for value in curve.values]
    assert missing == [one.farm.cost_per_mass.value is None for one in months]
    assert any(missing)
