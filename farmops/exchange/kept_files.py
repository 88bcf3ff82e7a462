"""Files that the farm keeps: copies beside the store, named by their content, readable by their owner alone."""

from __future__ import annotations

import hashlib
import os
from enum import StrEnum
from pathlib import Path

from farmops.exchange.files import write_file
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.model.notes import KeptFile
from farmops.model.text import LONGEST_NAME, plain
from farmops.reports.store import Store


class Kept(StrEnum):
    """How a kept file stands today."""

    WHOLE = "as it was kept"
    CHANGED = "changed since"
    MISSING = "missing"


LARGEST = 50_000_000
"""Bytes of the largest file that is taken: far more than a photo has."""


def keep(store: Store, place: str) -> KeptFile:
    """Copy a file beside the store. The same content is kept once.

    Raises:
        NotFound: there is no such file.
        OutOfRange: it is larger than any photo.
        Refused: it is no plain file, or cannot be read or copied.
    """
    path = Path(os.path.expanduser(place))
    content = _read(path)
    sha256 = hashlib.sha256(content).hexdigest()
    suffix = path.suffix.lower() if path.suffix[1:].isascii() and path.suffix[1:].isalnum() else ""
    name = f"{sha256}{suffix[:10]}"
    folder = folder_of(store)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{plain(str(folder))} cannot be made: {error.strerror}.") from None
    if not (folder / name).exists():
        write_file(str(folder / name), content)
    return KeptFile(name, plain(path.name)[:LONGEST_NAME], sha256)


def _read(path: Path) -> bytes:
    shown = plain(str(path))
    try:
        if not path.exists():
            raise NotFound(f"There is no file {shown}.")
        if not path.is_file():
            raise Refused(f"{shown} is no plain file.")
        size = path.stat().st_size
        if size > LARGEST:
            raise OutOfRange(f"{shown} has {size:,} bytes; at most {LARGEST:,} are kept.")
        return path.read_bytes()
    except OSError as error:
        raise Refused(f"{shown} cannot be read: {error.strerror}.") from None


def folder_of(store: Store) -> Path:
    """Where the files of a store are kept: a folder of its name beside it; by the user's data for a server."""
    if "://" not in store.place:
        path = Path(store.place)
        return path.with_name(f"{path.stem}-files")
    from platformdirs import user_data_path

    return user_data_path("farmops", appauthor=False) / "files"


def place_of(store: Store, file: str) -> Path:
    """Where a kept file lies."""
    return folder_of(store) / file


def kept_state(store: Store, file: str, sha256: str) -> Kept:
    """Whether a kept file is there and still what it was."""
    path = place_of(store, file)
    if not path.is_file():
        return Kept.MISSING
    return Kept.WHOLE if hashlib.sha256(path.read_bytes()).hexdigest() == sha256 else Kept.CHANGED
