"""What goes into the water, and the grower's own limits: what is refused, and which limit counts."""

from __future__ import annotations

import pytest

from farmops.farm.doses import change_dose, record_dose
from farmops.farm.own_limits import set_own_limit
from farmops.farm.removal import remove_record
from farmops.farm.sources import add_source, record_top_up, set_source_values
from farmops.farm.supplies import add_supply, buy_supply
from farmops.model.errors import NotFound, OutOfRange, Refused, Unlikely
from farmops.model.journal import Removal
from farmops.model.limits import NewOwnLimit
from farmops.model.readings import Measure
from farmops.model.supplies import HeldBy, NewSupply, NewSupplyLot
from farmops.model.values import Measured
from farmops.model.water import Amount, DoseChange, NewDose, NewSource, NewSourceValues, NewTopUp, SourceKind
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.supplies_held import supplies_held
from tests.farm.test_rules import refuses
from tests.farmhand import ADA, a_unit, mass, on, reading, volume
from tests.land import Land


def test_own_limits_leave_room_and_can_be(land: Land) -> None:
    ph = Measure.PH
    refuses(land, Refused, "say how low or how high pH may be", set_own_limit, NewOwnLimit(on(5, 1), ph))
    refuses(
        land, Refused, "at least 7.5 and at most 6.5 leave no room", set_own_limit, NewOwnLimit(on(5, 1), ph, 7.5, 6.5)
    )
    refuses(land, OutOfRange, "pH lies within 0 to 14", set_own_limit, NewOwnLimit(on(5, 1), ph, high=15.0))
    lowest = NewOwnLimit(on(5, 1), Measure.LOWEST_TEMPERATURE, 4.0)
    refuses(land, Refused, "Set them on temperature", set_own_limit, lowest)
    refuses(land, NotFound, "no unit 99", set_own_limit, NewOwnLimit(on(5, 1), ph, 6.0, unit_id=99))


def test_own_limits_of_a_day_are_set_anew_and_others_stay(land: Land) -> None:
    before = lists.own_limits(land.store)
    entry = NewOwnLimit(land.tight.from_day, Measure.TEMPERATURE, 5.0, 20.0)
    again = set_own_limit(land.store, entry, by=ADA)
    assert (again.id, again.low, again.high) == (land.tight.id, 5.0, 20.0)
    assert len(lists.own_limits(land.store)) == len(before)


def test_a_dose_is_some_of_something(land: Land) -> None:
    nothing = Amount(HeldBy.MASS, Measured(0, "0 g"))
    refuses(land, OutOfRange, "more than nothing", record_dose, NewDose(land.wren.id, on(9, 1), "salt", nothing))
    three = Amount(HeldBy.COUNT, Measured(3, "3"))
    refuses(land, OutOfRange, "more than nothing", change_dose, DoseChange(land.buffer.id, amount=three))
    refuses(land, NotFound, "no unit 99", record_dose, NewDose(99, on(9, 1), "salt", three))


def test_a_dose_is_drawn_from_the_supply_that_is_named_corrected_there_and_given_back(farm_store: Store) -> None:
    unit = a_unit(farm_store)
    salt = add_supply(farm_store, NewSupply("salt"), by=ADA)
    buy_supply(farm_store, NewSupplyLot(salt.id, on(5, 1), mass("1 kg")), by=ADA)

    def left() -> list[int]:
        return [one.held for one in supplies_held(farm_store)]

    entry = NewDose(unit.id, on(6, 1), "salt", Amount(HeldBy.MASS, mass("200 g")), supply_id=salt.id)
    dose = record_dose(farm_store, entry, by=ADA)
    assert (dose.supply, left()) == ("salt", [800_000])
    change_dose(farm_store, DoseChange(dose.id, amount=Amount(HeldBy.MASS, mass("300 g"))), by=ADA)
    assert left() == [700_000]
    change_dose(farm_store, DoseChange(dose.id, note="stirred"), by=ADA)
    by_volume = NewDose(unit.id, on(6, 1), "salt", Amount(HeldBy.VOLUME, volume("1 L")), supply_id=salt.id)
    with pytest.raises(Refused, match="salt is counted by weight"):
        record_dose(farm_store, by_volume, by=ADA)
    remove_record(farm_store, Removal("doses", dose.id), by=ADA)
    assert left() == [1_000_000]


def test_who_added_it_is_known(land: Land) -> None:
    assert {one.what: one.by for one in lists.doses(land.store, on(1, 1), on(12, 31))} == {
        "potassium bicarbonate": "Ada",
        "iron chelate": "Bob",
    }


def test_a_source_is_named_once_and_what_it_is_like_can_be(land: Land) -> None:
    refuses(land, Refused, "there is a source Mains already", add_source, NewSource("MAINS", SourceKind.WELL))
    refuses(land, Refused, "no value was given", set_source_values, NewSourceValues(land.butt.id, on(9, 1), ()))
    odd = NewSourceValues(land.butt.id, on(9, 1), (reading(Measure.PH, "10.5"),))
    refuses(land, Unlikely, "pH 10.5, is that right?", set_source_values, odd)
    refuses(land, Refused, "belong to it (top up)", remove_record, Removal("water sources", land.butt.id))


def test_a_top_up_is_some_water_from_a_source_there_is(land: Land) -> None:
    none = NewTopUp(land.wren.id, on(9, 1), Measured(0, "0 gal"))
    refuses(land, OutOfRange, "more than nothing", record_top_up, none)
    unknown = NewTopUp(land.wren.id, on(9, 1), volume("9 gal"), 99)
    refuses(land, NotFound, "no water source 99", record_top_up, unknown)
