"""Files of crops, fish lots and fish on the move: each row by the rules of a single entry."""

from __future__ import annotations

import pytest

from farmops.exchange.file_imports import Said
from farmops.facts import fish as fish_facts
from farmops.facts import fish_events
from farmops.model.fish import FishLot
from farmops.quantities import MASS, US
from farmops.reports import lists
from tests.exchange.file_desk import Desk
from tests.farmhand import a_unit, on

pytestmark = pytest.mark.usefixtures("stands_still")
CROPS = "crop,facts,note\n"
LOTS = "lot,species,unit,stocked,number,mean (g),closed,source\n"
MOVES = "date,from,to,number,mean (g),unit,note\n"


def _lot(desk: Desk, code: str) -> FishLot:
    return next(one for one in lists.fish_lots(desk.store) if one.code == code)


def test_crops_go_by_the_packaged_facts_of_their_names_or_by_others_that_are_named(desk: Desk) -> None:
    desk.book_once("crops", CROPS + "kale,,curly\nRuby chard,chard,\nBasil,none,\n", 3)
    found = {one.name: (one.library_key, one.note) for one in lists.crops(desk.store)}
    assert found == {
        "BASIL": (None, None),
        "CHARD": (None, None),
        "KALE": ("kale", "curly"),
        "RUBY CHARD": ("chard", None),
    }
    kale, empty, leek = desk.reasons("crops", CROPS + "kale,basil,\n,,sour\nleek,leeks of the moon,\n")
    assert kale == "line 2: KALE is there with another set of facts; correct it by hand, or the file"
    assert empty == "line 3, crop: The crop is empty."
    assert leek.startswith("line 4, facts: there are none on leeks of the moon; known: ")


def test_lots_are_stocked_and_closed(desk: Desk) -> None:
    text = LOTS + (
        "p-25,Yellow perch,wren,2025-04-02,60,14.2,2025-11-30,the mill hatchery\n"
        "P-26,NILE  tilapia,WREN,2026-04-02,40,15,,\n"
        "PERCH-24,,,,,,2026-09-30,\n"
    )
    desk.book_once("fish lots", text, 3)
    old, new = _lot(desk, "P-25"), _lot(desk, "P-26")
    assert (old.species, old.library_key, old.number, old.mean_mg) == ("yellow perch", "yellow-perch", 60, 14_200)
    assert (old.closed_day, old.source, old.unit) == (on(11, 30).replace(year=2025), "the mill hatchery", "WREN")
    assert (new.species, new.library_key, new.closed_day) == ("nile tilapia", "nile-tilapia", None)
    assert _lot(desk, "PERCH-24").closed_day == on(9, 30)


def test_a_species_without_facts_is_asked_about_and_booked_when_it_is_sure(desk: Desk) -> None:
    text = LOTS + "P-26,perch,WREN,2026-04-02,40,15,,\n"
    (asked,) = desk.take("fish lots", text).asked
    assert "Did you mean yellow perch?" in asked.question
    assert desk.take("fish lots", text, Said(sure=True)).booked == 1
    assert _lot(desk, "P-26").library_key is None


def test_lots_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "fish lots",
        LOTS,
        (",perch,WREN,2026-04-02,40,15,,", "lot: The lot is empty."),
        ("P1,,WREN,2026-04-02,40,15,,", "no species"),
        ("P1,perch,SWIFT,2026-04-02,40,15,,", "unit: there is no unit SWIFT"),
        ("P1,perch,,2026-04-02,40,15,,", "no unit"),
        ("P1,perch,WREN,,40,15,,", "no stocked"),
        ("P1,perch,WREN,soon,40,15,,", "stocked: soon is no day"),
        ("P1,perch,WREN,2026-04-02,many,15,,", "number: many is no whole number"),
        ("P1,perch,WREN,2026-04-02,0,15,,", "0 is no number of fish"),
        ("P1,perch,WREN,2026-04-02,40,,,", "no mean"),
        ("P1,perch,WREN,2026-04-02,40,heavy,,", "mean: "),
        ("P1,yellow perch,WREN,2026-04-02,40,15,2026-04-01,", "P1 would be closed on 2026-04-01, before stocking"),
        (f"P1,perch,WREN,2026-04-02,40,15,,{'x' * 1001}", "source: "),
        ("PERCH-24,perch,WREN,2026-04-02,40,15,,", "PERCH-24 is there with another"),
    )


def test_fish_move_to_a_lot_that_an_earlier_row_made_and_to_another_unit(desk: Desk) -> None:
    a_unit(desk.store, "SWIFT")
    text = MOVES + (
        "2026-06-01,PERCH-24,small,4,20,swift,graded out\n"
        "2026-06-02,SMALL,PERCH-24,1,,,one back\n"
        "2026-06-03,small,WREN,,,,\n"
        "2026-06-04,small,PERCH-24,1,,,\n"
    )
    desk.book_once("transfers", text, 4)
    small = _lot(desk, "SMALL")
    assert (small.unit, small.note, small.mean_mg) == ("WREN", "graded out", MASS.parse("20 g", US))
    with desk.store.reading() as reader:
        moves = [(one.day, one.from_lot, one.number) for one in fish_events.transfers(reader, small.id)]
        assert sorted(moves) == [(on(6, 1), "PERCH-24", 4), (on(6, 2), "SMALL", 1), (on(6, 4), "SMALL", 1)]
        assert fish_facts.unit_on(reader, small.id, on(6, 2)) != fish_facts.unit_on(reader, small.id, on(6, 3))


def test_moves_that_are_refused(desk: Desk) -> None:
    desk.refuses(
        "transfers",
        MOVES,
        (",PERCH-24,SMALL,4,,WREN,", "date: no date"),
        ("2026-06-01,PERSH-24,SMALL,4,,WREN,", "there is no fish lot PERSH-24"),
        ("2026-06-01,PERCH-24,,4,,,", "to: The to is empty."),
        ("2026-06-01,PERCH-24,SMALL,4,,,", "there is no fish lot SMALL; say in which unit it is to live"),
        ("2026-06-01,PERCH-24,SMALL,,,WREN,", "no number: say how many go to SMALL"),
        ("2026-06-01,PERCH-24,SMALL,few,,WREN,", "number: few is no count"),
        ("2026-06-01,PERCH-24,SMALL,4,light,WREN,", "mean: "),
        ("2026-06-01,PERCH-24,SMALL,4,,SWIFT,", "unit: there is no unit SWIFT"),
        (f"2026-06-01,PERCH-24,SMALL,4,,WREN,{'x' * 1001}", "note: "),
        ("2026-06-01,PERCH-24,SMALL,11,,WREN,", ""),
        ("2026-06-01,PERCH-24,PERCH-24,1,,,", "Not moved: they are in PERCH-24 already."),
        ("2026-06-01,PERCH-24,WREN,,20,,", "mean and note go with the number"),
    )
