"""Where a file lies: told from the system's list of mounts and from marks of programs that sync; and what follows."""

from __future__ import annotations

import sqlite3
from pathlib import Path, PurePosixPath

import pytest

from farmops.farm.farm import add_person, open_farm
from farmops.model.farm import NewFarm, NewPerson
from farmops.records import disks
from farmops.records.disks import Lies, kind_of_mount, lies
from farmops.records.store import Store
from farmops.reports import lists
from tests.farmhand import US

MOUNTS = r"""22 27 0:20 / /proc rw,nosuid shared:5 - proc proc rw
27 1 8:2 / / rw,relatime shared:1 - ext4 /dev/sda2 rw
40 27 0:35 / /mnt/barn rw,relatime shared:9 master:2 - nfs4 server:/barn rw,vers=4.2
41 40 8:3 / /mnt/barn/stick rw shared:10 - vfat /dev/sdb1 rw
42 27 0:36 / /mnt/the\040shed rw shared:11 - cifs //shed/share rw
"""


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/home/a/farm.db", "ext4"),
        ("/mnt/barn/farm.db", "nfs4"),
        ("/mnt/barn/stick/farm.db", "vfat"),
        ("/mnt/barnacle/farm.db", "ext4"),
        ("/mnt/the shed/farm.db", "cifs"),
    ],
)
def test_the_nearest_mount_above_a_file_counts(path: str, kind: str) -> None:
    assert kind_of_mount(PurePosixPath(path), MOUNTS) == kind


def test_nothing_is_said_where_nothing_is_known() -> None:
    assert kind_of_mount(PurePosixPath("/farm.db"), "") == ""
    assert kind_of_mount(PurePosixPath("/farm.db"), "not a mount\n") == ""


@pytest.fixture
def on_network(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A folder that the system says is mounted from elsewhere."""
    folder = (tmp_path / "far").resolve()
    folder.mkdir()
    mounts = tmp_path / "mountinfo"
    mounts.write_text(f"40 27 0:35 / {folder} rw shared:9 - nfs4 server:/barn rw\n", encoding="utf-8")
    monkeypatch.setattr(disks, "MOUNTS", mounts)
    return folder


def test_a_file_not_there_yet_and_a_link_lie_where_they_lead(on_network: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.db"
    link.symlink_to(on_network / "farm.db")
    assert lies(str(on_network / "farm.db")) is Lies.NETWORK
    assert lies(str(link)) is Lies.NETWORK
    assert lies(str(tmp_path / "farm.db")) is Lies.HERE


@pytest.mark.parametrize("folder", ["Dropbox", "OneDrive - Holding", "Google Drive/My Drive", "Nextcloud/farm"])
def test_synced_folders_are_known_by_name(tmp_path: Path, folder: str) -> None:
    assert lies(str(tmp_path / folder / "farm.db")) is Lies.SYNCED


def test_synced_folders_are_known_by_their_marks(tmp_path: Path) -> None:
    (tmp_path / ".stfolder").mkdir()
    assert lies(str(tmp_path / "deep" / "farm.db")) is Lies.SYNCED


def journal_of(place: Path) -> str:
    connection = sqlite3.connect(place)
    try:
        return str(connection.execute("PRAGMA journal_mode").fetchone()[0])
    finally:
        connection.close()


def test_a_network_drive_gets_the_journal_without_shared_memory(on_network: Path, tmp_path: Path) -> None:
    for place, journal, said in (
        (on_network / "farm.db", "delete", "lies on a network drive"),
        (tmp_path / "farm.db", "wal", None),
    ):
        store = Store(str(place))
        open_farm(store, NewFarm("Far Hill", US, "America/New_York"), by="Ada")
        add_person(store, NewPerson("Cy"), by="Ada")
        assert [one.name for one in lists.people(store)] == ["Cy"]
        store.close()
        assert journal_of(place) == journal
        advice = store.advice()
        assert advice is None if said is None else said in (advice or "")


def test_a_farm_that_moves_there_is_written_with_the_safer_journal(on_network: Path, tmp_path: Path) -> None:
    store = Store(str(tmp_path / "farm.db"))
    open_farm(store, NewFarm("Far Hill", US, "America/New_York"), by="Ada")
    store.close()
    moved = (tmp_path / "farm.db").rename(on_network / "farm.db")
    far = Store(str(moved))
    add_person(far, NewPerson("Cy"), by="Ada")
    far.close()
    assert journal_of(moved) == "delete"
    assert [one.name for one in lists.people(far)] == ["Cy"]
