"""Limits of the water that were read in their sources, and what a reading beyond them is called."""

from __future__ import annotations

import pytest

from farmops.library import limits_for, water_limits
from farmops.model.limits import Level, Limit, Side
from farmops.model.readings import LIKELY, Form, Measure
from farmops.science.judging import judge
from tests.labels import common_practice, from_memory, published

LIMITS = limits_for([], fish=True, bacteria=True, plants=True)
IFAS = "Francis-Floyd et al., Ammonia in Aquatic Systems, UF/IFAS FA-16: harm from 0.05 mg/L, death near 2.0"
FAO_73 = "Somerville et al. 2014, FAO Tech. Paper 589, section 7.3: ammonia and nitrite are toxic above 1 mg/L"
HARTLEB = "Hartleb, Univ. Wisconsin-Stevens Point: fish sensitive above 0.6 mg/L; lettuce bears pH 7.0 to 7.5 at most"


def one(measure: Measure, who: str, level: Level, *, toxic: bool = False) -> Limit:
    found = [limit for limit in water_limits() if (limit.measure, limit.who, limit.level) == (measure, who, level)]
    (limit,) = (limit for limit in found if limit.toxic is toxic)
    return limit


def level(measure: Measure, value: float, **beside: float) -> Level:
    found = judge(measure, value, LIMITS, **beside)
    assert found is not None
    return found.level


@published(IFAS)
def test_toxic_ammonia_harms_from_a_twentieth_and_kills_near_two() -> None:
    assert one(Measure.AMMONIA, "fish", Level.HARMFUL, toxic=True).at == 0.05
    assert one(Measure.AMMONIA, "fish", Level.DANGEROUS, toxic=True).at == 2.0
    assert level(Measure.AMMONIA, 0.9, ph=8.0, temperature_c=24) is Level.HARMFUL
    assert level(Measure.AMMONIA, 9.0, ph=9.0, temperature_c=24) is Level.DANGEROUS


@published(FAO_73)
@pytest.mark.parametrize("measure", [Measure.AMMONIA, Measure.NITRITE])
def test_ammonia_and_nitrite_are_toxic_above_one(measure: Measure) -> None:
    limit = one(measure, "fish", Level.HARMFUL)
    assert (limit.at, limit.side, limit.remembered) == (1.0, Side.ABOVE, False)
    assert level(measure, 1.05) is Level.HARMFUL


@published(HARTLEB)
@pytest.mark.parametrize("measure", [Measure.AMMONIA, Measure.NITRITE])
def test_fish_feel_ammonia_and_nitrite_above_six_tenths(measure: Measure) -> None:
    assert one(measure, "fish", Level.WATCH).at == 0.6
    assert not one(measure, "fish", Level.WATCH).remembered


@published(HARTLEB)
def test_plants_want_no_ph_above_seven_and_a_half() -> None:
    upper = [
        limit
        for limit in water_limits()
        if (limit.measure, limit.who, limit.side) == (Measure.PH, "plants", Side.ABOVE)
    ]
    assert [(limit.at, limit.remembered) for limit in upper] == [(7.5, False)]


def test_limits_called_verified_are_those_whose_source_was_read() -> None:
    verified = {(one.who, one.measure.value, one.side.value, one.at) for one in water_limits() if not one.remembered}
    assert verified == {
        ("fish", "ammonia", "above", 0.05),
        ("fish", "ammonia", "above", 2.0),
        ("fish", "ammonia", "above", 0.6),
        ("fish", "ammonia", "above", 1.0),
        ("fish", "nitrite", "above", 0.6),
        ("fish", "nitrite", "above", 1.0),
        ("plants", "pH", "above", 7.5),
    }


@from_memory("Somerville et al. 2014, FAO Tech. Paper 589, Tables 3.1 and 3.2 and sections 3.3 and 7.3")
@pytest.mark.parametrize(
    ("measure", "good", "bad"),
    [
        (Measure.OXYGEN, 5.5, 4.5),
        (Measure.PH, 6.5, 5.9),
        (Measure.PH, 7.4, 8.6),
        (Measure.NITRATE, 90.0, 91.0),
        (Measure.ALKALINITY, 80.0, 50.0),
        (Measure.TEMPERATURE, 22.0, 12.0),
    ],
)
def test_readings_within_and_beyond_what_units_want(measure: Measure, good: float, bad: float) -> None:
    assert level(measure, good) is Level.GOOD
    assert level(measure, bad) is not Level.GOOD


@common_practice("any chlorine that a strip shows is too much for fish and filter")
def test_no_chlorine_goes_to_the_fish() -> None:
    assert level(Measure.CHLORINE, 0.0) is Level.GOOD
    assert level(Measure.CHLORINE, 0.5) is Level.DANGEROUS


@common_practice(
    "what is read in such units: pH 5 to 9, water of 1 to 35 C, kits up to 8 mg/L of ammonia and 5 of nitrite"
)
@pytest.mark.parametrize(
    ("measure", "values"),
    [
        (Measure.PH, (5.0, 9.0)),
        (Measure.TEMPERATURE, (1.0, 35.0)),
        (Measure.AMMONIA, (0.0, 8.0)),
        (Measure.NITRITE, (0.0, 5.0)),
    ],
)
def test_what_kits_can_show_is_not_asked_about(measure: Measure, values: tuple[float, float]) -> None:
    low, high = LIKELY[measure]
    assert low <= values[0] < values[1] <= high


def test_a_limit_in_another_form_than_it_is_stored_says_so() -> None:
    forms = {limit.form for limit in water_limits() if limit.measure is Measure.NITRITE}
    assert forms == {Form.AS_ION}
