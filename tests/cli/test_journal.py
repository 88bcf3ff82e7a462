"""`farmops undo`, `redo` and `journal`: who did what, and taking it back."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


def newest(hand: Hand) -> dict[str, object]:
    """The newest line of the journal."""
    (found,) = hand("journal", "--most", "1", "--json").data["journal"]
    return dict(found)


def test_the_journal_says_who_did_what_when_newest_first(farm: Hand) -> None:
    farm.by = "Bo"
    farm("people", "add", "Bo")
    found = farm("journal", "--json").data["journal"]
    assert [one["seq"] for one in found] == sorted((one["seq"] for one in found), reverse=True)
    first = found[0]
    assert {name: first[name] for name in ("by", "through", "name", "at", "undone", "undoes", "redoes")} == {
        "by": "Bo",
        "through": "command",
        "name": "add person",
        "at": "2026-10-14T16:00:00+00:00",
        "undone": False,
        "undoes": None,
        "redoes": None,
    }
    table = farm("journal", "--most", "2").lines
    assert table[0] == "no. when who through what operation"
    assert table[1] == f"{first['seq']} 2026-10-14 16:00:00Z Bo command add person {first['operation']}"
    assert len(table) == 3


def test_undo_takes_back_ones_own_last_and_redo_does_it_again(farm: Hand) -> None:
    farm("harvest", "WREN-N", "CHARD", "2 lb")
    farm.by = "Bo"
    farm("people", "add", "Bo")
    farm.by = "Ada"
    assert farm("undo").err == "Undone: harvest of Ada, 2 lb, WREN-N CHARD, 14 Oct; 1 row.\n"
    assert [one["id"] for one in farm("harvests", "list", "--json").data["harvests"]] == [1]
    assert farm("redo").err == "Done again: harvest of Ada, 2 lb, WREN-N CHARD, 14 Oct; 1 row.\n"
    assert [one["id"] for one in farm("harvests", "list", "--json").data["harvests"]] == [1, 2]
    assert farm("people", "show", "Bo").out == "Bo\n"


def test_any_operation_is_undone_by_its_id_in_full_or_in_short(farm: Hand) -> None:
    farm("people", "add", "Bo")
    id = str(newest(farm)["operation"])
    farm("people", "add", "Cy")
    said = farm("undo", id, "--json").data
    assert said == {"schema": 1, "operation": id, "name": "add person", "by": "Ada", "rows": 1}
    assert farm("people", "list").lines == ["name note", "Ada mornings", "Cy"]
    assert farm("redo", id, "--json").data["operation"] == id
    assert newest(farm)["redoes"] == id


def test_the_journal_marks_what_was_undone(farm: Hand) -> None:
    farm("people", "add", "Bo")
    id = newest(farm)["operation"]
    farm("undo")
    lines = farm("journal", "--most", "2").lines
    assert f"undo {id}" in lines[1]
    assert "add person (undone)" in lines[2]


def test_what_was_written_over_since_is_not_undone(farm: Hand) -> None:
    farm("people", "add", "Bo")
    id = str(newest(farm)["operation"])
    farm("people", "edit", "Bo", "--note", "weekends")
    assert "was changed later by 'change person' of Ada" in farm.refused("undo", id)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["undo", "01a211c6"], "no one operation"),
        (["undo", "%"], "no one operation"),
        (["undo", "'"], "no one operation"),
        (["redo"], "has undone nothing"),
        (["redo", "no such"], "no one operation"),
    ],
)
def test_what_cannot_be_is_refused_in_words(farm: Hand, words: list[str], said: str) -> None:
    assert said in farm.refused(*words)


@pytest.mark.parametrize("words", [["journal", "--most", "0"], ["journal", "--most", "all"], ["undo", "a", "b"]])
def test_wrong_usage_ends_on_2(farm: Hand, words: list[str]) -> None:
    farm.refused(*words, code=2)


def test_somebody_who_booked_nothing_has_nothing_to_undo(farm: Hand) -> None:
    farm.by = "Bo"
    assert "Bo has booked nothing" in farm.refused("undo")


def test_the_opening_of_the_farm_stays(bare: Hand) -> None:
    assert "this opened the farm" in bare.refused("undo")
