"""A person's own settings: where they lie, what they say, and the colours that were chosen last, kept there."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

from farmops.exchange.plain_files import content_of
from farmops.model.errors import FarmopsError, NotUnderstood
from farmops.tui.themes import FIRST, THEMES

VARIABLE = "FARMOPS_SETTINGS"
LARGEST = 1_000_000
ADVICE = "Mend it, or put it aside to have the keys and colours there were."
FIRST_TABLE = re.compile(r"^[ \t]*\[", re.MULTILINE)
THEME_LINE = re.compile(r"^theme[ \t]*=.*$", re.MULTILINE)


class NotKept(FarmopsError):
    """A choice that holds until the interface is closed, but could not be written down."""


def settings_path() -> Path:
    """The file of a person's own keys and colours: FARMOPS_SETTINGS, or one in the platform's settings folder."""
    named = os.environ.get(VARIABLE)
    if named:
        return Path(named)
    from platformdirs import user_config_path

    return user_config_path("farmops", appauthor=False) / "settings.toml"


def settings_in(path: Path) -> dict[str, Any]:
    """What the file says, nothing when there is none. Raises NotFound or NotUnderstood when it cannot be read."""
    if not path.exists():
        return {}
    import tomllib

    try:
        return tomllib.loads(content_of(path, LARGEST, ADVICE).decode())
    except RecursionError:
        raise NotUnderstood(f"{path} cannot be read: lists within lists without end. {ADVICE}") from None
    except (UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise NotUnderstood(f"{path} cannot be read: {error}. {ADVICE}") from error


def theme_from(path: Path) -> str:
    """The colours named in the settings. Raises NotUnderstood for a name we do not have."""
    name = settings_in(path).get("theme", FIRST)
    names = [theme.name for theme in THEMES]
    if name not in names:
        raise NotUnderstood(f"{path}: there are no colours {name!r}. Known: {', '.join(names)}.")
    return str(name)


def keep_theme(path: Path, name: str) -> None:
    """Write the colours into the settings and leave the rest as it stands. Raises NotKept when that cannot be done."""
    try:
        before = settings_in(path)
        text = path.read_text(encoding="utf-8") if path.exists() else ""
        _replace(path, with_theme(text, name), {**before, "theme": name})
    except (OSError, FarmopsError) as error:
        raise NotKept(f"These colours hold until you leave: {path} cannot be written.") from error


def with_theme(text: str, name: str) -> str:
    """The text of settings with other colours in it: in the place of the ones named before, or at the top."""
    line = f'theme = "{name}"'
    first_table = FIRST_TABLE.search(text)
    end = first_table.start() if first_table else len(text)
    if THEME_LINE.search(text, 0, end):
        return THEME_LINE.sub(line, text[:end], count=1) + text[end:]
    return f"{line}\n{text}"


def _replace(path: Path, text: str, meaning: dict[str, Any]) -> None:
    """Put a new file in the place of the old one, whole or not at all; what it means was read again before."""
    whole = path.resolve()
    whole.parent.mkdir(parents=True, exist_ok=True)
    fresh = whole.with_name(f"{whole.name}.new")
    fresh.write_text(text, encoding="utf-8")
    try:
        if settings_in(fresh) != meaning:
            raise NotKept("The settings would mean something else.")
        fresh.replace(whole)
    finally:
        fresh.unlink(missing_ok=True)
