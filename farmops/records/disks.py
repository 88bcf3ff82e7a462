"""What kind of disk a file lies on: this machine's own, one reached through a network, or a folder that is synced.

A write-ahead log needs memory that all its users share, which a network has not ("Write-Ahead Logging", section 1, the
SQLite project); and its files are of one piece, which a program that copies them one by one does not know.
"""

from __future__ import annotations

import os
import re
import sys
from enum import StrEnum
from pathlib import Path, PurePath

MOUNTS = Path("/proc/self/mountinfo")
MOUNT = re.compile(r"^\S+ \S+ \S+ \S+ (?P<place>\S+) .* - (?P<kind>\S+) ")
OCTAL = re.compile(r"\\([0-7]{3})")
REMOTE = frozenset(
    (
        "9p",
        "afs",
        "ceph",
        "cifs",
        "coda",
        "davfs",
        "fuse.davfs",
        "fuse.glusterfs",
        "fuse.rclone",
        "fuse.s3fs",
        "fuse.sshfs",
        "glusterfs",
        "lustre",
        "ncpfs",
        "nfs",
        "nfs4",
        "prl_fs",
        "smb2",
        "smb3",
        "smbfs",
        "vboxsf",
        "vmhgfs",
    )
)
SYNCED = (
    "dropbox",
    "google drive",
    "googledrive",
    "icloud drive",
    "mobile documents",
    "nextcloud",
    "onedrive",
    "owncloud",
)
"""How the folders of programs that sync begin, in small letters."""
MARKS = (".dropbox", ".stfolder", ".sync", ".owncloudsync.log", ".nextcloudsync.log")
"""What such programs leave in the folders they watch."""
DRIVE_REMOTE = 4


class Lies(StrEnum):
    """Where a file lies."""

    HERE = "on this machine"
    NETWORK = "on a network drive"
    SYNCED = "in a folder that is synced"


ADVICE = {
    Lies.NETWORK: (
        "{place} lies on a network drive. It is kept with the safer, slower journal; a lock that the network loses can "
        "still damage it. Better: keep it on this machine, and copy it there with farmops backup --to."
    ),
    Lies.SYNCED: (
        "{place} lies in a folder that is synced. Two machines that write at once would leave two farms. Better: keep "
        "it outside, and put copies there with farmops backup --to."
    ),
}


def lies(place: str) -> Lies:
    """Where a file lies, as far as the system tells; `place` need not exist yet."""
    path = Path(os.path.realpath(place))
    if _remote(path):
        return Lies.NETWORK
    return Lies.SYNCED if _synced(path) else Lies.HERE


def advice(place: str) -> str | None:
    """What to know about the place of a file, or None where nothing is to be feared."""
    found = lies(place)
    return ADVICE[found].format(place=place) if found is not Lies.HERE else None


def kind_of_mount(path: PurePath, mounts: str) -> str:
    """The file system that a path lies on, from the text of Linux's mountinfo; empty where none is named."""
    best, kind = "", ""
    for line in mounts.splitlines():
        match = MOUNT.match(line)
        if match is None:
            continue
        mounted = OCTAL.sub(lambda found: chr(int(found[1], 8)), match["place"])
        if len(mounted) >= len(best) and path.is_relative_to(mounted):
            best, kind = mounted, match["kind"]
    return kind


def _remote(path: Path) -> bool:
    if sys.platform == "win32":
        import ctypes

        return str(path).startswith("\\\\") or ctypes.windll.kernel32.GetDriveTypeW(path.anchor) == DRIVE_REMOTE
    try:
        return kind_of_mount(path, MOUNTS.read_text(encoding="utf-8", errors="replace")) in REMOTE
    except OSError:
        return False


def _synced(path: Path) -> bool:
    named = any(part.casefold().startswith(SYNCED) for part in path.parts[:-1])
    return named or any((folder / mark).exists() for folder in path.parents for mark in MARKS)
