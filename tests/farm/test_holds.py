"""Holds of treatments: nothing new gets into one but as waste, by whatever way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.facts import harvests as harvest_facts
from farmops.facts import treatments as treatment_facts
from farmops.farm.fish import change_lot
from farmops.farm.harvests import Batch, change_harvest, record_harvests
from farmops.farm.removal import remove_record
from farmops.farm.transfers import move_lot, split, transfer
from farmops.farm.treatments import book_treatment, change_treatment
from farmops.model.beds import Bed
from farmops.model.chores import Occasion
from farmops.model.errors import FarmopsError, Refused, Unlikely
from farmops.model.fish import FishLot, FishLotChange
from farmops.model.fish_events import NewPlace, NewSplit, NewTransfer
from farmops.model.harvests import HarvestChange, NewHarvest, Use
from farmops.model.journal import Removal
from farmops.model.plantings import Planting
from farmops.model.treatments import NewTreatment, Treatment, TreatmentChange
from farmops.model.units import Unit, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.scale import scale_of
from tests.farmhand import (
    ADA,
    a_bed,
    a_crop,
    a_unit,
    do_again,
    emptied,
    enters,
    last_operation,
    mass,
    on,
    open_farm,
    plant,
    stock,
    take_back,
    weigh,
)
from tests.frozen import frozen
from tests.profiles import count

SPRAY = {"product": "soap", "amount_typed": "1 L", "reentry_hours": 4}


@dataclass(frozen=True)
class Place:
    """A unit with two beds and two lots, and another one to move fish to."""

    store: Store
    wren: Unit
    rook: Unit
    north: Bed
    chard: Planting
    kale: Planting
    perch: FishLot
    small: FishLot


def placed(store: Store) -> Place:
    """Everything since 1 September, nothing weighed yet."""
    wren, rook = a_unit(store, since=on(1, 1)), a_unit(store, "ROOK", since=on(1, 1))
    north, south = a_bed(store, wren), a_bed(store, wren, "S")
    chard = plant(store, north, a_crop(store), on(9, 1))
    kale = plant(store, south, a_crop(store, "KALE"), on(9, 1))
    perch = stock(store, wren, "PERCH-1", on(9, 1))
    return Place(store, wren, rook, north, chard, kale, perch, stock(store, rook, "PERCH-2", on(9, 1)))


@pytest.fixture
def place(farm_store: Store) -> Iterator[Place]:
    with frozen("2026-10-14"):
        yield placed(farm_store)


def treat(place: Place, day: date, harvest_days: int = 0, fish_days: int | None = None, **more: Any) -> Treatment:
    """A treatment at 16:00, of the north bed unless told otherwise."""
    where = more or {"bed_id": place.north.id}
    entry = NewTreatment(day, 16 * 60, harvest_days=harvest_days, fish_days=fish_days, **SPRAY, **where, sure=True)
    return book_treatment(place.store, entry, by=ADA).treatment


class TestAWeighing:
    def test_waits_until_the_days_of_the_label_are_over(self, place: Place) -> None:
        treat(place, on(10, 1), 7)
        for day in (1, 2, 7):
            with pytest.raises(Refused, match=r"CHARD is held until Thu 8 Oct 16:00 after soap on Thu 1 Oct"):
                weigh(place.store, place.chard, "1 lb", on(10, day))
        assert weigh(place.store, place.chard, "1 lb", on(10, 8)).use is Use.HOME
        assert weigh(place.store, place.chard, "1 lb", on(9, 30)).use is Use.HOME
        assert weigh(place.store, place.kale, "1 lb", on(10, 2)).use is Use.HOME

    @pytest.mark.parametrize("use", [use for use in Use if use is not Use.WASTE])
    def test_is_waste_and_nothing_else(self, place: Place, use: Use) -> None:
        treat(place, on(10, 1), 7)
        with pytest.raises(Refused, match="waste only"):
            weigh(place.store, place.chard, "1 lb", on(10, 3), use)
        thrown = weigh(place.store, place.chard, "1 lb", on(10, 3), Use.WASTE)
        with pytest.raises(Refused, match="waste only"):
            change_harvest(place.store, HarvestChange(thrown.id, use=use), by=ADA)

    def test_waits_for_the_hour_on_the_last_day(self, place: Place) -> None:
        treat(place, on(10, 7), 7)
        with pytest.raises(Refused, match="until Wed 14 Oct 16:00"):
            weigh(place.store, place.chard, "1 lb", on(10, 14))
        with frozen("2026-10-14", "20:01"):
            weigh(place.store, place.chard, "1 lb", on(10, 14))

    def test_waits_until_people_may_go_in(self, place: Place) -> None:
        late = NewTreatment(on(10, 12), 23 * 60, "sulphur", "5 g", 10, 0, unit_id=place.wren.id, sure=True)
        book_treatment(place.store, late, by=ADA)
        with pytest.raises(Refused, match="KALE is held until Tue 13 Oct 09:00"):
            weigh(place.store, place.kale, "1 lb", on(10, 12))
        weigh(place.store, place.kale, "1 lb", on(10, 13))

    def test_of_two_holds_the_longer_counts(self, place: Place) -> None:
        treat(place, on(10, 1), 7)
        treat(place, on(10, 2), 2)
        with pytest.raises(Refused, match="until Thu 8 Oct"):
            weigh(place.store, place.chard, "1 lb", on(10, 2))

    def test_is_stopped_with_all_others_of_its_batch(self, place: Place) -> None:
        treat(place, on(10, 1), 7)
        good, bad = (NewHarvest(on(10, day), mass("1 lb"), place.chard.id) for day in (8, 7))
        with pytest.raises(Refused, match="held until"):
            record_harvests(place.store, Batch((good, bad)), by=ADA)
        assert lists.harvests(place.store, date.min, date.max) == []

    def test_does_not_move_into_a_hold_but_stays_where_it_was(self, place: Place) -> None:
        early = weigh(place.store, place.chard, "1 lb", on(9, 30))
        eaten = weigh(place.store, place.chard, "2 lb", on(10, 2))
        treat(place, on(10, 1), 7)
        with pytest.raises(Refused, match="held until"):
            change_harvest(place.store, HarvestChange(early.id, day=on(10, 3)), by=ADA)
        with pytest.raises(Refused, match="held until"):
            change_harvest(place.store, HarvestChange(eaten.id, day=on(10, 3)), by=ADA)
        assert change_harvest(place.store, HarvestChange(eaten.id, mass=mass("3 lb")), by=ADA).mass_typed == "3 lb"

    def test_is_not_done_again_into_a_hold(self, place: Place) -> None:
        weigh(place.store, place.chard, "1 lb", on(10, 3))
        weighing = last_operation(place.store)
        take_back(place.store)
        treat(place, on(10, 1), 7)
        with pytest.raises(Refused, match="would break a rule"):
            do_again(place.store, weighing)

    def test_is_not_taken_back_from_waste_into_a_hold(self, place: Place) -> None:
        eaten = weigh(place.store, place.chard, "1 lb", on(10, 3))
        change_harvest(place.store, HarvestChange(eaten.id, use=Use.WASTE), by=ADA)
        thrown = last_operation(place.store)
        treat(place, on(10, 1), 7)
        with pytest.raises(Refused, match="would break a rule"):
            take_back(place.store, thrown)


class TestFish:
    def test_are_held_in_the_treated_unit_and_wherever_they_go(self, place: Place) -> None:
        treat(place, on(10, 1), 0, 20, unit_id=place.wren.id)
        move_lot(place.store, NewPlace(place.perch.id, place.rook.id, on(10, 5)), by=ADA)
        with pytest.raises(Refused, match="PERCH-1 is held until Wed 21 Oct"):
            weigh(place.store, place.perch, "1 lb", on(10, 10))
        weigh(place.store, place.small, "1 lb", on(10, 10))

    def test_that_come_in_while_it_holds_are_held_from_then_on(self, place: Place) -> None:
        weigh(place.store, place.small, "1 lb", on(10, 2))
        treat(place, on(10, 1), 0, 20, unit_id=place.wren.id)
        move_lot(place.store, NewPlace(place.small.id, place.wren.id, on(10, 5)), by=ADA)
        weigh(place.store, place.small, "1 lb", on(10, 4))
        with pytest.raises(Refused, match="PERCH-2 is held"):
            weigh(place.store, place.small, "1 lb", on(10, 5))

    def test_take_their_hold_into_another_lot(self, place: Place) -> None:
        treat(place, on(10, 1), 0, 20, fish_lot_id=place.perch.id)
        weigh(place.store, place.small, "1 lb", on(10, 3))
        transfer(place.store, NewTransfer(place.perch.id, place.small.id, on(10, 4), 2), by=ADA)
        graded = split(place.store, NewSplit(place.small.id, place.rook.id, "PERCH-3", on(10, 6), 3), by=ADA)
        for lot in (place.small, graded):
            with pytest.raises(Refused, match=f"{lot.code} is held"):
                weigh(place.store, lot, "100 g", on(10, 8))

    def test_are_not_booked_into_a_treated_unit_over_what_was_eaten(self, place: Place) -> None:
        treat(place, on(10, 1), 0, 20, unit_id=place.wren.id)
        weigh(place.store, place.small, "1 lb", on(10, 8))
        with pytest.raises(Refused, match=r"PERCH-2 is held .* lies in it"):
            move_lot(place.store, NewPlace(place.small.id, place.wren.id, on(10, 5)), by=ADA)
        with pytest.raises(Refused, match="lies in it"):
            transfer(place.store, NewTransfer(place.perch.id, place.small.id, on(10, 5), 2), by=ADA)

    def test_are_there_on_the_day_they_were_treated(self, place: Place) -> None:
        treat(place, on(9, 5), 0, 3, fish_lot_id=place.perch.id)
        with pytest.raises(Refused):
            change_lot(place.store, FishLotChange(place.perch.id, stocked_day=on(9, 6)), by=ADA)

    def test_ask_for_their_days_and_leave_the_water_to_the_unit(self, place: Place) -> None:
        with pytest.raises(Refused, match="say how many days"):
            treat(place, on(10, 1), fish_lot_id=place.perch.id)
        with pytest.raises(Refused, match="holds the beds as well"):
            treat(place, on(10, 1), 2, 20, fish_lot_id=place.perch.id)
        with pytest.raises(Refused, match="no fish of PERCH-1 were there on 2026-08-01"):
            treat(place, on(8, 1), 0, 20, fish_lot_id=place.perch.id)


class TestATreatment:
    @pytest.mark.parametrize(
        "product", ["Insecticidal SOAP", "copper spray", "pyrethrin mist", "Neem oil 70", "azadirachtin"]
    )
    def test_that_harms_fish_is_asked_about_once_where_fish_live(self, place: Place, product: str) -> None:
        entry = NewTreatment(on(10, 1), 600, product, "1 L", 4, 1, unit_id=place.wren.id)
        with pytest.raises(Unlikely, match=r"Fish live in WREN.* It harms: fish.*The label is the law"):
            book_treatment(place.store, entry, by=ADA)
        assert lists.journal(place.store, 1)[0].name == "stock fish"

    def test_of_what_harms_nobody_known_is_booked_with_the_word_for_the_label(self, place: Place) -> None:
        entry = NewTreatment(on(10, 1), 600, "Bacillus thuringiensis", "1 g", 4, 0, unit_id=place.wren.id)
        assert book_treatment(place.store, entry, by=ADA).warnings == (
            "The label is the law, and local rules come first: read both before you mix anything.",
        )

    def test_booked_late_names_what_was_eaten_and_keeps_it_in_sight(self, place: Place) -> None:
        for day in (1, 3):
            weigh(place.store, place.chard, "1 lb", on(10, day))
        weigh(place.store, place.chard, "4 oz", on(10, 4), Use.WASTE)
        entry = NewTreatment(on(10, 1), 960, "Bt", "1 g", 4, 7, bed_id=place.north.id)
        with pytest.raises(Unlikely, match=r"over what is booked already: 1 lb CHARD home on Sat 3 Oct"):
            book_treatment(place.store, entry, by=ADA)
        sure = NewTreatment(on(10, 1), 960, "Bt", "1 g", 4, 7, bed_id=place.north.id, sure=True)
        assert len(book_treatment(place.store, sure, by=ADA).inside) == 1
        with pytest.raises(Refused, match="held until"):
            weigh(place.store, place.chard, "1 lb", on(10, 5))

    def test_made_longer_asks_again(self, place: Place) -> None:
        one = treat(place, on(10, 1), 2)
        weigh(place.store, place.chard, "1 lb", on(10, 4))
        with pytest.raises(Unlikely, match="Sun 4 Oct"):
            change_treatment(place.store, TreatmentChange(one.id, harvest_days=7), by=ADA)

    @pytest.mark.parametrize(
        ("words", "change"),
        [
            ("0 to 720", {"reentry_hours": 721}),
            ("0 to 365", {"harvest_days": 366}),
            ("0 to 365", {"fish_days": -1}),
            ("still to come", {"day": on(10, 15)}),
        ],
    )
    def test_is_as_labels_are_and_not_to_come(self, place: Place, words: str, change: dict[str, Any]) -> None:
        one = treat(place, on(10, 1))
        with pytest.raises(FarmopsError, match=words):
            change_treatment(place.store, TreatmentChange(one.id, **change), by=ADA)

    def test_stands_on_one_place(self, place: Place) -> None:
        with pytest.raises(Refused, match="one unit, one bed or one fish lot"):
            treat(place, on(10, 1), 0, unit_id=place.wren.id, bed_id=place.north.id)

    def test_lets_go_when_it_is_removed(self, place: Place) -> None:
        one = treat(place, on(10, 1), 7)
        remove_record(place.store, Removal("treatments", one.id), by=ADA)
        weigh(place.store, place.chard, "1 lb", on(10, 3))

    def test_gives_its_chores_where_a_unit_has_any(self, farm_store: Store) -> None:
        with frozen("2026-10-14"):
            unit = a_unit(farm_store, "TEAL", on(9, 1), UnitState.PLANNED)
            enters(farm_store, unit, UnitState.RUNNING, on(9, 2), chores=True)
            entry = NewTreatment(on(10, 13), 600, "Bt", "1 g", 4, 5, unit_id=unit.id)
            given = book_treatment(farm_store, entry, by=ADA).given
            assert "Hold over? Then pick again" in given
            over = next(one for one in lists.chores(farm_store) if one.title == "Hold over? Then pick again")
            assert (over.next_due, Occasion.TREATMENT) == (on(10, 18), "treatment")


def test_the_scale_knows_what_is_held(place: Place) -> None:
    treat(place, on(10, 12), 7)
    held = {one.label: one.held for one in scale_of(place.store).sources if one.held}
    assert held == {"WREN-N · CHARD": "until Mon 19 Oct 16:00 after soap on Mon 12 Oct"}


DAYS_OF_OCTOBER = st.integers(1, 13).map(lambda day: on(10, day))
STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("weigh"), DAYS_OF_OCTOBER, st.sampled_from(("chard", "kale", "perch", "small"))),
        st.tuples(st.just("treat"), DAYS_OF_OCTOBER, st.integers(0, 6), st.sampled_from(("bed", "unit", "lot"))),
        st.tuples(st.just("use"), st.integers(1, 6), st.sampled_from((Use.WASTE, Use.SOLD))),
        st.tuples(st.just("day"), st.integers(1, 6), DAYS_OF_OCTOBER),
        st.tuples(st.just("move"), DAYS_OF_OCTOBER),
        st.tuples(st.just("remove"), st.sampled_from(("treatments", "harvests")), st.integers(1, 5)),
        st.tuples(st.just("undo"), st.integers(1, 4)),
        st.tuples(st.just("redo"), st.integers(1, 4)),
    ),
    max_size=14,
)


def _step(place: Place, step: tuple[Any, ...], done: list[str]) -> None:
    match step:
        case "weigh", day, what:
            weigh(place.store, getattr(place, what), "100 g", day)
        case "treat", day, days, "bed":
            treat(place, day, days)
        case "treat", day, days, "unit":
            treat(place, day, days, days, unit_id=place.wren.id)
        case "treat", day, days, _:
            treat(place, day, 0, days, fish_lot_id=place.perch.id)
        case "use", number, use:
            change_harvest(place.store, HarvestChange(number, use=use), by=ADA)
        case "day", number, day:
            change_harvest(place.store, HarvestChange(number, day=day), by=ADA)
        case "move", day:
            move_lot(place.store, NewPlace(place.small.id, place.wren.id, day), by=ADA)
        case "remove", kind, number:
            remove_record(place.store, Removal(kind, number), by=ADA)
    done.append(last_operation(place.store))


def _back(place: Place, step: tuple[Any, ...], done: list[str]) -> None:
    back = done[-min(step[1], len(done))]
    (take_back if step[0] == "undo" else do_again)(place.store, back)


def _inside(place: Place) -> set[tuple[int, date, int | None, int | None]]:
    """What lies in a hold and is no waste, looked for one by one; the day of the treatment is not counted."""
    with place.store.reading() as reader:
        beds, lots = treatment_facts.bed_holds(reader), treatment_facts.lot_holds(reader)
        weighed = harvest_facts.harvests(reader, on(10, 1), on(10, 14))
    homes = {place.chard.id: place.north.id, place.kale.id: place.kale.bed_id}
    found = set()
    for one in weighed:
        holds = beds.get(homes[one.planting_id], []) if one.planting_id else lots.get(one.fish_lot_id or 0, [])
        if one.use is not Use.WASTE and any(hold.covers(one.day) and one.day > hold.treatment.day for hold in holds):
            found.add((one.id, one.day, one.planting_id, one.fish_lot_id))
    return found


@settings(
    max_examples=count(ci=8, full=400),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(steps=STEPS)
def test_a_hold_is_never_passed(store: Store, steps: list[tuple[Any, ...]]) -> None:
    """Only a treatment that is booked, made longer or brought back finds anything in its hold."""
    with frozen("2026-10-14"):
        open_farm(emptied(store))
        place, done = placed(store), list[str]()
        before = _inside(place)
        for step in steps:
            treatments = _treatments(store)
            try:
                (_back if done and step[0] in ("undo", "redo") else _step)(place, step, done)
            except FarmopsError:
                assert _inside(place) == before
                continue
            after = _inside(place)
            assert after <= before or _treatments(store) != treatments
            before = after


def _treatments(store: Store) -> set[tuple[int, str]]:
    with store.reading() as reader:
        return {(row["id"], row["operation"]) for row in reader.rows("SELECT id, operation FROM treatment")}
