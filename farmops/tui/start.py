"""Opening the interface: settings read, keys checked, the exit code handed on."""

from __future__ import annotations

import os
import sys
import tomllib
from pathlib import Path

from farmops.model.errors import NotUnderstood
from farmops.tui.actions import keys_from, remapped
from farmops.tui.app import FarmApp
from farmops.tui.themes import FIRST, THEMES

VARIABLE = "FARMOPS_SETTINGS"


def can_draw() -> bool:
    """Whether this terminal can show the interface at all."""
    return sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM", "") not in ("", "dumb")


def settings_path() -> Path:
    """The file of a person's own keys and colours: FARMOPS_SETTINGS, or one in the platform's settings folder."""
    named = os.environ.get(VARIABLE)
    if named:
        return Path(named)
    from platformdirs import user_config_path

    return user_config_path("farmops", appauthor=False) / "settings.toml"


def theme_from(path: Path) -> str:
    """The colours named in the settings. Raises NotUnderstood for a name we do not have."""
    if not path.exists():
        return FIRST
    try:
        name = tomllib.loads(path.read_text(encoding="utf-8")).get("theme", FIRST)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise NotUnderstood(f"{path} cannot be read: {error}.") from error
    names = [theme.name for theme in THEMES]
    if name not in names:
        raise NotUnderstood(f"{path}: there are no colours {name!r}. Known: {', '.join(names)}.")
    return str(name)


def start(place: str, by: str) -> int:
    """Open the interface on a store and return the exit code. Raises NotUnderstood for settings that clash."""
    path = settings_path()
    app = FarmApp(place, by, actions=remapped(keys_from(path)), theme=theme_from(path))
    app.run()
    return app.return_code or 0
