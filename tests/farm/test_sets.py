"""Sets of chores: given on their occasion, never twice, never taken away where they keep fish alive."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, TypeVar

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from farmops.facts import chores as chore_facts
from farmops.facts import fish as fish_facts
from farmops.facts import units as unit_facts
from farmops.farm.chores import change_chore, pause
from farmops.farm.fish import change_lot
from farmops.farm.removal import remove_record
from farmops.farm.sets import give_set
from farmops.farm.units import add_unit, enter_state
from farmops.model.beds import BedKind
from farmops.model.chores import Chore, ChoreChange, NewPause, Occasion, SettledAs
from farmops.model.errors import FarmopsError, NotFound, OutOfRange, Refused
from farmops.model.fish import FishLotChange
from farmops.model.journal import Removal
from farmops.model.templates import GivenSet, NewSet
from farmops.model.units import NewState, NewUnit, StateFrom, Unit, UnitKind, UnitState
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import (
    ADA,
    a_bed,
    a_crop,
    a_unit,
    do_again,
    emptied,
    enters,
    everything_stored,
    on,
    open_farm,
    plant,
    settle,
    stock,
    take_back,
)
from tests.frozen import frozen
from tests.profiles import count

T = TypeVar("T")
BUILD = ("leak-test", "leak-test-read", "seal-fittings", "seal-cured", "first-fill", "siphon-trials")


def made(store: Store, key: str, where: str | None = None) -> list[Chore]:
    """The chores made from a template, oldest first."""
    found = [one for one in lists.chores(store) if one.template_key == key and where in (None, one.bed, one.unit)]
    return sorted(found, key=lambda one: one.id)


def keys(store: Store) -> set[str]:
    """The templates of which there is a chore."""
    return {one.template_key for one in lists.chores(store) if one.template_key}


def the(store: Store, key: str, where: str | None = None) -> Chore:
    """The one chore made from a template."""
    (one,) = made(store, key, where)
    return one


def starts(store: Store) -> list[date]:
    """The days of the steps of a build, in their order."""
    return [the(store, key).start_day for key in BUILD]


def states(store: Store, unit: Unit) -> list[StateFrom]:
    """The states of a unit, first to last."""
    with store.reading() as reader:
        return unit_facts.states(reader, unit.id)


def built(store: Store, hours: int | None = None) -> Unit:
    """A unit that is being built from 1 May on, with the time on the label."""
    entry = NewUnit("WREN", on(5, 1), state=UnitState.BUILDING, cure_hours=hours)
    return add_unit(store, entry, by=ADA)


class TestBuild:
    def test_a_build_has_its_steps_from_the_table(self, farm_store: Store) -> None:
        built(farm_store)
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 6, 9, 10)]

    def test_the_time_on_the_label_moves_what_waits_for_it(self, farm_store: Store) -> None:
        built(farm_store, 72)
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 8, 12, 13)]

    def test_a_state_entered_takes_the_time_on_the_label_too(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, state=UnitState.PLANNED, since=on(4, 1))
        enter_state(farm_store, NewState(unit.id, UnitState.BUILDING, on(5, 1), cure_hours=168), by=ADA)
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 12, 20, 21)]

    @pytest.mark.parametrize("hours", [-1, 0, 12, 23, 1441])
    def test_a_time_under_the_floor_is_refused_in_words(self, farm_store: Store, hours: int) -> None:
        with pytest.raises(OutOfRange, match="Sealant stays dry for 24 h at least, whatever its label promises"):
            built(farm_store, hours)
        assert lists.units(farm_store) == []

    def test_only_a_build_has_a_time_to_cure(self, farm_store: Store) -> None:
        unit = a_unit(farm_store)
        entry = NewState(unit.id, UnitState.RESTING, on(5, 1), cure_hours=48)
        with pytest.raises(
            Refused, match="only a unit that is being built has a time to cure, not one that is resting"
        ):
            enter_state(farm_store, entry, by=ADA)

    def test_sealed_late_the_rest_keeps_its_time(self, farm_store: Store) -> None:
        built(farm_store, 72)
        settle(farm_store, the(farm_store, "leak-test"), on(5, 2))
        settle(farm_store, the(farm_store, "seal-fittings"), on(5, 9))
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 13, 17, 18)]
        take_back(farm_store)
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 8, 12, 13)]

    def test_done_early_or_skipped_nothing_moves(self, farm_store: Store) -> None:
        built(farm_store)
        settle(farm_store, the(farm_store, "seal-fittings"), on(5, 3))
        settle(farm_store, the(farm_store, "leak-test"), on(5, 8), SettledAs.SKIPPED, reason="no water yet")
        assert starts(farm_store) == [on(5, day) for day in (2, 3, 4, 6, 9, 10)]

    def test_what_is_done_or_has_a_rule_of_its_own_does_not_move(self, farm_store: Store) -> None:
        built(farm_store)
        settle(farm_store, the(farm_store, "seal-cured"), on(5, 6))
        change_chore(farm_store, ChoreChange(the(farm_store, "first-fill").id, rule="Mon"), by=ADA)
        settle(farm_store, the(farm_store, "leak-test"), on(5, 5))
        assert [one.day for one in starts(farm_store)] == [2, 6, 7, 6, 9, 13]


class TestStates:
    def test_a_state_entered_further_back_begins_then_and_only_then(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, since=on(10, 14))
        enters(farm_store, unit, UnitState.RUNNING, on(9, 4))
        assert states(farm_store, unit) == [StateFrom(on(9, 4), UnitState.RUNNING)]
        enters(farm_store, unit, UnitState.BUILDING, on(8, 1))
        assert [one.state for one in states(farm_store, unit)] == [UnitState.BUILDING, UnitState.RUNNING]
        take_back(farm_store)
        take_back(farm_store)
        assert states(farm_store, unit) == [StateFrom(on(10, 14), UnitState.RUNNING)]

    def test_a_second_winter_has_its_chore_again_and_the_weekly_one_goes_on(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        enters(farm_store, unit, UnitState.WINTERING, on(3, 5), chores=True)
        settle(farm_store, the(farm_store, "winter-feeding"), on(3, 5))
        enters(farm_store, unit, UnitState.RUNNING, on(4, 5), chores=True)
        enters(farm_store, unit, UnitState.WINTERING, on(10, 5), chores=True)
        assert [one.next_due for one in made(farm_store, "winter-feeding")] == [None, on(10, 5)]
        assert len(made(farm_store, "winter-look")) == 1
        assert len(made(farm_store, "pump-intake")) == 1

    def test_what_two_states_in_a_row_call_for_is_done_once(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True, state=UnitState.PLANNED)
        settle(farm_store, the(farm_store, "container-history"), on(3, 2))
        enters(farm_store, unit, UnitState.BUILDING, on(4, 5), chores=True)
        assert len(made(farm_store, "container-history")) == 1
        assert len(made(farm_store, "leak-test")) == 1

    def test_chores_of_an_earlier_state_rest_and_come_back(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        assert the(farm_store, "leaf-look").next_due == on(3, 1)
        enters(farm_store, unit, UnitState.RESTING, on(3, 1), chores=True)
        assert the(farm_store, "leaf-look").next_due is None
        enters(farm_store, unit, UnitState.RUNNING, on(9, 1), chores=True)
        assert the(farm_store, "leaf-look").next_due == on(9, 1)

    def test_what_a_person_paused_stays_paused(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        pause(farm_store, NewPause(the(farm_store, "leaf-look").id, on(3, 1)), by=ADA)
        enters(farm_store, unit, UnitState.WINTERING, on(9, 1), chores=True)
        assert the(farm_store, "leaf-look").next_due is None

    def test_a_state_booked_after_the_one_that_followed_gives_only_what_both_call_for(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, since=on(6, 1))
        enters(farm_store, unit, UnitState.WINTERING, on(2, 1), chores=True)
        given = keys(farm_store)
        assert {"leaf-look", "water-test", "pump-intake"} <= given
        assert not {"winter-feeding", "winter-look"} & given

    def test_a_unit_is_taken_down_fish_first(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        lot = stock(farm_store, unit)
        enters(farm_store, unit, UnitState.RETIRED, on(10, 1), chores=True)
        assert the(farm_store, "retire-fish").next_due == on(10, 1)
        assert the(farm_store, "feed").next_due == on(4, 15)
        assert the(farm_store, "retire-store").next_due == on(10, 3)
        change_lot(farm_store, FishLotChange(lot.id, closed_day=on(10, 1)), by=ADA)
        settle(farm_store, the(farm_store, "feed"), on(10, 1))
        assert the(farm_store, "feed").next_due is None
        settle(farm_store, the(farm_store, "retire-fish"), on(10, 1))
        enters(farm_store, unit, UnitState.BUILDING, on(10, 10), chores=True)
        enters(farm_store, unit, UnitState.RETIRED, on(10, 12), chores=True)
        assert len(made(farm_store, "retire-fish")) == 1
        assert len(made(farm_store, "retire-drain")) == 1

    def test_a_bed_and_fish_booked_late_get_what_the_state_of_today_calls_for(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True, state=UnitState.CYCLING)
        enters(farm_store, unit, UnitState.RUNNING, on(5, 1), chores=True)
        a_bed(farm_store, unit)
        stock(farm_store, unit, since=on(4, 20))
        assert the(farm_store, "bed-solids", "WREN-N").start_day == on(5, 1) + timedelta(days=180)
        assert the(farm_store, "feed").next_due == on(5, 1)

    @pytest.mark.parametrize("kind", UnitKind)
    @pytest.mark.parametrize("state", UnitState)
    def test_every_state_of_every_kind_gives_something_of_its_own(
        self, farm_store: Store, kind: UnitKind, state: UnitState
    ) -> None:
        a_unit(farm_store, chores=True, state=state, kind=kind)
        assert [one for one in lists.chores(farm_store) if one.unit == "WREN"]


class TestNoChores:
    def test_a_unit_without_chores_gets_none_with_its_bed_its_fish_and_its_plants(self, farm_store: Store) -> None:
        unit = a_unit(farm_store)
        bed = a_bed(farm_store, unit)
        stock(farm_store, unit, since=on(10, 12))
        plant(farm_store, bed, a_crop(farm_store), on(10, 12))
        assert lists.chores(farm_store) == []

    def test_from_the_first_state_with_chores_on_it_gets_them_all(self, farm_store: Store) -> None:
        unit = a_unit(farm_store)
        bed = a_bed(farm_store, unit)
        stock(farm_store, unit, since=on(10, 12))
        enters(farm_store, unit, UnitState.WINTERING, on(10, 13), chores=True)
        plant(farm_store, bed, a_crop(farm_store), on(10, 13))
        assert {"feed", "water-test", "winter-feeding", "plant-look", "look-round-morning"} <= keys(farm_store)

    def test_what_is_asked_for_by_hand_is_given(self, farm_store: Store) -> None:
        unit = a_unit(farm_store)
        give_set(farm_store, NewSet(Occasion.DOSING, unit.id, on(10, 13)), by=ADA)
        assert keys(farm_store) == {"dose-test"}
        stock(farm_store, unit, since=on(10, 14))
        assert keys(farm_store) == {"dose-test"}


class TestStocking:
    def test_fish_bring_two_weeks_of_tests_and_their_papers(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        stock(farm_store, unit, since=on(10, 12))
        test = the(farm_store, "stock-test")
        assert (test.rule_words, test.next_due, test.grade) == ("every day 14 times", on(10, 12), "life support")
        assert the(farm_store, "stock-papers").next_due == on(10, 12)
        take_back(farm_store)
        assert "stock-test" not in keys(farm_store)

    def test_more_fish_while_the_tests_go_on_make_them_last(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        stock(farm_store, unit, since=on(10, 5))
        settle(farm_store, the(farm_store, "stock-test"), on(10, 6))
        stock(farm_store, unit, "TWO", on(10, 12))
        test = the(farm_store, "stock-test")
        assert (test.rule_words, test.next_due) == ("every day until 2026-10-25", on(10, 7))
        stock(farm_store, unit, "BEFORE", on(10, 10))
        assert the(farm_store, "stock-test").rule_words == "every day until 2026-10-25"

    def test_fish_after_the_tests_are_over_bring_a_new_set(self, farm_store: Store) -> None:
        with frozen("2026-09-01"):
            unit = a_unit(farm_store, chores=True)
            stock(farm_store, unit, since=on(9, 1))
            settle(farm_store, the(farm_store, "stock-papers"), on(9, 1))
        with frozen("2026-09-14"):
            settle(farm_store, the(farm_store, "stock-test"), on(9, 14))
        stock(farm_store, unit, "TWO", on(10, 12))
        assert [one.next_due for one in made(farm_store, "stock-test")] == [None, on(10, 12)]
        assert [one.next_due for one in made(farm_store, "stock-papers")] == [None, on(10, 12)]

    def test_fish_booked_long_after_bring_no_tests_for_days_that_are_past(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        stock(farm_store, unit, since=on(9, 20))
        assert not {"stock-test", "stock-papers"} & keys(farm_store)
        stock(farm_store, unit, "TWO", on(10, 1))
        assert {"stock-test", "stock-papers"} <= keys(farm_store)


class TestPlanting:
    def test_new_plants_are_looked_at_after_a_week_in_any_kind_of_bed(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        raft = a_bed(farm_store, unit, "R", kind=BedKind.RAFT)
        plant(farm_store, raft, a_crop(farm_store), on(10, 10))
        assert the(farm_store, "plant-look", "WREN-R").next_due == on(10, 17)

    def test_the_next_planting_does_not_put_the_look_off(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        bed, crop = a_bed(farm_store, unit), a_crop(farm_store)
        for day in (8, 12, 14):
            plant(farm_store, bed, crop, on(10, day))
        assert the(farm_store, "plant-look").next_due == on(10, 15)
        settle(farm_store, the(farm_store, "plant-look"), on(10, 14))
        plant(farm_store, bed, crop, on(10, 14))
        assert [one.next_due for one in made(farm_store, "plant-look")] == [None, on(10, 21)]

    def test_a_planting_booked_long_after_brings_nothing(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        plant(farm_store, a_bed(farm_store, unit), a_crop(farm_store), on(9, 1))
        assert "plant-look" not in keys(farm_store)


class TestBedCleaning:
    def cleaned(self, store: Store) -> Unit:
        unit = a_unit(store, chores=True)
        a_bed(store, unit)
        settle(store, the(store, "bed-solids"), on(10, 13))
        return unit

    def test_a_cleaned_bed_is_followed_by_three_days_of_ammonia(self, farm_store: Store) -> None:
        self.cleaned(farm_store)
        test = the(farm_store, "bed-test")
        assert (test.rule_words, test.next_due, test.unit) == ("every day 3 times", on(10, 14), "WREN")
        take_back(farm_store)
        assert "bed-test" not in keys(farm_store)
        do_again(farm_store)
        assert the(farm_store, "bed-test").next_due == on(10, 14)

    def test_skipped_or_deferred_it_is_followed_by_nothing(self, farm_store: Store) -> None:
        unit = a_unit(farm_store, chores=True)
        a_bed(farm_store, unit)
        settle(farm_store, the(farm_store, "bed-solids"), on(10, 12), SettledAs.SKIPPED, reason="too cold")
        settle(farm_store, the(farm_store, "bed-solids"), on(10, 13), SettledAs.DEFERRED, until=on(10, 20))
        assert "bed-test" not in keys(farm_store)

    def test_the_second_bed_of_the_unit_makes_the_tests_last(self, farm_store: Store) -> None:
        unit = self.cleaned(farm_store)
        a_bed(farm_store, unit, "S")
        settle(farm_store, the(farm_store, "bed-solids", "WREN-S"), on(10, 14))
        assert the(farm_store, "bed-test").rule_words == "every day until 2026-10-17"


class TestByHand:
    @pytest.fixture
    def unit(self, farm_store: Store) -> Unit:
        unit = a_unit(farm_store, chores=True)
        stock(farm_store, unit)
        return unit

    def give(self, store: Store, unit: Unit, occasion: Occasion, **more: Any) -> GivenSet:
        return give_set(store, NewSet(occasion, unit.id, **{"day": on(10, 13), **more}), by=ADA)

    def test_a_treatment_ends_on_the_day_its_label_names(self, farm_store: Store, unit: Unit) -> None:
        bed = a_bed(farm_store, unit)
        given = self.give(farm_store, unit, Occasion.TREATMENT, bed_id=bed.id, hold_days=10)
        assert len(given.given) == 3
        over = the(farm_store, "treat-over", "WREN-N")
        assert (over.rule_kind, over.next_due) == ("once", on(10, 23))
        assert the(farm_store, "treat-sign", "WREN-N").next_due == on(10, 13)

    def test_of_two_treatments_the_longer_hold_counts(self, farm_store: Store, unit: Unit) -> None:
        self.give(farm_store, unit, Occasion.TREATMENT, hold_days=10)
        again = self.give(farm_store, unit, Occasion.TREATMENT, day=on(10, 14), hold_days=3)
        assert the(farm_store, "treat-over").next_due == on(10, 23)
        assert the(farm_store, "treat-sign").next_due == on(10, 13)
        assert (again.given, again.prolonged) == ((), ("Test ammonia, nitrite after the treatment",))
        self.give(farm_store, unit, Occasion.TREATMENT, day=on(10, 14), hold_days=20)
        assert the(farm_store, "treat-over").next_due == on(11, 3)

    def test_a_label_without_a_hold_still_keeps_the_day(self, farm_store: Store, unit: Unit) -> None:
        self.give(farm_store, unit, Occasion.TREATMENT, hold_days=0)
        assert the(farm_store, "treat-over").next_due == on(10, 14)

    def test_a_power_cut_leaves_out_the_feed_of_the_day_and_tests_for_a_week(
        self, farm_store: Store, unit: Unit
    ) -> None:
        feed = the(farm_store, "feed")
        settle(farm_store, feed, on(10, 12))
        given = self.give(farm_store, unit, Occasion.POWER_CUT)
        assert given.skipped == ("Feed the fish",)
        (skipped, _) = lists.settled(farm_store, feed.id)
        assert (skipped.kind, skipped.on_day, skipped.reason) == (
            SettledAs.SKIPPED,
            on(10, 13),
            "power cut: no feed on this day",
        )
        assert the(farm_store, "feed").next_due == on(10, 14)
        assert the(farm_store, "outage-test").rule_words == "every day 7 times"
        before = everything_stored(farm_store)
        take_back(farm_store)
        assert the(farm_store, "feed").next_due == on(10, 13)
        assert "outage-test" not in keys(farm_store)
        do_again(farm_store)
        assert everything_stored(farm_store) == before

    def test_fed_before_the_cut_nothing_is_left_out(self, farm_store: Store, unit: Unit) -> None:
        settle(farm_store, the(farm_store, "feed"), on(10, 13))
        assert self.give(farm_store, unit, Occasion.POWER_CUT).skipped == ()

    @pytest.mark.parametrize(
        ("kind", "words", "occasion", "more"),
        [
            (Refused, "say how many days the label holds the harvest", Occasion.TREATMENT, {}),
            (OutOfRange, "366 days is no hold", Occasion.TREATMENT, {"hold_days": 366}),
            (Refused, "only a treatment has days until harvest", Occasion.DOSING, {"hold_days": 3}),
            (Refused, "the chores of a state come with it", Occasion.STATE, {}),
            (Refused, "that bed does not belong to WREN", Occasion.DOSING, {"bed_id": 1}),
            (NotFound, "no bed 99", Occasion.DOSING, {"bed_id": 99}),
            (OutOfRange, "not a day to book on", Occasion.DOSING, {"day": date(1800, 1, 1)}),
            (Refused, "Nothing to give: no chore of planting is for WREN", Occasion.PLANTING, {}),
        ],
    )
    def test_refused(
        self,
        farm_store: Store,
        unit: Unit,
        kind: type[FarmopsError],
        words: str,
        occasion: Occasion,
        more: dict[str, Any],
    ) -> None:
        a_bed(farm_store, a_unit(farm_store, "OTHER"))
        before = everything_stored(farm_store)
        with pytest.raises(kind, match=words):
            self.give(farm_store, unit, occasion, **more)
        assert everything_stored(farm_store) == before

    def test_what_stands_open_already_is_not_given_again(self, farm_store: Store, unit: Unit) -> None:
        self.give(farm_store, unit, Occasion.DOSING)
        with pytest.raises(Refused, match="all that dosing calls for at WREN stands open already"):
            self.give(farm_store, unit, Occasion.DOSING)

    def test_a_retired_unit_is_given_none(self, farm_store: Store, unit: Unit) -> None:
        enters(farm_store, unit, UnitState.RETIRED, on(10, 1))
        with pytest.raises(Refused, match="WREN is retired since 2026-10-01"):
            self.give(farm_store, unit, Occasion.DOSING)

    def test_without_fish_nothing_is_for_them(self, farm_store: Store) -> None:
        with pytest.raises(Refused, match="no chore of power cut is for OTHER"):
            self.give(farm_store, a_unit(farm_store, "OTHER"), Occasion.POWER_CUT)


FIRST, LAST = date(2026, 3, 1), date(2026, 10, 14)


@dataclass(frozen=True)
class Step:
    """One thing that happens on the farm; numbers pick what it happens to."""

    what: str
    number: int
    day: date
    state: UnitState
    occasion: Occasion


EVENTS = (*("state",) * 5, *("stock", "set", "done") * 3, *("plant",) * 2, "close", "pause", "bed", "undo")
steps = st.builds(
    Step,
    st.sampled_from(EVENTS),
    st.integers(0, 200),
    st.dates(FIRST, LAST) | st.dates(on(9, 25), LAST),
    st.sampled_from(UnitState),
    st.sampled_from([one for one in Occasion if one is not Occasion.STATE]),
)


def _one(found: Sequence[T], step: Step) -> T:
    """The one that a step is about. Raises NotFound where an undo left none."""
    if not found:
        raise NotFound("None is left.")
    return found[step.number % len(found)]


def _unit(store: Store, step: Step) -> Unit:
    return _one(lists.units(store), step).unit


def _state(store: Store, step: Step) -> None:
    enters(store, _unit(store, step), step.state, step.day, chores=True)


def _stock(store: Store, step: Step) -> None:
    stock(store, _unit(store, step), f"L{len(lists.fish_lots(store))}", step.day)


def _close(store: Store, step: Step) -> None:
    change_lot(store, FishLotChange(_one(lists.fish_lots(store), step).id, closed_day=step.day), by=ADA)


def _plant(store: Store, step: Step) -> None:
    plant(store, _one(lists.beds(store), step).bed, _one(lists.crops(store), step), step.day)


def _set(store: Store, step: Step) -> None:
    hold = step.number if step.occasion is Occasion.TREATMENT else None
    give_set(store, NewSet(step.occasion, _unit(store, step).id, step.day, hold_days=hold), by=ADA)


def _done(store: Store, step: Step) -> None:
    settle(store, _one(lists.chores(store), step), step.day)


def _pause(store: Store, step: Step) -> None:
    pause(store, NewPause(_one(lists.chores(store), step).id, step.day), by=ADA)


def _bed(store: Store, step: Step) -> None:
    a_bed(store, _unit(store, step), f"B{len(lists.beds(store))}", since=step.day)


STEPS: dict[str, Callable[[Store, Step], object]] = {
    "state": _state,
    "stock": _stock,
    "close": _close,
    "plant": _plant,
    "set": _set,
    "done": _done,
    "pause": _pause,
    "bed": _bed,
    "undo": lambda store, step: take_back(store),
}


def assert_none_is_open_twice(store: Store) -> None:
    """No place has two open chores made from one template."""
    with store.reading() as reader:
        over = {one.chore_id for one in chore_facts.plans(reader, [one.id for one in lists.chores(store)]) if one.over}
    places = ((one.template_key, one.unit_id, one.bed_id) for one in lists.chores(store) if one.id not in over)
    twice = {place for place, times in Counter(places).items() if times > 1}
    assert twice == set()


def keeping_alive(store: Store, day: date) -> set[int]:
    """The chores that keep the fish of their unit alive, are not over and active on a day with live fish."""
    with store.reading() as reader:
        spans = fish_facts.fish_spans(reader)
        grave = {one.id: one.unit_id for one in lists.chores(store) if one.grade.keeps_fish_alive and one.unit_id}
        alive = {unit for unit, found in spans.items() if any(a <= day and (b is None or b >= day) for a, b in found)}
        plans = chore_facts.plans(reader, [id for id, unit in grave.items() if unit in alive])
        return {one.chore_id for one in plans if not one.over and one.activity.active(day)}


@settings(
    max_examples=count(ci=10, full=300),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(walk=st.lists(steps, min_size=8, max_size=16))
def test_no_walk_gives_a_chore_twice_or_takes_one_from_live_fish(store: Store, walk: list[Step]) -> None:
    with frozen(LAST.isoformat(), at="12:00"):
        open_farm(emptied(store))
        for code, kind in (("WREN", UnitKind.COUPLED), ("PIT", UnitKind.FISH_ONLY)):
            stock(store, a_unit(store, code, FIRST, chores=True, kind=kind), f"OF-{code}", FIRST)
        a_bed(store, lists.units(store)[0].unit)
        a_crop(store)
        for step in walk:
            kept = {day: keeping_alive(store, day) for day in (FIRST, step.day, LAST)}
            with suppress(FarmopsError):
                STEPS[step.what](store, step)
            assert_none_is_open_twice(store)
            if step.what in ("state", "stock", "plant", "set", "bed"):
                still = {day: keeping_alive(store, day) for day in kept}
                assert all(kept[day] <= still[day] for day in kept)


def test_a_chore_that_was_removed_comes_again_with_the_next_state(farm_store: Store) -> None:
    unit = a_unit(farm_store, chores=True)
    remove_record(farm_store, Removal("chores", the(farm_store, "leaf-look").id), by=ADA)
    enters(farm_store, unit, UnitState.WINTERING, on(10, 1), chores=True)
    assert len(made(farm_store, "leaf-look")) == 1
