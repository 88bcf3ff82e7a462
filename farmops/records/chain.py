"""The hash chain of the journal: how an entry is sealed and how a chain is proved unbroken."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, datetime
from typing import Any

from farmops.records.reading import Reader, instant

FIRST_HASH = "0" * 64
ENTRIES = """
    SELECT seq, operation, at, actor, through, name, undoes, redoes, schema_version, images, result, previous, hash
    FROM journal WHERE seq > :after ORDER BY seq LIMIT 1000
"""


def canonical(value: Any) -> str:
    """JSON with one spelling: sorted keys, no blanks, no escapes beyond the needed ones."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def seal(entry: Mapping[str, Any]) -> str:
    """SHA-256 over the canonical JSON of an entry with its `previous` hash and without its own."""
    sealed = {key: _plain(value) for key, value in entry.items() if key != "hash"}
    return hashlib.sha256(canonical(sealed).encode()).hexdigest()


def _plain(value: Any) -> Any:
    return value.astimezone(UTC).isoformat(timespec="microseconds") if isinstance(value, datetime) else value


def breaks(entries: Iterable[Mapping[str, Any]]) -> list[str]:
    """What is wrong with a chain given in order, in words; empty when it is whole."""
    found = []
    previous, seq = FIRST_HASH, 0
    for entry in entries:
        if entry["seq"] != seq + 1:
            found.append(f"entry {entry['seq']} follows entry {seq}")
        if entry["previous"] != previous:
            found.append(f"entry {entry['seq']} does not continue the entry before it")
        if seal(entry) != entry["hash"]:
            found.append(f"entry {entry['seq']} was altered after it was written")
        previous, seq = entry["hash"], entry["seq"]
    return found


def entries(reader: Reader) -> Iterator[dict[str, Any]]:
    """The entries of the journal in order, a thousand at a time, with all that a hash seals."""
    after = 0
    while found := list(reader.rows(ENTRIES, after=after)):
        for entry in found:
            yield entry | {"at": instant(entry["at"])}
        after = max(entry["seq"] for entry in found)
