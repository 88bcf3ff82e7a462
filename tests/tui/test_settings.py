"""Colours that are chosen in the interface are there the next time; settings that cannot be written are said once."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from farmops.records.store import Store
from farmops.reports import lists
from farmops.tui.settings import NotKept, keep_theme, settings_path, theme_from
from tests.tui.demo import on_screen, press, running, until_seen

OF_ONES_OWN = """# mine
theme = "stark"  # for the barn

[keys]
weigh = "f12"
theme = "f11"
"""


@pytest.mark.parametrize(
    "before",
    [
        "",
        OF_ONES_OWN,
        '[keys]\nweigh = "f12"\n',
        'greeting = "hello"\n',
        'theme="evening"',
        "theme = 'morning'\n[keys]\n",
    ],
)
def test_colours_are_written_and_the_rest_stays(tmp_path: Path, before: str) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(before, encoding="utf-8")
    keep_theme(path, "plain-sight")
    assert theme_from(path) == "plain-sight"
    after, was = tomllib.loads(path.read_text(encoding="utf-8")), tomllib.loads(before)
    assert after == {**was, "theme": "plain-sight"}
    assert [line for line in before.splitlines() if "theme" not in line] == [
        line for line in path.read_text(encoding="utf-8").splitlines() if "theme" not in line
    ]
    assert list(tmp_path.iterdir()) == [path]


def test_settings_that_a_line_cannot_change_are_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    before = 'note = """\ntheme = "stark"\n"""\n"theme" = "evening"\n'
    path.write_text(before, encoding="utf-8")
    with pytest.raises(NotKept):
        keep_theme(path, "morning")
    assert path.read_text(encoding="utf-8") == before
    assert list(tmp_path.iterdir()) == [path]


def test_settings_behind_a_link_are_written_where_they_lie(tmp_path: Path) -> None:
    real, link = tmp_path / "kept" / "mine.toml", tmp_path / "settings.toml"
    real.parent.mkdir()
    real.write_text('theme = "stark"\n', encoding="utf-8")
    link.symlink_to(real)
    keep_theme(link, "morning")
    assert link.is_symlink()
    assert theme_from(real) == "morning"


async def test_the_colours_of_the_last_time_are_back(demo_place: str, demo_store: Store, tmp_path: Path) -> None:
    path = tmp_path / "config" / "settings.toml"
    journal = lists.journal(demo_store)
    async with running(demo_place, settings=path) as pilot:
        await press(pilot, "f8", "f8")
        chosen = pilot.app.theme
    assert chosen != "evening"
    assert theme_from(path) == chosen
    assert lists.journal(demo_store) == journal
    async with running(demo_place, settings=path, theme=theme_from(path)) as pilot:
        assert pilot.app.theme == chosen


async def test_settings_that_cannot_be_written_are_said_once(demo_place: str, tmp_path: Path) -> None:
    in_the_way = tmp_path / "config"
    in_the_way.write_text("a file where a folder should be", encoding="utf-8")
    path = in_the_way / "settings.toml"
    async with running(demo_place, settings=path) as pilot:
        await press(pilot, "f8")
        await until_seen(pilot, "! These colours hold until you leave:", "cannot be written.")
        assert pilot.app.theme == "morning"
        await press(pilot, "f3", "f8")
        assert pilot.app.theme == "stark"
        assert "hold until you leave" not in on_screen(pilot.app)


def test_settings_lie_where_the_variable_points(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("FARMOPS_SETTINGS", str(tmp_path / "mine.toml"))
    assert settings_path() == tmp_path / "mine.toml"
