"""What the tables say of their own soundness, and of the files that records name."""

from __future__ import annotations

from collections.abc import Iterator

from farmops.facts import kept_files, soundness
from farmops.model.notes import KeptFile
from farmops.records.costs import CostRow
from farmops.records.notes import NoteRow
from farmops.records.supplies import PaperRow
from tests.facts.tables import Answer, Tables, says


@says(soundness.damage)
def a_farm_written_by_operations_is_whole(rows: Tables) -> Iterator[Answer]:
    yield (), []


@says(kept_files.kept_files)
def each_file_once(rows: Tables) -> Iterator[Answer]:
    named = [(row.file, row.file_name, row.file_sha256) for kind in (NoteRow, PaperRow) for row in rows[kind]]
    named += [(row.receipt, row.receipt_name, row.receipt_sha256) for row in rows[CostRow]]
    found: dict[tuple[str, str], str] = {}
    for file, name, sha256 in named:
        if file is not None:
            found[file, sha256] = min(name, found.get((file, sha256), name))
    yield (), [KeptFile(file, found[file, sha256], sha256) for file, sha256 in sorted(found)]
