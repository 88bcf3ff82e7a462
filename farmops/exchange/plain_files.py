"""Reading a file that a person names: a plain one, not larger than such a file can be."""

from __future__ import annotations

from pathlib import Path

from farmops.model.errors import NotFound, NotUnderstood
from farmops.model.text import plain

MEGABYTE = 1_000_000


def content_of(path: Path, largest: int, advice: str = "Name another.") -> bytes:
    """What a plain file holds, at most `largest` bytes; `advice` says what to do with a larger one.

    Raises:
        NotFound: there is no such file, or it cannot be read.
        NotUnderstood: it is a folder, a pipe or a device, which could keep a reader waiting for ever, or too large.
    """
    must_be_plain(path, largest, advice)
    try:
        with path.open("rb") as file:
            content = file.read(largest + 1)
    except OSError as error:
        raise _unreadable(path, error) from None
    if len(content) > largest:  # some files are larger than they say
        raise _too_large(path, largest, advice)
    return content


def must_be_plain(path: Path, largest: int, advice: str = "Name another.") -> None:
    """Raises what `content_of` would, without reading."""
    try:
        size = path.stat().st_size
    except (OSError, ValueError) as error:
        raise _unreadable(path, error) from None
    if not path.is_file():
        raise NotUnderstood(f"{plain(str(path))} is no plain file. Name one.")
    if size > largest:
        raise _too_large(path, largest, advice)


def _too_large(path: Path, largest: int, advice: str) -> NotUnderstood:
    size = f"{largest // MEGABYTE} MB" if largest >= MEGABYTE else f"{largest:,} bytes"
    return NotUnderstood(f"{plain(path.name)} is larger than {size}. {advice}")


def _unreadable(path: Path, error: Exception) -> NotFound:
    why = getattr(error, "strerror", None) or str(error)
    return NotFound(f"{plain(str(path))} cannot be read: {why}.")
