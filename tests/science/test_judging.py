"""Readings judged: the stricter limit counts, toxic ammonia follows pH and temperature, forms go there and back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.limits import Level, Limit, Side
from farmops.model.readings import NITROGEN, Form, Measure
from farmops.science.judging import as_nitrogen, as_reported, judge, limited

TOXIC = Limit(
    "fish", Measure.AMMONIA, Side.ABOVE, 0.05, Level.HARMFUL, "burns gills", "no feed", "a sheet", False, toxic=True
)
DEADLY = replace(TOXIC, at=2.0, level=Level.DANGEROUS)
TOTAL = replace(TOXIC, at=1.0, form=Form.AS_N, toxic=False)
NITRITE = replace(TOTAL, measure=Measure.NITRITE, at=1.0, form=Form.AS_ION)
COLD = replace(TOTAL, measure=Measure.TEMPERATURE, who="the filter", side=Side.BELOW, at=14.0, level=Level.WATCH)
COLDER = replace(COLD, who="a fish", at=10.0, level=Level.DANGEROUS)
FORMS = st.sampled_from([None, Form.AS_N, Form.AS_ION])


@pytest.mark.parametrize(
    ("measure", "factor"),
    [(Measure.AMMONIA, 0.77652), (Measure.NITRITE, 0.30446), (Measure.NITRATE, 0.22590), (Measure.IRON, 1.0)],
)
def test_a_kit_that_reports_the_ion_is_counted_as_nitrogen(measure: Measure, factor: float) -> None:
    assert as_nitrogen(measure, 10.0, Form.AS_ION) == pytest.approx(10 * factor, abs=1e-3)
    assert as_nitrogen(measure, 10.0, Form.AS_N) == as_nitrogen(measure, 10.0, None) == 10.0


@given(measure=st.sampled_from(Measure), value=st.floats(0, 1000), form=FORMS)
def test_stored_and_reported_are_there_and_back(measure: Measure, value: float, form: Form | None) -> None:
    assert as_reported(measure, as_nitrogen(measure, value, form), form) == pytest.approx(value)
    if measure not in NITROGEN:
        assert as_reported(measure, value, form) == value


def test_where_nobody_has_a_limit_nothing_is_said() -> None:
    assert judge(Measure.POTASSIUM, 5.0, [TOXIC, COLD]) is None
    assert judge(Measure.AMMONIA, 5.0, []) is None


def test_a_reading_within_every_limit_is_good() -> None:
    found = judge(Measure.TEMPERATURE, 14.0, [COLD, COLDER])
    assert found is not None
    assert (found.level, found.passed, found.lacking) == (Level.GOOD, (), ())


def test_the_gravest_limit_leads_and_the_others_follow() -> None:
    found = judge(Measure.TEMPERATURE, 9.5, [COLD, COLDER])
    assert found is not None
    assert (found.level, found.passed, found.counted) == (Level.DANGEROUS, (COLDER, COLD), 9.5)
    between = judge(Measure.TEMPERATURE, 12.0, [COLD, COLDER])
    assert between is not None
    assert (between.level, between.passed) == (Level.WATCH, (COLD,))


def test_the_lowest_and_highest_temperature_of_a_day_are_held_against_the_limits_of_the_temperature() -> None:
    assert limited(Measure.NITRITE) is Measure.NITRITE
    for measure in (Measure.LOWEST_TEMPERATURE, Measure.HIGHEST_TEMPERATURE):
        assert limited(measure) is Measure.TEMPERATURE
        found = judge(measure, 9.5, [COLD, COLDER, NITRITE])
        assert found is not None
        assert found.passed == (COLDER, COLD)


def test_of_two_as_grave_the_first_named_leads() -> None:
    strict = replace(TOTAL, who="trout", at=0.5)
    found = judge(Measure.AMMONIA, 1.5, [strict, TOTAL], ph=6.5, temperature_c=15)
    assert found is not None
    assert [limit.who for limit in found.passed] == ["trout", "fish"]


def test_the_same_ammonia_is_good_in_sour_water_and_harmful_in_high_ph() -> None:
    limits = [TOXIC, DEADLY, TOTAL]
    sour = judge(Measure.AMMONIA, 0.9, limits, ph=6.8, temperature_c=20)
    high = judge(Measure.AMMONIA, 0.9, limits, ph=8.4, temperature_c=20)
    assert sour is not None
    assert high is not None
    assert sour.level is Level.GOOD
    assert (high.level, high.passed[0]) == (Level.HARMFUL, TOXIC)
    assert high.counted == pytest.approx(0.0988, abs=0.001)


def test_without_ph_or_temperature_only_the_total_is_judged_and_what_is_lacking_is_told() -> None:
    found = judge(Measure.AMMONIA, 1.5, [TOXIC, TOTAL], temperature_c=20)
    assert found is not None
    assert (found.passed, found.lacking) == ((TOTAL,), (Measure.PH,))
    blind = judge(Measure.AMMONIA, 0.2, [TOXIC, TOTAL])
    assert blind is not None
    assert (blind.level, blind.lacking) == (Level.GOOD, (Measure.PH, Measure.TEMPERATURE))
    assert judge(Measure.NITRITE, 0.1, [NITRITE]).lacking == ()  # type: ignore[union-attr]


def test_a_ph_beyond_the_equation_leaves_the_total_to_judge() -> None:
    found = judge(Measure.AMMONIA, 1.5, [TOXIC, TOTAL], ph=4.0, temperature_c=20)
    assert found is not None
    assert (found.passed, found.lacking) == ((TOTAL,), ())


def test_a_limit_counts_in_its_own_form() -> None:
    assert judge(Measure.NITRITE, 0.30, [NITRITE]).level is Level.GOOD  # type: ignore[union-attr]
    found = judge(Measure.NITRITE, 0.31, [NITRITE])
    assert found is not None
    assert found.level is Level.HARMFUL
    assert found.counted == pytest.approx(1.018, abs=0.001)


@given(value=st.floats(0, 50), more=st.floats(0, 50), ph=st.floats(6, 9), warm=st.floats(5, 30))
def test_more_ammonia_is_never_judged_milder(value: float, more: float, ph: float, warm: float) -> None:
    limits = [TOXIC, DEADLY, TOTAL]
    less = judge(Measure.AMMONIA, value, limits, ph=ph, temperature_c=warm)
    worse = judge(Measure.AMMONIA, value + more, limits, ph=ph, temperature_c=warm)
    assert less is not None
    assert worse is not None
    assert less.level.gravity <= worse.level.gravity
