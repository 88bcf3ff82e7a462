"""Opening the interface: settings read, keys checked, the exit code handed on."""

from __future__ import annotations

import os
import sys

from farmops.tui.actions import keys_from, remapped
from farmops.tui.app import FarmApp
from farmops.tui.settings import settings_path, theme_from


def cannot_draw() -> str | None:
    """Why the interface cannot be shown here, in a sentence; None where it can."""
    terminal = os.environ.get("TERM", "")
    if terminal in ("", "dumb"):
        name = f"TERM={terminal}" if terminal else "TERM is not set"
        return f"No screens on this terminal ({name}), so this is the round; all commands work: farmops --help"
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return "No screens without a terminal to read keys from and to draw on, so this is the round."
    return None


def start(place: str, by: str, *, daily_backups: bool = True) -> int:
    """Open the interface on a store and return the exit code. Raises NotUnderstood for settings that clash."""
    path = settings_path()
    actions = remapped(keys_from(path))
    app = FarmApp(place, by, actions=actions, theme=theme_from(path), settings=path, daily_backups=daily_backups)
    app.run()
    return app.return_code or 0
