"""Files are copied beside the store under the hash of their content, for their owner alone, once."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from farmops.exchange import kept_files
from farmops.exchange.kept_files import folder_of, keep, place_of
from farmops.model.errors import NotFound, OutOfRange, Refused
from farmops.records.store import Store


@pytest.fixture
def farm(tmp_path: Path) -> Store:
    return Store(str(tmp_path / "farm.db"))


def test_a_copy_lies_beside_the_store_under_its_hash_for_the_owner_alone(farm: Store, tmp_path: Path) -> None:
    photo = tmp_path / "Leaf [1].JPG"
    photo.write_bytes(b"green")
    kept = keep(farm, str(photo))
    photo.unlink()
    assert kept.name == "Leaf [1].JPG"
    assert kept.sha256 == hashlib.sha256(b"green").hexdigest()
    found = place_of(farm, kept.file)
    assert found == tmp_path / "farm-files" / f"{kept.sha256}.jpg"
    assert found.read_bytes() == b"green"
    assert found.stat().st_mode & 0o777 == 0o600
    assert folder_of(farm).stat().st_mode & 0o777 == 0o700


def test_the_same_content_is_kept_once(farm: Store, tmp_path: Path) -> None:
    for name in ("a.png", "b.png"):
        (tmp_path / name).write_bytes(b"same")
        keep(farm, str(tmp_path / name))
    assert len(list(folder_of(farm).iterdir())) == 1


def test_what_is_no_file_is_refused_in_words(farm: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(NotFound, match="no file"):
        keep(farm, str(tmp_path / "gone.jpg"))
    with pytest.raises(Refused, match="no plain file"):
        keep(farm, str(tmp_path))
    with pytest.raises(Refused, match="cannot be read: File name too long"):
        keep(farm, "x" * 4000)
    monkeypatch.setattr(kept_files, "LARGEST", 3)
    (tmp_path / "big").write_bytes(b"1234")
    with pytest.raises(OutOfRange, match="4 bytes"):
        keep(farm, str(tmp_path / "big"))


def test_a_name_with_terminal_signs_is_kept_as_plain_text(farm: Store, tmp_path: Path) -> None:
    photo = tmp_path / "leaf\x1b[31m.p\x07g"
    photo.write_bytes(b"x")
    kept = keep(farm, str(photo))
    assert "\x1b" not in kept.name
    assert kept.file == kept.sha256


def test_files_of_a_server_lie_with_the_users_data() -> None:
    assert folder_of(Store("postgresql://localhost/farm")).name == "files"
