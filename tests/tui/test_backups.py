"""Backups and the look through the farm in Records: made, told before they are put back, put right where it can be."""

from __future__ import annotations

import sqlite3
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, closing
from datetime import date
from pathlib import Path

import pytest

from farmops.exchange.backups import backups
from farmops.farm import daily
from farmops.farm.notes import add_note
from farmops.model.notes import NewNote
from farmops.records import copies
from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.app import FarmApp
from farmops.tui.screens.record_kinds import KINDS
from tests.tui.demo import (
    LARGE,
    Driver,
    go_to,
    listing_of,
    on_screen,
    press,
    running,
    until,
    until_seen,
)

DAY = date(2026, 10, 14)


@asynccontextmanager
async def in_records(place: str, kind: str, **options: bool) -> AsyncIterator[Driver]:
    """Records, with a kind open."""
    at = next(number for number, one in enumerate(KINDS) if one.name == kind)
    async with running(place, size=LARGE, **options) as pilot:
        await go_to(pilot, "records")
        await press(pilot, *["comma"] * (len(KINDS) - at))
        await until_seen(pilot, f"[{KINDS[at].title}]")
        yield pilot


def noted(store: Store) -> list[str | None]:
    return [one.text for one in lists.notes(store, DAY, DAY)]


def harm(store: Store, statement: str) -> None:
    store.close()
    with closing(sqlite3.connect(store.place)) as connection, connection:
        connection.execute(statement)


async def test_a_backup_is_made_and_put_back_after_what_is_lost_was_told(demo_store: Store) -> None:
    async with in_records(demo_store.place, "backups") as pilot:
        await until_seen(pilot, "No backup lies beside the farm yet")
        await press(pilot, "n", "f2")
        await until(pilot, lambda: len(backups(demo_store)) == 1, "a backup")
        await until_seen(pilot, "when asked", "Backed up and looked through")
        add_note(demo_store, NewNote(DAY, "only after"), by="Ada")
        await press(pilot, "enter")
        await until_seen(pilot, "Put back the backup of", "would be lost: 1 operation")
        assert "only after" in noted(demo_store)
        await press(pilot, "f2")
        await until_seen(pilot, "Put back: Quillet Bank")
        assert "only after" not in noted(demo_store)
        await until_seen(pilot, "of what was replaced")


async def test_the_whole_farm_goes_out_as_files_and_as_a_workbook(demo_store: Store, tmp_path: Path) -> None:
    async with in_records(demo_store.place, "backups") as pilot:
        await press(pilot, "n")
        box = pilot.app.screen.box  # type: ignore[attr-defined]
        box("form").text, box("to").text = "CSV files", str(tmp_path / "out")
        await press(pilot, "f2")
        await until(pilot, lambda: (tmp_path / "out" / "datapackage.json").exists(), "the files")
        await until_seen(pilot, "rows of")
        await press(pilot, "n")
        box = pilot.app.screen.box  # type: ignore[attr-defined]
        box("form").text, box("to").text = "a workbook", str(tmp_path / "out")
        await press(pilot, "f2")
        await until(pilot, lambda: (tmp_path / "out.xlsx").exists(), "the workbook")


async def test_what_a_look_through_finds_is_listed_and_put_right(demo_store: Store) -> None:
    Path(demo_store.place).chmod(0o600)
    harm(demo_store, "UPDATE chore SET next_due = '2031-01-01' WHERE id = 7")
    async with in_records(demo_store.place, "findings") as pilot:
        await until_seen(pilot, "stands as due 2031-01-01")
        await press(pilot, "n")
        await until_seen(pilot, "Put right: 1 due day.")
        await until(pilot, lambda: "2031-01-01" not in on_screen(pilot.app), "the list anew")
        await press(pilot, "n")
        await until_seen(pilot, "Nothing here can be put right without a decision")
        assert "stands as due" not in listing_of(pilot.app).as_text("table")


@pytest.mark.parametrize("blocked", [False, True])
async def test_the_first_booking_on_the_screen_is_followed_by_a_backup(
    demo_store: Store, blocked: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(FarmApp, "notify", lambda app, words, **_: said.append(words))
    monkeypatch.delenv(daily.VARIABLE, raising=False)
    if blocked:
        copies.folder_of(demo_store.place).write_text("in the way")
    async with in_records(demo_store.place, "people", daily_backups=True) as pilot:
        await press(pilot, "n", *"Cy", "f2")
        if blocked:
            await until(pilot, lambda: any("What you booked is safe" in words for words in said), "the trouble")
        else:
            await until(pilot, lambda: [one.made.value for one in backups(demo_store)] == ["daily"], "the backup")
        assert "Cy" in [one.name for one in lists.people(demo_store)]
