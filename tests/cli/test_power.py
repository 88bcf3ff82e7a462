"""`farmops power` from the plate of the pump to what its power cost."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def powered(farm: Hand) -> Hand:
    """A price, a pump of WREN, a blower for all, and a meter of WREN read twice in September."""
    farm("power", "price", "0.1625", "--on", "2026-01-01")
    farm("power", "device", "add", "pump", "40 W", "--unit", "WREN", "--on", "2026-09-01")
    farm("power", "device", "add", "blower", "60", "--hours", "6.5", "--on", "2026-09-01", "--until", "2026-09-20")
    farm("power", "meter", "100", "--unit", "WREN", "--on", "2026-09-11", "--note", "new")
    farm("power", "meter", "112.5", "--unit", "WREN", "--on", "2026-09-21")
    return farm


def test_each_entry_says_what_was_understood(farm: Hand) -> None:
    assert farm("power", "price", "0.1625/kWh").err == "Power costs $0.1625 per kWh from 2026-10-14; number 1.\n"
    said = farm("power", "device", "add", "pump", "1.2 kW", "--hours", "90 min", "--unit", "WREN").err
    assert said == "pump, 1200 W, 1 h 30 min a day, for WREN, 2026-10-14 on, entered; number 1.\n"
    assert farm("power", "meter", "1234.5").err == (
        "The meter of the whole farm shows 1234.5 kWh on 2026-10-14; number 1.\n"
    )


def test_the_list_has_everything_with_its_number(powered: Hand) -> None:
    assert powered("power", "list").lines == [
        "what no. day of",
        "device 2 2026-09-01 to 2026-09-20 all blower, 60 W, 6 h 30 min a day",
        "device 1 2026-09-01 on WREN pump, 40 W, 24 h a day",
        "reading 1 2026-09-11 WREN 100.0 kWh",
        "reading 2 2026-09-21 WREN 112.5 kWh",
        "price 1 2026-01-01 $0.1625 per kWh",
    ]
    book = powered("power", "list", "--json").data
    assert [(one["rated_mw"], one["minutes_a_day"], one["until"]) for one in book["devices"]] == [
        (60_000, 390, "2026-09-20"),
        (40_000, 1440, None),
    ]
    assert [(one["shown_wh"], one["note"]) for one in book["readings"]] == [(100_000, "new"), (112_500, None)]
    assert [(one["cents"], one["per_wh"]) for one in book["prices"]] == [(13, 800)]


def test_the_same_day_is_counted_by_the_meter_or_by_rated_watts_never_by_both(powered: Hand) -> None:
    span = ("power", "show", "--from", "2026-09-01", "--to", "2026-09-30")
    # WREN: 20 days of 0.96 kWh and 12.5 kWh by the meter are 31.7 kWh, 5.15; the blower 20 days of 0.39 kWh, 1.27
    assert powered(*span).lines == [
        "Power from 2026-09-01 to 2026-09-30",
        "unit used cost told by",
        "shared 7.8 kWh $1.27 rated watts on 20 days",
        "WREN 31.7 kWh $5.15 the meter on 10 days, rated watts on 20 days",
    ]
    found = powered(*span, "--json").data["places"]
    assert [(one["unit"], one["energy_wh"], one["cost_cents"]) for one in found] == [
        (None, 7800, 127),
        ("WREN", 31_700, 515),
    ]


def test_days_before_the_first_price_are_said_not_counted(farm: Hand) -> None:
    farm("power", "device", "add", "pump", "40", "--unit", "WREN", "--on", "2026-09-01")
    said = farm("power", "show")
    assert said.lines[2] == "WREN 28.8 kWh no price rated watts on 30 days"
    assert "Set one: farmops power price" in said.err


def test_a_slip_is_corrected_ended_or_removed_and_comes_back(powered: Hand) -> None:
    powered("power", "device", "edit", "1", "--watts", "38", "--hours", "20", "--unit", "-", "--from", "2 sep")
    assert powered("power", "device", "end", "1", "--on", "2026-10-01").err == (
        "pump, 38 W, 20 h a day, for all, 2026-09-02 to 2026-10-01, ended; number 1.\n"
    )
    assert powered("power", "device", "edit", "1", "--until", "-", "--json").data["until"] is None
    assert powered("power", "meter", "113", "--unit", "WREN", "--on", "2026-09-21", "--json").data["id"] == 2
    for kind in ("device", "reading", "price"):
        assert powered("power", "remove", kind, "1").err.startswith(f"The {kind} with number 1 removed.")
    assert len(powered("power", "list").lines) == 3
    powered("undo")
    assert len(powered("power", "list").lines) == 4


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["meter", "99", "--unit", "WREN", "--on", "2026-09-30"], "a meter never runs backwards"),
        (["meter", "lots"], "Understood: 1234.5 kWh"),
        (["meter", "5", "--unit", "OWL"], "There is no unit OWL"),
        (["device", "add", "pump", "0"], "is no power"),
        (["device", "add", "pump", "40", "--hours", "25"], "more than 24 h"),
        (["device", "end", "1", "--on", "2026-08-01"], "for the last time on 2026-08-01, before 2026-09-01"),
        (["device", "edit", "1"], "Nothing to change"),
        (["device", "end", "9"], "There is no device 9. See: farmops power list"),
        (["price", "0.16/lb"], "a unit of weight"),
        (["price", "dear"], "is no sum of money"),
        (["remove", "reading", "9"], "There is no reading 9"),
    ],
)
def test_what_cannot_be_is_refused_in_words(powered: Hand, words: list[str], said: str) -> None:
    assert said in powered.refused("power", *words)


def test_nothing_entered_says_how_to_begin(farm: Hand) -> None:
    assert farm("power", "list").err.startswith("Nothing is known of power yet. Begin: farmops power device add")
    assert farm("power", "show").err.startswith("Nothing is known of power yet.")
