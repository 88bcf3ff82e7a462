"""Doses worked out from readings, cautions of top-ups, and what was changed beside the readings."""

from __future__ import annotations

import pytest

from farmops.library.dose_cautions import dose_cautions
from farmops.model.errors import NotUnderstood, Refused
from farmops.model.readings import Measure
from farmops.model.water import SourceKind
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.dosing import PRODUCTS, Basis, raises, suggested
from farmops.reports.markers import concerns, markers_of
from farmops.reports.top_ups import MUCH, cautions, cautions_on, top_up_totals
from farmops.reports.water import waters_of
from farmops.science.doses import Base, alkalinity_dose
from tests.farmhand import a_unit, on, read, volume
from tests.labels import common_practice
from tests.land import Land

DAY = on(10, 14)


def test_a_dose_rests_on_the_tank_and_the_latest_reading(farm_store: Store) -> None:
    unit = a_unit(farm_store, tank=volume("1000 L"))
    read(farm_store, unit, DAY, alkalinity="40")
    found = suggested(waters_of(farm_store, DAY), unit.id, "sodium bicarbonate", 80.0)
    sum_alone = alkalinity_dose(volume_l=1000, rise_mg_per_l=40, base=Base.SODIUM_BICARBONATE)
    assert (found.dose, found.basis, found.now) == (sum_alone, Basis.TANK, 40.0)
    half = suggested(waters_of(farm_store, DAY), unit.id, "sodium bicarbonate", 80.0, water_ml=500_000)
    assert half.dose.grams == pytest.approx(found.dose.grams / 2)
    assert half.basis is Basis.TYPED


def test_what_is_not_known_is_asked_for_and_nothing_is_guessed(farm_store: Store) -> None:
    unit = a_unit(farm_store)
    waters = waters_of(farm_store, DAY)
    with pytest.raises(Refused, match="iron was never read in WREN"):
        suggested(waters, unit.id, "chelated iron", 2.0, strength_percent=11)
    read(farm_store, unit, DAY, iron="0.5", alkalinity="90")
    waters = waters_of(farm_store, DAY)
    with pytest.raises(Refused, match="the tank of WREN has no volume yet"):
        suggested(waters, unit.id, "chelated iron", 2.0, strength_percent=11)
    with pytest.raises(NotUnderstood, match="Say the strength"):
        suggested(waters, unit.id, "chelated iron", 2.0, water_ml=1_000_000)
    with pytest.raises(Refused, match=r"Nothing to add: alkalinity in WREN was 90"):
        suggested(waters, unit.id, "calcium carbonate", 80.0, water_ml=1_000_000)
    with pytest.raises(NotUnderstood, match="'table salt' is not worked out here"):
        suggested(waters, unit.id, "table salt", 80.0)


def test_every_product_raises_something_that_is_read() -> None:
    assert {raises(one) for one in PRODUCTS} == {
        Measure.ALKALINITY,
        Measure.IRON,
        Measure.POTASSIUM,
        Measure.CALCIUM,
    }


@common_practice("acids to water, goggles, never mixed; salt and plants; ammonia and fish; the label first")
@pytest.mark.parametrize(
    ("what", "words"),
    [
        ("Phosphoric acid", "Add acid to much water, never water to acid"),
        ("pH up", "never mix it with an acid"),
        ("potassium hydroxide", "goggles and gloves"),
        ("rock salt", "harm plants"),
        ("sodium thiosulfate", "test for chlorine before fish"),
        ("Baking-soda", "measure ammonia first"),
        ("copper sulfate", "ask a vet first"),
        ("ammonium chloride", "with fish in the water it poisons them"),
        ("Calcium chloride", "heats up in water"),
        ("seaweed", "The label"),
    ],
)
def test_what_is_added_has_its_cautions_and_the_label_comes_with_all(what: str, words: str) -> None:
    assert any(words in caution for caution in dose_cautions(what))
    assert dose_cautions(what)[-1].startswith("The label, the safety data sheet and local rules come first")


def test_a_caution_of_one_salt_is_not_said_of_another():
    assert not any("Calcium" in caution for caution in dose_cautions("ammonium chloride"))


@common_practice("chlorine and chloramine are taken out before fish meet the water")
@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (SourceKind.CHLORINE, "stand with air"),
        (SourceKind.CHLORAMINE, "does not leave by standing"),
        (SourceKind.MAINS, "ask the water works"),
    ],
)
def test_mains_where_fish_live_are_warned_about(kind: SourceKind, words: str) -> None:
    (told,) = cautions(kind, fish=True, volume_ml=1, tank_ml=100)
    assert words in told
    assert cautions(kind, fish=False, volume_ml=100, tank_ml=100) == ()


def test_rain_is_not_warned_about_unless_it_is_much_or_has_chlorine() -> None:
    assert cautions(SourceKind.RAIN, fish=True, volume_ml=10, tank_ml=100) == ()
    assert cautions(SourceKind.RAIN, fish=True, volume_ml=11, tank_ml=100) == (MUCH,)
    assert "chlorine burns gills" in cautions(None, fish=True, volume_ml=1, tank_ml=None, chlorine_mg_per_l=0.5)[0]


def test_a_top_up_is_judged_by_the_fish_of_its_day(laid: Land) -> None:
    mains, brook, _ = sorted(lists.top_ups(laid.store, on(1, 1), DAY), key=lambda one: one.day)
    assert "chloramine" in cautions_on(laid.store, mains)[0]
    assert cautions_on(laid.store, brook) == ()
    totals = [(one.unit, one.source, one.volume_ml) for one in top_up_totals([mains, brook, mains])]
    assert totals == [("FINCH", None, brook.volume_ml), ("WREN", "Mains", 2 * mains.volume_ml)]


def test_what_was_changed_stands_beside_the_readings(laid: Land) -> None:
    found = markers_of(laid.store, on(6, 1), on(9, 30), "WREN")
    assert [(one.day, one.unit, one.words) for one in found] == [
        (on(6, 21), "WREN", "2 oz of potassium bicarbonate added"),
        (on(6, 22), "WREN", "20.0 gal topped up from Mains"),
        (on(8, 1), None, "Mains: pH 8.1 from this day"),
        (on(8, 2), "WREN", "10.0 gal topped up from Rain butt"),
        (on(8, 20), None, "pH pen failed its check"),
        (on(9, 2), "WREN", "pump changed"),
    ]
    assert [concerns(found[2], one) for one in (Measure.PH, Measure.NITRATE)] == [True, False]
    assert all(concerns(one, Measure.NITRATE) for one in found[:2])
