"""Going away: what moves out of the time in the same operation, what stays, and that nothing becomes late."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from farmops.facts import absences as absence_facts
from farmops.facts import chores as chore_facts
from farmops.farm.absences import NOBODY, change_absence, go_away
from farmops.farm.farm import add_person
from farmops.farm.removal import remove_record
from farmops.model.absences import AbsenceChange, Moves, NewAbsence
from farmops.model.chores import Chore, ChoreClass, SettledAs
from farmops.model.errors import FarmopsError, NotFound, OutOfRange, Refused
from farmops.model.farm import NewPerson, Person
from farmops.model.journal import Removal
from farmops.records.store import Store
from tests.farmhand import (
    ADA,
    TODAY,
    a_chore,
    a_unit,
    counted,
    do_again,
    everything_stored,
    on,
    settle,
    stock,
    take_back,
)
from tests.frozen import frozen

FIRST, DUE, LAST, BACK = on(10, 20), on(10, 22), on(10, 26), on(10, 27)


@pytest.fixture(autouse=True)
def _stands_still():
    with frozen(TODAY):
        yield


@pytest.fixture
def ada(farm_store: Store) -> Person:
    return add_person(farm_store, NewPerson("Ada"), by=ADA)


def somebody(store: Store, name: str = "Bo", *, minor: bool = False) -> Person:
    return add_person(store, NewPerson(name, minor=minor), by=ADA)


def leave(store: Store, who: Person, first: date = FIRST, last: date = LAST, **more: Any) -> Moves:
    return go_away(store, NewAbsence(who.id, first, last, **more), by=ADA).moves


def upkeep(store: Store, rule: str = "14 days after", start: date = DUE, **more: Any) -> Chore:
    return a_chore(store, "Change the pad", rule, start, **{"grade": ChoreClass.UPKEEP, **more})


def next_due(store: Store, chore: Chore) -> date | None:
    with store.reading() as reader:
        found = chore_facts.chore(reader, chore.id)
    assert found is not None
    return found.next_due


def late_on(store: Store, chore: Chore, day: date) -> bool:
    with store.reading() as reader:
        return chore.id in chore_facts.standing_on(reader, [chore.id], day)


def titles(moves: Moves) -> list[tuple[str, date | None, bool]]:
    return [(one.title, one.until, one.before) for one in moves.moved]


def test_upkeep_that_falls_into_the_time_is_put_off_until_somebody_is_back(farm_store: Store, ada: Person):
    pad = upkeep(farm_store)
    moves = leave(farm_store, ada)
    assert titles(moves) == [("Change the pad", BACK, True)]
    assert next_due(farm_store, pad) == BACK
    with farm_store.reading() as reader:
        (line,) = chore_facts.settled(reader, pad.id)
    assert (line.kind, line.occurrence, line.until_day, line.reason) == (SettledAs.DEFERRED, DUE, BACK, "away")


def test_what_can_be_done_before_is_done_before_and_then_is_not_asked_for_again(farm_store: Store, ada: Person):
    pad = upkeep(farm_store)
    leave(farm_store, ada)
    with frozen(on(10, 19)):
        settle(farm_store, pad, on(10, 19))
    assert next_due(farm_store, pad) == on(11, 2)


@pytest.mark.parametrize(("rule", "start"), [("3 days after", on(10, 15)), ("Tue Fri", on(10, 15)), ("day", on(10, 1))])
@pytest.mark.parametrize("doings", [(), (on(10, 15),), (on(10, 16), on(10, 19))])
def test_what_comes_again_and_again_is_not_late_on_any_day_away(
    farm_store: Store, ada: Person, rule: str, start: date, doings: tuple[date, ...]
):
    pad = upkeep(farm_store, rule, start)
    moves = leave(farm_store, ada)
    assert titles(moves) == [("Change the pad", None, True)]
    for day in doings:
        with frozen(day):
            settle(farm_store, pad, day)
    assert not any(late_on(farm_store, pad, FIRST + timedelta(days=n)) for n in range(7))
    assert late_on(farm_store, pad, BACK)


@pytest.mark.parametrize("grade", [ChoreClass.LIFE_SUPPORT, ChoreClass.FISH_CARE, ChoreClass.FOOD_SAFETY])
def test_what_fish_and_food_need_does_not_move(farm_store: Store, ada: Person, grade: ChoreClass):
    pad = upkeep(farm_store, grade=grade)
    assert leave(farm_store, ada).moved == ()
    assert next_due(farm_store, pad) == DUE


@pytest.mark.parametrize("grade", [ChoreClass.CROP, ChoreClass.PAPERWORK])
def test_crop_work_that_can_wait_and_paperwork_move(farm_store: Store, ada: Person, grade: ChoreClass):
    pad = upkeep(farm_store, grade=grade)
    leave(farm_store, ada)
    assert next_due(farm_store, pad) == BACK


def test_while_somebody_else_is_here_nothing_moves_by_itself(farm_store: Store, ada: Person):
    pad, _bo = upkeep(farm_store), somebody(farm_store)
    moves = leave(farm_store, ada)
    assert (moves.moved, moves.here, moves.warnings) == ((), ("Bo",), ())
    assert next_due(farm_store, pad) == DUE


def test_a_minor_alone_is_nobody_to_do_upkeep(farm_store: Store, ada: Person):
    pad, _bo = upkeep(farm_store), somebody(farm_store, minor=True)
    leave(farm_store, ada)
    assert next_due(farm_store, pad) == BACK


def test_the_stand_in_does_what_falls_to_them_and_the_daily_look_and_no_other_upkeep(farm_store: Store, ada: Person):
    bo = somebody(farm_store)
    pad, own = upkeep(farm_store), upkeep(farm_store, person_id=bo.id)
    leaves = upkeep(farm_store, "day", on(10, 14), grade=ChoreClass.CROP)
    moves = leave(farm_store, ada, stand_in_id=bo.id)
    assert [one.chore_id for one in moves.moved] == [pad.id]
    assert (next_due(farm_store, own), next_due(farm_store, leaves)) == (DUE, on(10, 14))


def test_when_the_last_one_leaves_too_what_falls_into_the_days_alone_moves(farm_store: Store, ada: Person):
    bo = somebody(farm_store)
    early, late = upkeep(farm_store, start=on(10, 21)), upkeep(farm_store, start=on(10, 24))
    assert leave(farm_store, ada).moved == ()
    moves = leave(farm_store, bo, on(10, 23), on(10, 29))
    assert [(one.chore_id, one.until) for one in moves.moved] == [(early.id, None), (late.id, BACK)]
    assert moves.here == ("Ada",)
    assert next_due(farm_store, early) == on(10, 21)


def test_fish_with_nobody_to_look_after_them_are_warned_of(farm_store: Store, ada: Person):
    stock(farm_store, a_unit(farm_store))
    assert leave(farm_store, ada).warnings == (NOBODY,)


def test_a_stand_in_who_is_a_minor_is_warned_of(farm_store: Store, ada: Person):
    bo = somebody(farm_store, minor=True)
    assert leave(farm_store, ada, stand_in_id=bo.id).warnings == (
        "Bo is a minor: somebody else has to do what is for adults only.",
    )


def test_what_is_over_moves_nothing(farm_store: Store, ada: Person):
    pad = upkeep(farm_store, start=on(9, 5))
    assert leave(farm_store, ada, on(9, 1), on(9, 9)).moved == ()
    assert next_due(farm_store, pad) == on(9, 5)


def test_an_absence_that_has_begun_moves_what_is_left_of_it(farm_store: Store, ada: Person):
    old, pad = upkeep(farm_store, start=on(10, 2)), upkeep(farm_store, start=on(10, 16))
    leave(farm_store, ada, on(10, 10), on(10, 18))
    assert next_due(farm_store, pad) == on(10, 19)
    assert not late_on(farm_store, old, on(10, 14))
    assert late_on(farm_store, old, on(10, 19))


def test_all_of_it_is_taken_back_and_done_again_as_one(farm_store: Store, ada: Person):
    pad, again = upkeep(farm_store), upkeep(farm_store, "2 days after", on(10, 15))
    before = everything_stored(farm_store)
    leave(farm_store, ada)
    after = everything_stored(farm_store)
    take_back(farm_store)
    assert everything_stored(farm_store) == before
    assert (next_due(farm_store, pad), next_due(farm_store, again)) == (DUE, on(10, 15))
    do_again(farm_store)
    assert everything_stored(farm_store) == after


def test_a_rehearsal_says_the_same_and_keeps_nothing(farm_store: Store, ada: Person):
    pad = upkeep(farm_store)
    entry = NewAbsence(ada.id, FIRST, LAST)
    before = everything_stored(farm_store), counted(farm_store)
    rehearsed = go_away.rehearse(farm_store, entry, by=ADA)
    assert (everything_stored(farm_store), counted(farm_store)) == before
    assert next_due(farm_store, pad) == DUE
    assert go_away(farm_store, entry, by=ADA).moves == rehearsed.moves


def test_coming_home_early_brings_back_what_can_be_done_again(farm_store: Store, ada: Person):
    pad, weekly = upkeep(farm_store), upkeep(farm_store, "2 days after", on(10, 15))
    gone = go_away(farm_store, NewAbsence(ada.id, FIRST, LAST), by=ADA).absence
    away = change_absence(farm_store, AbsenceChange(gone.id, until_day=on(10, 21)), by=ADA)
    assert titles(away.moves) == [("Change the pad", None, True)]
    assert away.absence.until_day == on(10, 21)
    assert next_due(farm_store, pad) == DUE
    with frozen(on(10, 18)):
        settle(farm_store, weekly, on(10, 18))
    assert next_due(farm_store, weekly) == DUE


def test_a_changed_note_leaves_what_was_moved_where_it_is(farm_store: Store, ada: Person):
    pad = upkeep(farm_store)
    gone = go_away(farm_store, NewAbsence(ada.id, FIRST, LAST), by=ADA).absence
    change_absence(farm_store, AbsenceChange(gone.id, note="by train"), by=ADA)
    assert next_due(farm_store, pad) == BACK
    remove_record(farm_store, Removal("absences", gone.id), by=ADA)
    assert next_due(farm_store, pad) == DUE


def test_a_change_that_changes_nothing_is_not_booked(farm_store: Store, ada: Person):
    gone = go_away(farm_store, NewAbsence(ada.id, FIRST, LAST), by=ADA).absence
    before = counted(farm_store)
    change_absence(farm_store, AbsenceChange(gone.id, from_day=FIRST), by=ADA)
    assert counted(farm_store) == before


def test_what_was_moved_for_a_time_that_is_over_stays_history(farm_store: Store, ada: Person):
    pad = upkeep(farm_store)
    gone = go_away(farm_store, NewAbsence(ada.id, FIRST, LAST), by=ADA).absence
    with frozen(BACK):
        remove_record(farm_store, Removal("absences", gone.id), by=ADA)
    assert next_due(farm_store, pad) == BACK


def test_a_chore_that_rests_already_is_not_laid_to_rest_twice(farm_store: Store, ada: Person):
    from farmops.farm.chores import pause
    from farmops.model.chores import NewPause

    pad = upkeep(farm_store, "2 days after", on(10, 15))
    pause(farm_store, NewPause(pad.id, on(10, 18), on(10, 21)), by=ADA)
    gone = go_away(farm_store, NewAbsence(ada.id, FIRST, LAST), by=ADA).absence
    with farm_store.reading() as reader:
        assert absence_facts.rested_for(reader, gone.id) == []


@pytest.mark.parametrize(
    ("kind", "words", "entry"),
    [
        (Refused, "the last day away, 2026-10-19, lies before the first, 2026-10-20", {"until_day": on(10, 19)}),
        (Refused, "nobody stands in for themselves", {"stand_in_id": 1}),
        (Refused, "Ada is away from 2026-10-01 to 2026-10-05 already", {"from_day": on(10, 5)}),
        (Refused, "Cy is away from 2026-10-24 to 2026-10-30 and cannot stand in", {"stand_in_id": 3}),
        (Refused, "Bo stands in for Cy from 2026-10-24 to 2026-10-30", {"person_id": 2}),
        (NotFound, "There is no person 9", {"stand_in_id": 9}),
        (NotFound, "There is no person 9", {"person_id": 9}),
        (OutOfRange, "is not a day to book on", {"until_day": date(2028, 1, 1)}),
    ],
)
def test_what_cannot_be_is_refused(
    farm_store: Store, ada: Person, kind: type[FarmopsError], words: str, entry: dict[str, Any]
):
    bo, cy = somebody(farm_store), somebody(farm_store, "Cy")
    leave(farm_store, ada, on(10, 1), on(10, 5))
    leave(farm_store, cy, on(10, 24), on(10, 30), stand_in_id=bo.id)
    whole = {"person_id": ada.id, "from_day": FIRST, "until_day": LAST, **entry}
    before = everything_stored(farm_store), counted(farm_store)
    with pytest.raises(kind, match=words):
        go_away(farm_store, NewAbsence(**whole), by=ADA)
    with pytest.raises(kind, match=words):
        go_away.rehearse(farm_store, NewAbsence(**whole), by=ADA)
    assert (everything_stored(farm_store), counted(farm_store)) == before
