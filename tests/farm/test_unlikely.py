"""What is asked about once: depths, tanks, areas and species that can be, but hardly are."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from farmops.farm.batches import Grown, Plantings, plant_many
from farmops.farm.beds import add_bed, change_bed, size_bed
from farmops.farm.chores import settle
from farmops.farm.fish import change_lot, stock
from farmops.farm.fish_events import record_feeding
from farmops.farm.plantings import change_planting, plant
from farmops.farm.units import add_unit, change_unit
from farmops.model.beds import BedChange, NewBed, NewBedSize
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import Unlikely
from farmops.model.fish import FishLotChange, NewFishLot
from farmops.model.fish_events import NewFeeding
from farmops.model.plantings import NewPlanting, PlantingChange
from farmops.model.rations import Fed
from farmops.model.units import NewUnit, UnitChange
from farmops.records.store import Store
from farmops.reports import lists
from tests.farm.test_rules import refuses
from tests.farmhand import ADA, TODAY, a_bed, a_crop, a_unit, area, clear, length, mass, on, read, volume
from tests.farmhand import plant as planted
from tests.farmhand import stock as stocked
from tests.labels import common_practice
from tests.land import Land


@common_practice("beds are 3 cm to 1 m deep")
def test_a_bed_that_is_hardly_so_deep_is_asked_about_once(land: Land) -> None:
    words = "a bed 12 ft deep, is that right? Beds are 1.2 in to 3 ft 3.4 in deep as a rule; a number alone is in ft."
    deep: dict[str, Any] = {"unit_id": land.wren.id, "name": "E", "from_day": on(9, 1), "depth": length("12")}
    refuses(land, Unlikely, words, add_bed, NewBed(**deep))
    assert add_bed(land.store, NewBed(**deep, sure=True), by=ADA).depth_um == length("12 ft").exact
    refuses(land, Unlikely, "500 ft deep", change_bed, BedChange(land.north.id, depth=length("500")))
    refuses(land, Unlikely, "a bed 1 in deep", change_bed, BedChange(land.north.id, depth=length("2.5 cm")))
    for likely in (length("3 cm"), length("1 m"), None):
        changed = change_bed(land.store, BedChange(land.north.id, depth=likely), by=ADA)
        assert changed.depth_um == (likely and likely.exact)


@common_practice("the tank of a unit holds 20 L to 20 m3")
def test_a_tank_that_hardly_holds_so_much_is_asked_about_once(land: Land) -> None:
    big = NewUnit("BIG", on(9, 1), tank=volume("175000"))
    refuses(land, Unlikely, "a tank of 175000 gal, is that right? Tanks hold 5.3 gal to 5283 gal", add_unit, big)
    sure = NewUnit("BIG", on(9, 1), tank=volume("175000"), sure=True)
    assert add_unit(land.store, sure, by=ADA).tank_ml == volume("175000 gal").exact
    refuses(land, Unlikely, "a tank of 3", change_unit, UnitChange(land.wren.id, tank=volume("3 gal")))
    for likely in (volume("20 L"), volume("20000 L"), None):
        changed = change_unit(land.store, UnitChange(land.wren.id, tank=likely), by=ADA)
        assert changed.tank_ml == (likely and likely.exact)


def test_a_planting_larger_than_its_bed_is_asked_about_once(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size="18 sq ft"), a_crop(farm_store)
    with pytest.raises(Unlikely, match=r"900 sq ft of CHARD, is that right\? The whole bed WREN-N has 18\.0 sq ft"):
        planted(farm_store, bed, crop, area=area("900"))
    whole = planted(farm_store, bed, crop, area=area("18"))
    with pytest.raises(Unlikely, match="The whole bed"):
        change_planting(farm_store, PlantingChange(whole.id, area=area("19")), by=ADA)
    changed = change_planting(farm_store, PlantingChange(whole.id, area=area("19"), sure=True), by=ADA)
    assert changed.area_mm2 == area("19").exact
    assert change_planting(farm_store, PlantingChange(whole.id, note="dense"), by=ADA).note == "dense"


def test_plantings_of_one_time_may_stand_between_each_other_but_not_thrice(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size="18 sq ft"), a_crop(farm_store)
    first = planted(farm_store, bed, crop, on(4, 1), area=area("18"))
    planted(farm_store, bed, crop, on(4, 2), area=area("18"))
    with pytest.raises(Unlikely, match=r"with it 37\.0 sq ft would stand in WREN-N on 2026-05-01, which has 18\.0"):
        planted(farm_store, bed, crop, on(5, 1), area=area("1"))
    assert planted(farm_store, bed, crop, on(5, 1)).area_mm2 is None
    clear(farm_store, first, on(4, 30))
    assert planted(farm_store, bed, crop, on(5, 1), area=area("18")).area_mm2 == area("18").exact


def test_a_season_that_is_booked_at_once_is_judged_by_its_last_days(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size="18 sq ft"), a_crop(farm_store)
    spans = ((on(7, 1), None), (on(5, 1), on(6, 30)), (on(4, 1), on(4, 30)), (on(3, 1), on(3, 31)))
    season = tuple(Grown(NewPlanting(bed.id, crop.id, first, area=area("18")), last) for first, last in spans)
    assert plant_many(farm_store, Plantings(season), by=ADA).number == 4
    once_more = Grown(NewPlanting(bed.id, crop.id, on(3, 2), area=area("19")), on(3, 9))
    with pytest.raises(Unlikely):
        plant_many(farm_store, Plantings((once_more,)), by=ADA)


def test_a_bed_made_smaller_than_what_stands_in_it_is_asked_about_once(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size="18 sq ft"), a_crop(farm_store)
    first = planted(farm_store, bed, crop, on(4, 1), area=area("12"))

    def resize(typed: str, day: date, *, sure: bool = False) -> int:
        return size_bed(farm_store, NewBedSize(bed.id, day, area(typed), sure), by=ADA).area_mm2

    words = r"12\.0 sq ft of CHARD stand in WREN-N on 2026-05-01, which would have 10\.0 sq ft\. Is it right"
    with pytest.raises(Unlikely, match=words):
        resize("10", on(5, 1))
    assert resize("12", on(5, 1)) == area("12").exact
    assert resize("10", on(5, 1), sure=True) == area("10").exact
    assert resize("11", on(5, 1)) == area("11").exact
    clear(farm_store, first, on(6, 1))
    assert resize("6", on(6, 1)) == area("6").exact
    planted(farm_store, bed, crop, on(7, 1), area=area("3"))
    planted(farm_store, bed, a_crop(farm_store, "KALE"), on(7, 2), area=area("3"))
    with pytest.raises(Unlikely, match=r"6\.0 sq ft of CHARD, KALE stand in WREN-N on 2026-07-02"):
        resize("5", on(6, 1))
    assert resize("5", on(6, 1), sure=True) == area("5").exact


def test_a_smaller_size_asks_for_the_days_alone_on_which_it_holds(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size="18 sq ft"), a_crop(farm_store)
    size_bed(farm_store, NewBedSize(bed.id, on(6, 1), area("20")), by=ADA)
    planted(farm_store, bed, crop, on(6, 2), area=area("18"))
    assert size_bed(farm_store, NewBedSize(bed.id, on(5, 1), area("4")), by=ADA).from_day == on(5, 1)


def test_a_bed_without_a_size_asks_nothing(farm_store: Store) -> None:
    bed, crop = a_bed(farm_store, a_unit(farm_store), size=None), a_crop(farm_store)
    assert plant(farm_store, NewPlanting(bed.id, crop.id, on(4, 1), area=area("900")), by=ADA).area_mm2


@common_practice("a lot hardly eats more than twice its ration in a day")
def test_far_more_feed_than_the_ration_is_asked_about_once(farm_store: Store) -> None:
    wren = a_unit(farm_store, chores=True)
    trout = stocked(farm_store, wren, "TROUT-1", on(9, 1), 20, species="rainbow trout", mean="200 g")
    read(farm_store, wren, TODAY, temperature="15 C")

    def fed(typed: str, *, sure: bool = False) -> int:
        return record_feeding(farm_store, NewFeeding(trout.id, TODAY, mass(typed), sure=sure), by=ADA).mass_mg

    words = r"10 lb of feed for TROUT-1 on 2026-10-14, is that right\? Its ration is 2\.8 oz; a number alone is in lb\."
    with pytest.raises(Unlikely, match=words):
        fed("10")
    assert fed("100 g") == 100_000
    with pytest.raises(Unlikely, match=r"5\.7 oz of feed for TROUT-1"):
        fed("61 g")
    assert fed("60 g") == 60_000
    assert fed("10 lb", sure=True) == mass("10 lb").exact
    chore = next(one for one in lists.chores(farm_store) if one.template_key == "feed")
    done = Settling(chore.id, SettledAs.DONE, TODAY, fed=(Fed(trout.id, mass("1 g")),))
    with pytest.raises(Unlikely, match="of feed for TROUT-1"):
        settle(farm_store, done, by=ADA)
    assert settle(farm_store, replace(done, sure=True), by=ADA).chore_id == chore.id


def test_feed_where_none_is_called_for_is_asked_about_and_without_a_ration_nothing_is(farm_store: Store) -> None:
    wren = a_unit(farm_store)
    trout = stocked(farm_store, wren, "TROUT-1", on(9, 1), 20, species="rainbow trout", mean="200 g")
    entry = NewFeeding(trout.id, TODAY, mass("10 lb"))
    assert record_feeding(farm_store, entry, by=ADA).mass_mg == mass("10 lb").exact
    read(farm_store, wren, TODAY, nitrite="1 ion")
    with pytest.raises(Unlikely, match=r"Its ration is nothing"):
        record_feeding(farm_store, replace(entry, mass=mass("1 g")), by=ADA)


@common_practice("pumps, ladders and acids are for adults")
def test_what_is_for_adults_only_and_was_done_by_a_minor_is_asked_about_once(land: Land) -> None:
    grade = next(one.id for one in lists.chores(land.store) if one.title == "Grade the fish")
    done = Settling(grade, SettledAs.DONE, on(9, 7), actor="zed")
    refuses(land, Unlikely, "Grade the fish is for adults only, and zed is a minor. Did an adult do it?", settle, done)
    assert settle(land.store, replace(done, kind=SettledAs.SKIPPED, reason="Zed alone"), by=ADA).actor == "zed"
    assert settle(land.store, replace(done, on=on(9, 14), actor="Bob"), by=ADA).actor == "Bob"
    assert settle(land.store, replace(done, on=on(9, 21), sure=True), by=ADA).actor == "zed"


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("perch", "Did you mean yellow perch?"),
        ("Yellow", "Did you mean yellow perch?"),
        ("yelow pearch", "Did you mean yellow perch?"),
        ("trout", "Did you mean rainbow trout?"),
        ("zander", "Is it right?"),
    ],
)
def test_a_species_without_facts_is_asked_about_once(land: Land, typed: str, meant: str) -> None:
    lot: dict[str, Any] = {"species": typed, "unit_id": land.wren.id, "stocked_day": on(9, 1), "number": 9}
    refuses(land, Unlikely, meant, stock, NewFishLot("Z-1", **lot, mean=mass("9 g")))
    kept = stock(land.store, NewFishLot("Z-1", **lot, mean=mass("9 g"), sure=True), by=ADA)
    assert (kept.species, kept.library_key) == (typed.lower(), None)
    assert stock(land.store, NewFishLot("Z-2", **lot, mean=mass("9 g")), by=ADA).species == kept.species
    refuses(land, Unlikely, "no packaged facts go with bass", change_lot, FishLotChange(kept.id, species="Bass"))
    assert change_lot(land.store, FishLotChange(kept.id, species="Bass", sure=True), by=ADA).species == "bass"


def test_a_lot_gets_the_facts_of_the_species_it_is_corrected_to(land: Land) -> None:
    entry = NewFishLot("Z-1", "perch", land.wren.id, on(9, 1), 9, mass("9 g"), sure=True)
    lot = stock(land.store, entry, by=ADA)
    changed = change_lot(land.store, FishLotChange(lot.id, species="Yellow perch"), by=ADA)
    assert (changed.species, changed.library_key) == ("yellow perch", "yellow-perch")
