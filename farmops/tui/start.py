"""Opening the interface: settings read, keys checked, the exit code handed on."""

from __future__ import annotations

import os
import sys

from farmops.tui.actions import keys_from, remapped
from farmops.tui.app import FarmApp
from farmops.tui.settings import settings_path, theme_from


def can_draw() -> bool:
    """Whether this terminal can show the interface at all."""
    return sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM", "") not in ("", "dumb")


def start(place: str, by: str, *, daily_backups: bool = True) -> int:
    """Open the interface on a store and return the exit code. Raises NotUnderstood for settings that clash."""
    path = settings_path()
    actions = remapped(keys_from(path))
    app = FarmApp(place, by, actions=actions, theme=theme_from(path), settings=path, daily_backups=daily_backups)
    app.run()
    return app.return_code or 0
