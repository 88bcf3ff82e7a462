"""The round on paper and the chores in a calendar: what the two commands write, refuse and say."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.hand import TODAY, Hand
from tests.exchange.calendars import titled, todos
from tests.exchange.printed import size_of, text_read

DAY_OF_IT = "Wednesday 14 October 2026"


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_the_round_is_printed_on_the_paper_of_the_farm(farm: Hand) -> None:
    said = farm("chores", "print", "--out", "round.pdf")
    assert said.out == ""
    assert said.err.startswith(f"{DAY_OF_IT}, ")
    assert said.err.endswith(" (letter) in round.pdf.\n")
    content = Path("round.pdf").read_bytes()
    assert size_of(content) == (612.0, 792.0)
    assert f"Hollow Lane {DAY_OF_IT}" in text_read(content)
    assert Path("round.pdf").stat().st_mode & 0o777 == 0o600


def test_the_paper_the_day_and_the_unit_can_be_named(farm: Hand) -> None:
    said = farm("chores", "print", "--out", "a.pdf", "--paper", "a4", "--on", "tomorrow", "--unit", "wren", "--json")
    assert said.data["file"] == "a.pdf"
    assert said.data["paper"] == "a4"
    assert "Hollow Lane, WREN Thursday 15 October 2026" in text_read(Path("a.pdf").read_bytes())


def test_a_file_that_is_there_is_replaced_only_when_told(farm: Hand) -> None:
    Path("round.pdf").write_text("mine", encoding="utf-8")
    assert "round.pdf is there already." in farm.refused("chores", "print", "--out", "round.pdf")
    assert Path("round.pdf").read_text(encoding="utf-8") == "mine"
    farm("chores", "print", "--out", "round.pdf", "--replace")
    assert Path("round.pdf").read_bytes().startswith(b"%PDF")


def test_the_text_goes_to_stdout_alone(farm: Hand) -> None:
    farm("chores", "add", "Oil the <b>door</b>", "--every", "day", "--from", TODAY)
    said = farm("chores", "print", "--text")
    assert said.err == ""
    assert said.out.startswith(f"Hollow Lane\n{DAY_OF_IT}\n")
    assert "Oil the <b>door</b>" in said.out
    assert farm("chores", "print", "--text", "--json").data["text"] == said.out


def test_the_text_can_be_a_file_too(farm: Hand) -> None:
    said = farm("chores", "print", "--text", "--out", "round.txt")
    assert said.out == ""
    assert said.err.endswith(": plain text in round.txt.\n")
    assert Path("round.txt").read_text(encoding="utf-8") == farm("chores", "print", "--text").out


def test_where_to_has_to_be_said(farm: Hand) -> None:
    assert "--out FILE for a PDF, or --text" in farm.refused("chores", "print", code=2)


def test_what_could_not_be_drawn_is_said(farm: Hand) -> None:
    farm("chores", "add", "養魚", "--every", "day", "--from", TODAY)
    assert "Not drawn: 養 魚; " in farm("chores", "print", "--out", "round.pdf").err
    assert farm("chores", "print", "--out", "round.pdf", "--replace", "--json").data["not_drawn"] == "養魚"


def test_a_font_that_is_none_is_refused(farm: Hand) -> None:
    Path("mine.ttf").write_text("no font", encoding="utf-8")
    words = farm.refused("chores", "print", "--out", "round.pdf", "--font", "mine.ttf")
    assert words.startswith("mine.ttf is no font that can be printed")
    assert not Path("round.pdf").exists()


def test_an_empty_farm_has_an_empty_sheet(bare: Hand) -> None:
    assert "0 to do: 1 page" in bare("chores", "print", "--out", "round.pdf").err
    assert "Nothing is due on this day. There is no unit yet" in text_read(Path("round.pdf").read_bytes())
    assert "Nothing is due on this day." in bare("chores", "print", "--text").out


def test_the_chores_go_into_a_calendar(farm: Hand) -> None:
    farm("chores", "add", "Oil the door", "--every", "month on the 31st", "--from", TODAY)
    said = farm("chores", "calendar", "--out", "chores.ics")
    assert said.out == ""
    count = len({str(one["UID"]) for one in todos(Path("chores.ics").read_bytes())})
    assert said.err == f"{count} chores to come and 0 settled in chores.ics.\n"
    (oil,) = titled(Path("chores.ics").read_bytes(), "Oil the door")
    assert oil["RRULE"].to_ical() == b"FREQ=MONTHLY;BYMONTHDAY=28,29,30,31;BYSETPOS=-1"
    assert Path("chores.ics").stat().st_mode & 0o777 == 0o600


def test_done_ones_stand_in_the_calendar_as_far_back_as_asked(farm: Hand) -> None:
    farm("chores", "add", "Oil the door", "--every", "day", "--from", "2026-10-01")
    number = next(
        one["id"] for one in farm("chores", "list", "--json").data["chores"] if one["title"] == "Oil the door"
    )
    farm("chores", "done", str(number), "--on", "2026-10-10")
    assert farm("chores", "calendar", "--out", "chores.ics", "--json").data["settled"] == 1
    assert farm("chores", "calendar", "--out", "chores.ics", "--days", "4", "--replace", "--json").data["settled"] == 0
    assert farm("chores", "calendar", "--out", "later.ics", "--on", "2026-10-24", "--json").data["settled"] == 0


def test_a_calendar_is_not_written_over_another_unasked(farm: Hand) -> None:
    farm("chores", "calendar", "--out", "chores.ics")
    assert "chores.ics is there already." in farm.refused("chores", "calendar", "--out", "chores.ics")
    farm("chores", "calendar", "--out", "chores.ics", "--replace")


def test_an_empty_farm_has_no_calendar(bare: Hand) -> None:
    assert "Nothing written: no chore is to come" in bare.refused("chores", "calendar", "--out", "chores.ics")
    assert not Path("chores.ics").exists()
