"""Files that leave the farm: whole or not at all, for their owner's eyes, never over another unasked."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from farmops.exchange import files
from farmops.exchange.files import offered_place, write_file
from farmops.model.errors import NotFound, Refused


def test_it_is_written_for_its_owner_alone(tmp_path: Path) -> None:
    written = write_file(str(tmp_path / "round.pdf"), b"once")
    assert written.read_bytes() == b"once"
    assert written.stat().st_mode & 0o777 == 0o600
    assert os.listdir(tmp_path) == ["round.pdf"]


def test_a_file_that_is_there_stays_unless_it_may_be_replaced(tmp_path: Path) -> None:
    place = tmp_path / "round.pdf"
    place.write_bytes(b"mine")
    with pytest.raises(Refused, match="is there already"):
        write_file(str(place), b"new")
    assert place.read_bytes() == b"mine"
    assert write_file(str(place), b"new", replace=True).read_bytes() == b"new"
    assert place.stat().st_mode & 0o777 == 0o600
    assert os.listdir(tmp_path) == ["round.pdf"]


def test_a_link_goes_on_leading_to_the_file(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    link = tmp_path / "chores.ics"
    link.symlink_to(tmp_path / "kept" / "chores.ics")
    write_file(str(link), b"once")
    write_file(str(link), b"twice", replace=True)
    assert link.is_symlink()
    assert (tmp_path / "kept" / "chores.ics").read_bytes() == b"twice"


@pytest.mark.parametrize("replace", [True, False])
def test_a_disk_that_is_full_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, replace: bool
) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    (tmp_path / "there.pdf").write_bytes(b"mine")
    monkeypatch.setattr(files.os, "fsync", full)
    name = "there.pdf" if replace else "new.pdf"
    with pytest.raises(Refused, match="cannot be written: No space left on device"):
        write_file(str(tmp_path / name), b"new", replace=replace)
    assert os.listdir(tmp_path) == ["there.pdf"]
    assert (tmp_path / "there.pdf").read_bytes() == b"mine"


def test_a_folder_that_is_none_is_named(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match=r"There is no folder .*/none"):
        write_file(str(tmp_path / "none" / "round.pdf"), b"")


@pytest.mark.parametrize("place", ["", "/dev/null"])
def test_what_is_no_place_for_a_file_is_refused(place: str) -> None:
    with pytest.raises(Refused, match="is no file"):
        write_file(place, b"", replace=True)


def test_signs_a_terminal_would_obey_are_not_repeated(tmp_path: Path) -> None:
    with pytest.raises(NotFound) as refusal:
        write_file(str(tmp_path / "\x1b[31m" / "round.pdf"), b"")
    assert "\x1b" not in str(refusal.value)


def test_the_place_offered_is_among_the_documents_or_here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path / "none")
    assert offered_place("round.pdf") == str(tmp_path / "round.pdf")
    (tmp_path / "papers").mkdir()
    monkeypatch.setattr("platformdirs.user_documents_path", lambda: tmp_path / "papers")
    assert offered_place("round.pdf") == str(tmp_path / "papers" / "round.pdf")
