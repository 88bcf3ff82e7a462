"""`farmops chores history|load|month`."""

from __future__ import annotations

import pytest

from tests.cli.hand import TODAY, Hand

RINSE = (
    "chores",
    "add",
    "Rinse",
    "--every",
    "3 days after",
    "--from",
    "2026-10-05",
    "--unit",
    "WREN",
    "--minutes",
    "5",
)


@pytest.fixture
def row(bare: Hand) -> Hand:
    """One unit; rinsed late by Ada, in time by Bo; left out once."""
    bare("units", "add", "WREN", "--state", "running", "--on", "2026-03-01", "--no-chores")
    bare(*RINSE)
    bare("chores", "done", "1", "--on", "2026-10-07", "--minutes", "9")
    bo = Hand(bare.place, bare.capsys, "Bo")
    bo("chores", "done", "1", "--on", "2026-10-10", "--minutes", "4")
    bare("chores", "skip", "1", "--on", "2026-10-13", "--why", "rain")
    return bare


def test_one_chore_tells_how_it_went_and_every_line(row: Hand) -> None:
    assert row("chores", "history", "1").lines == [
        "Rinse, 3 days after doing, next 2026-10-16",
        "2 done; 1 left out; 1 late by up to 2 days; usually 6.5 min, estimated 5; by Bo 1, Ada 1",
        "day how was due took who why read",
        "2026-10-13 skipped 2026-10-13 Ada rain",
        "2026-10-10 done 2026-10-10 4 min Bo",
        "2026-10-07 done 2026-10-05 9 min Ada",
    ]
    found = row("chores", "history", "1", "--json").data
    assert {key: found[key] for key in ("done", "skipped", "deferred", "late", "most_days_late", "missed")} == {
        "done": 2,
        "skipped": 1,
        "deferred": 0,
        "late": 1,
        "most_days_late": 2,
        "missed": 0,
    }
    assert (found["median_minutes"], found["timed"], found["minutes_said"]) == (6.5, 2, 5)
    assert found["by"] == [{"who": "Bo", "times": 1}, {"who": "Ada", "times": 1}]
    assert [one["on"] for one in found["history"]] == ["2026-10-13", "2026-10-10", "2026-10-07"]


def test_all_chores_are_told_in_a_table(row: Hand) -> None:
    row("chores", "add", "Sweep", "--every", "once", "--from", "2026-11-01")
    assert row("chores", "history").lines == [
        "Hollow Lane, 2026-07-15 to 2026-10-14",
        "no. where chore done left out late missed min by",
        "1 WREN Rinse 2 1 1 6.5 of 5 Bo 1, Ada 1",
    ]
    found = row("chores", "history", "--from", "2026-10-09", "--to", "2026-10-11", "--json").data
    assert (found["from"], found["to"]) == ("2026-10-09", "2026-10-11")
    assert [(one["chore"], one["where"], one["done"], one["late"]) for one in found["chores"]] == [(1, "WREN", 1, 0)]


def test_where_nothing_was_settled_it_says_so(row: Hand) -> None:
    assert row("chores", "history", "--to", "2026-09-01").err == "Nothing was settled from 2026-06-02 to 2026-09-01.\n"
    row("chores", "add", "Sweep", "--every", "once", "--from", "2026-11-01")
    assert row("chores", "history", "2").err == "Sweep was never settled; due 2026-11-01.\n"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["history", "9"], "There is no chore 9"),
        (["history", "--unit", "OWL"], "There is no unit OWL"),
        (["history", "--from", "tomorrow", "--to", "today"], "before it begins"),
        (["load", "--unit", "OWL"], "There is no unit OWL"),
        (["load", "--for", "Eve"], "There is no person Eve"),
        (["month", "--month", "octember"], "is no month"),
        (["month", "--unit", "OWL"], "There is no unit OWL"),
    ],
)
def test_what_cannot_be_is_refused_in_words(row: Hand, words: list[str], said: str) -> None:
    assert said in row.refused("chores", *words)


def test_the_load_of_the_days_ahead(row: Hand) -> None:
    row("chores", "add", "Feed", "--every", "day", "--from", "2026-10-13", "--minutes", "10")
    said = row("chores", "load", "--days", "3")
    assert said.lines == [
        "Hollow Lane, 3 days from Wed 2026-10-14: 35 min, 12 min a day",
        "day chores min",
        f"Wed 2026-10-14 1 10 {'=' * 16} 1 late",
        f"Thu 2026-10-15 1 10 {'=' * 16}",
        f"Fri 2026-10-16 2 15 {'=' * 24}",
    ]
    found = row("chores", "load", "--days", "3", "--json").data
    assert (found["from"], found["to"], found["minutes"]) == (TODAY, "2026-10-16", 35)
    assert [day["minutes"] for day in found["days"]] == [10, 10, 15]
    assert [one["title"] for one in found["days"][2]["chores"]] == ["Feed", "Rinse"]
    assert found["days"][0]["chores"][0]["late"] is True


def test_the_load_of_each_person(row: Hand) -> None:
    row("people", "add", "Ada")
    row("people", "add", "Cy")
    row("chores", "edit", "1", "--person", "Cy")
    row("chores", "add", "Feed", "--every", "day", "--from", TODAY, "--minutes", "10")
    assert row("chores", "load", "--days", "3", "--people").lines[1:] == [
        "day chores min Cy anyone",
        f"Wed 2026-10-14 1 10 10 {'=' * 16}",
        f"Thu 2026-10-15 1 10 10 {'=' * 16}",
        f"Fri 2026-10-16 2 15 5 10 {'=' * 24}",
    ]
    assert (
        row("chores", "load", "--days", "3", "--for", "Ada")
        .lines[0]
        .endswith("for Ada, 3 days from Wed 2026-10-14: 30 min, 10 min a day")
    )
    by = row("chores", "load", "--days", "3", "--json").data["days"][2]["by"]
    assert by == [{"who": "anyone", "minutes": 10}, {"who": "Cy", "minutes": 5}]


def test_a_month_at_a_glance(row: Hand) -> None:
    told = row("chores", "month").out.splitlines()
    assert told[0] == "October 2026, Hollow Lane: 2 done, 13 min; 6 to come, 30 min"
    assert told[5].startswith(" 5 1 late   6          7          8")
    assert told[6].startswith(" -          -          1 9m       -")
    assert ">14" in told[8]
    november = row("chores", "month", "--month", "nov", "--unit", "wren", "--json").data
    assert (november["month"], november["on"], november["unit"]) == ("2026-11", TODAY, "WREN")
    assert [day["day"] for day in november["days"] if day["expected"]][:2] == ["2026-11-03", "2026-11-06"]


def test_without_chores_it_says_what_to_do_first(bare: Hand) -> None:
    assert bare("chores", "load").err.startswith("No chore yet. Add one: farmops chores add")
    assert bare("chores", "month").err.startswith("No chore yet. Add one: farmops chores add")
    assert "Nothing was settled" in bare("chores", "history").err
