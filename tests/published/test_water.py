"""Water chemistry against printed tables."""

from __future__ import annotations

import pytest

from farmops.science import masses
from farmops.science.water import (
    PER_GRAM_NITRIFIED,
    AmmoniaAs,
    Nitrification,
    ammonium_pka,
    epa_acute_ammonia,
    epa_chronic_ammonia,
    unionized_ammonia,
    unionized_ammonia_fraction,
)
from tests.labels import from_memory, published, rows

PRINTED_FRACTIONS = [row for row in rows("unionized_ammonia.csv") if row[0] != "32"]


@published(
    "Francis-Floyd, Watson, Petty, Pouder, Ammonia in Aquatic Systems, UF/IFAS FA-16, un-ionised fraction",
    note="its 32 C column is misprinted, as is its cell of 20 C, pH 7.4 (.0098 is right); both left out",
)
@pytest.mark.parametrize(("temperature_c", "ph", "printed"), PRINTED_FRACTIONS)
def test_fraction_matches_the_printed_table(temperature_c: str, ph: str, printed: str) -> None:
    fraction = unionized_ammonia_fraction(float(ph), float(temperature_c))
    assert fraction == pytest.approx(float(printed), abs=0.00015)


@published(
    "Francis-Floyd et al., UF/IFAS FA-16, worked example",
    note="its last line has a slip, 1.0 x 0.502; the stated answer is right",
)
def test_the_worked_example_of_toxic_ammonia() -> None:
    toxic = unionized_ammonia(1.0, ph=8.0, temperature_c=24, reported=AmmoniaAs.N)
    assert toxic.as_n_mg_per_l == pytest.approx(0.0502, abs=0.0001)


def test_pka_at_25_degrees_apart_from_this_code() -> None:
    assert ammonium_pka(25) == pytest.approx(9.2464, abs=0.0001)


@pytest.mark.parametrize(("ph", "uia"), [(7.0, 0.0139), (8.0, 0.1308)])
def test_one_ph_unit_up_is_nine_times_as_toxic(ph: float, uia: float) -> None:
    toxic = unionized_ammonia(2.0, ph=ph, temperature_c=28, reported=AmmoniaAs.N)
    assert toxic.as_n_mg_per_l == pytest.approx(uia, abs=0.0001)


def last_digit(printed: str) -> float:
    return 10.0 ** -len(printed.partition(".")[2])


@published(
    "US EPA 2013, EPA-822-R-13-001, acute and chronic ammonia criteria",
    note="printed to two figures; 0.0815 is printed as 0.081, so six tenths of the last digit are allowed",
)
@pytest.mark.parametrize(("criterion", "ph", "temperature_c", "printed"), rows("epa_ammonia_criteria.csv"))
def test_criteria_match_the_printed_values(criterion: str, ph: str, temperature_c: str, printed: str) -> None:
    limit = epa_acute_ammonia if criterion.startswith("acute") else epa_chronic_ammonia
    value = limit(float(ph), float(temperature_c))
    assert value == pytest.approx(float(printed), abs=0.6 * last_digit(printed))


@from_memory("US EPA 1999, EPA-822-R-99-014, acute criterion with salmonids, kept in 2013 for cold water")
def test_the_acute_criterion_for_trout() -> None:
    remembered = {6.5: 32.6, 7.0: 24.1, 7.5: 13.3, 8.0: 5.62, 8.5: 2.14, 9.0: 0.885}
    assert {ph: epa_acute_ammonia(ph, 5, salmonids=True) for ph in remembered} == pytest.approx(remembered, rel=0.003)


def test_use_without_growth_is_the_stoichiometry_of_the_reaction() -> None:
    use = PER_GRAM_NITRIFIED[Nitrification.WITHOUT_GROWTH]
    assert use.oxygen_g == pytest.approx(2 * 2 * masses.OXYGEN / masses.NITROGEN, abs=0.01)
    assert use.alkalinity_g_caco3 == pytest.approx(2 * masses.CACO3_PER_EQUIVALENT / masses.NITROGEN, abs=0.02)


@from_memory("Ebeling, Timmons, Bisogni 2006, Aquaculture 257:346-358, coefficients 1.83 O2 and 1.97 HCO3-")
def test_use_with_growth_is_the_stoichiometry_of_the_reaction() -> None:
    use = PER_GRAM_NITRIFIED[Nitrification.WITH_GROWTH]
    assert use.oxygen_g == pytest.approx(1.83 * 2 * masses.OXYGEN / masses.NITROGEN, abs=0.01)
    assert use.alkalinity_g_caco3 == pytest.approx(1.97 * masses.CACO3_PER_EQUIVALENT / masses.NITROGEN, abs=0.03)
