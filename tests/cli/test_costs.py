"""`farmops costs`: money paid, for a unit or shared, used up or bought to last."""

from __future__ import annotations

import stat
from hashlib import sha256
from pathlib import Path

import pytest

from farmops.model.errors import NotUnderstood
from farmops.quantities import parse_life
from tests.cli.hand import Hand

FEED = {
    "id": 1,
    "date": "2026-05-03",
    "what": "fish feed",
    "category": "feed",
    "amount_cents": 4250,
    "amount_typed": "42.50",
    "currency": "USD",
    "unit": None,
    "bed": None,
    "lot": None,
    "from_whom": "Mill",
    "kind": "operating",
    "life_months": None,
    "salvage_cents": None,
    "label": None,
    "recurring": None,
    "receipt": None,
    "sha256": None,
    "note": None,
}
PUMP = {
    **FEED,
    "id": 2,
    "date": "2026-03-02",
    "what": "pump",
    "category": "other",
    "amount_cents": 12000,
    "amount_typed": "$120",
    "unit": "WREN",
    "from_whom": None,
    "kind": "capital",
    "life_months": 96,
    "salvage_cents": 1000,
}


def test_a_cost_is_booked_and_told(farm: Hand) -> None:
    said = farm("costs", "add", "netting", "18", "--category", "seed-and-plants", "--on", "yesterday")
    assert said.err == "Booked: $18.00 for netting, seed and plants, shared, 2026-10-13; number 3.\n"
    said = farm("costs", "add", "blower", "90", "--unit", "wren", "--life", "30 months")
    assert said.err == "Booked: $90.00 for blower, other, WREN, 2026-10-14, to last 2 years 6 months; number 4.\n"


def test_the_list_and_its_json(farm: Hand) -> None:
    assert farm("costs", "list").lines == [
        "no. day what category amount for from whom lasts note",
        "2 2026-03-02 pump other $120.00 WREN 8 years",
        "1 2026-05-03 fish feed feed $42.50 shared Mill",
    ]
    assert farm("costs", "list", "--json").data == {"schema": 1, "currency": "USD", "costs": [PUMP, FEED]}


@pytest.mark.parametrize(
    ("filters", "ids"),
    [
        (["--from", "2026-05-01"], [1]),
        (["--to", "2026-05-02"], [2]),
        (["--from", "2026-03-02", "--to", "2026-05-03"], [2, 1]),
        (["--unit", "wren"], [2]),
        (["--category", "feed"], [1]),
        (["--category", "feed", "--unit", "WREN"], []),
    ],
)
def test_the_list_is_narrowed(farm: Hand, filters: list[str], ids: list[int]) -> None:
    assert [one["id"] for one in farm("costs", "list", *filters, "--json").data["costs"]] == ids


def test_a_cost_is_shown(farm: Hand) -> None:
    assert farm("costs", "show", "1").lines == [
        "fish feed, $42.50 on 2026-05-03, number 1",
        "feed, for all units, from Mill",
    ]
    farm("costs", "edit", "2", "--note", "twin outlet")
    assert farm("costs", "show", "2").lines == [
        "pump, $120.00 on 2026-03-02, number 2",
        "other, for WREN",
        "lasts 8 years, worth $10.00 at its end",
        "twin outlet",
    ]
    assert farm("costs", "show", "1", "--json").data == {"schema": 1, **FEED}


def test_cents_are_minor_units_of_any_currency(nowhere: Hand) -> None:
    nowhere("farm", "open", "Hata", "--weights", "kg", "--currency", "JPY", "--zone", "Asia/Tokyo")
    booked = nowhere("costs", "add", "feed", "4200", "--json").data
    assert (booked["amount_cents"], booked["currency"]) == (4200, "JPY")


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    changed = farm(
        *("costs", "edit", "1", "--what", "tank", "--amount", "300", "--category", "building", "--unit", "WREN"),
        *("--from-whom", "Yard", "--life", "10 years", "--salvage", "25", "--note", "used", "--on", "2026-05-04"),
        "--json",
    ).data
    assert changed == {
        "schema": 1,
        **FEED,
        "id": 1,
        "date": "2026-05-04",
        "what": "tank",
        "category": "building",
        "amount_cents": 30000,
        "amount_typed": "300",
        "currency": "USD",
        "unit": "WREN",
        "from_whom": "Yard",
        "kind": "capital",
        "life_months": 120,
        "salvage_cents": 2500,
        "note": "used",
    }
    emptied = farm("costs", "edit", "1", "--salvage", "-", "--unit", "-", "--from-whom", "-", "--note", "-", "--json")
    assert emptied.data == {**changed, "salvage_cents": 0, "unit": None, "from_whom": None, "note": None}
    assert farm("costs", "edit", "1", "--life", "-", "--json").data == {
        **emptied.data,
        "kind": "operating",
        "life_months": None,
        "salvage_cents": None,
    }


def test_a_removed_cost_comes_back(farm: Hand) -> None:
    before = farm("costs", "list").out
    assert farm("costs", "remove", "1").err == "fish feed of 2026-05-03 removed. farmops undo brings it back.\n"
    assert "fish feed" not in farm("costs", "list").out
    farm("undo")
    assert farm("costs", "list").out == before


@pytest.mark.parametrize(
    ("typed", "months"),
    [
        ("8 years", 96),
        ("1 year", 12),
        ("30 months", 30),
        ("1 month", 1),
        ("2 years 6 months", 30),
        ("2y6m", 30),
        ("3 yrs", 36),
        ("6 mo", 6),
        ("30", 30),
        ("  8   YEARS ", 96),
    ],
)
def test_a_life_as_people_say_it(typed: str, months: int) -> None:
    assert parse_life(typed) == months


@pytest.mark.parametrize("typed", ["", " ", "8 moons", "years", "-3", "2.5 years", "6 months 2 years", "9" * 5000, "٣"])
def test_a_life_that_is_none(typed: str) -> None:
    with pytest.raises(NotUnderstood, match="Understood: 8 years"):
        parse_life(typed)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "", "5"], "empty"),
        (["add", "rope", "free"], "free"),
        (["add", "rope", "0"], "comes to nothing"),
        (["add", "rope", "5 EUR"], "5 EUR"),
        (["add", "rope", "4.999"], "4.999"),
        (["add", "rope", "10000000000001"], "largest sum"),
        (["add", "rope", "5", "--unit", "WRN"], "Did you mean WREN?"),
        (["add", "rope", "5", "--unit", ""], "no unit"),
        (["add", "rope", "5", "--life", "8 moons"], "Understood: 8 years"),
        (["add", "rope", "5", "--life", "0"], "is no life"),
        (["add", "rope", "5", "--life", "101 years"], "1 month to 100 years"),
        (["add", "rope", "5", "--salvage", "1"], "only what is bought to last"),
        (["add", "rope", "5", "--life", "1 year", "--salvage", "much"], "much"),
        (["add", "rope", "5", "--life", "1 year", "--salvage", "6"], "between nothing and what was paid"),
        (["edit", "2", "--amount", "9"], "between nothing and what was paid"),
        (["edit", "1", "--on", "1899-12-31"], "before 1900"),
        (["add", "rope", "5", "--from-whom", "\x1b[1m"], "cannot be printed"),
        (["add", "rope", "5", "--note", "x" * 1001], "at most 1000"),
        (["add", "rope", "5", "--on", "soon"], "is no day"),
        (["add", "rope", "5", "--on", "2099-01-01"], "more than a year ahead"),
        (["edit", "1"], "Nothing to change"),
        (["edit", "9", "--amount", "5"], "There is no cost 9. See: farmops costs list"),
        (["edit", "1", "--what", ""], "empty"),
        (["edit", "1", "--amount", "-"], "-"),
        (["edit", "1", "--unit", "WRN"], "Did you mean WREN?"),
        (["edit", "1", "--life", "8 moons"], "Understood: 8 years"),
        (["edit", "1", "--salvage", "5"], "only what is bought to last"),
        (["edit", "1", "--on", "soon"], "is no day"),
        (["show", "9"], "There is no cost 9"),
        (["remove", "9"], "There is no cost 9"),
        (["list", "--from", "soon"], "is no day"),
        (["list", "--unit", "WRN"], "Did you mean WREN?"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("costs", *words)


@pytest.mark.parametrize(
    "words",
    [
        ["add", "rope"],
        ["add", "rope", "5", "--category", "string"],
        ["edit", "1", "--category", "string"],
        ["edit", "one", "--amount", "5"],
        ["list", "--category", "string"],
        ["remove", "9223372036854775808"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("costs", *words, code=2)


def test_an_empty_list_says_what_to_do_first(bare: Hand) -> None:
    said = bare("costs", "list")
    assert said.out == ""
    assert "farmops costs add" in said.err
    assert bare("costs", "list", "--json").data["costs"] == []


def test_a_cost_is_for_a_bed_or_for_fish(farm: Hand) -> None:
    assert " netting, other, WREN-N, " in farm("costs", "add", "netting", "18", "--bed", "wren-n").err
    booked = farm("costs", "add", "salt", "6", "--lot", "p1", "--json").data
    assert (booked["lot"], booked["unit"], booked["bed"]) == ("P1", "WREN", None)
    assert [one["id"] for one in farm("costs", "list", "--unit", "WREN", "--json").data["costs"]] == [2, 3, 4]
    moved = farm("costs", "edit", "4", "--bed", "WREN-S", "--json").data
    assert (moved["lot"], moved["bed"]) == (None, "WREN-S")
    shared = farm("costs", "edit", "4", "--unit", "-", "--json").data
    assert (shared["bed"], shared["unit"]) == (None, None)
    words = farm.refused("costs", "add", "net", "8", "--unit", "WREN", "--bed", "WREN-N")
    assert words == "Not booked: a cost is for one unit, one bed or one fish lot, or shared by all.\n"


def test_a_double_is_asked_about_and_booked_when_it_was_paid_again(farm: Hand) -> None:
    again = ["costs", "add", "pellets", "42.50", "--from-whom", "mill", "--on", "3 may"]
    assert farm.refused(*again) == (
        "Not booked yet: $42.50 for fish feed from Mill is booked for 2026-05-03 already (number 1). "
        "Was it paid twice? If it was, say so: --again\n"
    )
    assert farm(*again, "--again").err.startswith("Booked: $42.50 for pellets")
    assert farm("costs", "add", "pellets", "42.50", "--from-whom", "The mill", "--on", "3 may").err.startswith("Booked")


def test_the_same_bill_a_few_days_apart_is_asked_about_where_its_payee_is_named(farm: Hand) -> None:
    farm("costs", "add", "net", "8.15", "--from-whom", "Weir", "--on", "10 may")
    farm("costs", "add", "hose", "8.15", "--on", "10 may")
    for day in ("7 may", "13 may"):
        said = farm.refused("costs", "add", "mesh", "8.15", "--from-whom", "weir", "--on", day)
        assert "$8.15 for net from Weir is booked for 2026-05-10 already" in said
    farm("costs", "add", "hose", "8.15", "--on", "11 may")
    farm("costs", "add", "mesh", "8.15", "--from-whom", "weir", "--on", "14 may")


@pytest.mark.parametrize(
    ("asked", "ids"),
    [
        (["PUMP"], [2]),
        (["feed mill"], [1]),
        (["--from-whom", "mill"], [1]),
        (["--amount", "120"], [2]),
        (["--over", "42.50"], [2, 1]),
        (["--over", "42.51"], [2]),
        (["--under", "100", "--from", "2026-05-01"], [1]),
        (["pump", "--under", "100"], []),
    ],
)
def test_costs_are_found(farm: Hand, asked: list[str], ids: list[int]) -> None:
    assert [one["id"] for one in farm("costs", "find", *asked, "--json").data["costs"]] == ids
    assert farm("costs", "find", "caviar").err == "No cost like that. All of them: farmops costs list\n"


def test_a_receipt_is_kept_beside_the_store(farm: Hand, tmp_path: Path) -> None:
    slip = tmp_path / "slip.jpg"
    slip.write_bytes(b"42.50")
    kept = farm("costs", "receipt", "1", str(slip), "--json").data
    assert (kept["receipt"], kept["sha256"]) == ("slip.jpg", sha256(b"42.50").hexdigest())
    slip.unlink()
    copy = Path(farm("costs", "receipt", "1").lines[0])
    assert (copy.read_bytes(), stat.S_IMODE(copy.stat().st_mode)) == (b"42.50", 0o600)
    assert farm("costs", "receipt", "1", "--json").data["state"] == "as it was kept"
    copy.write_bytes(b"4250")
    said = farm("costs", "receipt", "1")
    assert said.err == "The receipt slip.jpg is changed since. A backup may have it; else keep it anew.\n"
    copy.unlink()
    assert farm("costs", "receipt", "1", "--json").data["state"] == "missing"
    assert farm("costs", "receipt", "1", "-", "--json").data["receipt"] is None
    assert farm.refused("costs", "receipt", "1").startswith("Cost 1 has no receipt.")
    assert "no file" in farm.refused("costs", "add", "net", "8", "--receipt", str(tmp_path / "none.jpg"))


def test_what_comes_again_is_booked_once_each_time(farm: Hand) -> None:
    rent = ["stall rent", "25", "--every", "month on the 1st", "--from", "2026-09-01", "--from-whom", "town"]
    said = farm("costs", "recurring", "add", *rent, "--unit", "wren", "--category", "fees-and-permits")
    assert said.err == (
        "$25.00 for stall rent comes every month on the 1st, from 2026-09-01; number 1. Book it when it is paid.\n"
    )
    assert farm("costs", "list", "--json").data["costs"][-1]["recurring"] is None
    (one,) = farm("costs", "recurring", "list", "--json").data["recurring"]
    assert (one["due"], one["next"], one["booked"]) == (["2026-09-01", "2026-10-01"], "2026-09-01", 0)
    assert farm("costs", "recurring", "list").lines[1].endswith("due 2026-09-01 and 1 more")
    booked = farm("costs", "recurring", "book", "1", "--amount", "26.10", "--on", "4 sep", "--json").data
    assert (booked["date"], booked["amount_cents"], booked["recurring"]) == ("2026-09-04", 2610, 1)
    assert (booked["unit"], booked["category"], booked["from_whom"]) == ("WREN", "fees and permits", "town")
    assert farm("costs", "recurring", "book", "1", "--json").data["date"] == "2026-10-01"
    assert farm.refused("costs", "recurring", "book", "1") == (
        "Not booked: stall rent is due on 2026-11-01. Paid already? farmops costs recurring book 1 --early\n"
    )
    assert farm("costs", "recurring", "book", "1", "--early", "--on", "14 oct", "--json").data["date"] == "2026-10-14"
    assert farm("undo").err.startswith("Undone")
    assert farm("costs", "recurring", "list", "--json").data["recurring"][0]["next"] == "2026-11-01"
    assert "records belong to it (cost)" in farm.refused("costs", "recurring", "remove", "1")
    farm("costs", "recurring", "end", "1", "--on", "15 oct")
    assert farm("costs", "recurring", "list").lines[1].endswith("over")
    assert farm.refused("costs", "recurring", "book", "1", "--early") == "Not booked: stall rent is over.\n"


def test_what_comes_again_is_questioned_where_it_was_booked_by_hand(farm: Hand) -> None:
    farm(
        "costs",
        "recurring",
        "add",
        "rent",
        "25",
        "--rule",
        "FREQ=MONTHLY",
        "--from",
        "2026-10-01",
        "--from-whom",
        "town",
    )
    farm("costs", "add", "rent of the stall", "25", "--from-whom", "Town", "--on", "2026-10-01")
    assert "is booked for 2026-10-01 already" in farm.refused("costs", "recurring", "book", "1")
    farm("costs", "recurring", "book", "1", "--again")
    assert farm("costs", "recurring", "edit", "1", "--amount", "27.50", "--json").data["amount_cents"] == 2750
    assert farm.refused("costs", "recurring", "add", "x", "1").startswith("Say when it comes, once:")


@pytest.mark.parametrize("amount", ["-5", "-12.50", "-5 USD"])
def test_a_cost_below_zero_is_told_in_words(farm: Hand, amount: str) -> None:
    said = farm.types("costs", "add", "pump", amount)
    assert said.code == 2
    assert "A cost is not below zero. Money that came back makes the cost it was for smaller: farmops" in said.err
    assert "No such option" not in said.err
    assert "put -- before it" in farm.types("harvest", "WREN-N", "CHARD", "-5").err
    assert "No such option" in farm.types("costs", "add", "pump", "--x").err
