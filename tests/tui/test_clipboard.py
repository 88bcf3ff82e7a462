"""Text to the clipboard: it says only what worked."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path

import pytest
from textual.app import App

from farmops.tui.widgets.clipboard import copy, tools_here

Put = Callable[[str, str], Path]

TAKES = 'cat > "$0.took"'
ON_ASKING = "whether it took that cannot be known here."


@pytest.fixture
def put(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Put:
    """Puts a program of this name on an otherwise bare path; gives the file in which it keeps what it took."""
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    for name in ("WAYLAND_DISPLAY", "DISPLAY", "WSL_DISTRO_NAME", "SSH_CONNECTION"):
        monkeypatch.delenv(name, raising=False)

    def place(name: str, does: str) -> Path:
        program = tmp_path / name
        program.write_text(f"#!/bin/sh\n{does}\n")
        program.chmod(0o755)
        return tmp_path / f"{name}.took"

    return place


async def _copied(text: str, patience_s: float = 10.0) -> tuple[str, str]:
    """The words that came back, and what the terminal was asked to keep."""
    app: App[None] = App()
    async with app.run_test():
        words = await asyncio.to_thread(copy, app, text, patience_s=patience_s)
        return words, app.clipboard


async def test_a_tool_that_works_is_named(put: Put, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    took = put("xclip", TAKES)
    assert await _copied("a\tb\nc\nkäse 採") == ("Copied 3 lines with xclip.", "")
    assert took.read_text(encoding="utf-8") == "a\tb\nc\nkäse 採"
    assert (await _copied("one"))[0] == "Copied 1 line with xclip."


async def test_a_tool_that_fails_is_passed_over(put: Put, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    put("xclip", "cat > /dev/null; exit 1")
    put("xsel", TAKES)
    assert await _copied("text") == ("Copied 1 line with xsel.", "")


async def test_a_tool_that_never_ends_is_not_waited_for(put: Put, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    put("xclip", "exec sleep 60")
    put("xsel", "exit 3")
    words, asked = await _copied("text", patience_s=0.3)
    assert words == f"Sent 1 line to the terminal's clipboard; {ON_ASKING}"
    assert asked == "text"


async def test_a_tool_that_lives_on_to_serve_its_text_is_not_waited_for(
    put: Put, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    took = put("wl-copy", f"{TAKES}; sleep 6 & exit 0")
    assert (await _copied("text", patience_s=3.0))[0] == "Copied 1 line with wl-copy."
    assert took.read_text() == "text"


async def test_a_tool_that_cannot_be_started_is_passed_over(put: Put, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISPLAY", ":0")
    took = put("xclip", "")
    took.with_name("xclip").write_bytes(b"\x7fELF no program at all")
    put("xsel", "exit 1")
    assert (await _copied("text"))[0].startswith("Sent 1 line")


async def test_without_a_desktop_the_terminal_is_asked(put: Put) -> None:
    put("xclip", TAKES)
    put("wl-copy", TAKES)
    words, asked = await _copied("a\nb")
    assert words == f"Sent 2 lines to the terminal's clipboard; {ON_ASKING}"
    assert asked == "a\nb"


async def test_nothing_is_not_copied(put: Put) -> None:
    assert await _copied("") == ("There is nothing to copy.", "")


@pytest.mark.parametrize(
    ("environment", "platform", "names"),
    [
        ({"WAYLAND_DISPLAY": "w", "DISPLAY": ":0"}, "linux", ["wl-copy", "xclip", "xsel"]),
        ({"DISPLAY": ":0", "SSH_CONNECTION": "a b"}, "linux", ["xclip", "xsel"]),
        ({}, "darwin", ["pbcopy"]),
        ({"SSH_CONNECTION": "a b"}, "darwin", []),
        ({"WSL_DISTRO_NAME": "Debian"}, "linux", ["clip.exe"]),
        ({}, "win32", ["clip.exe"]),
        ({}, "linux", []),
    ],
)
def test_only_the_clipboard_of_the_person_at_the_screen(
    environment: dict[str, str], platform: str, names: list[str]
) -> None:
    assert [tool.name for tool in tools_here(environment, platform)] == names
