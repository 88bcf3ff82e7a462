"""Nitrogen in the water: forms of reporting, toxic ammonia, criteria, nitrification."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.water import (
    AmmoniaAs,
    NitrateAs,
    Nitrification,
    NitriteAs,
    ammonium_pka,
    epa_acute_ammonia,
    epa_chronic_ammonia,
    in_form,
    nitrification_use,
    unionized_ammonia,
    unionized_ammonia_fraction,
)

PH = st.floats(5, 10.99)
TEMPERATURE = st.floats(0, 49.9)
CONCENTRATION = st.floats(0, 1e4)


@given(ph=PH, temperature_c=TEMPERATURE)
def test_more_ammonia_is_toxic_the_higher_the_ph(ph: float, temperature_c: float) -> None:
    assert unionized_ammonia_fraction(ph + 0.01, temperature_c) > unionized_ammonia_fraction(ph, temperature_c)


@given(ph=PH, temperature_c=TEMPERATURE)
def test_more_ammonia_is_toxic_the_warmer_the_water(ph: float, temperature_c: float) -> None:
    assert unionized_ammonia_fraction(ph, temperature_c + 0.1) > unionized_ammonia_fraction(ph, temperature_c)


@given(temperature_c=TEMPERATURE)
def test_half_is_toxic_where_ph_equals_pka(temperature_c: float) -> None:
    assert unionized_ammonia_fraction(ammonium_pka(temperature_c), temperature_c) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("ph", "temperature_c", "words"),
    [
        (12, 20, "pH 12 is outside 5 to 11, the range of this equation"),
        (7, 51, "temperature 51 C is outside 0 to 50 C, the range of this equation"),
        (math.nan, 20, "pH (not a number) is outside 5 to 11, the range of this equation"),
    ],
)
def test_the_fraction_is_refused_outside_its_range(ph: float, temperature_c: float, words: str) -> None:
    with pytest.raises(OutOfRange) as refused:
        unionized_ammonia_fraction(ph, temperature_c)
    assert str(refused.value) == words


@given(mg_per_l=CONCENTRATION, given_as=st.sampled_from(AmmoniaAs), wanted=st.sampled_from(AmmoniaAs))
def test_ammonia_forms_come_back_as_they_went(mg_per_l: float, given_as: AmmoniaAs, wanted: AmmoniaAs) -> None:
    there = in_form(mg_per_l, given=given_as, wanted=wanted)
    assert in_form(there, given=wanted, wanted=given_as) == pytest.approx(mg_per_l)


def test_forms_follow_the_molar_masses() -> None:
    assert in_form(1, given=AmmoniaAs.N, wanted=AmmoniaAs.NH3) == pytest.approx(1.2159, abs=1e-4)
    assert in_form(1, given=AmmoniaAs.N, wanted=AmmoniaAs.NH4) == pytest.approx(1.2878, abs=1e-4)
    assert in_form(1, given=NitriteAs.N, wanted=NitriteAs.NO2) == pytest.approx(3.2845, abs=2e-4)
    assert in_form(1, given=NitrateAs.N, wanted=NitrateAs.NO3) == pytest.approx(4.4267, abs=2e-4)
    assert in_form(44.267, given=NitrateAs.NO3, wanted=NitrateAs.N) == pytest.approx(10, abs=1e-3)


def test_a_negative_concentration_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"concentration -0\.1 mg/L"):
        in_form(-0.1, given=NitriteAs.N, wanted=NitriteAs.NO2)


@given(total=CONCENTRATION, ph=PH, temperature_c=TEMPERATURE)
def test_the_same_reading_is_less_toxic_as_nh4_than_as_n(total: float, ph: float, temperature_c: float) -> None:
    as_n = unionized_ammonia(total, ph=ph, temperature_c=temperature_c, reported=AmmoniaAs.N)
    as_nh4 = unionized_ammonia(total, ph=ph, temperature_c=temperature_c, reported=AmmoniaAs.NH4)
    assert as_n.as_n_mg_per_l == pytest.approx(as_n.fraction * total)
    assert as_nh4.as_n_mg_per_l * 18.039 / 14.007 == pytest.approx(as_n.as_n_mg_per_l)
    assert as_n.as_nh3_mg_per_l == pytest.approx(as_n.as_n_mg_per_l * 17.031 / 14.007)


@given(ph=st.floats(6.5, 9), temperature_c=st.floats(0, 30))
def test_the_chronic_limit_is_below_the_acute_and_trout_get_no_more(ph: float, temperature_c: float) -> None:
    acute = epa_acute_ammonia(ph, temperature_c)
    assert epa_chronic_ammonia(ph, temperature_c) < epa_acute_ammonia(ph, temperature_c, salmonids=True) <= acute


def test_cold_water_lets_trout_have_less_than_the_general_limit() -> None:
    assert epa_acute_ammonia(7, 5, salmonids=True) < epa_acute_ammonia(7, 5)
    assert epa_acute_ammonia(7, 20, salmonids=True) == epa_acute_ammonia(7, 20)


@pytest.mark.parametrize(("ph", "temperature_c"), [(6.4, 20), (9.1, 20), (7, 31), (7, -1)])
def test_the_criteria_are_refused_outside_their_tables(ph: float, temperature_c: float) -> None:
    with pytest.raises(OutOfRange):
        epa_chronic_ammonia(ph, temperature_c)
    with pytest.raises(OutOfRange):
        epa_acute_ammonia(ph, temperature_c)


@given(nitrogen_g=st.floats(0, 1e6))
def test_counting_growth_needs_less_of_both(nitrogen_g: float) -> None:
    without = nitrification_use(nitrogen_g, Nitrification.WITHOUT_GROWTH)
    with_growth = nitrification_use(nitrogen_g, Nitrification.WITH_GROWTH)
    assert with_growth.alkalinity_g_caco3 <= without.alkalinity_g_caco3
    assert with_growth.oxygen_g <= without.oxygen_g


def test_use_grows_with_the_nitrogen() -> None:
    use = nitrification_use(6.25, Nitrification.WITHOUT_GROWTH)
    assert use.alkalinity_g_caco3 == pytest.approx(44.6, abs=0.05)
    assert use.oxygen_g == pytest.approx(28.6, abs=0.05)
    with pytest.raises(OutOfRange):
        nitrification_use(-1, Nitrification.WITH_GROWTH)
