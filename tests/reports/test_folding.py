"""The same work in several places stands on one line of the round, and says what is in it."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from farmops.farm.farm import add_person
from farmops.model.chores import Chore, ChoreClass, PartOfDay
from farmops.model.farm import NewPerson
from farmops.model.units import Unit
from farmops.records.store import Store
from farmops.reports.round import Fold, Item, RoundLine, round_of
from tests.farmhand import ADA, a_bed, a_chore, a_unit, on, settle

DAY = on(10, 14)
CODES = ("WREN", "ROOK", "TEAL")


def told(items: Sequence[Item]) -> list[str]:
    return [f"{one.where}: {one.title}" for one in items]


def section(store: Store, title: str, **asked: str) -> tuple[Item, ...]:
    found = [one.items for one in round_of(store, DAY, **asked).sections if one.title == title]
    return found[0] if found else ()


@pytest.fixture
def row(farm_store: Store) -> dict[str, Unit]:
    return {code: a_unit(farm_store, code, position=at) for at, code in enumerate(CODES, start=1)}


def in_each(
    store: Store, row: dict[str, Unit], title: str, codes: Sequence[str] = CODES, **more: object
) -> list[Chore]:
    entry = {"part": PartOfDay.MORNING, **more}
    return [a_chore(store, title, "day", DAY, unit_id=row[code].id, **entry) for code in codes]


def test_the_same_work_in_three_units_is_one_line_where_the_first_would_stand(farm_store: Store, row: dict[str, Unit]):
    in_each(farm_store, row, "Feed", minutes=2)
    in_each(farm_store, row, "Pick", ["WREN"], grade=ChoreClass.CROP)
    in_each(farm_store, row, "Rinse", ["TEAL"])
    assert told(section(farm_store, "Morning")) == [
        "WREN: Pick",
        "3 units: Feed: WREN ROOK TEAL",
        "TEAL: Rinse",
    ]
    fold = section(farm_store, "Morning")[1]
    assert isinstance(fold, Fold)
    assert (fold.minutes, fold.days_late, fold.lateness, fold.asks) == (6, 0, "", False)


def test_two_units_stay_two_lines(farm_store: Store, row: dict[str, Unit]):
    in_each(farm_store, row, "Feed", CODES[:2])
    assert told(section(farm_store, "Morning")) == ["WREN: Feed", "ROOK: Feed"]


def test_every_chore_of_the_round_stays_in_its_lines(farm_store: Store, row: dict[str, Unit]):
    in_each(farm_store, row, "Feed")
    found = round_of(farm_store, DAY)
    assert [line.where for line in found.lines] == list(CODES)
    assert found.minutes == 15


def test_where_a_person_stands_nothing_is_folded(farm_store: Store, row: dict[str, Unit]):
    for name in "NSE":
        a_chore(farm_store, "Thin", "day", DAY, bed_id=a_bed(farm_store, row["WREN"], name).id)
    assert told(section(farm_store, "No set hour")) == ["3 beds: Thin: WREN-N WREN-S WREN-E"]
    assert told(section(farm_store, "No set hour", unit="WREN")) == ["WREN-N: Thin", "WREN-S: Thin", "WREN-E: Thin"]


def test_units_and_beds_together_are_places(farm_store: Store, row: dict[str, Unit]):
    in_each(farm_store, row, "Thin", CODES[:2], part=PartOfDay.NONE)
    a_chore(farm_store, " thin", "day", DAY, bed_id=a_bed(farm_store, row["TEAL"]).id)
    assert told(section(farm_store, "No set hour")) == ["3 places: Thin: WREN ROOK TEAL-N"]


@pytest.mark.parametrize(
    "other",
    [{"part": PartOfDay.EVENING}, {"grade": ChoreClass.CROP}, {"adults_only": True}],
    ids=["hour", "class", "adults"],
)
def test_work_that_differs_is_not_folded(farm_store: Store, row: dict[str, Unit], other: dict[str, object]):
    in_each(farm_store, row, "Feed", CODES[:2])
    in_each(farm_store, row, "Feed", CODES[2:], **other)
    assert not [one for part in round_of(farm_store, DAY).sections for one in part.items if isinstance(one, Fold)]


def test_a_chore_that_was_renamed_is_other_work(farm_store: Store, row: dict[str, Unit]):
    in_each(farm_store, row, "Feed", CODES[:2], template_key="feed", template_version=1)
    in_each(farm_store, row, "Feed the trout", CODES[2:], template_key="feed", template_version=1)
    assert len(section(farm_store, "Morning")) == 3


def test_work_of_several_people_is_folded_person_by_person(farm_store: Store, row: dict[str, Unit]):
    a_unit(farm_store, "OWL", position=4)
    bea = add_person(farm_store, NewPerson("Bea"), by=ADA)
    add_person(farm_store, NewPerson("Cy"), by=ADA)
    in_each(farm_store, row, "Feed", person_id=bea.id)
    a_chore(farm_store, "Feed", "day", DAY, unit_id=4, part=PartOfDay.MORNING)
    assert told(section(farm_store, "Morning")) == ["3 units: Feed (Bea): WREN ROOK TEAL", "OWL: Feed"]


def test_the_farms_own_chores_of_one_title_are_never_folded(farm_store: Store, row: dict[str, Unit]):
    for _ in CODES:
        a_chore(farm_store, "Sweep", "day", DAY)
    assert told(section(farm_store, "No set hour")) == ["all: Sweep"] * 3


@pytest.mark.parametrize("answer", [{"readings": ("pH",)}, {"confirmation": "flow seen"}], ids=["reading", "seen"])
def test_a_line_says_whether_each_asks_for_an_answer_of_its_own(
    farm_store: Store, row: dict[str, Unit], answer: dict[str, object]
):
    in_each(farm_store, row, "Look", CODES[:2])
    in_each(farm_store, row, "Look", CODES[2:], **answer)
    (fold,) = section(farm_store, "Morning")
    assert isinstance(fold, Fold)
    assert fold.asks
    assert [line.asks for line in fold.lines] == [False, False, True]


@pytest.mark.parametrize(
    ("since", "words"),
    [
        ((13, 13, 13), "1 day late"),
        ((13, 11, 13), "up to 3 days late, 2 missed"),
        ((10, 10, 10), "4 days late, 9 missed"),
    ],
)
def test_how_late_it_is_is_told_from_the_least_to_the_most(
    farm_store: Store, row: dict[str, Unit], since: tuple[int, ...], words: str
):
    for code, day in zip(CODES, since, strict=True):
        a_chore(farm_store, "Feed", "day", on(10, day), unit_id=row[code].id)
    (fold,) = section(farm_store, "Late")
    assert (fold.lateness, isinstance(fold, Fold)) == (words, True)


def test_what_is_late_in_two_units_alone_is_told_line_by_line(farm_store: Store, row: dict[str, Unit]):
    chores = in_each(farm_store, row, "Feed")
    settle(farm_store, chores[0], DAY)
    assert all(isinstance(one, RoundLine) for one in section(farm_store, "Morning"))
