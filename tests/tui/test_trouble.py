"""Living with the interface: others who write, a store in trouble, faults of the program, poor terminals."""

from __future__ import annotations

import asyncio
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from rich.color import Color as RichColor
from rich.color import ColorSystem
from rich.segment import Segment
from rich.style import Style
from textual.app import App
from textual.color import Color
from textual.filter import Monochrome

from farmops import main
from farmops.farm.chores import settle
from farmops.model.chores import SettledAs, Settling
from farmops.model.errors import NotUnderstood, StoreUnavailable
from farmops.records import dialects
from farmops.records.store import Store
from farmops.reports import lists
from farmops.reports.round import round_of
from farmops.tui.screens.frame import Frame
from farmops.tui.screens.weigh import Weigh
from farmops.tui.start import start
from farmops.tui.themes import THEMES
from farmops.tui.work import Failed, Ready
from tests.tui.demo import (
    PLACE_KEYS,
    SMALL,
    Driver,
    go_to,
    go_to_chore,
    on_screen,
    press,
    running,
    seen,
    until,
    until_seen,
)

DEAD_LOCK_S = 1
READABLE = 3.0
"""The least contrast of what a person must see, as WCAG 2 has it for large text and for controls."""


def settle_elsewhere(store: Store, title: str) -> None:
    """Another person settles the first chore of that title in a program of their own."""
    chosen = next(one for one in round_of(store).due if one.chore.title.startswith(title))
    entry = Settling(chosen.chore.id, SettledAs.DONE, chosen.due, confirmed=chosen.chore.confirmation)
    settle(store, entry, by="Tobit")


@contextmanager
def locked(place: str) -> Iterator[None]:
    """Another program holds the store for writing."""
    other = sqlite3.connect(place, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        yield
    finally:
        other.rollback()
        other.close()


async def leave(pilot: Driver) -> int | None:
    """Press q, and what the shell is told."""
    await press(pilot, "escape", "escape")
    await pilot.press("q")
    await until(pilot, lambda: pilot.app.return_code is not None, "the end")
    return pilot.app.return_code


async def test_a_change_made_elsewhere_shows_by_itself(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await until_seen(pilot, "19 to do")
        settle_elsewhere(demo_store, "Test ammonia")
        await until_seen(pilot, "18 to do")
        assert await leave(pilot) == 0


async def test_a_busy_store_is_said_and_the_weighing_comes_back(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dialects, "BUSY_SECONDS", DEAD_LOCK_S)
    async with running(demo_place) as pilot:
        with locked(demo_place):
            await press(pilot, "h", "0", "space", "3", "enter")
            await until_seen(pilot, "! 0 3: ", "is busy", "Weight          0 3")
            await press(pilot, "escape")
        await press(pilot, "h")
        await until_seen(pilot, "0 3", "Filled in with what you typed before you left.")
        await press(pilot, "enter")
        await until_seen(pilot, "Booked: 3 oz")
    assert [one.mass_typed for one in lists.harvests(demo_store, *[lists.farm(demo_store).today()] * 2)] == ["0 3"]


async def test_a_busy_store_settles_nothing_and_leaves_with_its_exit_code(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(dialects, "BUSY_SECONDS", DEAD_LOCK_S)
    async with running(demo_place) as pilot:
        await go_to_chore(pilot, "Feed the fish")
        with locked(demo_place):
            await press(pilot, "space", "a")
            await until_seen(pilot, " ! ", "is busy: another program has been writing")
            assert await leave(pilot) == StoreUnavailable.exit_code
    assert not round_of(demo_store).settled


async def test_a_file_that_may_only_be_read_is_read(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = sqlite3.connect

    def only_to_read(place: str, **options: Any) -> sqlite3.Connection:
        return whole(f"file:{place}?mode=ro", **options | {"uri": True})

    monkeypatch.setattr("farmops.records.dialects.sqlite3.connect", only_to_read)
    async with running(demo_place) as pilot:
        await until_seen(pilot, "19 to do")
        await go_to_chore(pilot, "Feed the fish")
        await press(pilot, "space", "a")
        await until_seen(pilot, " ! ", "may only be read", "19 to do")
        await until(pilot, lambda: pilot.app.exit_code == StoreUnavailable.exit_code)
    monkeypatch.undo()
    assert not round_of(demo_store).settled


def newer(place: str) -> None:
    with sqlite3.connect(place) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()


def corrupt(place: str) -> None:
    Path(place).write_bytes(b"SQLite format 3\0" + os.urandom(40_000))


def no_store(place: str) -> None:
    Path(place).write_text("a shopping list\n" * 400, encoding="utf-8")


def misnamed(place: str) -> None:
    """A letter of the text that lays the chores is another one."""
    content = Path(place).read_bytes()
    assert b"\tnext_due TEXT" in content
    Path(place).write_bytes(content.replace(b"\tnext_due TEXT", b"\tnext_duf TEXT"))


@pytest.mark.parametrize("spoil", [newer, corrupt, no_store, misnamed])
async def test_a_store_that_cannot_be_read_is_said_and_q_leaves_with_a_failure(demo_place: str, spoil: Any) -> None:
    spoil(demo_place)
    async with running(demo_place, read=False) as pilot:
        await until_seen(pilot, " ! ", "q leaves; F2 tries again.")
        words = on_screen(pilot.app)
        assert "Error" not in words
        assert "Traceback" not in words
        assert await leave(pilot) not in (0, None)


async def test_what_a_damaged_store_cannot_show_is_told_as_damage(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        with closing(sqlite3.connect(demo_place)) as connection, connection:
            connection.execute("UPDATE cost SET day = '2026-0x-20'")
        await press(pilot, "f5")
        await until_seen(pilot, " ! ", "is damaged. Book nothing more there.")
        await press(pilot, "f2")
        await until_seen(pilot, "Look round: flow")
        assert await leave(pilot) == StoreUnavailable.exit_code


async def test_a_store_that_comes_back_is_read_again_on_f2(demo_place: str) -> None:
    whole = Path(demo_place).read_bytes()
    no_store(demo_place)
    async with running(demo_place, read=False) as pilot:
        await until_seen(pilot, "F2 tries again.")
        Path(demo_place).write_bytes(whole)
        await press(pilot, "f2")
        await until_seen(pilot, "Quillet Bank", "19 to do")
        assert await leave(pilot) == 0


async def test_a_file_that_is_taken_away_is_told_and_seen_when_it_is_back(demo_place: str) -> None:
    aside = Path(f"{demo_place}.aside")
    async with running(demo_place) as pilot:
        Path(demo_place).rename(aside)
        await until_seen(pilot, " ! ", "What is on the screen may be old.", "Look round: flow")
        aside.rename(demo_place)
        await until(pilot, lambda: "may be old" not in on_screen(pilot.app), "all well again")
        Path(demo_place).rename(aside)
        await until_seen(pilot, "is not there any more", "may be old")
        await press(pilot, "h", "0", "space", "3", "enter")
        await until_seen(pilot, "! 0 3: ", "is not there any more", "Weight          0 3")
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, Frame)
        assert list(aside.parent.glob(f"{Path(demo_place).name}*")) == [aside]
        assert await leave(pilot) == StoreUnavailable.exit_code


async def test_a_fault_is_told_in_words_with_a_report_that_holds_nothing_of_the_farm(
    demo_place: str, demo_store: Store, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def fault(*_: Any, **__: Any) -> None:
        raise ZeroDivisionError("secret of Quillet Bank")

    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr("farmops.farm.harvests.record_harvest", fault)
    async with running(demo_place) as pilot:
        await press(pilot, "h", "1", "space", "6", "enter")
        await until_seen(pilot, "farmops has a fault (ZeroDivisionError)", "Weight          1 6")
        await press(pilot, "escape")
        monkeypatch.setattr("farmops.farm.chores.settle_many", fault)
        await go_to_chore(pilot, "Feed the fish")
        await press(pilot, "space", "a")
        await until_seen(pilot, "! farmops has a fault (ZeroDivisionError)", "19 to do")
        await press(pilot, "3")
        await until_seen(pilot, "┏ 3 ━")
    reports = [one.read_text(encoding="utf-8") for one in tmp_path.glob("farmops-fault-*.txt")]
    assert len(reports) == 2
    assert all("Quillet" not in text and "secret" not in text and "ZeroDivisionError" in text for text in reports)
    assert not round_of(demo_store).settled


async def test_what_was_read_for_a_screen_that_closes_meanwhile_goes_nowhere(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "h")
        scale = pilot.app.screen
        assert isinstance(scale, Weigh)
        came: list[str] = []
        await scale._on_message(Ready(came.append, "while it is open"))
        pilot.app.pop_screen()
        while not scale._pruning:
            await asyncio.sleep(0)
        assert scale.is_attached
        await scale._on_message(Ready(came.append, "while it closes"))
        await scale._on_message(Failed(StoreUnavailable("while it closes")))
        assert came == ["while it is open"]
        await until(pilot, lambda: not scale.is_attached, "the end of it")


async def test_a_terminal_of_twenty_by_five_and_back(demo_place: str) -> None:
    async with running(demo_place) as pilot:
        before = seen(pilot.app)
        for place in ("returns", "beds", "records", "chores"):
            await pilot.resize_terminal(20, 5)
            await go_to(pilot, place)
            assert max(len(line) for line in seen(pilot.app)) <= 20
        await press(pilot, "h", "?", "escape", "escape")
        await pilot.resize_terminal(*SMALL)
        await until(pilot, lambda: seen(pilot.app) == before, "the screen as it was")


@pytest.mark.parametrize("place", ["chores", "beds", "fish", "money", "returns", "records"])
async def test_without_colours_all_is_there_and_readable(
    demo_place: str, monkeypatch: pytest.MonkeyPatch, place: str
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with running(demo_place) as pilot:
        await go_to(pilot, place)
        assert pilot.app.no_color
        lines = seen(pilot.app)
        assert any(line.startswith("▸") for line in lines)
        assert any("[" in line and "]" in line for line in lines)
        assert "┏ 0 ━" in on_screen(pilot.app)
        grey = Monochrome()
        for strip in pilot.app.screen._compositor.render_strips():
            assert all(readable(segment) for segment in grey.apply(list(strip), Color(0, 0, 0)))


def readable(segment: Any) -> bool:
    """Whether the text stands out from its ground; blanks need not."""
    style = segment.style
    if not segment.text.strip() or style is None or style.color is None or style.bgcolor is None:
        return True
    front, ground = style.color.get_truecolor(), style.bgcolor.get_truecolor()
    return sum(abs(one - other) for one, other in zip(front, ground, strict=True)) > 100


@pytest.mark.parametrize("theme", [theme.name for theme in THEMES])
async def test_sixteen_colours_are_enough_to_read(demo_place: str, theme: str) -> None:
    async with running(demo_place, theme=theme) as pilot:
        for place in PLACE_KEYS:
            await go_to(pilot, place)
            for segment in segments(pilot.app):
                assert contrast_in_sixteen(segment.style) >= READABLE, (place, segment)
        await press(pilot, "h")
        await until_seen(pilot, "Weigh a harvest")
        for segment in segments(pilot.app):
            assert contrast_in_sixteen(segment.style) >= READABLE, segment


def segments(app: App[Any]) -> list[Segment]:
    """What is written on the screen, run by run; drawn lines are no writing."""
    strips = app.screen._compositor.render_strips()
    return [one for strip in strips for one in strip if one.style and any(sign.isalnum() for sign in one.text)]


def contrast_in_sixteen(style: Style) -> float:
    """How much lighter one of the two colours is than the other, from 1 to 21, on a terminal of sixteen colours."""
    pair = [color for color in (style.color, style.bgcolor) if color is not None]
    lights = sorted(luminance(color.downgrade(ColorSystem.STANDARD)) for color in pair)
    return (lights[-1] + 0.05) / (lights[0] + 0.05) if len(pair) == 2 else READABLE


def luminance(color: RichColor) -> float:
    """The relative luminance of WCAG 2."""
    parts = [part / 255 for part in color.get_truecolor()]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_keys_that_clash_are_refused_at_the_start_in_words(
    demo_place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    settings = tmp_path / "settings.toml"
    monkeypatch.setenv("FARMOPS_SETTINGS", str(settings))
    monkeypatch.setattr("farmops.tui.start.cannot_draw", lambda: None)
    settings.write_text('[keys]\nweigh = "u"\n', encoding="utf-8")
    assert main.run(["--farm", demo_place]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("The key u means two things in chores: weigh and undo.")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('theme = "neon"\n', "there are no colours 'neon'"),
        ("[keys\n", "cannot be read"),
        ('[keys]\nfly = "f"\n', "There is no action 'fly'"),
    ],
)
def test_settings_that_mean_nothing_are_refused(
    demo_place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, words: str
) -> None:
    settings = tmp_path / "settings.toml"
    settings.write_text(text, encoding="utf-8")
    monkeypatch.setenv("FARMOPS_SETTINGS", str(settings))
    with pytest.raises(NotUnderstood, match=words):
        start(demo_place, "Ada")


@pytest.mark.parametrize("terminal", ["dumb", ""])
def test_where_nothing_can_be_drawn_the_round_is_printed(
    demo_place: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], terminal: str
) -> None:
    monkeypatch.setenv("TERM", terminal)
    assert main.run(["--farm", demo_place]) == 0
    said = capsys.readouterr()
    assert said.out.startswith("Quillet Bank, Wednesday 14 October 2026: 19 to do, 2 late")
    assert "\x1b" not in said.out
    assert said.err.startswith(f"No screens on this terminal ({'TERM=dumb' if terminal else 'TERM is not set'}), so")
    assert said.err.count("\n") == 1


async def test_the_round_goes_on_after_the_last_chore(demo_place: str, demo_store: Store) -> None:
    async with running(demo_place) as pilot:
        await press(pilot, "1")
        await until_seen(pilot, "WREN    ┃", "Pick what is ready")
        await go_to_chore(pilot, "Feed the fish")
        await press(pilot, "space", "a")
        await until_seen(pilot, "Done: Feed the fish, WREN.")
        await go_to_chore(pilot, "Pick what is ready")
        await press(pilot, "space")
        await until_seen(pilot, "Done: Pick what is ready, WREN-N.", "Settled")
        await press(pilot, "space")
        await until_seen(pilot, "There is no chore under the cursor that is still to do.")
    assert len(round_of(demo_store).settled) == 2
