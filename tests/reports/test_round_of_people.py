"""Who does what: usual people, who is here today, minors, and what waits for an adult."""

from __future__ import annotations

from datetime import date

import pytest

from farmops.farm.farm import add_person
from farmops.farm.presence import say_who_is_here
from farmops.model.chores import ChoreClass, PartOfDay
from farmops.model.farm import NewPerson, Person
from farmops.model.presence import NewPresence
from farmops.records.store import Store
from farmops.reports.round import Round, round_of
from tests.farmhand import ADA, a_chore, a_unit, on
from tests.records.examples import write

DAY = on(10, 14)


@pytest.fixture
def people(farm_store: Store) -> dict[str, Person]:
    """Anna, Cy and Dee are grown up, Bo is not."""
    grown = {name: add_person(farm_store, NewPerson(name), by=ADA) for name in ("Anna", "Cy", "Dee")}
    return {**grown, "Bo": add_person(farm_store, NewPerson("Bo", minor=True), by=ADA)}


@pytest.fixture
def row(farm_store: Store, people: dict[str, Person]) -> Store:
    unit = a_unit(farm_store)
    a_chore(farm_store, "Feed", "day", DAY, unit_id=unit.id, person_id=people["Anna"].id)
    a_chore(farm_store, "Pick", "day", DAY, unit_id=unit.id, person_id=people["Bo"].id)
    a_chore(farm_store, "Sweep", "day", DAY)
    a_chore(farm_store, "Lift the lid", "day", DAY, unit_id=unit.id, adults_only=True)
    a_chore(
        farm_store,
        "Clear the intake",
        "day",
        on(10, 12),
        unit_id=unit.id,
        adults_only=True,
        person_id=people["Anna"].id,
        grade=ChoreClass.LIFE_SUPPORT,
        part=PartOfDay.MORNING,
    )
    return farm_store


def here(store: Store, *people: Person, day: date = DAY) -> None:
    say_who_is_here(store, NewPresence(day, tuple(one.id for one in people)), by=ADA)


def away(store: Store, person: Person, stand_in: Person | None) -> None:
    until = on(10, 20)
    write(store, "absence", person_id=person.id, from_day=DAY, until_day=until, stand_in_id=stand_in and stand_in.id)


def told(found: Round) -> dict[str, list[str]]:
    return {section.title: [line.title for line in section.lines] for section in found.sections}


def test_each_chore_names_whose_it_is_and_marks_what_is_for_adults(row: Store):
    assert told(round_of(row, DAY)) == {
        "Late": ["Clear the intake (adults only, Anna)"],
        "No set hour": ["Sweep", "Feed (Anna)", "Pick (Bo)", "Lift the lid (adults only)"],
    }


def test_a_farm_that_lists_nobody_marks_nothing(farm_store: Store):
    a_chore(farm_store, "Lift the lid", "day", DAY, adults_only=True)
    assert told(round_of(farm_store, DAY)) == {"No set hour": ["Lift the lid (adults only)"]}
    assert round_of(farm_store, DAY).waiting == ()


def test_ones_own_round_holds_ones_own_and_what_is_anybodys(row: Store, people: dict[str, Person]):
    assert told(round_of(row, DAY, person=people["Anna"])) == {
        "Late": ["Clear the intake (adults only, Anna)"],
        "No set hour": ["Sweep", "Feed (Anna)", "Lift the lid (adults only)"],
    }
    assert told(round_of(row, DAY, person=people["Cy"])) == {"No set hour": ["Sweep", "Lift the lid (adults only)"]}


def test_what_is_for_adults_is_not_given_to_a_minor_while_an_adult_is_here(row: Store, people: dict[str, Person]):
    found = round_of(row, DAY, person=people["Bo"])
    assert told(found) == {"No set hour": ["Sweep", "Pick (Bo)"]}
    assert found.waiting == ()


def test_a_minor_alone_is_told_what_waits_for_an_adult_gravest_first(row: Store, people: dict[str, Person]):
    here(row, people["Bo"])
    for found in (round_of(row, DAY, person=people["Bo"]), round_of(row, DAY)):
        assert told(found) == {
            "Waits for an adult": [
                "Clear the intake (adults only, waits for an adult)",
                "Lift the lid (adults only, waits for an adult)",
            ],
            "No set hour": ["Sweep", "Feed (Bo for Anna)", "Pick (Bo)"],
        }
        assert [line.chore.title for line in found.waiting] == ["Clear the intake", "Lift the lid"]
        assert [line.chore.title for line in found.overdue_life_support] == ["Clear the intake"]


def test_chores_of_somebody_who_is_not_here_go_to_the_one_who_is(row: Store, people: dict[str, Person]):
    here(row, people["Cy"])
    assert told(round_of(row, DAY, person=people["Cy"])) == {
        "Late": ["Clear the intake (adults only, Cy for Anna)"],
        "No set hour": ["Sweep", "Feed (Cy for Anna)", "Pick (Cy for Bo)", "Lift the lid (adults only)"],
    }


def test_chores_of_somebody_who_is_not_here_are_anybodys_where_several_are(row: Store, people: dict[str, Person]):
    here(row, people["Cy"], people["Dee"])
    feed = "Feed (Anna is not here)"
    assert feed in told(round_of(row, DAY))["No set hour"]
    assert feed in told(round_of(row, DAY, person=people["Cy"]))["No set hour"]
    assert feed in told(round_of(row, DAY, person=people["Dee"]))["No set hour"]


def test_whoever_stands_in_gets_the_chores_of_somebody_away(row: Store, people: dict[str, Person]):
    away(row, people["Anna"], people["Dee"])
    assert "Feed (Dee for Anna)" in told(round_of(row, DAY))["No set hour"]
    assert "Feed (Dee for Anna)" not in told(round_of(row, DAY, person=people["Cy"])).get("No set hour", [])


def test_a_minor_stands_in_for_all_but_what_is_for_adults(row: Store, people: dict[str, Person]):
    away(row, people["Anna"], people["Bo"])
    assert told(round_of(row, DAY))["Late"] == ["Clear the intake (adults only, Anna is not here)"]
    assert "Feed (Bo for Anna)" in told(round_of(row, DAY))["No set hour"]
    assert told(round_of(row, DAY, person=people["Bo"])) == {
        "No set hour": ["Sweep", "Feed (Bo for Anna)", "Pick (Bo)"]
    }


def test_nothing_falls_to_somebody_who_is_not_here(row: Store, people: dict[str, Person]):
    here(row, people["Cy"])
    found = round_of(row, DAY, person=people["Anna"])
    assert (found.lines, found.person) == ((), people["Anna"])
    assert people["Anna"] not in found.crew.here


def test_nobody_here_leaves_the_round_as_it_is_and_says_whose_it_is(row: Store, people: dict[str, Person]):
    for one in people.values():
        away(row, one, None)
    assert told(round_of(row, DAY))["No set hour"] == [
        "Sweep",
        "Feed (Anna is not here)",
        "Pick (Bo is not here)",
        "Lift the lid (adults only)",
    ]


def test_a_day_ahead_goes_by_who_is_here_then(row: Store, people: dict[str, Person]):
    a_chore(row, "Fetch fry", "once", on(10, 15), person_id=people["Anna"].id)
    here(row, people["Cy"], day=on(10, 15))
    assert told(round_of(row, DAY, days=2))["Thu 2026-10-15"] == ["Fetch fry (Cy for Anna)"]
    assert told(round_of(row, DAY, days=2))["No set hour"][1] == "Feed (Anna)"
