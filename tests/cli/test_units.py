"""`farmops units`: the row, in walking order, and the states its units pass through."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


def test_a_unit_joins_the_row_with_the_chores_of_its_state(farm: Hand) -> None:
    said = farm("units", "add", "lark", "--state", "running", "--tank", "950 L", "--on", "2026-03-01")
    assert said.err == "LARK added, running, 251 gal.\n"
    assert [one for one in farm("chores", "list", "--unit", "LARK", "--json").data["chores"] if one["unit"] == "LARK"]
    assert farm("units", "list").lines == [
        "unit kind state tank",
        "1 WREN coupled running since 2026-03-01 250 gal",
        "2 SWIFT coupled building since 2026-03-01",
        "3 LARK coupled running since 2026-03-01 251 gal",
    ]


def test_a_unit_can_join_without_chores(farm: Hand) -> None:
    farm("units", "add", "LARK", "--state", "running", "--no-chores")
    assert farm("chores", "list", "--unit", "LARK", "--json").data["chores"] == []


def test_json_in_canonical_units(farm: Hand) -> None:
    assert farm("units", "add", "LARK", "--kind", "fish-only", "--position", "1", "--json").data == {
        "schema": 1,
        "id": 3,
        "unit": "LARK",
        "kind": "fish only",
        "position": 1,
    }
    assert farm("units", "show", "WREN", "--json").data == {
        "schema": 1,
        "unit": "WREN",
        "kind": "coupled",
        "position": 1,
        "tank_ml": 946353,
        "tank_typed": "250 gal",
        "breaker": None,
        "valve": None,
        "note": None,
        "states": [{"state": "running", "from": "2026-03-01"}],
    }
    listed = farm("units", "list", "--json").data["units"]
    assert {one["unit"] for one in listed} == {"WREN", "SWIFT", "LARK"}


def test_a_unit_passes_through_states(farm: Hand) -> None:
    said = farm("units", "state", "SWIFT", "cycling", "--on", "2026-06-01").err
    assert said.startswith("SWIFT is cycling from 2026-06-01. ")
    entered = farm("units", "state", "SWIFT", "running", "--json").data
    assert "Strip siphon guard and bell" in entered.pop("chores")
    assert entered == {"schema": 1, "unit": "SWIFT", "state": "running", "from": "2026-10-14", "booked": True}
    assert farm("units", "show", "SWIFT").lines == [
        "SWIFT, coupled, place 2 in the row",
        "2026-03-01 building",
        "2026-06-01 cycling",
        "2026-10-14 running",
    ]
    states = {
        day: farm("units", "list", "--on", day).lines[2]
        for day in ("2026-02-01", "2026-05-31", "2026-06-01", "2026-10-14")
    }
    assert states == {
        "2026-02-01": "2 SWIFT coupled not there yet",
        "2026-05-31": "2 SWIFT coupled building since 2026-03-01",
        "2026-06-01": "2 SWIFT coupled cycling since 2026-06-01",
        "2026-10-14": "2 SWIFT coupled running since 2026-10-14",
    }


def titles(farm: Hand, unit: str) -> set[str]:
    """The titles of the chores of a unit."""
    return {one["title"] for one in farm("chores", "list", "--unit", unit, "--json").data["chores"]}


def test_what_comes_with_a_state_is_told_before_and_nothing_is_booked(farm: Hand) -> None:
    before, had = farm("units", "show", "SWIFT").out, titles(farm, "SWIFT")
    preview = farm("units", "state", "SWIFT", "cycling", "--preview")
    assert "chores come with it: Test ammonia, nitrite, pH, temperature; " in preview.err
    assert "others" not in preview.err
    assert (farm("units", "show", "SWIFT").out, titles(farm, "SWIFT")) == (before, had)
    told = farm("units", "state", "SWIFT", "cycling", "--preview", "--json").data
    assert told.pop("booked") is False
    booked = farm("units", "state", "SWIFT", "cycling").err
    assert f"{len(told['chores'])} chores come with it: " in booked
    assert "; and " in booked
    assert titles(farm, "SWIFT") - had <= set(told["chores"])


def test_none_come_where_none_are_wanted(farm: Hand) -> None:
    before = titles(farm, "SWIFT")
    assert farm("units", "state", "SWIFT", "cycling", "--no-chores").err.endswith(". No new chore comes with it.\n")
    assert titles(farm, "SWIFT") == before


@pytest.mark.parametrize(("cure", "day"), [("72 h", "2026-10-21"), ("3 days", "2026-10-21"), ("24", "2026-10-19")])
def test_a_label_says_how_long_a_build_cures(farm: Hand, cure: str, day: str) -> None:
    farm("units", "add", "LARK", "--state", "building", "--cure", cure)
    listed = farm("chores", "list", "--unit", "LARK", "--json").data["chores"]
    assert [one["next_due"] for one in listed if one["template"] == "seal-cured"] == [day]


def test_a_state_takes_the_time_of_the_label_too(farm: Hand) -> None:
    farm("units", "add", "LARK", "--no-chores")
    farm("units", "state", "LARK", "building", "--cure", "7 days", "--on", "2026-10-15")
    listed = farm("chores", "list", "--unit", "LARK", "--json").data["chores"]
    assert [one["next_due"] for one in listed if one["template"] == "seal-cured"] == ["2026-10-26"]


def test_a_time_under_the_floor_is_refused(farm: Hand) -> None:
    said = farm.refused("units", "add", "LARK", "--state", "building", "--cure", "12 h")
    assert said.startswith("Not booked: 12 h is no time to cure. Sealant stays dry for 24 h at least")
    assert "no time to wait. Understood: 72 h, 3 days" in farm.refused("units", "add", "LARK", "--cure", "soon")


def test_every_field_can_be_edited_and_a_dash_clears(farm: Hand) -> None:
    farm("units", "edit", "WREN", "--code", "REN", "--kind", "holding", "--tank", "100 gal", "--position", "5")
    farm("units", "edit", "REN", "--note", "leaks", "--breaker", "box by the door, No. 3", "--valve", "red tap")
    assert farm("units", "show", "REN").lines == [
        "REN, holding, place 5 in the row",
        "tank 100 gal",
        "breaker: box by the door, No. 3",
        "valve: red tap",
        "leaks",
        "2026-03-01 running",
    ]
    cleared = farm("units", "edit", "REN", "--tank", "-", "--note", "-", "--breaker", "-", "--valve", "-")
    assert cleared.err == "REN changed.\n"
    emptied = farm("units", "show", "REN", "--json").data
    assert [emptied[key] for key in ("tank_ml", "tank_typed", "note", "breaker", "valve")] == [None] * 5


def test_a_removed_unit_comes_back_with_its_states_and_chores(farm: Hand) -> None:
    before = farm("units", "show", "SWIFT").out, farm("chores", "list", "--unit", "SWIFT").out
    farm("units", "remove", "SWIFT")
    assert "SWIFT" not in farm("units", "list").out
    farm("undo")
    assert (farm("units", "show", "SWIFT").out, farm("chores", "list", "--unit", "SWIFT").out) == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "A/B"], "no code of a unit"),
        (["add", "A-B"], "dash"),
        (["add", ""], "empty"),
        (["add", "wren"], "already a unit WREN"),
        (["add", "LARK", "--tank", "full"], "full"),
        (["add", "LARK", "--note", "\x1b"], "cannot be printed"),
        (["add", "LARK", "--on", "soon"], "is no day"),
        (["add", "LARK", "--on", "2099-01-01"], "more than a year ahead"),
        (["edit", "WREN"], "Nothing to change"),
        (["edit", "WRN", "--position", "2"], "Did you mean WREN?"),
        (["edit", "WREN", "--code", "swift"], "already a unit SWIFT"),
        (["edit", "WREN", "--tank", "0"], "comes to nothing"),
        (["edit", "WREN", "--note", "x" * 1001], "at most 1000"),
        (["state", "WREN", "running"], "has been running since"),
        (["state", "SWFT", "running"], "Did you mean SWIFT?"),
        (["state", "SWIFT", "running", "--on", "soon"], "is no day"),
        (["show", "WRN"], "Did you mean WREN?"),
        (["remove", "WREN"], "Not removed"),
        (["list", "--on", "soon"], "is no day"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("units", *words)


@pytest.mark.parametrize(
    "words",
    [
        ["add"],
        ["add", "LARK", "--kind", "pond"],
        ["add", "LARK", "--state", "asleep"],
        ["add", "LARK", "--position", "0"],
        ["edit", "WREN", "--kind", "pond"],
        ["edit", "WREN", "--position", "first"],
        ["state", "WREN", "asleep"],
    ],
)
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused("units", *words, code=2)


def test_an_empty_row_says_what_to_do_first(bare: Hand) -> None:
    said = bare("units", "list")
    assert (said.out, said.err) == ("", "No unit yet. Add the first: farmops units add WREN --state building\n")
    assert bare("units", "list", "--json").data == {"schema": 1, "units": []}


def test_an_unlikely_tank_is_asked_about(farm: Hand) -> None:
    assert "a tank of 175000 gal, is that right?" in farm.refused("units", "add", "BIG", "--tank", "175000")
    assert "BIG added, planned, 175000 gal" in farm("units", "add", "BIG", "--tank", "175000", "--sure").err
    assert "--sure" in farm.refused("units", "edit", "BIG", "--tank", "3")
    assert "BIG changed" in farm("units", "edit", "BIG", "--tank", "3", "--sure").err


def test_a_row_that_was_there_before_the_book_begins_with_nothing_late(bare: Hand) -> None:
    bare("units", "add", "FIG", "--state", "running")
    bare("fish", "add", "P1", "yellow perch", "FIG", "60", "0.5 oz")
    bare("units", "state", "FIG", "running", "--on", "-40")
    bare("fish", "edit", "P1", "--on", "-28")
    assert bare("units", "show", "FIG", "--json").data["states"] == [{"from": "2026-09-04", "state": "running"}]
    chores = bare("chores", "list", "--json").data["chores"]
    assert "Feed the fish" in [one["title"] for one in chores]
    assert min(one["next_due"] for one in chores if one["next_due"]) == "2026-10-14"
