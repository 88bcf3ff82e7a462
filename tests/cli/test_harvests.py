"""`farmops harvest` and `farmops harvests`: weighing, listing and correcting."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import Workbook

from tests.cli.hand import Hand


def test_a_weighing_is_booked_and_told(farm: Hand) -> None:
    said = farm("harvest", "WREN-N", "chard", "1 6")
    assert said.err == "Booked: 1 lb 6 oz CHARD from WREN-N, 2026-10-14, home. Slip? farmops undo\n"
    said = farm("harvest", "WREN-N", "CHARD", "1 lb 14 oz", "--tare", "8 oz", "--use", "sold", "--on", "yesterday")
    assert said.err == (
        "Booked: 1 lb 6 oz (tare 8 oz taken off) CHARD from WREN-N, 2026-10-13, sold. Slip? farmops undo\n"
    )


def test_json_in_canonical_units(farm: Hand) -> None:
    said = farm(
        *("harvest", "WREN-N", "CHARD", "1 lb 14 oz", "--tare", "8 oz", "--count", "3", "--note", "wet", "--json")
    )
    operation = said.data["operation"]
    assert said.data == {
        "schema": 1,
        "id": 2,
        "date": "2026-10-14",
        "unit": "WREN",
        "bed": "WREN-N",
        "what": "CHARD",
        "mass_g": 623.69,
        "tare_g": 226.796,
        "typed": "1 lb 14 oz",
        "count": 3,
        "use": "home",
        "dressed_g": None,
        "lot_code": "WREN-N#1/261014",
        "note": "wet",
        "operation": operation,
    }
    assert farm("journal", "--most", "1", "--json").data["journal"][0]["operation"] == operation


def test_fish_are_weighed_by_lot_or_by_species(farm: Hand) -> None:
    by_lot = farm("harvest", "WREN", "p1", "3 lb", "--count", "4", "--json").data
    by_species = farm("harvest", "wren", "Yellow Perch", "2 lb", "--count", "2", "--json").data
    for one in (by_lot, by_species):
        assert (one["unit"], one["bed"], one["what"]) == ("WREN", None, "P1")


def test_several_weighings_add_up(farm: Hand) -> None:
    assert farm("harvest", "WREN-N", "CHARD", "1 6 + 10 oz", "--json").data["mass_g"] == 907.185


def test_the_list_is_narrowed_by_day_and_unit(farm: Hand) -> None:
    farm("harvest", "WREN-N", "CHARD", "2 lb", "--note", "wet")
    assert farm("harvests", "list").lines == [
        "no. day where what weight count use lot note",
        "1 2026-06-20 WREN-N CHARD 1 lb 6 oz sold WREN-N#1/260620",
        "2 2026-10-14 WREN-N CHARD 2 lb home WREN-N#1/261014 wet",
    ]
    ids = {
        words: [one["id"] for one in farm("harvests", "list", *words.split(), "--json").data["harvests"]]
        for words in ("--from 2026-06-21", "--to 2026-10-13", "--unit wren", "--unit SWIFT")
    }
    assert ids == {"--from 2026-06-21": [2], "--to 2026-10-13": [1], "--unit wren": [1, 2], "--unit SWIFT": []}
    assert "Book one: farmops harvest" in farm("harvests", "list", "--unit", "SWIFT").err


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm(
        *("harvests", "edit", "1", "--weight", "2 lb", "--tare", "8 oz", "--use", "given", "--count", "4"),
        *("--note", "bolted", "--on", "2026-06-21", "--json"),
    ).data
    assert (changed["mass_g"], changed["tare_g"], changed["use"]) == (680.389, 226.796, "given")
    assert (changed["count"], changed["note"], changed["date"]) == (4, "bolted", "2026-06-21")
    emptied = farm("harvests", "edit", "1", "--weight", "2 lb", "--tare", "-", "--note", "-", "--json").data
    assert (emptied["mass_g"], emptied["tare_g"], emptied["note"]) == (907.185, 0.0, None)


def test_a_removed_weighing_comes_back(farm: Hand) -> None:
    before = farm("harvests", "list").out
    assert farm("harvests", "remove", "1").err == "Weighing 1 removed. farmops undo brings it back.\n"
    assert farm("harvests", "list").out == ""
    farm("undo")
    assert farm("harvests", "list").out == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["harvest", "WREN-N", "CHARD", "heavy"], "heavy"),
        (["harvest", "WREN-N", "CHARD", "0"], "comes to nothing"),
        (["harvest", "WREN-N", "CHARD", "1,4"], "1.4"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--tare", "2 lb"], "leaves nothing"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--tare", "bowl"], "bowl"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--count", "1000001"], "1 to 1,000,000"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--note", "\x1b[2J"], "cannot be printed"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--on", "soon"], "is no day"),
        (["harvest", "WREN-N", "CHARD", "1 6", "--on", "2026-04-30"], "started on 2026-05-01"),
        (["harvest", "WREN-N", "CHERD", "1 6"], "Did you mean CHARD?"),
        (["harvest", "WREN-N", "SEA KALE", "1 6"], "farmops plantings add WREN-N 'SEA KALE'"),
        (["harvest", "WREN-M", "CHARD", "1 6"], "WREN-N"),
        (["harvest", "WREN", "P1", "1 6", "--count", "61"], "more than the 60 there were"),
        (["harvest", "WREN", "P1", "1 6", "--on", "2026-05-01"], "stocked on 2026-05-02"),
        (["harvests", "edit", "1"], "Nothing to change"),
        (["harvests", "edit", "9", "--use", "sold"], "There is no"),
        (["harvests", "edit", "1", "--weight", "heavy"], "heavy"),
        (["harvests", "edit", "1", "--on", "2026-04-30"], "started on 2026-05-01"),
        (["harvests", "remove", "9"], "There is no"),
        (["harvests", "list", "--unit", "WRN"], "Did you mean WREN?"),
        (["harvests", "list", "--from", "soon"], "is no day"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused(*words)


@pytest.mark.parametrize(
    "words",
    [
        ["harvest", "WREN-N", "CHARD"],
        ["harvest", "WREN-N", "CHARD", "1 6", "--use", "lost"],
        ["harvest", "WREN-N", "CHARD", "1 6", "--count", "0"],
        ["harvest", "WREN-N", "CHARD", "1 6", "--count", "some"],
        ["harvests", "edit", "1", "--tare", "8 oz"],
        ["harvests", "edit", "1", "--use", "lost"],
        ["harvests", "edit", "one", "--use", "sold"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused(*words, code=2)


def test_after_clearing_a_refusal_says_what_to_do(farm: Hand) -> None:
    farm("plantings", "clear", "1", "--on", "2026-10-01")
    words = farm.refused("harvest", "WREN-N", "CHARD", "1 6")
    assert "was cleared on 2026-10-01" in words
    assert "farmops plantings add WREN-N CHARD" in words


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("harvests", "list")
    assert said.out == ""
    assert "farmops harvest" in said.err


def test_what_somebody_else_booked_is_asked_about(farm: Hand) -> None:
    again = ["--by", "Bo", "harvest", "WREN-N", "CHARD", "1 6", "--on", "2026-06-20"]
    assert farm.refused(*again) == (
        "Not booked yet: 1 lb 6 oz of CHARD from WREN-N is booked for 2026-06-20 by Ada already (number 1). "
        "Is it another one? If it is, say so: --sure\n"
    )
    assert farm(*again, "--sure").err.startswith("Booked: 1 lb 6 oz CHARD")


def test_the_sheet_of_a_workbook_can_be_named_for_weighings_and_for_other_files(farm: Hand, tmp_path: Path) -> None:
    book = Workbook()
    heads = {"picked": ["date", "bed", "crop", "weight", "unit"], "paid": ["date", "what", "amount"]}
    rows = {"picked": ["2026-10-{:02}", "WREN-N", "CHARD", "1 lb", "WREN"], "paid": ["2026-10-{:02}", "twine", 3.2]}
    for day, sheet in enumerate(("picked", "picked 2", "paid", "paid 2"), start=1):
        made, kind = book.create_sheet(sheet), sheet.removesuffix(" 2")
        made.append(heads[kind])
        made.append([rows[kind][0].format(day), *rows[kind][1:]])
    book.save(tmp_path / "book.xlsx")
    file = str(tmp_path / "book.xlsx")
    for kind, sheet, day in (("harvests", "picked 2", "2026-10-02"), ("costs", "Paid 2", "2026-10-04")):
        said = farm("import", kind, file, "--sheet", sheet)
        assert f"Of 5 sheets {sheet.lower()} is read, not Sheet" in said.err
        assert "1 booked" in said.out
        listed = farm("harvests" if kind == "harvests" else "costs", "list", "--json").data
        assert day in str(listed)
        assert "has no sheet May. Its sheets: " in farm.refused("import", kind, file, "--sheet", "May")
