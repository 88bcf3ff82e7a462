"""Backups, restores and the look through the farm, as they are typed."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from farmops.records import copies
from tests.cli.hand import Hand

FOUND = 4


@pytest.fixture(autouse=True)
def _daily(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("FARMOPS_DAILY_BACKUP", raising=False)


def harm(hand: Hand, statement: str) -> None:
    """Change the store past the program."""
    with closing(sqlite3.connect(hand.place)) as connection, connection:
        connection.execute(statement)


def kept(hand: Hand) -> list[str]:
    return [one.made.value for one in copies.backups(str(hand.place))]


def test_the_first_booking_of_a_day_is_followed_by_a_backup(farm: Hand) -> None:
    before = kept(farm)
    farm("notes", "add", "frost on the lids")
    farm("notes", "add", "and on the hose")
    assert [*before, *kept(farm)].count("daily") == 1


def test_reading_makes_no_backup(farm: Hand) -> None:
    farm("chores")
    assert kept(farm) == []


def test_a_daily_backup_that_fails_is_said_and_the_booking_stands(farm: Hand) -> None:
    copies.folder_of(str(farm.place)).write_text("in the way")
    said = farm("notes", "add", "frost on the lids")
    assert "What you booked is safe, but today's backup was not made." in said.err
    assert "frost on the lids" in farm("notes", "list").out


def test_a_backup_is_made_listed_tried_and_put_back(farm: Hand) -> None:
    made = farm("backup", "--json").data
    assert Path(made["file"]).stat().st_size == made["size_bytes"]
    assert [one["file"] for one in farm("backup", "--list", "--json").data["backups"]] == [made["file"]]
    assert "when asked" in farm("backup", "--list").out
    farm("notes", "add", "only after")
    tried = farm("restore", made["file"], "--dry-run")
    assert "can be put back: Hollow Lane" in tried.err
    assert "would be lost: 1 operation." in tried.err
    assert [line.split("Z ")[1] for line in tried.lines] == ["Ada note"]
    assert "only after" in farm("notes", "list").out
    back = farm("restore", made["file"])
    assert "What was there is kept: " in back.err
    assert "only after" not in farm("notes", "list").out


def test_a_backup_says_what_it_holds(farm: Hand, tmp_path: Path) -> None:
    said = farm("backup", "--to", str(tmp_path / "stick.db")).err
    assert said.startswith("Backed up and looked through: ")
    assert (tmp_path / "stick.db").exists()
    assert "is there already" in farm.refused("backup", "--to", str(tmp_path / "stick.db"))


def test_without_a_backup_the_list_says_how_to_make_one(farm: Hand) -> None:
    assert farm("backup", "--list").err == "No backup lies beside the store yet. Make one: farmops backup\n"


def test_a_lost_farm_is_put_back_where_nothing_is(farm: Hand, tmp_path: Path) -> None:
    farm("backup", "--to", str(tmp_path / "stick.db"))
    farm.place.unlink()
    assert farm("restore", str(tmp_path / "stick.db"), "--json").data["farm"] == "Hollow Lane"
    assert "Hollow Lane" in farm("farm", "show").out


def test_the_farm_goes_out_and_comes_in_again(farm: Hand, nowhere: Hand, tmp_path: Path) -> None:
    out = tmp_path / "out"
    found = farm("export", str(out), "--json").data
    assert found["place"] == str(out)
    assert " rows of " in farm("export", str(tmp_path / "out.xlsx")).err
    assert "is there already" in farm.refused("export", str(out))
    new = Hand(tmp_path / "new.db", farm.capsys)
    assert new("import", "package", str(out)).err.startswith(f"Taken in: Hollow Lane, {found['rows']} rows")
    assert new("journal").out == farm("journal").out
    assert "there is a farm in this store already" in new.refused("import", "package", str(out))


def test_a_whole_farm_is_said_to_be_whole(farm: Hand) -> None:
    farm.place.chmod(0o600)
    said = farm("check")
    assert said.err.startswith("All is whole: ")
    assert said.out == ""


def test_what_is_found_is_told_and_ends_with_4(farm: Hand) -> None:
    harm(farm, "UPDATE unit SET position = 77 WHERE id = 1")
    said = farm.types("check", "--json")
    assert said.code == FOUND
    assert ("rows", "unit", 1) in {(one["part"], one["kind"], one["id"]) for one in said.data["findings"]}
    assert "rows: Unit 1 is not what was booked last." in farm.types("check", "--repair").lines


def test_a_due_day_is_repaired(farm: Hand) -> None:
    farm.place.chmod(0o600)
    farm("chores", "add", "Mow", "--every", "Sat")
    harm(farm, "UPDATE chore SET next_due = '2031-01-01' WHERE title = 'Mow'")
    said = farm.types("check")
    assert said.code == FOUND
    assert "farmops check --repair" in said.err
    assert farm("check", "--repair", "--json").data["repaired_due_days"] == 1
    assert farm("journal").lines[1].endswith(farm("journal", "--json").data["journal"][0]["operation"])
