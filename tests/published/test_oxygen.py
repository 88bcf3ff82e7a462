"""Oxygen against printed tables and other implementations of published equations."""

from __future__ import annotations

import gsw
import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from farmops.science.oxygen import HPA_PER_ATM, oxygen_demand, oxygen_saturation, pressure_at_altitude
from tests.labels import from_memory, published, rows

MG_PER_MICROMOLE = 31.9988 / 1000


@published("EN 25814:1992, table of oxygen saturation", note="printed to 0.1 mg/L below 16 C, to 0.01 from there up")
@pytest.mark.parametrize(("temperature_c", "printed"), rows("do_saturation.csv"))
def test_saturation_matches_the_printed_table(temperature_c: str, printed: str) -> None:
    tolerance = 0.07 if float(temperature_c) < 16 else 0.01
    assert oxygen_saturation(float(temperature_c)) == pytest.approx(float(printed), abs=tolerance)


@published("Garcia and Gordon 1992, Limnol. Oceanogr. 37:1307-1312, as worked by gsw.O2sol_SP_pt")
@pytest.mark.parametrize("temperature_c", range(41))
def test_saturation_agrees_with_the_oceanographers(temperature_c: int) -> None:
    kg_per_l = gsw.rho_t_exact(0, temperature_c, 0) / 1000
    theirs = gsw.O2sol_SP_pt(0, temperature_c) * MG_PER_MICROMOLE * kg_per_l
    assert oxygen_saturation(temperature_c) == pytest.approx(theirs, abs=0.004)


@pytest.mark.parametrize(
    ("temperature_c", "mg_per_l"),
    [(0, 14.621), (10, 11.288), (20, 9.092), (25, 8.263), (30, 7.559), (40, 6.413)],
)
def test_saturation_worked_apart_from_this_code(temperature_c: float, mg_per_l: float) -> None:
    assert oxygen_saturation(temperature_c) == pytest.approx(mg_per_l, abs=0.001)


@published("US Standard Atmosphere 1976, as worked by fluids.atmosphere")
@pytest.mark.parametrize("altitude_m", [-400, 0, 300, 500, 1000, 1500, 2000, 3000, 4000, 5000])
def test_pressure_agrees_with_the_standard_atmosphere(altitude_m: int) -> None:
    assert pressure_at_altitude(altitude_m) == pytest.approx(ATMOSPHERE_1976(altitude_m).P / 100, rel=0.0006)


@pytest.mark.parametrize(("altitude_m", "atm", "temperature_c", "mg_per_l"), rows("do_altitude.csv"))
def test_saturation_at_altitude_worked_apart_from_this_code(
    altitude_m: str, atm: str, temperature_c: str, mg_per_l: str
) -> None:
    assert pressure_at_altitude(float(altitude_m)) / HPA_PER_ATM == pytest.approx(float(atm), abs=0.00001)
    saturation = oxygen_saturation(float(temperature_c), altitude_m=float(altitude_m))
    assert saturation == pytest.approx(float(mg_per_l), abs=0.0006)


def catfish_mg_per_kg_h(mean_g: float, temperature_c: float) -> float:
    by_weight = -0.999 - 0.000957 * mean_g + 6e-7 * mean_g**2
    by_warmth = 0.0327 * temperature_c - 8.7e-6 * temperature_c**2 + 3e-7 * mean_g * temperature_c
    return 1000 * 10 ** (by_weight + by_warmth)


@from_memory("Boyd, Romaire, Johnston 1978, Trans. Am. Fish. Soc. 107:484-492, respiration of channel catfish")
def test_demand_of_fed_fish_stays_above_that_of_catfish() -> None:
    for mean_g in (10, 50, 100, 250, 500, 1000):
        for temperature_c in (10, 15, 20, 25, 30):
            assert oxygen_demand(mean_g, temperature_c, fed=True) >= catfish_mg_per_kg_h(mean_g, temperature_c)
