"""The number that moves with every change, for who wants to know no more than that."""

from __future__ import annotations

from farmops.records.reading import Reader


def last_seq(reader: Reader) -> int:
    """The number of the newest entry, 0 for an empty journal: it moves with every change."""
    return int(reader.value("SELECT COALESCE(MAX(seq), 0) FROM journal"))
