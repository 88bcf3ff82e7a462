"""Doses against published ratios and arithmetic done apart from this code."""

from __future__ import annotations

import pytest

from farmops.science.doses import (
    Base,
    ChlorideSalt,
    Thiosulfate,
    alkalinity_dose,
    chloride_dose,
    thiosulfate_dose,
)
from farmops.science.water import NitriteAs
from tests.labels import common_practice, from_memory, published, rows

SALT_ROWS = rows("nitrite_chloride.csv")


@pytest.mark.parametrize(("base", "grams"), rows("alkalinity_dosing.csv"))
def test_20_mg_per_l_in_1000_l_worked_apart_from_this_code(base: str, grams: str) -> None:
    dose = alkalinity_dose(volume_l=1000, rise_mg_per_l=20, base=Base(base))
    assert dose.grams == pytest.approx(float(grams), rel=0.005)


def check_salt(nitrite: str, chloride: str, ratio: str, volume: str, rise: str, grams: str) -> None:
    dose = chloride_dose(
        volume_l=float(volume),
        nitrite_mg_per_l=float(nitrite),
        reported=NitriteAs.NO2,
        chloride_mg_per_l=float(chloride),
        salt=ChlorideSalt.SODIUM_CHLORIDE,
        ratio=float(ratio),
    )
    assert dose.rise_mg_per_l == pytest.approx(float(rise))
    assert dose.grams == pytest.approx(float(grams), abs=0.06)


@published(
    "Durborow, Crosby, Brunson 1997, Nitrite in Fish Ponds, SRAC Publication 462, ten parts to one",
    note="the ratio is printed, the grams of salt are arithmetic on it",
)
@pytest.mark.parametrize("row", [row for row in SALT_ROWS if row[2] == "10"])
def test_salt_at_ten_to_one(row: tuple[str, str, str, str, str, str]) -> None:
    check_salt(*row)


@from_memory("older sheets on nitrite: six parts chloride per part nitrite")
@pytest.mark.parametrize("row", [row for row in SALT_ROWS if row[2] == "6"])
def test_salt_at_six_to_one(row: tuple[str, str, str, str, str, str]) -> None:
    check_salt(*row)


@common_practice("seven parts of sodium thiosulfate pentahydrate take out one part of chlorine")
def test_thiosulfate_pentahydrate() -> None:
    dose = thiosulfate_dose(volume_l=1000, chlorine_mg_per_l=1, product=Thiosulfate.PENTAHYDRATE)
    assert dose.grams == pytest.approx(7.0, abs=0.05)


def test_anhydrous_thiosulfate_worked_apart_from_this_code() -> None:
    dose = thiosulfate_dose(volume_l=1000, chlorine_mg_per_l=1, product=Thiosulfate.ANHYDROUS)
    assert dose.grams == pytest.approx(4.46, abs=0.02)
