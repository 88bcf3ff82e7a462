"""`farmops supplies` from the bag that is bought to the day it runs out."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


@pytest.fixture
def stocked(farm: Hand) -> Hand:
    """Two bags of pellets at two prices, fed from in October, and pads that were there."""
    farm("supplies", "add", "pellets", "--category", "feed", "--reorder", "10 lb")
    farm("supplies", "buy", "pellets", "20 lb", "24", "--on", "2026-09-20", "--good-until", "2026-10-10")
    farm("supplies", "buy", "Pellets", "20 lb", "36", "--on", "2026-10-01", "--lot", "B-7", "--from-whom", "The mill")
    for day in ("2026-10-05", "2026-10-12"):
        farm("supplies", "use", "pellets", "7 lb", "--unit", "WREN", "--on", day)
    farm("supplies", "add", "filter pads", "--by", "count", "--reorder", "2")
    farm("supplies", "buy", "filter pads", "6", "--on", "2026-09-01")
    return farm


def test_a_bag_that_is_among_the_costs_already_is_asked_about(farm: Hand) -> None:
    farm("supplies", "add", "pellets", "--category", "feed")
    farm("costs", "add", "pellets 20 lb", "31.40", "--on", "10 oct")
    farm("costs", "add", "rope", "31.40", "--on", "9 oct")
    bag = ("supplies", "buy", "pellets", "20 lb", "31.40", "--on")
    assert farm.refused(*bag, "10 oct").endswith("Was it paid twice? If it was, say so: --again\n")
    farm(*bag, "9 oct")
    farm(*bag, "10 oct", "--again")
    farm.refused(*bag, "10 oct")


def test_each_entry_says_what_was_understood(farm: Hand) -> None:
    assert farm("supplies", "add", "pellets", "--category", "feed", "--reorder", "10").err == (
        "pellets, feed, counted by weight, to reorder at 10 lb, entered; number 1.\n"
    )
    assert farm("supplies", "buy", "pellets", "50 lb", "42.50").err == (
        "Bought: 50 lb of pellets, for $42.50, on 2026-10-14; number 1.\n"
    )
    assert farm("supplies", "buy", "pellets", "2 lb").err.startswith("Bought: 2 lb of pellets, there already")
    assert farm("supplies", "use", "pellets", "1 4", "--unit", "WREN").err == (
        "used: 1 lb 4 oz of pellets for WREN, 2026-10-14; number 1.\n"
    )
    assert farm("supplies", "use", "pellets", "1 lb", "--thrown-away").err.startswith(
        "thrown away: 1 lb of pellets for all"
    )
    assert farm("supplies", "count", "pellets", "48 lb").err == "counted: 48 lb of pellets, 2026-10-14; number 3.\n"
    assert farm("costs", "list").lines[-1].split()[2:5] == ["pellets", "feed", "$42.50"]


def test_the_list_says_what_is_held_its_worth_and_for_how_long(stocked: Hand) -> None:
    # 20 lb at 24 and 20 at 36 are 40 lb at 60; 14 are used, 26 left at 39.00; 14 lb in the 25 days since the first bag
    # lasts 26 / 0.56 = 46.4 days; what is left is the second bag and 6 lb of the first, which is past its date
    assert stocked("supplies", "list").lines == [
        "no. supply held worth days left good until",
        "2 filter pads 6 $0.00",
        "1 pellets 26 lb $39.00 46 2026-10-10 past its date",
    ]
    stocked("supplies", "use", "pellets", "17 lb", "--on", "2026-10-13")
    assert stocked("supplies", "list").lines[2] == "1 pellets 9 lb $13.50 7 to reorder"
    assert stocked("supplies", "list", "--on", "2026-09-30").lines[2] == "1 pellets 20 lb $24.00 2026-10-10"
    (pads, pellets) = stocked("supplies", "list", "--json").data["supplies"]
    assert (pads["held"], pads["held_in"], pads["days_left"], pads["to_reorder"]) == (6, "pieces", None, False)
    assert (pellets["held"], pellets["worth_cents"], pellets["to_reorder"]) == (4_082_330, 1350, True)


def test_one_supply_is_shown_with_what_came_and_went(stocked: Hand) -> None:
    assert stocked("supplies", "show", "PELLETS").lines == [
        "pellets, feed: 26 lb held, worth $39.00, lasts 46 days at the rate of the last 28",
        "> past its date",
        "no. day amount",
        "bought 2 2026-10-01 20 lb $36.00 The mill, lot B-7",
        "bought 1 2026-09-20 20 lb $24.00 good until 2026-10-10",
        "used 2 2026-10-12 7 lb WREN",
        "used 1 2026-10-05 7 lb WREN",
    ]


def test_more_than_the_books_hold_is_taken_and_said_until_it_is_counted(stocked: Hand) -> None:
    said = stocked("supplies", "use", "filter pads", "8").err
    assert said.endswith(
        '2 more was taken than the books held. Count it: farmops supplies count "filter pads" AMOUNT\n'
    )
    assert "2 more was taken than bought: count it" in stocked("supplies", "list").lines[1]
    stocked("supplies", "count", "filter pads", "3")
    assert stocked("supplies", "list").lines[1] == "2 filter pads 3 $0.00 14"


def test_a_slip_is_corrected_or_removed_and_comes_back(stocked: Hand) -> None:
    assert stocked(
        "supplies", "edit", "pellets", "--name", "fish feed", "--reorder", "-", "--category", "other"
    ).err == ("fish feed, other, counted by weight, changed; number 1.\n")
    told = stocked(
        "supplies", "edit-bought", "2", "--paid", "30", "--opened", "2026-10-02", "--good-until", "-", "--json"
    )
    assert (told.data["paid_cents"], told.data["opened"], told.data["good_until"]) == (3000, "2026-10-02", None)
    told = stocked("supplies", "edit-used", "2", "--amount", "6 lb", "--unit", "-", "--on", "2026-10-11", "--json")
    assert (told.data["amount_typed"], told.data["unit"], told.data["date"]) == ("6 lb", None, "2026-10-11")
    assert stocked("supplies", "remove", "used", "2").err.startswith("What was used of fish feed removed.")
    assert stocked("supplies", "remove", "bought", "2").err.startswith("What was bought of fish feed removed.")
    assert [line.split()[-2] for line in stocked("costs", "list", "--category", "feed").lines[2:]] == ["$24.00"]
    assert "records belong to it" in stocked.refused("supplies", "remove", "supply", "1")
    stocked("undo")
    assert [line.split()[4] for line in stocked("costs", "list", "--category", "feed").lines[2:]] == [
        "$24.00",
        "$30.00",
    ]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["use", "salt", "1"], "There is no supply of that name. Known: filter pads, pellets."),
        (["use", "pellets", "many"], "Understood: 1 lb 6 oz"),
        (["use", "filter pads", "1.5"], "is no number of pieces"),
        (["use", "filter pads", "0"], "0 pieces are none"),
        (["use", "pellets", "1", "--unit", "OWL"], "There is no unit OWL"),
        (["buy", "pellets", "1 lb", "--from-whom", "Lee"], "so say how much"),
        (["buy", "pellets", "1 lb", "5", "--good-until", "2026-10-01"], "would be past its date"),
        (["add", "PELLETS"], "already a supply pellets"),
        (["edit", "pellets"], "Nothing to change"),
        (["edit-bought", "9", "--paid", "5"], "Nothing bought has the number 9"),
        (["edit-used", "9", "--amount", "5"], "Nothing used or counted has the number 9"),
        (["remove", "supply", "9"], "There is no supply 9"),
    ],
)
def test_what_cannot_be_is_refused_in_words(stocked: Hand, words: list[str], said: str) -> None:
    assert said in stocked.refused("supplies", *words)


def test_nothing_entered_says_how_to_begin(farm: Hand) -> None:
    assert farm("supplies", "list").err.startswith("No supply yet. Enter one: farmops supplies add")
    assert "Add one with: farmops supplies add" in farm.refused("supplies", "show", "pellets")
