"""`farmops treatments`: booked with what the label says, asked about once, held until the label lets go."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand

SOAP = ("treatments", "add", "WREN-N", "soap spray", "--amount", "20 mL in 1 L", "--re-entry", "4")
LABEL = ("--amount", "1 L", "--re-entry", "4")


def test_a_treatment_holds_what_grows_there(farm: Hand) -> None:
    asked = farm.refused(*SOAP, "--harvest", "3", "--at", "8:00")
    assert asked.startswith("Not booked yet: Fish live in WREN. Soaps")
    assert asked.endswith("If it was done all the same: --sure\n")
    booked = farm(*SOAP, "--harvest", "3", "--at", "8:00", "--sure").err.splitlines()
    assert booked[0] == (
        "Booked: soap spray on WREN-N, Wed 14 Oct. people in from Wed 14 Oct 12:00; harvest from Sat 17 Oct 08:00. "
        "Number 1. Slip? farmops undo"
    )
    assert "held until Sat 17 Oct 08:00 after soap spray" in farm.refused("harvest", "WREN-N", "CHARD", "1 lb")
    farm("harvest", "WREN-N", "CHARD", "1 lb", "--use", "waste")
    assert "waste only" in farm.refused("harvests", "edit", "2", "--use", "sold")


def test_the_round_says_who_stays_out_and_what_is_not_picked(farm: Hand) -> None:
    farm(*SOAP, "--harvest", "3", "--at", "11:00", "--sure")
    told = farm("chores").lines
    assert "! WREN-N: nobody goes in before 15:00: soap spray" in told
    assert "WREN-N: no picking until Sat 17 Oct 11:00 after soap spray on Wed 14 Oct" in told
    assert [one["until"] for one in farm("chores", "--json").data["holds"]] == [
        "2026-10-14T19:00:00+00:00",
        "2026-10-17T15:00:00+00:00",
    ]
    assert farm("chores", "--unit", "SWIFT", "--json").data["holds"] == []


def test_picking_rests_and_says_after_what(farm: Hand) -> None:
    farm("chores", "add", "Pick", "--every", "when planting ready", "--bed", "WREN-N")
    farm(*SOAP, "--harvest", "3", "--at", "8:00", "--sure")
    assert not any("Pick" in said for said in farm("chores").lines)
    coming = " ".join(farm("chores", "--days", "5").lines)
    assert "CHARD ready, hold of soap spray over from Sat 17 Oct" in coming


def test_a_file_is_stopped_row_by_row(farm: Hand) -> None:
    farm(*SOAP, "--harvest", "3", "--at", "8:00", "--on", "2026-10-13", "--sure")
    file = farm.place.parent / "weighings.csv"
    rows = "".join(f"2026-10-14,WREN,N,CHARD,1 lb,{use}\n" for use in ("sold", "waste"))
    file.write_text(f"date,unit,bed,crop,weight,use\n{rows}")
    said = farm.types("import", "harvests", str(file))
    assert said.code == 4
    assert "line 2, use: CHARD is held until Fri 16 Oct 08:00" in said.err + said.out


def test_fish_are_held_by_the_vet(farm: Hand) -> None:
    farm(
        "treatments",
        "add",
        "P1",
        "medicated feed",
        "--amount",
        "50 g",
        "--re-entry",
        "0",
        "--fish",
        "21",
        "--at",
        "8:00",
    )
    assert "P1 is held until Wed 4 Nov 08:00" in farm.refused("harvest", "WREN", "P1", "1 lb")


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    assert bare("treatments", "list").err.startswith("No treatment here. Book one: farmops treatments add")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "WREN-X", "soap", *LABEL, "--harvest", "1"], "no unit, bed or fish lot"),
        (["add", "WREN-N", "soap", *LABEL], "how many days the label holds the harvest"),
        (["add", "WREN-N", "Bt", *LABEL, "--harvest", "1", "--on", "-1"], "at what time of day"),
        (["show", "9"], "There is no treatment 9"),
        (["list", "--unit", "XX"], "There is no unit XX"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("treatments", *words)


def test_a_treatment_is_corrected_and_removed(farm: Hand) -> None:
    farm(*SOAP, "--harvest", "3", "--at", "8:00", "--sure")
    told = farm("treatments", "edit", "1", "--harvest", "0", "--against", "aphids", "--sure", "--json").data
    assert (told["harvest_from"], told["against"], told["people_from"]) == (None, "aphids", "2026-10-14T16:00:00+00:00")
    assert farm("treatments", "list").lines[1] == "1 2026-10-14 WREN-N soap spray Wed 14 Oct 12:00"
    assert "against aphids" in farm("treatments", "show", "1").lines
    farm("treatments", "remove", "1")
    assert farm("treatments", "list", "--json").data["treatments"] == []
