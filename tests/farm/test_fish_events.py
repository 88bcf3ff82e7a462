"""Fish lots live: weighed, dying, moved, fed; numbers and weight are kept through all of it, undo included."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from farmops.facts.fish import fish_spans
from farmops.facts.populations import Life, lives
from farmops.farm import contacts, fish, fish_events, transfers
from farmops.model.contacts import NewContact
from farmops.model.errors import FarmopsError, OutOfRange, Refused
from farmops.model.fish import FishLot, FishLotChange, LossCause, NewFishLot
from farmops.model.fish_events import NewFeeding, NewLoss, NewPlace, NewSample, NewSplit, NewTransfer
from farmops.model.units import Unit, UnitState
from farmops.model.values import Measured
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import (
    ADA,
    TODAY,
    a_unit,
    counted,
    do_again,
    emptied,
    enters,
    everything_stored,
    mass,
    on,
    open_farm,
    stock,
    take_back,
    weigh,
)
from tests.profiles import count


def life(store: Store, lot: FishLot) -> Life:
    with store.reading() as reader:
        return lives(reader, [lot.id])[lot.id]


def held(store: Store, lot: FishLot, day: date = TODAY) -> tuple[int, int]:
    """Number and weight [mg] of a lot at the end of a day."""
    found = life(store, lot).on(day)
    assert found is not None
    return found.number, found.biomass_mg


@pytest.fixture
def wren(farm_store: Store) -> Unit:
    return a_unit(farm_store, chores=True)


@pytest.fixture
def perch(farm_store: Store, wren: Unit) -> FishLot:
    """Fifty perch of 20 g since 15 April."""
    return stock(farm_store, wren)


def test_a_lot_weighs_what_its_last_sample_says(farm_store: Store, perch: FishLot):
    fish_events.weigh_sample(farm_store, NewSample(perch.id, on(6, 1), 4, mass("160 g")), by=ADA)
    assert held(farm_store, perch, on(5, 31)) == (50, 1_000_000)
    assert held(farm_store, perch, on(6, 1)) == (50, 2_000_000)


def test_fish_weighed_one_by_one_tell_how_sure_the_mean_is(farm_store: Store, perch: FishLot):
    each = tuple(mass(typed) for typed in ("40 g", "50 g", "60 g"))
    fish_events.weigh_sample(farm_store, NewSample(perch.id, on(6, 1), each=each), by=ADA)
    found = life(farm_store, perch).on(on(6, 1))
    assert found is not None
    assert (found.mean_mg, found.sampled) == (50_000, 3)
    assert found.se_mg == pytest.approx(10_000 / 3**0.5)


def test_samples_of_one_day_count_as_one(farm_store: Store, perch: FishLot):
    for number, typed in ((1, "40 g"), (3, "160 g")):
        fish_events.weigh_sample(farm_store, NewSample(perch.id, on(6, 1), number, mass(typed)), by=ADA)
    assert held(farm_store, perch) == (50, 2_500_000)


def test_the_dead_take_their_share_of_the_weight(farm_store: Store, perch: FishLot):
    fish_events.record_loss(farm_store, NewLoss(perch.id, on(5, 1), 10), by=ADA)
    assert held(farm_store, perch) == (40, 800_000)


def test_fish_that_are_picked_out_heavier_leave_lighter_ones(farm_store: Store, perch: FishLot):
    rest = transfers.split(farm_store, NewSplit(perch.id, perch.unit_id, "BIG", on(5, 1), 10, mass("30 g")), by=ADA)
    assert held(farm_store, perch) == (40, 700_000)
    assert held(farm_store, rest) == (10, 300_000)
    assert (rest.number, rest.source, rest.mean_mg) == (0, "out of PERCH-24", 30_000)


def test_a_lot_that_is_made_by_a_transfer_is_weighed_after_it(farm_store: Store, perch: FishLot):
    sick = transfers.split(farm_store, NewSplit(perch.id, perch.unit_id, "SICK", on(5, 1), 5), by=ADA)
    fish_events.weigh_sample(farm_store, NewSample(sick.id, on(5, 1), 5, mass("90 g")), by=ADA)
    assert held(farm_store, sick) == (5, 90_000)


def test_a_whole_lot_moves_and_its_past_stays_where_it_was(farm_store: Store, perch: FishLot):
    pen = a_unit(farm_store, "PEN", chores=True)
    moved = transfers.move_lot(farm_store, NewPlace(perch.id, pen.id, on(6, 1)), by=ADA)
    assert moved.unit == "PEN"
    assert {one.unit for one in lists.chores(farm_store) if one.template_key == "feed"} == {"WREN", "PEN"}
    with farm_store.reading() as reader:
        assert fish_spans(reader) == {perch.unit_id: [(on(4, 15), on(5, 31))], pen.id: [(on(6, 1), None)]}
    back = transfers.move_lot(farm_store, NewPlace(perch.id, perch.unit_id, on(6, 1)), by=ADA)
    assert back.unit == "WREN"


@pytest.mark.parametrize(
    ("kind", "words", "entry"),
    [
        (Refused, "51 fish would have gone from PERCH-24 by 2026-05-01, more than the 50", NewLoss(1, on(5, 1), 51)),
        (Refused, "PERCH-24 was stocked on 2026-04-15, after 2026-04-14", NewLoss(1, on(4, 14))),
        (OutOfRange, "0 is no number of fish", NewLoss(1, on(5, 1), 0)),
        (OutOfRange, "a weight is more than nothing", NewLoss(1, on(5, 1), mass=Measured(0, "0"))),
        (OutOfRange, "a weight is more than nothing", NewFeeding(1, on(5, 1), Measured(0, "0"))),
        (Refused, "was stocked on 2026-04-15, after 2026-04-14", NewFeeding(1, on(4, 14), mass("9 g"))),
        (Refused, "51 fish weighed, but PERCH-24 held 50", NewSample(1, on(5, 1), 51, mass("1 kg"))),
        (Refused, "say how many fish were weighed", NewSample(1, on(5, 1), None, mass("1 kg"))),
        (Refused, "one by one, or a number of them together", NewSample(1, on(5, 1), 3, None, (mass("9 g"),))),
        (Refused, "all of PERCH-24 weighed 2 lb 3.3 oz", NewSplit(1, 1, "BIG", on(5, 1), 10, mass("200 g"))),
        (Refused, "There is already a fish lot PERCH-24", NewSplit(1, 1, "perch-24", on(5, 1), 10)),
        (Refused, "PERCH-24 lives in WREN already", NewPlace(1, 1, on(5, 1))),
        (Refused, "was stocked on 2026-04-15, after 2026-04-01", NewPlace(1, 1, on(4, 1))),
        (Refused, "they are in PERCH-24 already", NewTransfer(1, 1, on(5, 1), 3)),
        (Refused, "is yellow perch and TROUT-1 is rainbow trout", NewTransfer(1, 2, on(5, 1), 3)),
        (Refused, "OLD is retired since 2026-05-01", NewSplit(1, 2, "X", on(5, 1), 3)),
        (Refused, "OLD is retired since 2026-05-01", NewPlace(1, 2, on(5, 1))),
        (Refused, "OLD is retired since 2026-05-01", NewTransfer(1, 3, on(5, 1), 3)),
    ],
)
def test_refused_in_words(farm_store: Store, perch: FishLot, kind: type[FarmopsError], words: str, entry: Any):
    old = a_unit(farm_store, "OLD")
    stock(farm_store, perch_home(farm_store), "TROUT-1", species="rainbow trout")
    stock(farm_store, old, "PERCH-25")
    enters(farm_store, old, UnitState.RETIRED, on(5, 1))
    before = everything_stored(farm_store), counted(farm_store)
    with pytest.raises(kind) as told:
        BOOKS[type(entry)](farm_store, entry, by=ADA)
    assert words in str(told.value)
    assert (everything_stored(farm_store), counted(farm_store)) == before


def perch_home(store: Store) -> Unit:
    return lists.units(store)[0].unit


BOOKS: dict[type, Any] = {
    NewLoss: fish_events.record_loss,
    NewSample: fish_events.weigh_sample,
    NewFeeding: fish_events.record_feeding,
    NewTransfer: transfers.transfer,
    NewSplit: transfers.split,
    NewPlace: transfers.move_lot,
    NewFishLot: fish.stock,
}


def test_nothing_is_booked_after_the_last_fish(farm_store: Store, perch: FishLot):
    fish.change_lot(farm_store, FishLotChange(perch.id, closed_day=on(6, 1)), by=ADA)
    for entry in (NewLoss(perch.id, on(6, 2)), NewFeeding(perch.id, on(6, 2), mass("9 g"))):
        with pytest.raises(Refused, match="PERCH-24 was closed on 2026-06-01, before 2026-06-02"):
            BOOKS[type(entry)](farm_store, entry, by=ADA)
    with pytest.raises(Refused, match="PERCH-24 was closed on 2026-06-01"):
        transfers.move_lot(farm_store, NewPlace(perch.id, a_unit(farm_store, "PEN").id, on(6, 2)), by=ADA)


def test_what_came_in_cannot_be_taken_back_once_it_is_gone(farm_store: Store, wren: Unit, perch: FishLot):
    other = stock(farm_store, wren, "PERCH-25", number=2)
    transfers.transfer(farm_store, NewTransfer(perch.id, other.id, on(5, 1), 5), by=ADA)
    weigh(farm_store, other, "1 lb", on(6, 1), number=7, by="Bob")
    with pytest.raises(Refused, match="7 fish would have gone from PERCH-25 by 2026-06-01, more than the 2 there were"):
        take_back(farm_store)


def test_two_deaths_on_a_day_raise_their_steps_in_the_same_operation(farm_store: Store, wren: Unit, perch: FishLot):
    contacts.add_contact(farm_store, NewContact("Dr Reed", "555 0100", "Vet, fish too"), by=ADA)
    first = fish_events.record_loss(farm_store, NewLoss(perch.id, TODAY), by=ADA)
    assert (first.steps, first.left_out) == ((), ())
    second = fish_events.record_loss(farm_store, NewLoss(perch.id, TODAY), by="Bob")
    assert second.left_out == ("Feed the fish",)
    assert second.call == "Dr Reed, 555 0100."
    given_now = [one for one in lists.chores(farm_store) if (one.template_key or "").startswith("deaths-")]
    assert [(one.title, one.next_due) for one in given_now] == [(title, TODAY) for title in second.steps]
    assert {one.value for one in given_now[0].measures} >= {"oxygen", "ammonia", "nitrite"}
    assert (given_now[2].instructions or "").startswith("Dr Reed, 555 0100. ")
    third = fish_events.record_loss(farm_store, NewLoss(perch.id, TODAY), by=ADA)
    assert third.steps == ()
    take_back(farm_store)
    take_back(farm_store, by="Bob")
    assert not [one for one in lists.chores(farm_store) if (one.template_key or "").startswith("deaths-")]


@pytest.mark.parametrize(
    "entry",
    [
        NewLoss(1, TODAY, 5, LossCause.CULLED),
        NewLoss(1, TODAY - timedelta(days=2), 5),
    ],
    ids=["culled", "long ago"],
)
def test_no_alarm_for_fish_that_were_culled_or_died_long_ago(farm_store: Store, perch: FishLot, entry: NewLoss):
    assert fish_events.record_loss(farm_store, entry, by=ADA).steps == ()


def test_without_a_vet_it_is_said_where_to_ask(farm_store: Store, perch: FishLot):
    found = fish_events.record_loss(farm_store, NewLoss(perch.id, TODAY, 2), by=ADA)
    assert found.call is not None
    assert "No vet is among the contacts yet" in found.call


def test_deaths_of_two_lots_in_one_unit_are_counted_together(farm_store: Store, wren: Unit, perch: FishLot):
    other = stock(farm_store, wren, "PERCH-25")
    elsewhere = stock(farm_store, a_unit(farm_store, "PEN"), "PERCH-26")
    assert fish_events.record_loss(farm_store, NewLoss(perch.id, TODAY), by=ADA).steps == ()
    assert fish_events.record_loss(farm_store, NewLoss(elsewhere.id, TODAY), by=ADA).steps == ()
    assert fish_events.record_loss(farm_store, NewLoss(other.id, TODAY), by=ADA).steps != ()


days = st.dates(on(5, 1), on(5, 6))
few = st.integers(1, 12)
lot_ids = st.integers(1, 4)
grams = st.integers(1, 90).map(lambda grams: Measured(1000 * grams, f"{grams} g"))
maybe = st.none() | grams
things = st.one_of(
    st.builds(NewLoss, lot_ids, days, few),
    st.builds(NewTransfer, lot_ids, lot_ids, days, few, maybe),
    st.builds(NewSplit, lot_ids, st.integers(1, 2), st.sampled_from(("A", "B")), days, few, maybe),
    st.builds(NewSample, lot_ids, days, few, grams),
    st.builds(NewPlace, lot_ids, st.integers(1, 2), days),
    st.sampled_from(("undo", "redo")),
)


@settings(
    max_examples=count(ci=15, full=400),
    deadline=None,
    phases=set(Phase) - {Phase.shrink},
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(story=st.lists(things, min_size=4, max_size=14))
def test_numbers_and_weight_are_conserved_whatever_happens(sqlite_store: Store, story: list[Any]):
    store = emptied(sqlite_store)
    open_farm(store)
    first, second = a_unit(store, "ONE"), a_unit(store, "TWO")
    stock(store, first, "P-1", on(4, 30), 20)
    stock(store, second, "P-2", on(5, 2), 9)
    for thing in story:
        if not lists.fish_lots(store):
            break
        before = _all(store)
        try:
            _happen(store, _ours(store, thing))
        except FarmopsError:
            assert _all(store) == before
        else:
            _check_all(store, before, thing)


def _ours(store: Store, thing: Any) -> Any:
    """The story's lots and units, counted round among those that there are."""
    if isinstance(thing, str):
        return thing
    lots, units = [one.id for one in lists.fish_lots(store)], [one.unit.id for one in lists.units(store)]
    names = {"lot_id": lots, "from_lot_id": lots, "to_lot_id": lots, "unit_id": units}
    named = {name: ids[getattr(thing, name) % len(ids)] for name, ids in names.items() if hasattr(thing, name)}
    return replace(thing, **named)


def _happen(store: Store, thing: Any) -> None:
    if thing == "undo":
        take_back(store)
    elif thing == "redo":
        do_again(store)
    else:
        BOOKS[type(thing)](store, thing, by=ADA)


def _all(store: Store) -> dict[int, Life]:
    with store.reading() as reader:
        return lives(reader, [one.id for one in lists.fish_lots(store)])


def _check_all(store: Store, before: dict[int, Life], thing: Any) -> None:
    now, rows = _all(store), everything_stored(store)
    stocked = sum(row["number"] for row in rows["fish_lot"])
    dead = sum(row["number"] for row in rows["loss"])
    assert sum(one.steps[-1].after.number for one in now.values()) == stocked - dead
    steps = [step for one in now.values() for step in one.steps]
    assert all(step.after.number >= 0 for step in steps)
    assert all(step.after.biomass_mg > 0 for step in steps if step.after.number)
    out = Counter((step.event.id, step.mass_mg) for step in steps if step.event.kind == "moved out")
    come = Counter((step.event.id, step.mass_mg) for step in steps if step.event.kind == "moved in")
    assert out == come
    for one in now.values():
        _check_weight(one)


def _check_weight(one: Life) -> None:
    """From step to step the weight of a lot changes by what came or went; only a weighing says it anew."""
    held_mg, number = 0, 0
    for step in one.steps:
        sign = {"stocked": 1, "moved in": 1, "weighed": 0}.get(step.event.kind, -1)
        if sign and not (step.event.kind == "moved out" and not step.after.number):
            assert step.after.biomass_mg == held_mg + sign * step.mass_mg
        if sign:
            assert step.after.number == number + sign * (step.event.number or 0)
        held_mg, number = step.after.biomass_mg, step.after.number
