"""Doses: linear in water and rise, inverse to purity, with cautions that defer to the label."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from farmops.model.errors import OutOfRange
from farmops.science.doses import (
    CAUSTIC,
    LABEL,
    SODIUM,
    Base,
    ChlorideSalt,
    Dose,
    Nutrient,
    StrengthAs,
    Thiosulfate,
    alkalinity_dose,
    ammonia_left_by_chloramine,
    chloride_dose,
    nutrient_dose,
    ph_steps,
    thiosulfate_dose,
)
from farmops.science.water import NitriteAs

VOLUME = st.floats(1, 1e5)
PURITY = st.floats(0.05, 1)


@given(volume_l=VOLUME, rise=st.floats(0, 150), base=st.sampled_from(Base), purity=PURITY)
def test_alkalinity_doses_are_linear(volume_l: float, rise: float, base: Base, purity: float) -> None:
    grams = alkalinity_dose(volume_l=volume_l, rise_mg_per_l=rise, base=base).grams
    assert alkalinity_dose(volume_l=2 * volume_l, rise_mg_per_l=rise, base=base).grams == pytest.approx(2 * grams)
    assert alkalinity_dose(volume_l=volume_l, rise_mg_per_l=2 * rise, base=base).grams == pytest.approx(2 * grams)
    impure = alkalinity_dose(volume_l=volume_l, rise_mg_per_l=rise, base=base, purity=purity)
    assert impure.grams == pytest.approx(grams / purity)


@given(volume_l=VOLUME, rise=st.floats(1, 300), base=st.sampled_from(Base), purity=PURITY)
def test_what_comes_along_is_never_more_than_what_was_weighed(
    volume_l: float, rise: float, base: Base, purity: float
) -> None:
    dose = alkalinity_dose(volume_l=volume_l, rise_mg_per_l=rise, base=base, purity=purity)
    ((_, brought_mg_per_l),) = dose.brings
    assert 0 < brought_mg_per_l * volume_l / 1000 < dose.grams * purity


@pytest.mark.parametrize(
    ("base", "brings"),
    [
        (Base.POTASSIUM_BICARBONATE, ("potassium", 15.63)),
        (Base.POTASSIUM_CARBONATE, ("potassium", 15.63)),
        (Base.CALCIUM_HYDROXIDE, ("calcium", 8.01)),
        (Base.SODIUM_BICARBONATE, ("sodium", 9.19)),
    ],
)
def test_a_rise_of_20_brings_its_metal_along(base: Base, brings: tuple[str, float]) -> None:
    dose = alkalinity_dose(volume_l=1000, rise_mg_per_l=20, base=base)
    assert dict(dose.brings) == pytest.approx(dict([brings]), abs=0.01)


def chloride(**changes: Any) -> Dose:
    tank: dict[str, Any] = {
        "volume_l": 1000,
        "nitrite_mg_per_l": 2,
        "reported": NitriteAs.NO2,
        "chloride_mg_per_l": 5,
        "salt": ChlorideSalt.SODIUM_CHLORIDE,
    }
    return chloride_dose(**(tank | changes))


@given(volume_l=VOLUME, nitrite=st.floats(0, 100), now=st.floats(0, 2000), salt=st.sampled_from(ChlorideSalt))
def test_chloride_reaches_ten_times_the_nitrite_or_was_there(
    volume_l: float, nitrite: float, now: float, salt: ChlorideSalt
) -> None:
    dose = chloride(volume_l=volume_l, nitrite_mg_per_l=nitrite, chloride_mg_per_l=now, salt=salt)
    assert now + dose.rise_mg_per_l == pytest.approx(max(10 * nitrite, now))
    assert (dose.grams == 0) == (dose.rise_mg_per_l == 0)


@given(nitrite=st.floats(0, 30), salt=st.sampled_from(ChlorideSalt))
def test_nitrite_as_n_needs_more_than_the_same_number_as_no2(nitrite: float, salt: ChlorideSalt) -> None:
    as_n = chloride(nitrite_mg_per_l=nitrite, reported=NitriteAs.N, chloride_mg_per_l=0, salt=salt)
    as_no2 = chloride(nitrite_mg_per_l=nitrite, chloride_mg_per_l=0, salt=salt)
    assert as_n.grams == pytest.approx(as_no2.grams * 46.005 / 14.007)


@pytest.mark.parametrize(
    ("salt", "chloride_share"),
    [
        (ChlorideSalt.SODIUM_CHLORIDE, 0.6066),
        (ChlorideSalt.CALCIUM_CHLORIDE, 0.6389),
        (ChlorideSalt.CALCIUM_CHLORIDE_DIHYDRATE, 0.4823),
        (ChlorideSalt.POTASSIUM_CHLORIDE, 0.4755),
    ],
)
def test_each_salt_gives_its_share_of_chloride(salt: ChlorideSalt, chloride_share: float) -> None:
    dose = chloride(salt=salt)
    assert dose.rise_mg_per_l / dose.grams == pytest.approx(chloride_share, abs=0.0001)


@given(volume_l=VOLUME, chlorine=st.floats(0, 10), product=st.sampled_from(Thiosulfate), purity=PURITY)
def test_thiosulfate_is_linear(volume_l: float, chlorine: float, product: Thiosulfate, purity: float) -> None:
    grams = thiosulfate_dose(volume_l=volume_l, chlorine_mg_per_l=chlorine, product=product).grams
    twice = thiosulfate_dose(volume_l=2 * volume_l, chlorine_mg_per_l=2 * chlorine, product=product, purity=purity)
    assert twice.grams == pytest.approx(4 * grams / purity)


def test_chloramine_leaves_a_fifth_of_its_chlorine_as_ammonia_nitrogen() -> None:
    assert ammonia_left_by_chloramine(1.0) == pytest.approx(0.1976, abs=0.0001)
    assert ammonia_left_by_chloramine(3.0) == pytest.approx(3 * ammonia_left_by_chloramine(1.0))


@given(volume_l=VOLUME, share=st.floats(0, 1), nutrient=st.sampled_from(Nutrient), percent=st.floats(0.5, 100))
def test_the_dose_holds_the_element_it_promises(
    volume_l: float, share: float, nutrient: Nutrient, percent: float
) -> None:
    dose = nutrient_dose(volume_l=volume_l, rise_mg_per_l=5 * share, nutrient=nutrient, strength_percent=percent)
    assert dose.grams * percent / 100 == pytest.approx(volume_l * 5 * share / 1000)


@pytest.mark.parametrize(("nutrient", "factor"), [(Nutrient.POTASSIUM, 0.8301), (Nutrient.CALCIUM, 0.7147)])
def test_a_label_that_states_the_oxide_needs_more(nutrient: Nutrient, factor: float) -> None:
    def grams(strength_as: StrengthAs) -> float:
        return nutrient_dose(
            volume_l=800, rise_mg_per_l=40, nutrient=nutrient, strength_percent=50, strength_as=strength_as
        ).grams

    assert grams(StrengthAs.ELEMENT) == pytest.approx(64)
    assert grams(StrengthAs.OXIDE) == pytest.approx(64 / factor, rel=1e-4)


def test_iron_at_six_percent_for_a_small_unit() -> None:
    dose = nutrient_dose(volume_l=1000, rise_mg_per_l=2, nutrient=Nutrient.IRON, strength_percent=6)
    assert dose.grams == pytest.approx(33.33, abs=0.01)
    assert dose.product == "iron product, 6 %"


@given(now=st.floats(4, 10), target=st.floats(5.5, 8.5), step=st.floats(0.05, 0.3))
def test_ph_moves_in_small_steps_and_arrives(now: float, target: float, step: float) -> None:
    days = (now, *ph_steps(now, target, step=step).daily_ph)
    assert days[-1] == pytest.approx(target, abs=1e-6)
    assert all(abs(after - before) <= step + 1e-6 for before, after in pairwise(days))


def test_two_even_steps_from_6_4_to_6_8() -> None:
    assert ph_steps(6.4, 6.8).daily_ph == pytest.approx((6.6, 6.8))
    assert ph_steps(7.0, 7.0).daily_ph == ()
    assert any("toxic part of ammonia" in words for words in ph_steps(6.4, 6.8).caution)
    assert not any("toxic part of ammonia" in words for words in ph_steps(7.4, 6.8).caution)


EVERY_DOSE = (
    *(alkalinity_dose(volume_l=100, rise_mg_per_l=10, base=base) for base in Base),
    *(chloride(salt=salt) for salt in ChlorideSalt),
    *(thiosulfate_dose(volume_l=100, chlorine_mg_per_l=1, product=product) for product in Thiosulfate),
    *(nutrient_dose(volume_l=100, rise_mg_per_l=1, nutrient=n, strength_percent=10) for n in Nutrient),
)


@pytest.mark.parametrize("dose", EVERY_DOSE, ids=lambda dose: dose.product)
def test_every_dose_defers_to_the_label(dose: Dose) -> None:
    assert dose.caution[-1] == LABEL
    assert dose.grams > 0


@pytest.mark.parametrize("dose", EVERY_DOSE, ids=lambda dose: dose.product)
def test_hydroxides_and_carbonates_of_sodium_and_potassium_are_for_adults_with_goggles(dose: Dose) -> None:
    caustic = {
        Base.POTASSIUM_CARBONATE,
        Base.SODIUM_CARBONATE,
        Base.CALCIUM_HYDROXIDE,
        Base.POTASSIUM_HYDROXIDE,
    }
    assert (set(CAUSTIC) <= set(dose.caution)) == (dose.product in {str(base) for base in caustic})


@pytest.mark.parametrize("dose", EVERY_DOSE, ids=lambda dose: dose.product)
def test_a_salt_of_sodium_put_in_for_its_other_half_warns_of_sodium(dose: Dose) -> None:
    brings_sodium = "sodium" in dict(dose.brings) and not dose.product.startswith("sodium thiosulfate")
    assert (SODIUM in dose.caution) == brings_sodium


REFUSALS: list[tuple[Callable[[], object], str]] = [
    (lambda: alkalinity_dose(volume_l=0, rise_mg_per_l=10, base=Base.POTASSIUM_BICARBONATE), "volume 0 L"),
    (
        lambda: alkalinity_dose(volume_l=9, rise_mg_per_l=301, base=Base.POTASSIUM_BICARBONATE),
        "rise 301 mg/L",
    ),
    (
        lambda: alkalinity_dose(volume_l=9, rise_mg_per_l=9, base=Base.CALCIUM_CARBONATE, purity=0),
        "purity 0 is not above 0",
    ),
    (
        lambda: alkalinity_dose(volume_l=9, rise_mg_per_l=9, base=Base.CALCIUM_CARBONATE, purity=98),
        "purity 98 is outside 0 to 1",
    ),
    (lambda: chloride(nitrite_mg_per_l=-1), "nitrite -1 mg/L"),
    (lambda: chloride(ratio=0.5), "ratio 0.5"),
    (lambda: chloride(chloride_mg_per_l=6000), "chloride 6000 mg/L"),
    (
        lambda: thiosulfate_dose(volume_l=9, chlorine_mg_per_l=21, product=Thiosulfate.ANHYDROUS),
        "chlorine 21",
    ),
    (lambda: ammonia_left_by_chloramine(-1), "chloramine -1 mg/L"),
    (
        lambda: nutrient_dose(volume_l=9, rise_mg_per_l=6, nutrient=Nutrient.IRON, strength_percent=6),
        "rise of iron 6 mg/L is outside 0 to 5 mg/L",
    ),
    (
        lambda: nutrient_dose(volume_l=9, rise_mg_per_l=1, nutrient=Nutrient.IRON, strength_percent=101),
        "strength 101 % is outside 0 to 100 %",
    ),
    (
        lambda: nutrient_dose(
            volume_l=9,
            rise_mg_per_l=1,
            nutrient=Nutrient.IRON,
            strength_percent=6,
            strength_as=StrengthAs.OXIDE,
        ),
        "labels state iron as the element",
    ),
    (lambda: ph_steps(3, 7), "pH 3"),
    (lambda: ph_steps(7, 9), "target pH 9"),
    (lambda: ph_steps(7, 6, step=0.5), "step 0.5 is outside 0.05 to 0.3"),
]


@pytest.mark.parametrize(("attempt", "words"), REFUSALS, ids=[words for _, words in REFUSALS])
def test_a_dose_that_makes_no_sense_is_refused(attempt: Callable[[], object], words: str) -> None:
    with pytest.raises(OutOfRange, match=re.escape(words)):
        attempt()
