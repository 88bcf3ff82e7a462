"""Readings as they are typed on a farm: what is understood, what cannot be, what is asked once."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import NotUnderstood, OutOfRange
from farmops.model.readings import (
    LIKELY,
    NITROGEN,
    READ_IN,
    Form,
    Measure,
    asked_for,
    measure_called,
    measure_of,
    possible,
)
from farmops.quantities import METRIC, US
from farmops.quantities.readings import check_possible, examples, parse_reading, question, show_value
from tests.labels import from_memory

COMMA = replace(METRIC, decimal_comma=True)
BY_VALUE = {one.value: one for one in Measure}


@pytest.mark.parametrize(
    ("measure", "typed", "value", "form", "bound"),
    [
        (Measure.PH, "7.2", 7.2, None, ""),
        (Measure.PH, "7.2 pH", 7.2, None, ""),
        (Measure.PH, "<6", 6.0, None, "<"),
        (Measure.PH, "> 8.8", 8.8, None, ">"),
        (Measure.AMMONIA, "0.25", 0.25, None, ""),
        (Measure.AMMONIA, "<0.25", 0.25, None, "<"),
        (Measure.AMMONIA, ".5 mg/L", 0.5, None, ""),
        (Measure.AMMONIA, "0.5 ppm as N", 0.5, Form.AS_N, ""),
        (Measure.AMMONIA, "0.5 NH4", 0.5, Form.AS_ION, ""),
        (Measure.AMMONIA, "0.5 TAN", 0.5, Form.AS_N, ""),
        (Measure.NITRITE, "0.5 ion", 0.5, Form.AS_ION, ""),
        (Measure.NITRITE, "0.5 NO2-N", 0.5, Form.AS_N, ""),
        (Measure.NITRITE, "0.5 no2", 0.5, Form.AS_ION, ""),
        (Measure.NITRATE, "40 mg/l NO3", 40.0, Form.AS_ION, ""),
        (Measure.NITRATE, "40mg/l n", 40.0, Form.AS_N, ""),
        (Measure.ALKALINITY, "80", 80.0, None, ""),
        (Measure.ALKALINITY, "4 dKH", 71.392, None, ""),
        (Measure.HARDNESS, "10 °dH", 178.48, None, ""),
        (Measure.CONDUCTIVITY, "820", 820.0, None, ""),
        (Measure.CONDUCTIVITY, "1.2 mS/cm", 1200.0, None, ""),
        (Measure.CONDUCTIVITY, "820 µS/cm", 820.0, None, ""),
        (Measure.FILL_TIME, "11.5", 11.5, None, ""),
        (Measure.FILL_TIME, "11:30", 11.5, None, ""),
        (Measure.DRAIN_TIME, "2:05 min", 2 + 5 / 60, None, ""),
        (Measure.DRAIN_TIME, "90 s", 1.5, None, ""),
        (Measure.FLOW, "500 L/h", 500.0, None, ""),
        (Measure.FLOW, "10 l/min", 600.0, None, ""),
        (Measure.FLOW, "100 gph", 378.5411784, None, ""),
        (Measure.IRON, "2", 2.0, None, ""),
    ],
)
def test_what_is_typed_is_understood(measure: Measure, typed: str, value: float, form: Form | None, bound: str) -> None:
    for measures in (US, METRIC):
        read = parse_reading(typed, measure, measures)
        assert read.value == pytest.approx(value)
        assert (read.form, read.bound) == (form, bound)


def test_a_bare_flow_and_a_bare_temperature_are_in_the_units_of_the_farm() -> None:
    assert parse_reading("100", Measure.FLOW, METRIC).value == 100.0
    assert parse_reading("100", Measure.FLOW, US).value == pytest.approx(378.5411784)
    assert parse_reading("72", Measure.TEMPERATURE, US).value == pytest.approx(22.2222, abs=1e-4)
    assert parse_reading("22", Measure.TEMPERATURE, METRIC).value == 22.0
    assert parse_reading("72F", Measure.TEMPERATURE, METRIC).value == pytest.approx(22.2222, abs=1e-4)
    assert parse_reading("22 C", Measure.TEMPERATURE, US).value == 22.0


def test_decimals_are_written_in_the_sign_of_the_farm() -> None:
    assert parse_reading("0,25", Measure.AMMONIA, COMMA).value == 0.25
    with pytest.raises(NotUnderstood, match=r"with a point, as in 1\.4"):
        parse_reading("0,25", Measure.AMMONIA, METRIC)
    with pytest.raises(NotUnderstood, match="with a comma, as in 1,4"):
        parse_reading("0.25", Measure.AMMONIA, COMMA)


@pytest.mark.parametrize(
    ("measure", "typed", "error", "words"),
    [
        (Measure.PH, "19", OutOfRange, 'pH: "19" cannot be: pH lies within 0 to 14. Understood: 7.2, <6.'),
        (Measure.PH, "-1", NotUnderstood, 'pH: "-1" is not more than nothing. Understood:'),
        (Measure.AMMONIA, "-0.25", NotUnderstood, "is not more than nothing"),
        (Measure.AMMONIA, "", NotUnderstood, "ammonia: Nothing was typed. Understood: 0.25, <0.25"),
        (Measure.AMMONIA, "<", NotUnderstood, "is no number"),
        (Measure.AMMONIA, "0.25 oz", NotUnderstood, 'names "oz", neither N nor the ion'),
        (Measure.AMMONIA, "0.5 NH3", NotUnderstood, 'names "nh3", neither N nor the ion'),
        (Measure.NITRITE, "0.5 NO3", NotUnderstood, "neither N nor the ion"),
        (Measure.NITRATE, "20000", OutOfRange, "nitrate lies within 0 mg/L as N to 10000 mg/L as N"),
        (Measure.IRON, "2 dKH", NotUnderstood, 'is in "dkh", which is not known here'),
        (Measure.FLOW, "500 kg", NotUnderstood, 'is in "kg", which is not known here'),
        (Measure.FILL_TIME, "11:75", NotUnderstood, "is in"),
        (Measure.FILL_TIME, "2000", OutOfRange, "fill time lies within 0 min to 1440 min"),
        (Measure.TEMPERATURE, "72 K", NotUnderstood, "temperature: "),
        (Measure.TEMPERATURE, "95", OutOfRange, "cannot be: temperature lies within -5.0 °C to 60.0 °C"),
        (Measure.PH, "seven", NotUnderstood, "is no number"),
        (Measure.PH, "7.2.1", NotUnderstood, "two decimal signs"),
        (Measure.PH, "7\x1b[31m", NotUnderstood, "control character"),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_be_understood(
    measure: Measure, typed: str, error: type[Exception], words: str
) -> None:
    with pytest.raises(error) as told:
        parse_reading(typed, measure, METRIC)
    assert type(told.value) is error
    assert words in str(told.value)
    assert "Understood: " in str(told.value)


@pytest.mark.parametrize("measures", [US, METRIC, COMMA])
@pytest.mark.parametrize("measure", Measure)
def test_the_examples_of_a_measure_are_understood(measure: Measure, measures: object) -> None:
    for text in examples(measure, measures):  # type: ignore[arg-type]
        parse_reading(text, measure, measures)  # type: ignore[arg-type]


@given(measure=st.sampled_from(Measure), share=st.floats(0, 1), measures=st.sampled_from([US, METRIC, COMMA]))
def test_what_is_shown_is_read_back_as_nearly_the_same(measure: Measure, share: float, measures: object) -> None:
    low, high = LIKELY[measure]
    value = low + share * (high - low)
    read = parse_reading(show_value(value, measure, measures), measure, measures)  # type: ignore[arg-type]
    assert read.value == pytest.approx(value, rel=0.006, abs=0.06)
    assert (read.form is Form.AS_N) == (measure in NITROGEN)


@pytest.mark.parametrize("measure", Measure)
def test_likely_lies_within_possible_and_only_outside_it_is_asked(measure: Measure) -> None:
    low, high = LIKELY[measure]
    least, most = possible(measure)
    assert measure in READ_IN
    assert least <= low < high <= most
    assert question(low, measure, METRIC) == question(high, measure, METRIC) == ""
    asked = question(high + 0.1, measure, METRIC)
    assert asked.startswith(f"{measure} ")
    assert "is that right?" in asked


def test_a_stored_value_is_held_against_what_can_be() -> None:
    check_possible(14.0, Measure.PH, METRIC)
    with pytest.raises(OutOfRange, match="pH lies within 0 to 14"):
        check_possible(14.01, Measure.PH, METRIC)
    with pytest.raises(OutOfRange):
        check_possible(float("nan"), Measure.IRON, METRIC)


@pytest.mark.parametrize(
    ("value", "measure", "metric", "us"),
    [
        (7.25, Measure.PH, "7.25", "7.25"),
        (15.24, Measure.TEMPERATURE, "15.2 °C", "59.4 °F"),
        (15.24, Measure.LOWEST_TEMPERATURE, "15.2 °C", "59.4 °F"),
        (1e-9, Measure.IRON, "0 mg/L", "0 mg/L"),
        (0.1522, Measure.NITRITE, "0.152 mg/L as N", "0.152 mg/L as N"),
        (0.0, Measure.AMMONIA, "0 mg/L as N", "0 mg/L as N"),
        (120.4, Measure.ALKALINITY, "120 mg/L", "120 mg/L"),
        (1204.0, Measure.CONDUCTIVITY, "1204 uS/cm", "1204 uS/cm"),
        (11.5, Measure.FILL_TIME, "11.5 min", "11.5 min"),
        (500.0, Measure.FLOW, "500 L/h", "132 gal/h"),
    ],
)
def test_values_are_shown_with_the_digits_that_mean_something(
    value: float, measure: Measure, metric: str, us: str
) -> None:
    assert show_value(value, measure, METRIC) == metric
    assert show_value(value, measure, US) == us


@pytest.mark.parametrize(
    ("text", "measure"),
    [
        ("pH", Measure.PH),
        ("PH", Measure.PH),
        ("fill-time", Measure.FILL_TIME),
        ("Fill_Time", Measure.FILL_TIME),
        ("amm", Measure.AMMONIA),
        ("temp", Measure.TEMPERATURE),
        ("tmin", Measure.LOWEST_TEMPERATURE),
        ("highest", Measure.HIGHEST_TEMPERATURE),
        ("no2", Measure.NITRITE),
        ("DO", Measure.OXYGEN),
        ("k", Measure.POTASSIUM),
        ("fill", Measure.FILL_TIME),
    ],
)
def test_a_measure_is_known_by_name_short_name_or_beginning(text: str, measure: Measure) -> None:
    assert measure_called(text) is measure


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("nit", "could be nitrite or nitrate. Write more of it."),
        ("rust", "'rust' is nothing that is read here. Known: pH, temperature,"),
        ("", "is nothing that is read here"),
    ],
)
def test_a_measure_that_is_not_clear_is_asked_for(text: str, words: str) -> None:
    with pytest.raises(NotUnderstood) as told:
        measure_called(text)
    assert words in str(told.value)


def test_words_of_a_chore_that_are_no_measures_are_left_to_the_sheet() -> None:
    assert asked_for("pH,rust,fill time,PH,amm") == (Measure.PH, Measure.FILL_TIME)
    assert asked_for(None) == asked_for("") == ()
    assert measure_of("amm") is None


@from_memory("DIN 38409-6, German degree of hardness: 10 mg CaO in a litre")
def test_a_german_degree_is_ten_milligrams_of_lime_in_a_litre() -> None:
    caco3, cao = 40.078 + 12.011 + 3 * 15.999, 40.078 + 15.999
    assert parse_reading("1 dKH", Measure.ALKALINITY, METRIC).value == pytest.approx(10 * caco3 / cao, abs=0.0005)
