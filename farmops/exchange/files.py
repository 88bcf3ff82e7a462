"""Files that leave the farm: whole or not at all, readable by their owner alone, never over another unasked."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from farmops.model.errors import NotFound, NotUnderstood, Refused
from farmops.model.text import plain

OWNER_ALONE = 0o600
LONGEST_SHOWN = 60


def write_file(place: str, content: bytes, *, replace: bool = False) -> Path:
    """Write a file with mode 0600, over one that is there only with `replace`; a reader never sees half of it.

    Returns:
        Where it is, as it was named.

    Raises:
        NotFound: there is no such folder.
        Refused: a file is there already, the place is none for a file, or the disk does not take it.
    """
    path = _place(place)
    try:
        part = _written_beside(path, content)
        try:
            if not replace:
                os.close(os.open(path, os.O_CREAT | os.O_EXCL, OWNER_ALONE))
            part.replace(path)
        except BaseException:
            part.unlink()
            raise
    except FileExistsError:
        raise _taken(path) from None
    except OSError as error:
        raise Refused(f"{plain(str(path))} cannot be written: {error.strerror or error}.") from None
    return Path(os.path.expanduser(place))


def check_place(place: str, *, replace: bool = False) -> None:
    """Raises what `write_file` would before it writes: NotFound, or Refused where something is there already."""
    path = _place(place)
    if path.exists() and not replace:
        raise _taken(path)


def _taken(path: Path) -> Refused:
    return Refused(f"{plain(str(path))} is there already. Name another file, or say that it may be written over.")


def _place(place: str) -> Path:
    """Where a link leads, so that the link stays. Raises NotFound and Refused."""
    path = Path(os.path.realpath(os.path.expanduser(place)))
    if path.exists() and not path.is_file():
        raise Refused(f"{plain(str(path))} is no file. Name one, such as round.pdf.")
    if not path.parent.is_dir():
        raise NotFound(f"There is no folder {plain(str(path.parent))}. Make it first, or name another.")
    return path


def _written_beside(path: Path, content: bytes) -> Path:
    """The content on disk, in the same folder under a name of its own."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".farmops-", suffix=".part")
    with os.fdopen(handle, "wb") as file:
        try:
            file.write(content)
            file.flush()
            os.fsync(handle)
        except BaseException:
            Path(name).unlink()
            raise
    return Path(name)


def place_named(text: str) -> Path:
    """The place on the disk that was named, be something there or not. Raises NotUnderstood where nothing can be."""
    try:
        path = Path(os.path.expanduser(text))
        path.exists()
    except (OSError, ValueError):
        raise NotUnderstood(f"{plain(text[:LONGEST_SHOWN])} is no name that a file can have. Name another.") from None
    return path


def offered_place(name: str) -> str:
    """Where a file is put unless told otherwise: among a person's documents, else in the current folder."""
    from platformdirs import user_documents_path

    documents = user_documents_path()
    return str((documents if documents.is_dir() else Path.cwd()) / name)
