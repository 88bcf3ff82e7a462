"""farmops water: readings booked, listed, judged, corrected and removed; chores done with what was read."""

from __future__ import annotations

import pytest

from tests.cli.hand import Hand


def add(farm: Hand, *words: str) -> None:
    farm("water", "add", "WREN", *words)


def test_several_readings_are_booked_together_and_each_is_judged(farm: Hand) -> None:
    said = farm("water", "add", "WREN", "pH", "7.2", "temp", "72F", "amm", "<0.25", "nitrite", "2", "--at", "7:30")
    assert "Booked: WREN pH 7.2: good." in said.err
    assert "Booked: WREN ammonia <0.25 mg/L as N: good." in said.err
    assert "WREN nitrite 2 mg/L as N: harmful for fish: 6.57 mg/L as ion is above 1" in said.err
    assert "First: no feed, air on full, change part of the water." in said.err
    farm("undo")
    assert "No reading here. Book some: farmops water add" in farm("water", "list").err


def test_json_names_the_unit_of_each_value(farm: Hand) -> None:
    said = farm(
        "water", "add", "WREN", "nitrate", "40", "--as-ion", "--note", "old kit", "--on", "2026-10-13", "--json"
    )
    (one,) = said.data["readings"]
    assert one["value"] == pytest.approx(9.036, abs=0.001)
    assert (one["in"], one["form"], one["typed"], one["date"]) == ("mg/L as N", "as ion", "40", "2026-10-13")
    assert (one["verdict"], one["note"], one["time"]) == ("good", "old kit", None)


def test_a_list_is_narrowed_by_unit_measure_and_days(farm: Hand) -> None:
    add(farm, "pH", "7.0", "--on", "2026-10-01")
    add(farm, "pH", "7.1", "ammonia", "0.5", "--on", "2026-10-05")
    farm("water", "add", "SWIFT", "pH", "7.4", "--on", "2026-10-05")
    assert farm("water", "list", "--unit", "wren", "--measure", "ph").lines[1:] == [
        "1 2026-10-01 WREN pH 7 good",
        "2 2026-10-05 WREN pH 7.1 good",
    ]
    rows = farm("water", "list", "--from", "2026-10-05", "--json").data["readings"]
    assert [(one["unit"], one["typed"]) for one in rows] == [("WREN", "7.1"), ("WREN", "0.5"), ("SWIFT", "7.4")]


def test_a_unit_shows_its_latest_readings_the_worst_first(farm: Hand) -> None:
    add(farm, "pH", "7.0", "--on", "2026-10-01")
    add(farm, "pH", "8.8", "oxygen", "3", "potassium", "30", "--on", "2026-10-12")
    said = farm("water", "show", "WREN")
    assert said.lines[0] == "WREN, latest readings up to 2026-10-14"
    firsts = [line.split()[0] for line in said.lines[1:] if not line.startswith(("First", "Source"))]
    assert firsts == ["oxygen", "pH", "potassium"]
    assert "dangerous for fish: 3 mg/L is below 4" in said.lines[1]
    assert said.lines[2] == "First: air on full now, no feed; look at pump, stones and filter."
    assert said.lines[-1] == "potassium 30 mg/L, 2026-10-12: no limit known here"
    assert farm("water", "show", "WREN", "--on", "2026-10-02", "--json").data["readings"][0]["typed"] == "7.0"
    assert "No reading here" in farm("water", "show", "SWIFT").err


def test_a_reading_is_corrected_and_removed_by_its_number(farm: Hand) -> None:
    add(farm, "nitrite", "0.5", "--at", "7:30")
    changed = farm("water", "edit", "1", "--value", "0.6", "--at", "-", "--note", "read again", "--json").data
    assert (changed["value"], changed["time"], changed["note"]) == (0.6, None, "read again")
    assert farm("water", "edit", "1", "--as-ion", "--json").data["value"] == pytest.approx(0.1827, abs=1e-4)
    assert "(0.6 as ion)" in farm("water", "list").out
    farm("water", "remove", "1")
    assert farm("water", "list", "--json").data["readings"] == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["add", "WREN", "pH"], "The value of 'pH' is missing."),
        (["add", "WREN", "pH", "19"], 'pH: "19" cannot be: pH lies within 0 to 14. Understood: 7.2, <6.'),
        (
            ["add", "WREN", "pH", "10"],
            "pH 10, is that right? Readings are 4.5 to 9.5 as a rule. If it is, say so: --sure",
        ),
        (["add", "WREN", "nit", "1"], "'nit' could be nitrite or nitrate"),
        (["add", "WREN", "nitrite", "1 ion", "--as-n"], 'nitrite: "1 ion" says as ion, not as N.'),
        (["add", "WREN", "pH", "7", "--at", "noon"], "'noon' is no time of day"),
        (["add", "RAVEN", "pH", "7"], "There is no unit RAVEN."),
        (["edit", "9", "--value", "7"], "There is no reading 9. See: farmops water list"),
        (["remove", "9"], "There is no reading 9."),
    ],
)
def test_what_cannot_be_booked_is_refused_in_words(farm: Hand, words: list[str], told: str) -> None:
    assert told in farm.refused("water", *words)


def test_an_unlikely_reading_is_booked_when_it_is_sure(farm: Hand) -> None:
    assert farm("water", "add", "WREN", "pH", "10", "--sure", "--json").data["readings"][0]["value"] == 10.0


@pytest.fixture
def testing(farm: Hand) -> Hand:
    """Three chores of WREN: 90 asks for two readings, 91 insists on the flow, 92 is plain."""
    day = ["--every", "day", "--from", "2026-10-14"]
    for title, more in (
        ("Test", ["--unit", "WREN", "--reading", "pH", "--reading", "nitrite", "--reading", "rust"]),
        ("Look", ["--confirmation", "flow seen"]),
        ("Rinse", ["--unit", "WREN"]),
    ):
        farm("chores", "add", title, *day, *more)
    return farm


def number(farm: Hand, title: str) -> str:
    return next(str(one["id"]) for one in farm("chores", "list", "--json").data["chores"] if one["title"] == title)


def test_a_chore_is_done_with_what_was_read_and_what_was_not_is_said(testing: Hand) -> None:
    said = testing("chores", "done", number(testing, "Test"), "--reading", "pH=7.2", "--minutes", "6")
    assert "done: Test, WREN; next 2026-10-15." in said.err
    assert "WREN pH 7.2: good." in said.err
    assert "Not read: nitrite. Later: farmops water add WREN nitrite ..." in said.err
    history = testing("chores", "history", number(testing, "Test"))
    assert history.lines[-1].endswith("pH 7.2")
    (past,) = testing("chores", "history", number(testing, "Test"), "--json").data["history"]
    assert [(one["measure"], one["settlement"]) for one in past["readings"]] == [("pH", 1)]
    testing("undo")
    assert testing("water", "list", "--json").data["readings"] == []


def test_json_says_what_was_read_and_what_was_not(testing: Hand) -> None:
    chore = number(testing, "Test")
    words = ["--reading", "nitrite=0.5", "--as-ion", "--reading", "iron=2", "--json"]
    (done,) = testing("chores", "done", chore, *words).data["settled"]
    assert done["not_read"] == ["pH"]
    assert [(one["measure"], one["form"]) for one in done["readings"]] == [("nitrite", "as ion"), ("iron", None)]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--reading", "pH"], "'pH' is no reading. Understood: a measure, = and its value, such as pH=7.2."),
        (["--reading", "=7"], "'' is no reading"),
        (["--reading", "pH=10"], "is that right?"),
        (["--reading", "rust=1"], "'rust' is nothing that is read here"),
    ],
)
def test_readings_with_a_doing_are_refused_in_words(testing: Hand, words: list[str], told: str) -> None:
    assert told in testing.refused("chores", "done", number(testing, "Test"), *words)


def test_readings_belong_to_one_chore_and_to_a_unit(testing: Hand) -> None:
    test, look = number(testing, "Test"), number(testing, "Look")
    assert "readings are of one unit" in testing.refused("chores", "done", test, look, "--reading", "pH=7")
    words = testing.refused("chores", "done", look, "--confirm", "--reading", "pH=7")
    assert "Look belongs to the whole farm, a reading to one unit." in words


def test_a_confirmation_can_be_said_in_its_words(testing: Hand) -> None:
    look = number(testing, "Look")
    assert "Look asks for flow seen, not fish seen." in testing.refused(
        "chores", "done", look, "--confirm", "fish seen"
    )
    (done,) = testing("chores", "done", look, "--confirm", "Flow", "--json").data["settled"]
    assert done["confirmed"] == "flow seen"
    rinse = number(testing, "Rinse")
    assert "asks for no confirmation" in testing.refused("chores", "done", rinse, "--confirm", "flow seen")


def sheet(farm: Hand) -> str:
    test, look, rinse = (number(farm, title) for title in ("Test", "Look", "Rinse"))
    return f"# Wednesday\n{test} 6min pH=7.1 nitrite=0.1\n{look} flow seen\n{rinse} pH=11\n99999 done\nsomething\n"


def test_a_sheet_is_booked_line_by_line_and_undone_at_once(testing: Hand) -> None:
    file = testing.place.parent / "sheet.txt"
    file.write_text(sheet(testing), encoding="utf-8")
    before = testing.stored()
    said = testing.types("chores", "book", str(file))
    assert said.code == 4
    assert "done: Test, WREN; next 2026-10-15." in said.err
    assert "line 4: Not booked yet: pH 11, is that right?" in said.err
    assert "line 5: There is no chore 99999." in said.err
    assert "line 6: 'something' begins with no number of a chore." in said.err
    assert "2 booked, 3 refused. farmops undo takes the whole sheet back." in said.err
    testing("undo")
    assert [row for row in testing.stored() if "journal" not in row and "sqlite_sequence" not in row] == [
        row for row in before if "journal" not in row and "sqlite_sequence" not in row
    ]


def test_all_or_nothing_books_nothing_when_a_line_is_refused(testing: Hand) -> None:
    test, rinse = number(testing, "Test"), number(testing, "Rinse")
    rows = ["--row", f"{test} pH=7.1", "--row", f"{rinse} pH=11", "--all-or-nothing"]
    assert "line 2: Not booked yet: pH 11" in testing.refused("chores", "book", *rows)
    assert testing("chores", "book", *rows, "--sure").err.endswith("the whole sheet back.\n")


def test_json_tells_each_line(testing: Hand) -> None:
    test = number(testing, "Test")
    said = testing.types("chores", "book", "--row", f"{test} 6 min pH=7.1", "--row", "99999", "--json")
    assert said.code == 4
    (done,), (refused,) = said.data["booked"], said.data["refused"]
    assert (done["line"], done["chore"], done["minutes"], done["not_read"]) == (1, int(test), 6, ["nitrite"])
    assert refused == {"line": 2, "chore": None, "reason": "There is no chore 99999. See: farmops chores list"}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "Name a file, - for what is piped in, or lines with --row"),
        (["sheet.txt", "--row", "1"], "one of them"),
        (["nowhere.txt"], "nowhere.txt cannot be read: No such file or directory."),
        (["--row", " "], "There is no line to book."),
        (["--row", "99999"], "0 booked, 1 refused."),
    ],
)
def test_a_sheet_of_which_nothing_is_booked_ends_on_one(testing: Hand, words: list[str], told: str) -> None:
    assert told in testing.refused("chores", "book", *words)


def test_a_sheet_is_read_from_what_is_piped_in(testing: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    import io

    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(f"{number(testing, 'Rinse')} x\n".encode())))
    assert "done: Rinse, WREN" in testing("chores", "book", "-").err


def test_a_file_that_is_no_text_is_refused(testing: Hand) -> None:
    file = testing.place.parent / "sheet.txt"
    file.write_bytes(b"12 caf\xe9")
    assert "sheet.txt is no text in UTF-8." in testing.refused("chores", "book", str(file))
