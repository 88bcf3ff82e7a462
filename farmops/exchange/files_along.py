"""Photos, receipts and papers that go along with a backup, and whether they are there and what they were."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path

from farmops.exchange.files import write_file
from farmops.model.errors import Refused
from farmops.model.notes import KeptFile
from farmops.model.text import plain


def missing(folder: Path, named: Iterable[KeptFile]) -> tuple[str, ...]:
    """The files, of those that records name, that are not in a folder."""
    return tuple(sorted({one.file for one in named if not (folder / one.file).is_file()}))


def altered(folder: Path, named: Iterable[KeptFile]) -> tuple[str, ...]:
    """The files, of those that records name, whose content is not what it was when they were taken."""
    there = ((one.file, one.sha256) for one in named if (folder / one.file).is_file())
    return tuple(sorted({file for file, sha256 in there if _sum_of(folder / file) != sha256}))


def copy_all(source: Path, target: Path, named: Iterable[KeptFile]) -> int:
    """Copy what records name into a folder, sound files only, each once; returns how many were copied.

    Raises Refused when the folder does not take them.
    """
    wanted = {one.file: one.sha256 for one in named if Path(one.file).name == one.file}
    copied = 0
    for file, sha256 in wanted.items():
        if (source / file).is_file() and not (target / file).exists() and _sum_of(source / file) == sha256:
            _make(target)
            write_file(str(target / file), (source / file).read_bytes())
            copied += 1
    return copied


def _sum_of(path: Path) -> str | None:
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def _make(folder: Path) -> None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{plain(str(folder))} cannot be made: {error.strerror}.") from None
