"""`farmops usage`, `farmops forecast`, `farmops chores conditions`: what chores by use and by condition follow from."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def used(farm: Hand) -> Hand:
    """A week of pump hours and some feed are booked on WREN."""
    farm("usage", "add", "WREN", "pump-hours", "168", "--on", "2026-10-07")
    farm("usage", "add", "wren", "feed", "2 4", "--on", "2026-10-08", "--note", "new sack")
    return farm


def test_use_is_booked_and_listed_newest_first(used: Hand) -> None:
    said = used("usage", "add", "WREN", "pump-hours", "84.5", "--on", "2026-10-11")
    assert said.err == "84.5 pump hours in WREN up to 2026-10-11, number 3, booked.\n"
    assert used("usage", "list").lines == [
        "no. day unit used note",
        "3 2026-10-11 WREN 84.5 pump hours",
        "2 2026-10-08 WREN 2 lb 4 oz fed new sack",
        "1 2026-10-07 WREN 168 pump hours",
    ]
    assert used("usage", "list", "--unit", "SWIFT").out == ""


def test_amounts_are_exact_in_json_with_the_unit_they_are_stored_in(used: Hand) -> None:
    told = used("usage", "add", "WREN", "siphon-cycles", "640 cycles", "--json").data
    assert (told["amount"], told["amount_in"], told["day"]) == (640, "cycles", "2026-10-14")
    listed = used("usage", "list", "--json").data["usage"]
    assert [(one["counter"], one["amount"], one["amount_in"], one["typed"]) for one in listed] == [
        ("siphon cycles", 640, "cycles", "640 cycles"),
        ("feed", 1_020_583, "mg", "2 4"),
        ("pump hours", 10_080, "min", "168"),
    ]


def test_a_slip_is_corrected_or_removed_and_comes_back(used: Hand) -> None:
    assert used("usage", "edit", "2", "--amount", "2 lb", "--on", "2026-10-09", "--note", "-").err == (
        "2 lb fed in WREN up to 2026-10-09, number 2, changed.\n"
    )
    assert (
        used("usage", "remove", "1").err
        == "168 pump hours in WREN, 2026-10-07, removed. farmops undo brings it back.\n"
    )
    assert used("usage", "list").lines[1:] == ["2 2026-10-09 WREN 2 lb fed"]
    used("undo")
    assert len(used("usage", "list").lines) == 3


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "OWL", "feed", "1 lb"], "There is no unit OWL"),
        (["add", "WREN", "pump-hours", "two"], "no number of pump hours. Understood: 168, 16.5."),
        (["add", "WREN", "pump-hours", "16,5"], "no number of pump hours"),
        (["add", "WREN", "pump-hours", "0"], "up to 350640"),
        (["add", "WREN", "pump-hours", "350641"], "up to 350640"),
        (["add", "WREN", "pump-hours", "0.001"], "up to 350640"),
        (["add", "WREN", "siphon-cycles", "1.5"], "no number of siphon cycles. Understood: 500."),
        (["add", "WREN", "feed", "1 ft"], "a unit of length"),
        (["add", "WREN", "pump-hours", "5430"], "not what the meter shows"),
        (["add", "WREN", "pump-hours", "24", "--on", "1899-12-31"], "not a day to book on"),
        (["edit", "1", "--amount", "5430", "--on", "2026-10-14"], None),
        (["edit", "1"], "Nothing to change"),
        (["edit", "9", "--amount", "1"], "There is no record of use 9. See: farmops usage list"),
        (["remove", "9"], "There is no record of use 9"),
    ],
)
def test_what_cannot_be_is_refused_in_words(used: Hand, words: list[str], said: str | None) -> None:
    if said is None:
        used("usage", *words)
    else:
        assert said in used.refused("usage", *words)


def test_the_first_record_may_hold_all_the_hours_so_far(farm: Hand) -> None:
    farm("usage", "add", "WREN", "pump-hours", "5430", "--on", "2026-10-07")
    assert "not what the meter shows" in farm.refused("usage", "add", "WREN", "pump-hours", "5598")
    farm("usage", "add", "WREN", "pump-hours", "168")


def test_forecasts_are_typed_in_the_farms_scale_and_kept_day_by_day(farm: Hand) -> None:
    assert farm("forecast", "set", "tomorrow", "--low", "28", "--high", "45").err == (
        "Thu 2026-10-15: low 28.0 °F, high 45.0 °F.\n"
    )
    farm("forecast", "set", "fri", "--low", "-1 C", "--note", "the radio")
    assert farm("forecast", "set", "tomorrow", "--low", "40").err == "Thu 2026-10-15: low 40.0 °F, high 45.0 °F.\n"
    assert farm("forecast", "list").lines == [
        "day low high note",
        "2026-10-15 Thu 40.0 °F 45.0 °F",
        "2026-10-16 Fri 30.2 °F - the radio",
    ]
    told = farm("forecast", "set", "2026-10-16", "--high", "9 C", "--low", "-", "--json").data
    assert (told["low_c"], told["high_c"], told["high_typed"]) == (None, 9.0, "9 C")
    assert farm("forecast", "list", "--from", "2026-10-16", "--json").data["forecasts"][0]["day"] == "2026-10-16"
    farm("forecast", "remove", "fri")
    assert len(farm("forecast", "list").lines) == 2
    farm("undo")
    assert len(farm("forecast", "list").lines) == 3


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["set", "fri"], "Nothing to change"),
        (["set", "fri", "--low", "cold"], "is no temperature"),
        (["set", "fri", "--low", "50", "--high", "40"], "Not booked: the low of 50 is above the high of 40."),
        (["set", "fri", "--low", "-"], "a forecast names the low or the high"),
        (["set", "fri", "--note", "x"], "a forecast names the low or the high"),
        (["remove", "fri"], "Nothing is forecast for 2026-10-16. See: farmops forecast list"),
    ],
)
def test_a_forecast_that_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("forecast", *words)


def test_nothing_booked_yet_says_what_to_do(farm: Hand) -> None:
    assert farm("usage", "list").err.startswith("No use is booked yet. Book some: farmops usage add")
    assert farm("forecast", "list").err.startswith("No forecast for the days to come. Type one in:")


def test_conditions_say_what_they_mean_and_what_holds(farm: Hand) -> None:
    farm("forecast", "set", "tomorrow", "--low", "28")
    told = " ".join(farm("chores", "conditions").lines)
    assert "when frost to come (farm) A low of 2 °C (36 °F) or less is forecast" in told
    assert "> all: frost to come, low of 28.0 °F on Thu 15 Oct since Wed 14 Oct, until the end of that day" in told
    held = {one["name"]: one for one in farm("chores", "conditions", "--json").data["conditions"]}
    assert held["planting ready"]["holds"] == [
        {
            "where": "WREN-N",
            "since": "2026-06-27",
            "until": None,
            "why": "CHARD ready",
            "ends": "a weighing from it, or clearing",
        }
    ]
    assert held["frost to come"]["place"] == "farm"
    assert held["unit cycling"]["holds"] == []
    assert farm("chores", "conditions", "--on", "2026-06-21", "--json").data["conditions"][0]["holds"] == []


def line_of(hand: Hand, title: str) -> dict[str, object]:
    (found,) = [one for one in hand("chores", "--json").data["chores"] if one["title"] == title]
    return found


def test_a_chore_while_something_holds_says_why_on_the_round(farm: Hand) -> None:
    said = farm("chores", "add", "Pick", "--every", "when planting ready", "--bed", "WREN-N", "--from", "2026-03-01")
    assert said.err.endswith("when planting ready; next 2026-06-27.\n")
    found = line_of(farm, "Pick")
    assert (found["due"], found["days_late"], found["rule_kind"]) == ("2026-06-27", 0, "when")
    assert (found["why"], found["ends"]) == ("CHARD ready since Sat 27 Jun", "a weighing from it, or clearing")
    told = farm("chores").lines
    assert "CHARD ready since Sat 27 Jun, until a weighing from it, or clearing" in told
    plain = next(row for row in farm("chores", "--plain").out.splitlines() if "\tPick\t" in row)
    assert plain.split("\t")[-1] == "CHARD ready since Sat 27 Jun, until a weighing from it, or clearing"
    farm("harvest", "WREN-N", "CHARD", "1 lb")
    assert "Pick" not in farm("chores").out
    number = str(found["id"])
    assert farm("chores", "done", number).err.startswith("done: Pick, WREN-N; next 2026-10-21.")
    assert farm("chores", "show", number).lines[1] == "when planting ready; next 2026-10-21"


def test_a_chore_by_use_says_how_much_was_used_or_that_nothing_is_booked(farm: Hand) -> None:
    said = farm("chores", "add", "Strip", "--every", "200 pump hours", "--unit", "WREN", "--from", "2026-10-01")
    assert said.err.endswith("every 200 pump hours; next no pump hours booked yet.\n")
    round_ = farm("chores")
    assert "WREN Strip: no pump hours booked yet" in round_.lines
    assert "farmops usage add" in round_.err
    (waiting,) = farm("chores", "--json").data["without_day"]
    assert (waiting["title"], waiting["where"], waiting["why"]) == ("Strip", "WREN", "no pump hours booked yet")
    number = str(waiting["id"])
    assert any(line.endswith("every 200 pump hours no pump hours booked yet") for line in farm("chores", "list").lines)
    assert farm("chores", "history", number).err == "Strip was never settled; due no pump hours booked yet.\n"
    farm("usage", "add", "WREN", "pump-hours", "100", "--on", "2026-10-07")
    farm("usage", "add", "WREN", "pump-hours", "120", "--on", "2026-10-12")
    found = line_of(farm, "Strip")
    assert (found["due"], found["days_late"]) == ("2026-10-12", 2)
    assert found["why"] == "220 pump hours since Thu 1 Oct, of 200 pump hours"
    assert farm("chores", "done", number).err == "done: Strip, WREN; next 2026-10-23.\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["add", "X", "--every", "when planting raedy"], "Did you mean 'planting ready'?"),
        (["add", "X", "--every", "100 pump hours"], "belongs to a unit, bed or fish lot"),
        (["add", "X", "--every", "0 pump hours", "--unit", "WREN"], "the limit goes from 1 to 350640"),
        (["preview", "--every", "2000 pump hours", "--from", "2026-01-01"], "it is due by what is booked as used"),
        (["preview", "--every", "when frost to come", "--from", "2026-01-01"], "it is due while that holds"),
    ],
)
def test_rules_that_cannot_be_are_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused("chores", *words)


def test_feed_is_told_in_the_farms_weights(farm: Hand) -> None:
    said = farm("chores", "add", "Empty the bin", "--every", "5 fed or 2 months", "--unit", "WREN")
    assert "every 5 lb fed or 2 months; next 2026-12-14" in said.err
