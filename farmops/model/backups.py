"""Backups: copies of a store, and what is told when one is made or put back."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from pathlib import Path

from farmops.model.frozen import dataclass
from farmops.model.journal import operations_in_words


class Made(StrEnum):
    """When a backup was made; the word stands in the name of its file."""

    ASKED = "asked"
    DAILY = "daily"
    UPGRADE = "upgrade"
    REPLACED = "replaced"


MADE_IN_WORDS = {
    Made.ASKED: "when asked",
    Made.DAILY: "with the first booking of a day",
    Made.UPGRADE: "before an upgrade",
    Made.REPLACED: "of what was replaced",
}


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy of a store: where it lies, from which instant, why it was made, its size in bytes."""

    file: Path
    at: datetime
    made: Made
    size: int


@dataclass(frozen=True, slots=True)
class Kept:
    """A backup that was made and looked through: operations in it, photos and receipts that went along or stayed.

    `lacking` are photos and receipts that the farm names and that could not be copied; `folder` is where they lie.
    """

    backup: Backup
    operations: int
    rows: int
    copied: int
    folder: Path | None
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lost:
    """An operation that was booked after a backup, and would be or was lost by putting it back."""

    at: datetime
    by: str
    name: str
    operation: str


@dataclass(frozen=True, slots=True)
class Restored:
    """A backup put back, or tried: the farm in it, its last booking, what is lost, and where that is kept.

    `schema` is the version it was written under; it was upgraded when that is not the present one. `readable` says
    whether what was there could be read, so that `lost` tells all. `lacking` are photos and receipts that are nowhere.
    """

    farm: str
    operations: int
    last_at: datetime | None
    schema: str
    upgraded: bool
    lost: tuple[Lost, ...]
    kept: Path | None
    lacking: tuple[str, ...]
    readable: bool


MEGABYTE = 1_000_000


def size_of(one: Backup) -> str:
    """The size of a backup."""
    return f"{one.size / MEGABYTE:.1f} MB"


def made_in_words(made: Kept) -> str:
    """What was backed up, to where, and what of the photos and receipts."""
    held = f"{operations_in_words(made.operations)}, {size_of(made.backup)}"
    words = f"Backed up and looked through: {held}, {made.backup.file}."
    if made.folder is not None:
        how = f"{made.copied} copied to" if made.copied else "they lie in"
        words += f" Photos and receipts: {how} {made.folder}."
    return words + _lacking(made.lacking)


def put_back_in_words(found: Restored, *, rehearsed: bool) -> str:
    """What was or would be put back, where the rest is kept, and at what price."""
    last = f", the last of {found.last_at:%Y-%m-%d %H:%M}Z" if found.last_at else ""
    older = f" It was upgraded from schema {found.schema}." if found.upgraded else ""
    done = "It is whole and can be put back" if rehearsed else "Put back"
    kept = f" What was there is kept: {found.kept}." if found.kept else ""
    words = (
        f"{done}: {found.farm}, {operations_in_words(found.operations)}{last}.{older}{kept}{_lacking(found.lacking)}"
    )
    return f"{words} {_price(found, 'would be lost' if rehearsed else 'are not in it')}"


def _price(found: Restored, verb: str) -> str:
    if not found.readable:
        return "What was booked since cannot be told: the store could not be read."
    return (
        f"Booked since, and {verb}: {operations_in_words(len(found.lost))}."
        if found.lost
        else "Nothing was booked since."
    )


def _lacking(files: tuple[str, ...]) -> str:
    return f" Missing: {len(files)} photos or receipts that the farm names." if files else ""
