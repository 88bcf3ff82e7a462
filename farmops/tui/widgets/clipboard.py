"""Text to the clipboard: by a tool of the desktop where one works, else by asking the terminal."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from typing import Any

from textual.app import App

from farmops.model.frozen import dataclass

PATIENCE_S = 2.0
"""How long a tool may take before the next one is tried."""


@dataclass(frozen=True, slots=True)
class Tool:
    """A program that takes text on its standard input to the clipboard."""

    name: str
    arguments: tuple[str, ...] = ()
    encoding: str = "utf-8"


WAYLAND = Tool("wl-copy", ("--type", "text/plain;charset=utf-8"))
X11 = (Tool("xclip", ("-selection", "clipboard", "-in")), Tool("xsel", ("--clipboard", "--input")))
MAC = Tool("pbcopy")
WINDOWS = Tool("clip.exe", encoding="utf-16")


def copy(app: App[Any], text: str, *, patience_s: float = PATIENCE_S) -> str:
    """Copy the text and say in words what worked. Waits for other programs, so it is to be called from a thread.

    Raises:
        RuntimeError: called from the thread of the app.
    """
    if not text:
        return "There is nothing to copy."
    if not app.is_web:
        for tool in tools_here(os.environ):
            if _took(tool, text, patience_s):
                return f"Copied {_lines(text)} with {tool.name}."
    app.call_from_thread(app.copy_to_clipboard, text)
    return f"Sent {_lines(text)} to the terminal's clipboard; whether it took that cannot be known here."


def tools_here(environment: Mapping[str, str], platform: str = sys.platform) -> Iterator[Tool]:
    """The tools that reach the clipboard of the person at the screen, not that of a machine far away."""
    if environment.get("WAYLAND_DISPLAY"):
        yield WAYLAND
    if environment.get("DISPLAY"):
        yield from X11
    if "SSH_CONNECTION" not in environment:
        if platform == "darwin":
            yield MAC
        if platform == "win32" or environment.get("WSL_DISTRO_NAME"):
            yield WINDOWS


def _took(tool: Tool, text: str, patience_s: float) -> bool:
    """Whether the tool is here, ended in time and said that it went well."""
    program = shutil.which(tool.name)
    if program is None:
        return False
    try:
        done = subprocess.run(  # its output stays shut: such a tool lives on to serve what it holds
            [program, *tool.arguments],
            input=text.encode(tool.encoding, "replace"),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=patience_s,
            check=False,
        )
    except (OSError, subprocess.SubprocessError):
        return False
    return done.returncode == 0


def _lines(text: str) -> str:
    count = text.count("\n") + 1
    return "1 line" if count == 1 else f"{count:,} lines"
