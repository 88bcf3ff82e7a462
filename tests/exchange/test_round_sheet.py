"""The round to carry along: on paper and as text it is the round itself, line by line, with its blanks and cautions."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from farmops.exchange import rounds
from farmops.exchange.pages.papers import Paper
from farmops.exchange.round_sheet import NOTHING_DUE, Sheet, blank, sheet_of
from farmops.exchange.round_text import COLUMNS, packed, text_of, wrapped
from farmops.exchange.written import How, Written
from farmops.farm.farm import add_person
from farmops.farm.presence import say_who_is_here
from farmops.model.beds import BedKind
from farmops.model.chores import ChoreClass, PartOfDay
from farmops.model.errors import NotFound
from farmops.model.farm import NewPerson, Person
from farmops.model.presence import NewPresence
from farmops.model.text import width
from farmops.model.units import UnitState
from farmops.quantities import METRIC, US
from farmops.records.store import Store
from farmops.reports.round import round_of
from tests.exchange.printed import pages_read, size_of, text_read
from tests.farmhand import TODAY, a_bed, a_chore, a_unit, on, settle
from tests.frozen import frozen

HOSTILE = '<b>Bold</b> & "quoted" <para> &amp;'


@pytest.fixture(scope="module", autouse=True)
def _stands_still() -> Iterator[None]:
    with frozen(TODAY):
        yield


@pytest.fixture
def row(farm_store: Store) -> Store:
    """Two units with work of every kind; WREN stands behind FINCH in the row."""
    wren = a_unit(farm_store, "WREN", on(3, 1), position=2)
    finch = a_unit(farm_store, "FINCH", on(3, 1), position=1)
    bed = a_bed(farm_store, wren, kind=BedKind.RAFT)
    shared = {"instructions": "Rinse it in tank water.", "caution": "Unplug first.", "confirmation": "flow seen"}
    a_chore(farm_store, "Look round", "day", TODAY, grade=ChoreClass.LIFE_SUPPORT, part=PartOfDay.MORNING)
    a_chore(farm_store, "Test water", "day", on(10, 11), unit_id=wren.id, readings=("pH", "temperature", "colour"))
    a_chore(farm_store, "Strip pump", "7 days after", on(10, 1), unit_id=finch.id, adults_only=True, minutes=25)
    a_chore(farm_store, "Rinse pad", "day", TODAY, unit_id=finch.id, part=PartOfDay.MORNING, **shared)
    a_chore(farm_store, "Rinse pad", "day", TODAY, unit_id=wren.id, part=PartOfDay.MORNING, **shared)
    a_chore(farm_store, HOSTILE, "day", TODAY, bed_id=bed.id, grade=ChoreClass.CROP)
    a_chore(farm_store, "Oil the door", "once", on(10, 15))
    return farm_store


def sheet(store: Store, unit: str | None = None) -> Sheet:
    return sheet_of(round_of(store, unit=unit), unit)


def number_of(store: Store, title: str, where: str) -> int:
    """The number of a chore of the round."""
    return next(one.chore.id for one in round_of(store).lines if (one.chore.title, one.where) == (title, where))


def in_order(text: str, *parts: str) -> bool:
    """Whether the parts stand in the text one after the other."""
    at = 0
    for part in parts:
        at = text.find(part, at)
        if at < 0:
            return False
        at += len(part)
    return True


def write_round(store: Store, place: Path, *, unit: str | None = None, **how: Any) -> Written:
    return rounds.written(round_of(store, unit=unit), How(str(place), **how), unit)


def round_text(store: Store, day: date | None = None, person: Person | None = None) -> str:
    return rounds.round_text(round_of(store, day, person=person))


def test_the_lines_are_those_of_the_round_in_its_order(row: Store) -> None:
    found, made = round_of(row), sheet(row)
    assert [(one.title, one.number) for one in made.lines] == [(one.chore.title, one.chore.id) for one in found.lines]
    assert len(made.lines) == 6
    assert [section.title for section in made.sections] == [section.title for section in found.sections]


@pytest.mark.parametrize("paper", Paper)
def test_the_page_carries_every_line_once_and_in_order(row: Store, tmp_path, paper: Paper) -> None:
    printed = write_round(row, tmp_path / "round.pdf", paper=paper)
    content = printed.file.read_bytes()
    read = text_read(content)
    heads = [f"{one.chore.id} {one.where} {one.chore.title}" for one in round_of(row).lines]
    assert len(heads) == 6
    assert in_order(read, *heads)
    assert [read.count(head) for head in heads] == [1] * 6
    assert printed.pages == len(pages_read(content))
    assert size_of(content)[1] == {Paper.A4: 841.9, Paper.LETTER: 792.0}[paper]


def test_the_text_carries_every_line_once_and_in_order(row: Store) -> None:
    read = " ".join(round_text(row).split())
    heads = [f"[ ] {one.chore.id} {one.where} {one.chore.title[:20]}" for one in round_of(row).lines]
    assert in_order(read, *heads)
    assert [read.count(head) for head in heads] == [1] * 6


@pytest.mark.parametrize("form", ["page", "text"])
def test_what_a_chore_asks_for_stands_with_it(row: Store, tmp_path, form: str) -> None:
    if form == "page":
        read = text_read(write_round(row, tmp_path / "round.pdf").file.read_bytes())
    else:
        read = " ".join(round_text(row).split())
    assert in_order(read, "Hollow Lane Holding", "Wednesday 14 October 2026", "6 to do, 2 late, 50 min", "Done by ___")
    assert in_order(read.replace(" · ", ", "), "Look round", "morning", "took ___")
    assert in_order(read, "Test water", "3 days late, 2 missed", "pH ___", "temperature in F ___", "colour ___")
    assert in_order(read, "Strip pump", "25 min")
    assert in_order(read.replace(" · ", ", "), "13 days late, adults only")
    rinse = ("Rinse pad", "Caution: Unplug first.")
    again = f"How: as at number {number_of(row, 'Rinse pad', 'FINCH')}."
    assert in_order(read, *rinse, "Rinse it in tank water.", "flow seen ___", *rinse, again, "flow seen ___")
    assert read.count("Rinse it in tank water.") == 1
    assert in_order(read, "Notes" if form == "page" else "NOTES", "farmops chores book --row")
    assert "Oil the door" not in read


def test_markup_in_a_title_is_printed_as_it_stands(row: Store, tmp_path) -> None:
    assert HOSTILE in text_read(write_round(row, tmp_path / "round.pdf").file.read_bytes())


def test_a_sheet_of_one_unit_says_so(row: Store, tmp_path) -> None:
    printed = write_round(row, tmp_path / "round.pdf", unit=" wren ")
    assert in_order(text_read(printed.file.read_bytes()), "Hollow Lane Holding, WREN", "3 to do")
    of_wren = sheet_of(round_of(row, unit=" wren "), " wren ")
    assert {line.where for line in of_wren.lines} == {"WREN", "WREN-N"}
    with pytest.raises(NotFound, match="There is no unit OWL"):
        write_round(row, tmp_path / "other.pdf", unit="OWL")
    assert not (tmp_path / "other.pdf").exists()


def test_a_sheet_of_one_person_says_so(row: Store) -> None:
    bea, cy = (add_person(row, NewPerson(name), by="Ada") for name in ("Bea", "Cy"))
    a_chore(row, "Net the bed", "day", TODAY, person_id=bea.id)
    say_who_is_here(row, NewPresence(TODAY, (bea.id,)), by="Ada")
    assert in_order(round_text(row, person=bea), "Hollow Lane Holding, for Bea", "7 to do", "Net the bed", "Bea")
    assert sheet_of(round_of(row, person=cy)).empty == "Cy is not here on this day."
    assert in_order(round_text(row), "Hollow Lane Holding\n", "Net the bed", "Bea")


def test_another_day_has_its_own_round(row: Store) -> None:
    read = round_text(row, on(10, 15))
    assert in_order(read, "Thursday 15 October 2026", "Oil the door")


def test_what_was_settled_is_counted_and_not_asked_for_again(row: Store) -> None:
    rinsed = number_of(row, "Rinse pad", "FINCH")
    settle(row, rinsed, TODAY)
    made = sheet(row)
    assert made.counted == "5 to do, 2 late, 1 settled already, 45 min"
    assert rinsed not in {line.number for line in made.lines}
    assert [line.instructions for line in made.lines if line.title == "Rinse pad"] == ["Rinse it in tank water."]


@pytest.mark.parametrize("paper", Paper)
def test_an_empty_round_says_so(farm_store: Store, tmp_path, paper: Paper) -> None:
    printed = write_round(farm_store, tmp_path / "none.pdf", paper=paper)
    read = text_read(printed.file.read_bytes())
    assert sheet(farm_store).counted == "0 to do"
    assert in_order(read, "0 to do", NOTHING_DUE, "There is no unit yet", "Notes", "1 of 1")
    assert in_order(round_text(farm_store), "0 to do", NOTHING_DUE, "NOTES")
    a_unit(farm_store)
    assert sheet(farm_store).empty == NOTHING_DUE


def test_what_was_printed_is_told_with_what_could_not_be_drawn(row: Store, tmp_path) -> None:
    plain = write_round(row, tmp_path / "a.pdf").told
    assert plain == f"Wednesday 14 October 2026, 6 to do, 2 late, 50 min: 1 page (letter) in {tmp_path / 'a.pdf'}."
    a_chore(row, "".join(map(chr, range(0x4E00, 0x4E18))), "day", TODAY)
    told = write_round(row, tmp_path / "b.pdf").told
    assert "Not drawn: 一 丁 " in told
    assert " and 4 more; give a font that has them" in told


@pytest.mark.parametrize(
    ("reading", "label"),
    [
        ("temperature", "temperature in F"),
        ("ammonia", "ammonia in mg/L"),
        ("pH", "pH"),
        ("fill time", "fill time in min"),
        ("flow", "flow in gal/h"),
        (" colour of the water ", "colour of the water"),
    ],
)
def test_a_blank_says_in_what_it_is_read(reading: str, label: str) -> None:
    assert blank(reading, US) == label


def test_what_the_farm_measures_its_own_way_is_read_so() -> None:
    assert blank("temperature", METRIC) == "temperature in C"
    assert blank("flow", METRIC) == "flow in L/h"


@pytest.mark.parametrize("title", ["W" * 60, "養魚水槽のポンプ" * 7, "a word " * 8, "<b>&" * 15])
@pytest.mark.parametrize("place", ["NORTHERN-BED-NUMBER-ONE", "N"])
def test_no_line_of_text_is_wider_than_the_page(farm_store: Store, title: str, place: str) -> None:
    unit = a_unit(farm_store, "ABCDEFGHIJKLMNOPQRSTUVWX")
    a_chore(
        farm_store,
        title.strip(),
        "day",
        TODAY,
        bed_id=a_bed(farm_store, unit, place, kind=BedKind.RAFT).id,
        confirmation=title.strip(),
    )
    text = text_of(sheet(farm_store))
    assert max(map(width, text.splitlines())) <= COLUMNS
    assert "".join(title.split()) in "".join(text.split()).replace("5min", "")


def test_words_are_wrapped_by_the_columns_they_take() -> None:
    assert wrapped("to the tank", 6) == ["to the", "tank"]
    assert wrapped("", 6) == [""]
    assert wrapped("養魚場の池", 4) == ["養魚", "場の", "池"]
    assert wrapped("a siphonbell", 6) == ["a", "siphon", "bell"]
    assert packed(["pH __", "iron __", "took __ min"], 16) == ["pH __  iron __", "took __ min"]


def test_what_is_asked_for_because_of_a_record_says_so_on_paper(farm_store: Store) -> None:
    unit = a_unit(farm_store, since=on(10, 12), state=UnitState.CYCLING)
    a_chore(farm_store, "Test daily", "when unit cycling", on(3, 1), unit_id=unit.id)
    assert "WREN cycling since Mon 12 Oct" in " ".join(round_text(farm_store).split())
