"""Words for an amount are words like others, and know the exact number behind them."""

from __future__ import annotations

import copy
import json
import pickle
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.figures import given as known
from farmops.model.readings import Measure
from farmops.quantities import AREA, MASS, METRIC, TEMPERATURE, US, VOLUME, Measures, in_unit, show_money
from farmops.quantities.readings import show_value
from farmops.quantities.worded import Worded
from farmops.reports.shown import IN_FARM_UNITS, UNITS, shown, shown_bare

CENT = Fraction(1, 100)
LB_MG, SQ_FT_MM2 = Fraction(45_359_237, 100), Fraction(9_290_304, 100)


@given(st.integers(0, 10**12), st.sampled_from([US, METRIC]))
def test_an_amount_knows_itself_exactly_in_the_unit_of_the_farm(value: int, measures: Measures) -> None:
    for dimension in (MASS, VOLUME, AREA):
        words = dimension.show(value, measures)
        assert words.unit == dimension.main_unit(measures)
        assert words.number == in_unit(value, dimension, words.unit)


def test_a_sum_a_temperature_and_a_reading_know_theirs() -> None:
    assert (show_money(-1250, US).number, show_money(-1250, US).unit) == (Fraction("-12.5"), "USD")
    degrees = TEMPERATURE.show(20, US)
    assert isinstance(degrees, Worded)
    assert (degrees.number, degrees.unit) == (Fraction(68 if US.temperature == "F" else 20), f"°{US.temperature}")
    read = show_value(0.25, Measure.NITRITE, US)
    assert isinstance(read, Worded)
    assert (read, read.number, read.unit) == ("0.25 mg/L as N", Fraction(1, 4), "mg/L as N")


@pytest.mark.parametrize(
    ("unit", "number", "wanted"),
    [
        ("minor", CENT, "USD"),
        ("minor per mg", CENT * LB_MG, "USD per lb"),
        ("mg per mm2", SQ_FT_MM2 / LB_MG, "lb per sq ft"),
        ("minor per mm2", CENT * SQ_FT_MM2, "USD per sq ft"),
        ("minor per minute", CENT * 60, "USD per hour"),
        ("share", 100, "%"),
        ("Wh", Fraction(1, 1000), "kWh"),
    ],
)
def test_a_figure_goes_out_unrounded_in_the_unit_of_the_farm(unit: str, number: Fraction, wanted: str) -> None:
    figure = known("one", Fraction(7, 3), unit, "")
    for words in (shown(figure, US), shown_bare(figure, US)):
        assert isinstance(words, Worded)
        assert words.unit == wanted
        assert words.number in (number * Fraction(7, 3), number * 2)


def test_every_unit_that_goes_out_as_a_number_can_be_shown() -> None:
    assert set(IN_FARM_UNITS) <= set(UNITS)


def test_words_stay_words() -> None:
    words = MASS.show(700_000, US)
    assert words == str(words) == f"{words}"
    assert str(words) in {words}
    assert json.dumps([words]) == json.dumps([str(words)])
    assert type(words + "") is type(words.upper()) is str
    for again in (copy.copy(words), copy.deepcopy(words), pickle.loads(pickle.dumps(words))):  # noqa: S301 - our own
        assert (again, again.number, again.unit) == (words, words.number, words.unit)
