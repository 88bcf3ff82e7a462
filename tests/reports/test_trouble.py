"""Units whose fish may be ill come last in the round, on lines of their own."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.farm.readings import record_readings
from farmops.model.chores import ChoreClass, PartOfDay
from farmops.model.readings import Form, Measure, NewReading, NewReadings
from farmops.model.units import Unit
from farmops.records.store import Store
from farmops.reports.round import Fold, round_of
from tests.farmhand import ADA, a_chore, a_unit, on, stock

DAY = on(10, 14)
CODES = ("WREN", "ROOK", "TEAL", "OWL")


@pytest.fixture
def row(farm_store: Store) -> dict[str, Unit]:
    """Four units with fish, each fed in the morning; the second has its pad to rinse."""
    units = {code: a_unit(farm_store, code, position=at) for at, code in enumerate(CODES, start=1)}
    for code, unit in units.items():
        stock(farm_store, unit, f"P-{code}")
        a_chore(farm_store, "Feed", "day", DAY, unit_id=unit.id, part=PartOfDay.MORNING, grade=ChoreClass.FISH_CARE)
    a_chore(farm_store, "Rinse", "day", DAY, unit_id=units["ROOK"].id, part=PartOfDay.MORNING)
    return units


def read(store: Store, unit: Unit, measure: Measure, value: float, day: date = DAY) -> None:
    form = Form.AS_N if measure in (Measure.AMMONIA, Measure.NITRITE) else None
    reading = NewReading(measure, value, str(value), form, sure=True)
    record_readings(store, NewReadings(unit.id, day, (reading,)), by=ADA)


def told(store: Store) -> list[str]:
    return [f"{one.where}: {one.title}" for section in round_of(store, DAY).sections for one in section.items]


def test_without_a_reading_all_stand_in_walking_order(farm_store: Store, row: dict[str, Unit]):
    assert told(farm_store) == ["4 units: Feed: WREN ROOK TEAL OWL", "ROOK: Rinse"]


def test_a_unit_whose_nitrite_is_past_a_limit_comes_last_and_is_not_folded(farm_store: Store, row: dict[str, Unit]):
    read(farm_store, row["ROOK"], Measure.NITRITE, 8)
    assert told(farm_store) == [
        "3 units: Feed: WREN TEAL OWL",
        "ROOK: Feed (go there last: fish in trouble)",
        "ROOK: Rinse (go there last: fish in trouble)",
    ]
    assert [line.troubled for line in round_of(farm_store, DAY).lines] == [False, False, False, True, True]


def test_a_better_reading_ends_it(farm_store: Store, row: dict[str, Unit]):
    read(farm_store, row["ROOK"], Measure.NITRITE, 8, on(10, 12))
    read(farm_store, row["ROOK"], Measure.NITRITE, 0, on(10, 13))
    assert told(farm_store)[0] == "4 units: Feed: WREN ROOK TEAL OWL"


def test_other_measures_are_no_sign_of_illness(farm_store: Store, row: dict[str, Unit]):
    read(farm_store, row["ROOK"], Measure.PH, 4.5)
    read(farm_store, row["ROOK"], Measure.NITRITE, 0)
    assert told(farm_store)[0] == "4 units: Feed: WREN ROOK TEAL OWL"


def test_a_unit_without_fish_keeps_its_place(farm_store: Store, row: dict[str, Unit]):
    cycling = a_unit(farm_store, "HEN", position=1)
    a_chore(farm_store, "Test", "day", DAY, unit_id=cycling.id, part=PartOfDay.MORNING)
    read(farm_store, cycling, Measure.AMMONIA, 8)
    read(farm_store, row["ROOK"], Measure.NITRITE, 0)
    assert told(farm_store) == ["4 units: Feed: WREN ROOK TEAL OWL", "HEN: Test", "ROOK: Rinse"]


def test_what_is_late_and_grave_there_comes_before_what_is_less_grave_elsewhere(
    farm_store: Store, row: dict[str, Unit]
):
    read(farm_store, row["WREN"], Measure.NITRITE, 8)
    for code, grade in (
        ("WREN", ChoreClass.LIFE_SUPPORT),
        ("TEAL", ChoreClass.LIFE_SUPPORT),
        ("OWL", ChoreClass.UPKEEP),
    ):
        a_chore(farm_store, "Clear", "day", on(10, 12), unit_id=row[code].id, grade=grade)
    late = next(section for section in round_of(farm_store, DAY).sections if section.title == "Late")
    assert [line.where for line in late.lines] == ["TEAL", "WREN", "OWL"]
    assert not any(isinstance(one, Fold) for one in late.items)
