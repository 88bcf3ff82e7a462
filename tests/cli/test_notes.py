"""`farmops notes`: written with a photo, listed, corrected, removed, brought back."""

from __future__ import annotations

from pathlib import Path

from tests.cli.hand import Hand


def test_a_note_with_a_photo_and_a_change_of_hardware(bare: Hand, tmp_path: Path) -> None:
    bare("units", "add", "WREN", "--state", "running", "--on", "2026-09-01")
    (tmp_path / "leaf.jpg").write_bytes(b"green")
    said = bare("notes", "add", "pale leaves", "--at", "WREN", "--file", str(tmp_path / "leaf.jpg"), "--json").data
    assert (said["where"], said["text"], said["file_name"]) == ("WREN", "pale leaves", "leaf.jpg")
    assert Path(said["file"]).read_bytes() == b"green"
    bare("notes", "add", "the smaller one", "--at", "WREN", "--changed", "pump")
    assert [one["changed"] for one in bare("notes", "list", "--changed", "--json").data["notes"]] == ["pump"]
    bare("notes", "edit", "1", "--text", "paler")
    bare("notes", "remove", "2")
    assert [one["text"] for one in bare("notes", "list", "--json").data["notes"]] == ["paler"]
    bare("undo")
    assert len(bare("notes", "list", "--json").data["notes"]) == 2


def test_a_change_needs_a_unit_and_a_note_needs_words(bare: Hand) -> None:
    assert "on which unit" in bare.types("notes", "add", "x", "--changed", "pump").err
    assert "says something" in bare.types("notes", "add").err
