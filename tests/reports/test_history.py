"""How chores went: counts, lateness, minutes against the estimate, by whom, in a span."""

from __future__ import annotations

import pytest

from farmops.farm.chores import pause
from farmops.model.chores import Chore, NewPause, SettledAs
from farmops.model.errors import NotFound, Refused
from farmops.records.store import Store
from farmops.reports.history import ChoreHistory, histories
from tests.farmhand import ADA, BOB, a_chore, a_unit, on, settle


@pytest.fixture
def rinse(farm_store: Store) -> Chore:
    """Every Monday from 7 September on: in time, late, put off and then in time, left out, missed, in time."""
    unit = a_unit(farm_store)
    chore = a_chore(farm_store, "Rinse", "Mon", on(9, 7), unit_id=unit.id, minutes=5)
    settle(farm_store, chore, on(9, 7), minutes=4)
    settle(farm_store, chore, on(9, 16), minutes=9, by=BOB)
    settle(farm_store, chore, on(9, 21), SettledAs.DEFERRED, until=on(9, 23))
    settle(farm_store, chore, on(9, 23), minutes=6)
    settle(farm_store, chore, on(9, 28), SettledAs.SKIPPED, reason="rain")
    settle(farm_store, chore, on(10, 12))
    return chore


def of(store: Store, chore: Chore, **span: object) -> ChoreHistory:
    (found,) = histories(store, chore=chore.id, **span).chores  # type: ignore[arg-type]
    return found


def test_a_chore_is_counted_through_all_its_life(farm_store: Store, rinse: Chore):
    found = of(farm_store, rinse)
    assert (found.done, found.skipped, found.deferred) == (4, 1, 1)
    assert (found.late, found.most_days_late, found.missed) == (1, 2, 1)
    assert (found.timed, found.median_minutes) == (3, 6)
    assert found.by == ((ADA, 3), (BOB, 1))
    assert [one.on_day for one in found.settled][:2] == [on(10, 12), on(9, 28)]
    assert (
        found.words
        == "4 done; 1 left out; 1 late by up to 2 days; 1 missed; usually 6 min, estimated 5; by Ada 3, Bob 1"
    )


def test_a_span_counts_what_lies_in_it(farm_store: Store, rinse: Chore):
    found = of(farm_store, rinse, first=on(9, 10), last=on(9, 23))
    assert (found.done, found.skipped, found.deferred, found.late, found.missed) == (2, 0, 1, 1, 0)
    assert found.median_minutes == 7.5
    later = of(farm_store, rinse, first=on(10, 1), last=on(10, 10))
    assert (later.done, later.missed, later.median_minutes, later.minutes_words) == (0, 1, None, "")


def test_nothing_booked_is_no_number(farm_store: Store):
    chore = a_chore(farm_store, "Sweep", "once", on(10, 20))
    found = of(farm_store, chore)
    assert (found.nothing, found.median_minutes, found.by, found.words) == (True, None, (), "0 done")


def test_a_rest_misses_nothing(farm_store: Store):
    chore = a_chore(farm_store, "Sweep", "day", on(10, 1))
    settle(farm_store, chore, on(10, 1))
    pause(farm_store, NewPause(chore.id, on(10, 2), on(10, 10)), by=ADA)
    assert of(farm_store, chore).missed == 3


def test_all_chores_of_thirteen_weeks_in_walking_order_without_those_of_which_nothing_is_known(
    farm_store: Store, rinse: Chore
):
    a_chore(farm_store, "Sweep", "once", on(10, 20))
    fell = a_chore(farm_store, "Look", "day", on(10, 10))
    found = histories(farm_store)
    assert (found.first, found.last) == (on(7, 15), on(10, 14))
    assert [one.chore.id for one in found.chores] == [fell.id, rinse.id]
    assert [(one.done, one.missed) for one in found.chores] == [(0, 4), (4, 1)]


def test_one_unit_has_its_own(farm_store: Store, rinse: Chore):
    a_chore(farm_store, "Look", "day", on(10, 10))
    assert [one.where for one in histories(farm_store, unit="wren").chores] == ["WREN"]
    with pytest.raises(NotFound, match="There is no unit OWL"):
        histories(farm_store, unit="OWL")


def test_what_cannot_be_is_refused_in_words(farm_store: Store):
    with pytest.raises(NotFound, match="There is no chore 9"):
        histories(farm_store, chore=9)
    with pytest.raises(Refused, match="before it begins"):
        histories(farm_store, on(10, 2), on(10, 1))
