"""Who is here on a day: as it was said, else whoever is not away."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.facts.presence import crew_on
from farmops.farm.farm import add_person
from farmops.farm.presence import say_who_is_here
from farmops.model.farm import NewPerson, Person
from farmops.model.presence import Crew, Member, NewPresence
from farmops.records.store import Store
from tests.farmhand import ADA, on
from tests.records.examples import write

DAY = on(10, 14)


@pytest.fixture
def people(farm_store: Store) -> dict[str, Person]:
    return {name: add_person(farm_store, NewPerson(name), by=ADA) for name in ("Ada", "Bea", "Cy")}


def crew(store: Store, day: date = DAY) -> Crew:
    with store.reading() as reader:
        return crew_on(reader, day)


def here(store: Store, day: date = DAY) -> list[str]:
    return [one.name for one in crew(store, day).here]


def away(store: Store, person: Person, first: date, last: date, stand_in: Person | None = None) -> None:
    write(store, "absence", person_id=person.id, from_day=first, until_day=last, stand_in_id=stand_in and stand_in.id)


def test_nothing_said_is_everybody_who_is_not_away(farm_store: Store, people: dict[str, Person]):
    away(farm_store, people["Bea"], on(10, 12), DAY, people["Cy"])
    assert here(farm_store) == ["Ada", "Cy"]
    assert here(farm_store, on(10, 11)) == here(farm_store, on(10, 15)) == ["Ada", "Bea", "Cy"]
    assert crew(farm_store).member(people["Bea"].id) == Member(people["Bea"], False, DAY, people["Cy"].id)
    assert not crew(farm_store).said


def test_what_was_said_of_a_day_counts_for_that_day_alone(farm_store: Store, people: dict[str, Person]):
    away(farm_store, people["Bea"], on(10, 12), DAY)
    say_who_is_here(farm_store, NewPresence(DAY, (people["Bea"].id,)), by=ADA)
    assert here(farm_store) == ["Bea"]
    assert here(farm_store, on(10, 13)) == ["Ada", "Cy"]
    assert crew(farm_store).said


def test_saying_nobody_takes_back_what_was_said(farm_store: Store, people: dict[str, Person]):
    say_who_is_here(farm_store, NewPresence(DAY, (people["Cy"].id,)), by=ADA)
    assert say_who_is_here(farm_store, NewPresence(DAY, ()), by=ADA).said is False
    assert here(farm_store) == ["Ada", "Bea", "Cy"]


def test_of_two_absences_the_one_booked_last_says_until_when(farm_store: Store, people: dict[str, Person]):
    away(farm_store, people["Bea"], on(10, 1), on(10, 31))
    away(farm_store, people["Bea"], on(10, 12), on(10, 16), people["Ada"])
    member = crew(farm_store).member(people["Bea"].id)
    assert member is not None
    assert (member.away_until, member.stand_in_id) == (on(10, 16), people["Ada"].id)
