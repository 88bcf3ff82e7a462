"""`--why` with `--json`: beside every number the tree it came from, whose value is that number."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.cli.hand import Hand

PER_STORED = {
    "mg": 1e-3,
    "mm2": 1e-6,
    "mg per mm2": 1e3,
    "minor per mg": 1e6,
    "minor per mm2": 1e6,
    "minor per minute": 60,
}
"""What one of the unit of storage is in the unit that the key names."""
ASKING = (
    ("returns",),
    *(("returns", "--by", by) for by in ("bed", "crop", "lot", "month", "year")),
    ("fish", "grow", "P1"),
    ("water", "balance", "WREN"),
    ("payback",),
    ("rank", "--rate", "15"),
    ("compare", "WREN", "SWIFT"),
    ("compare", "WREN-N", "WREN-S"),
    ("power", "show"),
    ("supplies", "list"),
    ("supplies", "show", "pellets"),
)


@pytest.fixture
def booked(farm: Hand) -> Hand:
    """Hollow Lane with some of everything that answers in figures."""
    for words in (
        ("harvest", "WREN", "P1", "10 oz", "--use", "home", "--count", "2", "--on", "2026-10-01"),
        ("power", "device", "add", "pump", "40 W", "--unit", "WREN", "--on", "2026-09-01"),
        ("power", "price", "0.16", "--on", "2026-09-10"),
        ("supplies", "add", "pellets", "--category", "feed"),
        ("supplies", "buy", "pellets", "10 lb", "12.34", "--on", "2026-09-01"),
        ("supplies", "use", "pellets", "3 lb", "--unit", "WREN", "--on", "2026-09-02"),
        ("supplies", "count", "pellets", "8 lb", "--on", "2026-09-03"),
        ("fish", "fed", "P1", "20 g", "--on", "2026-10-01"),
    ):
        farm(*words)
    return farm


def explained(value: Any) -> Iterator[tuple[str, object, dict[str, Any]]]:
    """Every tree of an answer with its key and the number beside it."""
    if isinstance(value, list):
        for one in value:
            yield from explained(one)
    elif isinstance(value, dict):
        named = {one["name"]: one["value"] for one in value.get("lines", ())}
        for key, tree in value.get("why", {}).items():
            yield key, named[key] if key in named else value[key], tree
        for key, one in value.items():
            if key != "why":
                yield from explained(one)


def canonical(key: str, tree: dict[str, Any]) -> float | None:
    """The value of a tree in the unit that a key names."""
    stored = "_" not in key
    return None if tree["value"] is None else tree["value"] * (1 if stored else PER_STORED.get(tree["unit"], 1))


@pytest.mark.parametrize("words", ASKING, ids=" ".join)
def test_the_value_of_each_tree_is_the_number_beside_it(booked: Hand, words: tuple[str, ...]) -> None:
    found = list(explained(booked(*words, "--json", "--why").data))
    assert any(number for _, number, _ in found)
    for key, number, tree in found:
        assert canonical(key, tree) == (None if number is None else pytest.approx(number, abs=1e-5)), key
        assert tree["reason"] if number is None else tree["formula"]


def test_no_tree_stands_where_none_was_asked_for(booked: Hand) -> None:
    assert [words for words in ASKING if list(explained(booked(*words, "--json").data))] == []


@pytest.mark.parametrize("words", ASKING, ids=" ".join)
def test_trees_without_json_are_refused_with_the_way_to_read_them(booked: Hand, words: tuple[str, ...]) -> None:
    assert "To read one number: farmops why" in booked.refused(*words, "--why")


def test_a_number_of_anything_opens_by_its_name(booked: Hand) -> None:
    assert booked("why", "mean-weight", "--lot", "p1").lines[0].startswith("weight of one: 0.5 oz")
    assert booked("why", "worth", "--supply", "pellets").lines[0].startswith("worth of pellets held: $")
    assert "feeding 1: P1, 2026-10-01 0.71 oz" in booked("why", "feed", "--unit", "WREN").lines
    assert "one of --bed, --crop" in booked.refused("why", "yield", "--bed", "WREN-N", "--crop", "CHARD")
    assert "Known of a fish lot: fish, cost-per-pound" in booked.refused("why", "joy", "--lot", "P1")
